//! The verdict of each proof in one line.
//!
//! Given a tray that passed them all, what holds its walls and its clearances; gives the proofs in the order in which
//! they were made. Judges nothing.

use super::tolerance::{Clearance, detail, sentence};
use crate::finding::{Check, CheckResult};
use crate::folded::Folded;
use crate::job::Unit;
use crate::order::{ActionKind, FoldOrder, Ordered, WallSupport};
use crate::tray::{Drawn, Tray, engaged};
use crate::wording::{length, size};

/// All proofs of a tray.
pub(super) fn of(ordered: &Ordered, clearances: &[Clearance]) -> Vec<CheckResult> {
    let Drawn { job, tray, .. } = &ordered.folded.laid.drawn;
    let passed = |check, says| CheckResult { check, says };
    let mut results = vec![
        passed(Check::Flat, flat(tray)),
        passed(Check::Folded, folded(&ordered.folded, job.unit)),
        passed(Check::Folding, folding(&ordered.order)),
        passed(Check::Walls, walls(&ordered.support)),
    ];
    let locks = engaged(tray);
    results.extend((!locks.is_empty()).then(|| passed(Check::Tongues, locking(&locks, job.unit))));
    let sentences = clearances.iter().map(|clearance| sentence(job, clearance));
    results.extend(sentences.map(|says| passed(Check::Tolerance, says)));
    results.push(passed(Check::Tolerance, detail(job, clearances)));
    results
}

fn flat(tray: &Tray) -> String {
    let panels = tray.panels.len();
    format!(
        "one piece with one edge; {panels} panels, no two from the same card, card on both sides of each crease"
    )
}

fn folded(folded: &Folded, unit: Unit) -> String {
    let outside = size(&folded.folded.outside(), unit);
    format!(
        "{outside} outside, no two of {} slabs inside each other",
        folded.tray().panels.len()
    )
}

fn folding(order: &FoldOrder) -> String {
    let actions = &order.actions;
    let folds = actions.iter().map(|action| match &action.kind {
        ActionKind::Fold(panels) => panels.len(),
        _ => 0,
    });
    let folds: usize = folds.sum();
    format!(
        "{folds} folds in {} actions, each turned through its angle and met by no panel",
        actions.len()
    )
}

fn locking(locks: &[(&str, &str, f64, usize)], unit: Unit) -> String {
    let words = locks.iter().map(|(name, into, deep, count)| {
        let times = if *count > 1 {
            format!("{count} × ")
        } else {
            String::new()
        };
        format!("{times}{name}, {} deep in {into}", length(*deep, unit))
    });
    words.collect::<Vec<_>>().join("; ")
}

fn walls(support: &[WallSupport]) -> String {
    let stops = support.iter().map(|hold| match &hold.stop {
        Some((angle, other)) => {
            format!("{} turns out {angle:.1}° until {other} stops it", hold.key)
        }
        None => format!("{} is held by the box alone", hold.key),
    });
    stops.collect::<Vec<_>>().join("; ")
}
