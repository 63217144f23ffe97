//! Openings for items: whether the item goes in, and how deep its flaps hang.
//!
//! Given the numbers and the tray; gives findings, an opening at a time. How much card stays around is judged in `webs`.

use super::{finding, forms, webs};
use crate::finding::{Finding, Level};
use crate::geometry::TOUCH_MM;
use crate::job::{Item, Unit};
use crate::style::names::{JobFigure, Scope};
use crate::style::text::{SlotCut, SlotEntry};
use crate::tray::cuts::{CutPlan, CutVariant};
use crate::tray::{Opening, OpeningCut, Tray};
use crate::values::{EvalError, Values};
use crate::wording::{length, lengths_apart, setting, setting_at_most, size};

/// Play under which an item may jam.
// Source: common practice, none published.
const SNUG_MM: f64 = 0.5;

/// How far an item's top may lie below the deck.
// Source: common practice, none published.
const SUNK_MM: f64 = 8.0;

/// How far flaps or fences stand inside the opening's creases, along its length and its width.
pub(super) struct Clear {
    pub(super) length: f64,
    pub(super) width: f64,
    /// What is lost at the hinge that loses most.
    worst: [f64; 2],
}

impl Clear {
    /// What an item has to spare, in the direction that leaves it least.
    pub(super) fn play(&self, item: &Item) -> f64 {
        (self.length - item.length).min(self.width - item.width)
    }
}

/// Judges every opening that holds an item.
pub(super) fn judge(values: &mut Values, tray: &Tray) -> Result<Vec<Finding>, EvalError> {
    let mut findings = Vec::new();
    for (index, opening) in tray.openings.iter().enumerate() {
        let (Some(slot), Some(item)) = (
            values.slot_entry(opening.member),
            opening.item_as_it_lies(values.job),
        ) else {
            continue;
        };
        let item = &item;
        findings.extend(judge_height(values, opening, slot, item)?);
        if let OpeningCut::Flaps(plan) = &opening.cut {
            findings.extend(judge_flaps(plan, opening, item, values.job.unit));
        }
        let shallow = findings.iter().any(|found: &Finding| {
            found.level == Level::Error && found.place == called(opening, item)
        });
        if !shallow {
            findings.extend(judge_clear(values, tray, index, item));
        }
        // Openings that do not fit together reach over the edges for that reason alone.
        let arrangement = values.arrangement(opening.member)?;
        if !arrangement.is_some_and(|arrangement| arrangement.fails()) {
            findings.extend(webs::judge(values, tray, opening, slot, item)?);
        }
        findings.extend(forms::judge(values, opening, slot, item));
    }
    Ok(findings)
}

/// What an opening is called in a finding.
pub(super) fn called(opening: &Opening, item: &Item) -> String {
    format!("{} for {}", opening.name, item.name)
}

