//! The verdict of each proof in one line.
//!
//! Given a tray that passed them all, what holds its walls and its clearances; gives the proofs in the order in which
//! they were made. Judges nothing.

use super::CheckedTray;
use super::interlocks::engaged;
use super::tolerance::{Clearance, detail, sentence};
use super::wall_support::WallSupport;
use crate::finding::{Check, CheckResult};
use crate::job::Unit;
use crate::steps::ActionKind;
use crate::wording::{length, size};

/// All proofs of a tray.
pub(super) fn of(
    checked: &CheckedTray,
    wall_support: &[WallSupport],
    clearances: &[Clearance],
) -> Vec<CheckResult> {
    let passed = |check, says| CheckResult { check, says };
    let mut results = vec![
        passed(Check::Flat, flat(checked)),
        passed(Check::Folded, folded(checked)),
        passed(Check::Folding, motion(checked)),
        passed(Check::Walls, holding(wall_support)),
    ];
    let locks = engaged(&checked.tray);
    results.extend(
        (!locks.is_empty()).then(|| passed(Check::Tongues, locking(&locks, checked.job.unit))),
    );
    let sentences = clearances
        .iter()
        .map(|clearance| sentence(&checked.job, clearance));
    results.extend(sentences.map(|says| passed(Check::Tolerance, says)));
    results.push(passed(Check::Tolerance, detail(&checked.job, clearances)));
    results
}

fn flat(checked: &CheckedTray) -> String {
    let panels = checked.tray.panels.len();
    format!(
        "one piece with one edge; {panels} panels, no two from the same card, card on both sides of each crease"
    )
}

fn folded(checked: &CheckedTray) -> String {
    let outside = size(&checked.folded.outside(), checked.job.unit);
    format!(
        "{outside} outside, no two of {} slabs inside each other",
        checked.tray.panels.len()
    )
}

fn motion(checked: &CheckedTray) -> String {
    let actions = &checked.order.actions;
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

fn holding(wall_support: &[WallSupport]) -> String {
    let stops = wall_support.iter().map(|hold| match &hold.stop {
        Some((angle, other)) => {
            format!("{} turns out {angle:.1}° until {other} stops it", hold.key)
        }
        None => format!("{} is held by the box alone", hold.key),
    });
    stops.collect::<Vec<_>>().join("; ")
}
