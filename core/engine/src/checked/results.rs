//! The verdict of each proof in one line.
//!
//! Given a tray that passed them all, what holds its walls and its clearances; gives the proofs in the order in which
//! they were made. Judges nothing.

use super::tolerance::{Clearance, detail, sentence};
use crate::finding::{Check, CheckResult};
use crate::folded::Folded;
use crate::holding::{Held, HeldItem, Holder};
use crate::job::Unit;
use crate::order::{ActionKind, FoldOrder, WallSupport};
use crate::tray::{Drawn, Tray, engaged};
use crate::wording::{length, size};

/// All proofs of a tray.
pub(super) fn of(held: &Held, clearances: &[Clearance]) -> Vec<CheckResult> {
    let ordered = &held.ordered;
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
    results.push(passed(Check::Items, items(held, job.unit)));
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

/// How each item is held, repeats that are held alike told once.
fn items(held: &Held, unit: Unit) -> String {
    let job = &held.folded().laid.drawn.job;
    let mut told: Vec<(&HeldItem, usize, String)> = Vec::new();
    for item in &held.items {
        let says = holds(item, unit);
        let kind = job.kind_of(item.id);
        let same = |told: &&mut (&HeldItem, usize, String)| {
            job.kind_of(told.0.id) == kind && told.2 == says
        };
        match told.iter_mut().find(same) {
            Some((_, count, _)) => *count += 1,
            None => told.push((item, 1, says)),
        }
    }
    let sentence = |(item, count, says): (&HeldItem, usize, String)| match count {
        1 => format!("{}: {says}", item.item.name),
        _ => format!("{count} × {}: {says}", item.item.name),
    };
    told.into_iter()
        .map(sentence)
        .collect::<Vec<_>>()
        .join("; ")
}

fn holds(item: &HeldItem, unit: Unit) -> String {
    let [along, across] = item.holds.each_ref().map(|hold| {
        let by = match &hold.by {
            _ if !hold.is_within_play() => return "by nothing".to_owned(),
            Holder::Edge => "the deck's edge".to_owned(),
            Holder::Flaps => "flaps".to_owned(),
            Holder::Fences => "fences".to_owned(),
            Holder::Panel(name) => name.clone(),
            Holder::Box => "the box".to_owned(),
        };
        let gives = if hold.firm { "" } else { ", springy" };
        format!("by {by} ({} of it{gives})", length(hold.bears, unit))
    });
    let rise = length(item.rise, unit);
    if along == across {
        return format!("held along and across {along}; can rise {rise}");
    }
    format!("held along {along}, across {across}; can rise {rise}")
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
