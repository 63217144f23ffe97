//! Findings and results about clearances and locks: which may turn out below zero, and how certain each is.
//!
//! **Input:** clearances and locks with the error limits of their chains. **Output:** findings and results. Knows no
//! geometry.

use super::clearances::Clearance;
use super::locks::{Lock, Part};
use crate::finding::{
    Advice, BuiltIn, Chance, Change, Clause, Finding, Fix, Mm, PassedCheck, Percent, Place, Side,
    Spread,
};
use crate::holding::Held;
use crate::job::Job;
use crate::tolerance::{Limits, Sum};
use crate::wording::exact_setting;

/// The largest scale error of a print whose check bars still pass, as a part of a length.
// Source: common practice, none published: a 100 mm bar is accepted from 99.5 to 100.5.
const PRINT: f64 = 0.005;

/// Accepted probability that a pocket is too tight, because card yields and a crease can be pressed once more.
// Source: a choice of this project: the usual play of 0.5 between two creases made by hand is too little in 1 of 8, and makers
// live with that.
const TIGHT_POCKETS: f64 = 0.2;

/// Step of the search for a sufficient clearance, in mm.
// Source: a choice of this project.
const PLAY_STEP_MM: f64 = 0.1;

/// Clearances of `fit` that may turn out below zero.
pub(super) fn judge(job: &Job, clearances: &[&Clearance]) -> Vec<Finding> {
    let unit = job.unit;
    let narrow = clearances
        .iter()
        .filter(|clearance| clearance.value < clearance.expanded());
    let short = |clearance: &Clearance| clearance.expanded() - clearance.value;
    // Clearances of one setting have one fix; only the one that is farthest short is reported.
    let mut told: Vec<&Clearance> = Vec::new();
    for &clearance in narrow {
        match told.iter_mut().find(|other| other.fit == clearance.fit) {
            Some(other) if short(other) >= short(clearance) => {}
            Some(other) => *other = clearance,
            None => told.push(clearance),
        }
    }
    told.into_iter()
        .map(|clearance| {
            let found = uncertain(clearance);
            match clearance.fit {
                Some(fit) => {
                    let asked = clearance.asked + short(clearance);
                    found.with_fix(Change::at_least("fit", fit, asked, unit))
                }
                None => found,
            }
        })
        .collect()
}

fn uncertain(clearance: &Clearance) -> Finding {
    Finding::new(BuiltIn::FitUncertain, clearance.place.clone())
        .measured(clearance.value, clearance.expanded())
}

/// Items that the lid may touch: of each kind the one with the least clearance.
pub(super) fn judge_lid(held: &Held, clearances: &[Clearance]) -> Vec<Finding> {
    let job = &held.folded().laid.drawn.job;
    let mut kinds = Vec::new();
    let mut found = Vec::new();
    let mut items: Vec<_> = held.items.iter().zip(clearances).collect();
    items.sort_by(|one, other| one.1.value.total_cmp(&other.1.value));
    for (item, clearance) in items {
        let kind = job.kind_of(item.id);
        let short = clearance.expanded() - clearance.value;
        if short <= 0.0 || kinds.contains(&kind) {
            continue;
        }
        kinds.push(kind);
        let pad = item.item.pad.mm();
        let thinner = item.pads.and_then(|pads| pads.named);
        let thinner = thinner.filter(|&named| named <= pad - short);
        let change = |named: f64| Change {
            item: job.line_of(item.id).map(str::to_owned),
            ..Change::to("item", "pad", exact_setting(named, job.unit))
        };
        let more = Mm(short);
        found.push(uncertain(clearance).with_fix(match thinner {
            Some(named) => Advice::ThinnerPadOrDeeperBox { more }.by(change(named)),
            None => Fix::from(Advice::DeeperBox { more }),
        }));
    }
    found
}

/// Pockets that are too tight with more than the accepted probability.
pub(super) fn judge_pockets(job: &Job, pockets: &[Clearance]) -> Vec<Finding> {
    let found = |pocket: &Clearance| {
        let chance = pocket.chance();
        if chance <= TIGHT_POCKETS {
            return None;
        }
        let mut more = PLAY_STEP_MM;
        while pocket.sum.chance_below_nothing(pocket.value + more) > TIGHT_POCKETS {
            more += PLAY_STEP_MM;
        }
        let chance = Chance(chance);
        let found = Finding::new(BuiltIn::PocketTight { chance }, pocket.place.clone());
        let wider = Change::at_least("fit", "play", pocket.asked + more, job.unit);
        Some(
            found
                .measured(pocket.value, pocket.expanded())
                .with_fix(wider),
        )
    };
    pockets.iter().filter_map(found).collect()
}

/// Damp air that may use up all the clearance of the tray.
pub(super) fn judge_damp(job: &Job, clearances: &[Clearance]) -> Option<Finding> {
    let damp = clearances.iter().find(|clearance| clearance.damp > 0.0)?;
    let side = if damp.along == job.box_size.length.mm() {
        Side::Length
    } else {
        Side::Width
    };
    let found = Finding::new(BuiltIn::Humidity { side }, Place::Tray);
    let found = found.measured(damp.damp, job.fit.around_tray.mm());
    Some(found.with_fix(Advice::DryRoom))
}

/// A clearance with its uncertainty.
pub(super) fn passed(clearance: &Clearance) -> PassedCheck {
    PassedCheck::Clearance {
        of: clearance.place.clone(),
        value: Mm(clearance.value),
        spread: spread(&clearance.sum),
        damp: (clearance.damp > 0.0).then_some(Clause::DampTakes {
            more: Mm(clearance.damp),
        }),
        chance: Chance(clearance.chance()),
    }
}

fn spread(sum: &Sum) -> Spread {
    Spread([sum.expanded(), sum.root_sum_square(), sum.worst()])
}

/// A lock with its uncertainty.
pub(super) fn passed_lock(lock: &Lock) -> PassedCheck {
    let spread = spread(&lock.sum);
    let other = lock.other.clone();
    match &lock.part {
        Part::Tongue(tongue) => PassedCheck::Tongue {
            tongue: tongue.clone(),
            into: other,
            reach: Mm(lock.reach),
            spread,
            chance: Chance(lock.sum.chance_below_nothing(lock.reach)),
        },
        Part::Edge(edge) => PassedCheck::Jam {
            edge: edge.clone(),
            against: other,
            spread,
        },
    }
}

/// The error limits used, and the effect of a print with a wrong scale on the longest of the clearances.
///
/// The scale has one cause for all lengths, so its effect is added and not put under the root of squares.
// Source: common practice, none published: what shares a cause adds up.
pub(super) fn limits(job: &Job, clearances: &[Clearance]) -> PassedCheck {
    let limits = Limits::of(job);
    let longest = clearances
        .iter()
        .map(|clearance| clearance.along)
        .fold(0.0, f64::max);
    PassedCheck::Tolerance {
        measured: Mm(limits.measured),
        line: Mm(limits.line),
        hinge: Mm(limits.hinge),
        caliper: Mm(limits.caliper),
        print: Percent(PRINT * 100.0),
        more: Mm(PRINT * longest),
        along: Mm(longest),
    }
}
