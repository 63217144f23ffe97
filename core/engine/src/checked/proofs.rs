//! The verdict of each proof in one line.

use super::holds::Hold;
use super::tolerance::{Clearance, sentence};
use crate::finding::Proof;
use crate::folded::FoldedTray;
use crate::job::Job;
use crate::steps::{ActionKind, FoldOrder};
use crate::tray::Tray;
use crate::wording::size;

/// All proofs of a tray that passed them, in the order in which they were made.
pub(super) fn of(
    job: &Job,
    tray: &Tray,
    folded: &FoldedTray,
    order: &FoldOrder,
    holds: &[Hold],
    clearances: &[Clearance],
) -> Vec<Proof> {
    let proof = |name: &str, says: String| Proof {
        name: name.to_owned(),
        says,
    };
    let panels = tray.panels.len();
    let flat = format!(
        "one piece with one edge; {panels} panels, no two from the same card, card on both sides of each crease"
    );
    let stands = format!(
        "{} outside, no two of {panels} slabs inside each other",
        size(&folded.outside(), job.unit)
    );
    let folds = order
        .actions
        .iter()
        .filter_map(|action| match &action.kind {
            ActionKind::Fold(panels) => Some(panels.len()),
            _ => None,
        });
    let folds: usize = folds.sum();
    let motion = format!(
        "{folds} folds in {} actions, each turned through its angle and met by no panel",
        order.actions.len()
    );
    let mut proofs = vec![
        proof("flat", flat),
        proof("folded", stands),
        proof("motion", motion),
    ];
    let stops = holds.iter().map(|hold| match &hold.stop {
        Some((angle, other)) => {
            format!("{} turns out {angle:.1}° until {other} stops it", hold.key)
        }
        None => format!("{} is held by the box alone", hold.key),
    });
    proofs.push(proof("holding", stops.collect::<Vec<_>>().join("; ")));
    proofs.extend(
        clearances
            .iter()
            .map(|clearance| proof("tolerance", sentence(job, clearance))),
    );
    proofs
}
