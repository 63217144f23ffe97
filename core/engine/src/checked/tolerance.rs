//! How sure a clearance is: what measuring, creasing and the card's own spread leave of it.
//!
//! Each clearance is a sum of lengths that hands made, so its errors add up in three ways: as if all were at their worst
//! at once, by root-sum-square, and as an expanded uncertainty (k = 2, about 95 %) of limits with nothing else known.

use crate::finding::{BuiltIn, Change, Finding, Mm, PassedCheck, Percent, Place};
use crate::folded::{Folded, clearances};
use crate::job::{Job, Length};
use crate::tray::{Drawn, clear, place_of_opening};

/// How well a box or an item is measured with a ruler, and how well a crease or a cut lies, either way.
// Source: common practice, none published.
const BY_HAND_MM: f64 = 0.5;

/// What is taken for the spread of a caliper that nobody states, as a part of it.
// Source: common practice, none published.
const UNSTATED: f64 = 0.05;

/// How far a print may be off and its bars still pass, as a part of a length.
// Source: common practice, none published: a 100 mm bar is accepted from 99.5 to 100.5.
const PRINT: f64 = 0.005;

/// What the lengths that make up a clearance leave unsure.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Uncertainty {
    /// All limits added.
    pub(crate) worst: f64,
    /// Root of the sum of their squares.
    pub(crate) root_sum_square: f64,
    /// Expanded uncertainty, k = 2.
    pub(crate) expanded: f64,
}

impl Uncertainty {
    /// Of independent lengths, each within plus or minus its limit.
    // Source: NIST/SEMATECH e-Handbook 2.5.7: limits ±a with nothing else known have the standard uncertainty a/√3.
    pub(crate) fn of(limits: &[f64]) -> Uncertainty {
        let squares: f64 = limits.iter().map(|limit| limit * limit).sum();
        Uncertainty {
            worst: limits.iter().sum(),
            root_sum_square: squares.sqrt(),
            expanded: 2.0 * (squares / 3.0).sqrt(),
        }
    }
}

/// The spread of a clearance between something measured and two creases, or a crease and a cut, of the card.
pub(crate) fn spread(job: &Job) -> Uncertainty {
    let board = &job.board;
    let unstated = UNSTATED * board.caliper.mm();
    let caliper = board.tolerance.map_or(unstated, Length::mm);
    Uncertainty::of(&[BY_HAND_MM, BY_HAND_MM, BY_HAND_MM, caliper])
}

/// A clearance with what it is called.
pub(crate) struct Clearance {
    /// What it is the clearance of.
    pub(crate) place: Place,
    /// The setting of `fit` that widens it.
    pub(crate) fit: &'static str,
    pub(crate) asked: f64,
    pub(crate) value: f64,
    /// The length on the card that it is the rest of: what a print out of scale stretches.
    pub(crate) along: f64,
    /// The opening that it is of, as findings call it.
    pub(crate) opening: Option<Place>,
}

impl Clearance {
    /// The clearances that hands must hit: the tray's in its box, and each item's in its opening.
    pub(crate) fn all(folded: &Folded) -> Vec<Clearance> {
        let Drawn { job, tray, .. } = &folded.laid.drawn;

        let [length, width, depth] = clearances(job, &folded.folded);
        let around = |place, value, along| Clearance {
            place,
            fit: "box",
            asked: job.fit.around_tray.mm(),
            value,
            along,
            opening: None,
        };
        let mut all = vec![
            around(
                Place::TrayInBox,
                length.min(width),
                job.box_size.length.mm(),
            ),
            around(Place::TrayUnderLid, depth, job.box_size.depth.mm()),
        ];
        for (id, opening) in tray.openings.enumerated() {
            let Some(item) = opening.item_as_it_lies(job) else {
                continue;
            };
            all.push(Clearance {
                place: Place::ItemInOpening(item.name.clone()),
                fit: "item",
                asked: job.fit.around_item.mm(),
                value: clear(tray, id).play(&item),
                along: item.length.mm().max(item.width.mm()),
                opening: Some(place_of_opening(opening, &item)),
            });
        }
        all
    }
}

/// Clearances that may turn out to be none.
pub(super) fn judge(job: &Job, clearances: &[&Clearance]) -> Vec<Finding> {
    let uncertainty = spread(job).expanded;
    let unit = job.unit;
    let narrow = clearances
        .iter()
        .filter(|clearance| clearance.value < uncertainty);
    // Clearances of one setting are cured together: the narrowest is told.
    let mut told: Vec<&Clearance> = Vec::new();
    for &clearance in narrow {
        match told.iter_mut().find(|other| other.fit == clearance.fit) {
            Some(other) if other.value <= clearance.value => {}
            Some(other) => *other = clearance,
            None => told.push(clearance),
        }
    }
    told.into_iter()
        .map(|clearance| {
            let asked = clearance.asked + uncertainty - clearance.value;
            let looser = Change::at_least("fit", clearance.fit, asked, unit);
            Finding::new(BuiltIn::FitUncertain, clearance.place.clone())
                .measured(clearance.value, uncertainty)
                .with_fix(looser)
        })
        .collect()
}

/// A clearance with its uncertainty.
pub(super) fn passed(job: &Job, clearance: &Clearance) -> PassedCheck {
    let uncertainty = spread(job).expanded;
    PassedCheck::Clearance {
        of: clearance.place.clone(),
        value: Mm(clearance.value),
        least: Mm(clearance.value - uncertainty),
        most: Mm(clearance.value + uncertainty),
        by_hand: Mm(BY_HAND_MM),
    }
}

/// The same errors added up in the other two ways, and what a print out of scale does to the longest of the clearances.
///
/// The print's scale has one cause for all lengths, so it is added to the rest and not taken into the root of squares.
// Source: common practice, none published: what shares a cause adds up.
pub(super) fn uncertainty(job: &Job, clearances: &[Clearance]) -> PassedCheck {
    let spread = spread(job);
    let longest = clearances
        .iter()
        .map(|clearance| clearance.along)
        .fold(0.0, f64::max);
    PassedCheck::Tolerance {
        root_sum_square: Mm(spread.root_sum_square),
        worst: Mm(spread.worst),
        print: Percent(PRINT * 100.0),
        more: Mm(PRINT * longest),
        along: Mm(longest),
    }
}

#[cfg(test)]
mod tests {
    use super::Uncertainty;

    #[test]
    fn limits_add_up_as_in_the_worked_examples() {
        // Derived: 0.10 + 0.05 + 0.03 + 0.05 = 0.23, and √(0.0100 + 0.0025 + 0.0009 + 0.0025) = 0.1261.
        let stack = Uncertainty::of(&[0.10, 0.05, 0.03, 0.05]);
        assert!((stack.worst - 0.23).abs() < 1e-4 && (stack.root_sum_square - 0.1261).abs() < 1e-4);
        // Source: NIST/SEMATECH e-Handbook 2.5.7 for a/√3 and k = 2. Derived: √(0.75 + 0.000625) = 0.8664, times 2/√3 is 1.0004.
        let tray = Uncertainty::of(&[0.5, 0.5, 0.5, 0.025]);
        assert!((tray.worst - 1.525).abs() < 1e-4 && (tray.root_sum_square - 0.8664).abs() < 1e-4);
        assert!((tray.expanded - 1.0004).abs() < 1e-4);
    }
}