/// The clear size of an opening.
pub(super) fn clear(tray: &Tray, index: usize) -> Clear {
    let opening = &tray.openings[index];
    let half = tray.caliper / 2.0;
    // Hanging in the hole, the show face stands outside the mid-plane; standing around it, the inner face inside.
    let (loss, worst) = match opening.cut {
        OpeningCut::Uncut => (half - tray.hinge, half),
        _ => (half + tray.hinge, tray.caliper),
    };
    let hung = |side: usize| {
        tray.hung_on_opening(index, &opening.edges[side])
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

/// The item's top against the box's lid and the deck.
fn judge_height<'a>(
    values: &mut Values<'a>,
    opening: &Opening,
    slot: &'a SlotEntry,
    item: &Item,
) -> Result<Option<Finding>, EvalError> {
    let unit = values.job.unit;
    let room = match &slot.room {
        Some(room) => values.amount(room, Scope::Opening(opening.member))?,
        None => values.job.box_size.depth,
    };
    if item.depth > room + TOUCH_MM {
        return Ok(Some(too_deep(item, room, unit)));
    }
    if !stands_under_the_deck(slot) {
        return Ok(None);
    }
    let deck = values.job_figure(JobFigure::TrayDepth);
    let above = item.depth - deck;
    if above > TOUCH_MM {
        let message = format!(
            "{} stands {} above the deck, and the lid still closes over it",
            item.name,
            length(above, unit)
        );
        let found = finding(Level::Warning, "item-proud", item.name.clone(), message);
        return Ok(Some(found.measured(item.depth, deck)));
    }
    let fit = values.job.fit.around_tray;
    Ok((-above > SUNK_MM + TOUCH_MM).then(|| sunk(item, -above, fit, unit)))
}

/// Whether an item in this slot stands on the box's floor and looks out of the deck.
pub(super) fn stands_under_the_deck(slot: &SlotEntry) -> bool {
    slot.room.is_none() && slot.cut != SlotCut::Uncut
}

fn too_deep(item: &Item, room: f64, unit: Unit) -> Finding {
    let (depth, least) = lengths_apart(item.depth, room, unit);
    let message = format!(
        "{} is {depth} deep, and there is room for {least}",
        item.name
    );
    let found = finding(Level::Error, "item-too-deep", item.name.clone(), message);
    let fix = format!("a box {} deeper", length(item.depth - room, unit));
    found.measured(item.depth, room).with_fix(fix)
}

fn sunk(item: &Item, below: f64, fit: f64, unit: Unit) -> Finding {
    let message = format!(
        "the top of {} lies {} below the deck (at most {})",
        item.name,
        length(below, unit),
        length(SUNK_MM, unit)
    );
    let fix = format!(
        "a pad of {} under it, or a lower tray: say box depth={}",
        length(below - SUNK_MM, unit),
        setting_at_most(item.depth + SUNK_MM + fit, unit)
    );
    let found = finding(Level::Warning, "item-sunk", item.name.clone(), message);
    found.measured(below, SUNK_MM).with_fix(fix)
}

/// Whether the flaps end above the box's floor, and which cut made that so.
fn judge_flaps(plan: &CutPlan, opening: &Opening, item: &Item, unit: Unit) -> Vec<Finding> {
    let place = called(opening, item);
    let write = |value: f64| length(value, unit);
    if !plan.hangs() {
        let narrow = plan.limit >= plan.least;
        let (code, fix) = if narrow {
            ("opening-too-small", "slot cut=\"open\"")
        } else {
            ("flap-too-shallow", "a deeper box, or slot cut=\"open\"")
        };
        let message = format!(
            "its flaps would be {} deep (at least {})",
            write(plan.shallowest.max(0.0)),
            write(plan.least)
        );
        return vec![
            finding(Level::Error, code, place, message)
                .measured(plan.shallowest, plan.least)
                .with_fix(fix),
        ];
    }
    let mut findings = Vec::new();
    if matches!(plan.variant, CutVariant::Mitred | CutVariant::MitredWindow) {
        let message = format!(
            "cut at 45° from the corners: with two plain diagonals a flap would hang {} deep, and {} is free above the floor",
            write(plan.wanted),
            write(plan.limit)
        );
        findings.push(
            finding(Level::Note, "cut-variant", place.clone(), message)
                .measured(plan.wanted, plan.limit),
        );
    }
    if matches!(
        plan.variant,
        CutVariant::MitredWindow | CutVariant::DoorsStrip
    ) {
        let message = format!(
            "the flaps are cut to {}, and the middle is cut out: at most {} hang free above the floor",
            write(plan.depth),
            write(plan.limit)
        );
        findings.push(
            finding(Level::Note, "flap-trimmed", place, message).measured(plan.depth, plan.limit),
        );
    }
    findings
}

/// Whether the item goes in between the folded flaps.
fn judge_clear(values: &Values, tray: &Tray, index: usize, item: &Item) -> Vec<Finding> {
    let (opening, unit) = (&tray.openings[index], values.job.unit);
    let clear = clear(tray, index);
    let (place, play) = (called(opening, item), clear.play(item));
    let asked = values.job.fit.around_item;
    if play < -TOUCH_MM {
        let message = format!(
            "with the flaps folded {} stay clear, and {} is {}",
            size(&[clear.length, clear.width], unit),
            item.name,
            size(&[item.length, item.width], unit)
        );
        let fix = format!("fit item={} or more", setting(asked - play + SNUG_MM, unit));
        let found = finding(Level::Error, "item-does-not-enter", place, message);
        return vec![found.measured(play, 0.0).with_fix(fix)];
    }
    let worst = (opening.rect.length - clear.worst[0] - item.length)
        .min(opening.rect.width - clear.worst[1] - item.width);
    let tight = (worst < SNUG_MM - TOUCH_MM).then(|| {
        let message = tight_words(item, worst, unit);
        let fix = format!("fit item={}", setting(asked + SNUG_MM - worst, unit));
        let found = finding(Level::Warning, "slot-tight", place.clone(), message);
        found.measured(worst, SNUG_MM).with_fix(fix)
    });
    let message = clear_words(opening, &clear, item, unit);
    let note = finding(Level::Note, "clear-opening", place, message).measured(play, 0.0);
    tight.into_iter().chain([note]).collect()
}

/// What happens where a crease folds on the inner face of the card and not in its middle.
fn tight_words(item: &Item, worst: f64, unit: Unit) -> String {
    let (name, snug) = (&item.name, length(SNUG_MM, unit));
    if worst < 0.0 {
        let short = length(-worst, unit);
        return format!(
            "{name} may not go in where a crease folds thick: it is {short} short there (at least {snug} to spare)"
        );
    }
    let spare = length(worst, unit);
    format!("{name} may have only {spare} to spare where a crease folds thick (at least {snug})")
}

fn clear_words(opening: &Opening, clear: &Clear, item: &Item, unit: Unit) -> String {
    let slot = [opening.rect.length, opening.rect.width];
    let flaps = clear.length < slot[0] || clear.width < slot[1];
    let folded = if flaps {
        format!(
            "; with the flaps folded {} stay clear",
            size(&[clear.length, clear.width], unit)
        )
    } else {
        String::new()
    };
    format!(
        "slot {}{folded}, {} has {} to spare",
        size(&slot, unit),
        item.name,
        length(clear.play(item), unit)
    )
}
