//! Openings for items: whether the item fits, and how deep the flaps hang.
//!
//! **Input:** the values and the tray. **Output:** findings per opening. `webs` checks the card left around openings.

use super::{forms, webs};
use crate::finding::{Advice, BuiltIn, Change, Clause, Finding, Fix, Mm, Place, Size};
use crate::geometry::TOUCH_MM;
use crate::job::{Item, Job};
use crate::style::names::Scope;
use crate::style::text::SlotEntry;
use crate::tray::cuts::{CutPlan, CutVariant};
use crate::tray::{Opening, OpeningCut, OpeningId, Tray};
use crate::values::{EvalError, Values};

/// Clearance below which an item may jam.
// Source: common practice, none published.
const SNUG_MM: f64 = 0.5;

/// The loss of clear size to flaps or fences inside the opening's creases, along its length and its width.
pub(crate) struct Clear {
    pub(crate) length: f64,
    pub(crate) width: f64,
    /// The loss if the hinge lies on the inner face of the card.
    worst: [f64; 2],
}

impl Clear {
    /// An item's clearance in the tighter direction.
    pub(crate) fn play(&self, item: &Item) -> f64 {
        (self.length - item.length.mm()).min(self.width - item.width.mm())
    }
}

/// Checks every opening that holds an item.
pub(super) fn judge(values: &Values, tray: &Tray) -> Result<Vec<Finding>, EvalError> {
    let mut findings = Vec::new();
    for (id, opening) in tray.openings.enumerated() {
        let (Some(slot), Some(item)) = (
            values.slot_entry(opening.member),
            opening.item_as_it_lies(values.job),
        ) else {
            continue;
        };
        let item = &item;
        findings.extend(judge_height(values, opening, slot, item)?);
        if let OpeningCut::Flaps(plan) = &opening.cut {
            findings.extend(judge_flaps(plan, &place(opening, item)));
        }
        let place = place(opening, item);
        let fails = |found: &Finding| found.is_error() && found.place == place;
        let shallow = findings.iter().any(fails);
        if !shallow {
            findings.extend(judge_clear(values, tray, id, item));
        }
        // Openings that do not fit together reach over the edges because of that, so the webs are not reported.
        let arrangement = values.arrangement(opening.member)?;
        if !arrangement.is_some_and(|arrangement| arrangement.fails()) {
            findings.extend(webs::judge(values, tray, opening, slot, item)?);
        }
        findings.extend(forms::judge(values, opening, slot, item));
    }
    Ok(findings)
}

/// The opening with its item, as a finding names it.
pub(crate) fn place(opening: &Opening, item: &Item) -> Place {
    Place::Opening {
        opening: opening.name.clone(),
        item: Some(item.name.clone()),
    }
}

/// The clear size of an opening.
pub(crate) fn clear(tray: &Tray, id: OpeningId) -> Clear {
    let opening = &tray.openings[id];
    let half = tray.caliper / 2.0;
    // The show face of a flap in the hole is outside the mid-plane; the inner face of a panel around it is inside.
    let (loss, worst) = match opening.cut {
        OpeningCut::Uncut => (half - tray.hinge, half),
        _ => (half + tray.hinge, tray.caliper),
    };
    let hung = |side: usize| {
        tray.hung_on_opening(id, &opening.edges[side])
            .next()
            .is_some()
    };
    let count = |one: usize, other: usize| f64::from(u8::from(hung(one)) + u8::from(hung(other)));
    let (ends, sides) = (count(1, 3), count(0, 2));
    Clear {
        length: opening.rect.length - ends * loss,
        width: opening.rect.width - sides * loss,
        worst: [ends * worst, sides * worst],
    }
}

/// The item on its pad, against the depth available.
fn judge_height<'a>(
    values: &Values<'a>,
    opening: &Opening,
    slot: &'a SlotEntry,
    item: &Item,
) -> Result<Option<Finding>, EvalError> {
    let room = match &slot.max_item_depth {
        Some(room) => values.amount(room, Scope::Opening(opening.member))?,
        None => values.job.box_size.depth.mm(),
    };
    let depth = item.pad.mm() + item.depth.mm();
    let deep = depth > room + TOUCH_MM;
    let line = opening.item.and_then(|item| values.job.line_of(item));
    Ok(deep.then(|| too_deep(values.job, line, item, room)))
}

fn about(item: &Item, found: BuiltIn) -> Finding {
    Finding::new(found, Place::Item(item.name.clone()))
}

/// An item that is too deep with its pad; `line` is the name on its line of the job.
fn too_deep(job: &Job, line: Option<&str>, item: &Item, room: f64) -> Finding {
    let (depth, pad) = (item.depth.mm(), item.pad.mm());
    let more = pad + depth - room;
    let with_pad = (pad > 0.0).then_some(Clause::WithPad {
        depth: Mm(depth),
        pad: Mm(pad),
    });
    let thinner = (pad > more).then(|| Change {
        item: line.map(str::to_owned),
        ..Change::at_most("item", "pad", pad - more, job.unit)
    });
    let deeper = Change::at_least("box", "depth", job.box_size.depth.mm() + more, job.unit);
    let fix = Fix {
        says: Advice::DeeperBox { more: Mm(more) },
        ways: thinner
            .into_iter()
            .chain([deeper])
            .map(|change| vec![change])
            .collect(),
    };
    let found = about(item, BuiltIn::ItemTooDeep { pad: with_pad });
    found.measured(depth + pad, room).with_fix(fix)
}

/// Whether the flaps end above the box's floor, and which cut achieved that.
fn judge_flaps(plan: &CutPlan, place: &Place) -> Vec<Finding> {
    let found = |found| Finding::new(found, place.clone());
    if !plan.hangs() {
        let depth = Mm(plan.shallowest.max(0.0));
        let (shallow, advice) = if plan.limit >= plan.least {
            (BuiltIn::OpeningTooSmall { depth }, Advice::Change)
        } else {
            (BuiltIn::FlapTooShallow { depth }, Advice::DeeperBoxOrChange)
        };
        let shallow = found(shallow).measured(plan.shallowest, plan.least);
        return vec![shallow.with_fix(advice.by(Change::open_cut()))];
    }
    let mut findings = Vec::new();
    if matches!(plan.variant, CutVariant::Mitred | CutVariant::MitredWindow) {
        findings.push(found(BuiltIn::CutVariant).measured(plan.wanted, plan.limit));
    }
    if matches!(
        plan.variant,
        CutVariant::MitredWindow | CutVariant::DoorsStrip
    ) {
        findings.push(found(BuiltIn::FlapTrimmed).measured(plan.depth, plan.limit));
    }
    findings
}

/// Whether the item fits between the folded flaps.
fn judge_clear(values: &Values, tray: &Tray, id: OpeningId, item: &Item) -> Vec<Finding> {
    let (opening, unit) = (&tray.openings[id], values.job.unit);
    let clear = clear(tray, id);
    let play = clear.play(item);
    let found = |found| Finding::new(found, place(opening, item));
    let looser =
        |by: f64| Change::at_least("fit", "item", values.job.fit.around_item.mm() + by, unit);
    if play < -TOUCH_MM {
        let blocked = BuiltIn::ItemDoesNotEnter {
            clear: Size([clear.length, clear.width]),
            item: item.name.clone(),
            size: Size([item.length.mm(), item.width.mm()]),
        };
        let fix = Advice::ChangeOrMore.by(looser(SNUG_MM - play));
        return vec![found(blocked).measured(play, 0.0).with_fix(fix)];
    }
    let worst = (opening.rect.length - clear.worst[0] - item.length.mm())
        .min(opening.rect.width - clear.worst[1] - item.width.mm());
    let tight = (worst < SNUG_MM - TOUCH_MM).then(|| {
        let tight = found(tight(item, worst)).measured(worst, SNUG_MM);
        tight.with_fix(looser(SNUG_MM - worst))
    });
    let note = found(clear_opening(opening, &clear, item)).measured(play, 0.0);
    tight.into_iter().chain([note]).collect()
}

/// The finding for creases that fold on the inner face of the card and not in its middle.
fn tight(item: &Item, worst: f64) -> BuiltIn {
    let item = item.name.clone();
    if worst < 0.0 {
        let short = Mm(-worst);
        return BuiltIn::SlotMayBeShort { item, short };
    }
    BuiltIn::SlotTight { item }
}

fn clear_opening(opening: &Opening, clear: &Clear, item: &Item) -> BuiltIn {
    let slot = [opening.rect.length, opening.rect.width];
    let flaps = clear.length < slot[0] || clear.width < slot[1];
    let size = Size([clear.length, clear.width]);
    BuiltIn::ClearOpening {
        slot: Size(slot),
        folded: flaps.then_some(Clause::StaysClear { size }),
        item: item.name.clone(),
        play: Mm(clear.play(item)),
    }
}
