//! One job of the range, and who is to blame if it gives no tray.
//!
//! **Input:** a style and a job. **Output:** the tray's parts, the codes of a rightful refusal, or the style's
//! [`StyleError`]. A rule of the style may refuse any job. A refusal by the engine is the job's fault if it follows
//! from the box, the card or the item for any style; if a sound style would have had a rule, or a tray, it is an error
//! of the style.

use traywright_document::Extent;

use crate::CheckedTray;
use crate::checked::check;
use crate::finding::{Blame, BuiltIn, Finding, FindingKind, FoundIn, Refusal, SourceError};
use crate::geometry::TOUCH_MM;
use crate::ids::Id;
use crate::job::{Cut, Job, Length, Unit};
use crate::lint::parameters::BOXES_MM;
use crate::measure::{ItemMeasure, Measured};
use crate::style::Style;
use crate::style::names::Scope;
use crate::style::text::{FallbackId, OpeningEntry, OpeningEntryId, PanelEntryId, TongueId};
use crate::style::written::Written;
use crate::values::Values;

/// In a box deeper than this part of its width, a wall that rolls over has no space to turn, in any style.
// Derived: a panel as high as the tray swings in what the layers of the opposite wall leave of the width; with four
// layers of the thickest card and their play that is two thirds of the narrowest box of the range.
const DEEP_PART: f64 = 2.0 / 3.0;

/// If the fold line is farther from the middle of the card than this part of the thickness, a strip that folds on both
/// sides may have no width.
// Derived: a strip for no layer is caliper + play - 2 hinge wide, and without play vanishes at half the caliper.
const FAR_HINGE_PART: f64 = 0.4;

/// The outcome of one job.
#[derive(Clone, Debug, PartialEq)]
pub enum Outcome {
    /// It gives a tray.
    Made(Made),
    /// Rightly refused; neither the style nor the job is to blame.
    Refused {
        /// Its errors, never none.
        errors: Vec<StyleError>,
        /// Codes of all findings.
        told: Vec<String>,
    },
    /// The style accepts it, but it cannot be made.
    AtFault(StyleError),
    /// Its box is smaller or larger than the range, and it cannot be made.
    OutOfRange,
    /// It needs features that do not exist yet, or settings that do not go together.
    Unsupported,
}

/// The facts about a tray that was made.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Made {
    /// Extent of the blank.
    pub blank: [f64; 2],
    /// Codes of all findings.
    pub told: Vec<String>,
    /// Entries of panels, openings and tongues that exist, each in the order of the style.
    pub(super) panels: Vec<PanelEntryId>,
    pub(super) openings: Vec<OpeningEntryId>,
    pub(super) tongues: Vec<TongueId>,
    /// The options taken of its fallbacks.
    pub(super) options: Vec<(FallbackId, Id<Written>)>,
    /// Walls that only the box holds.
    pub(super) loose: Vec<String>,
}

/// An error of the style that one job shows.
#[derive(Clone, Debug, PartialEq)]
pub struct StyleError {
    /// The finding's code; `formula` if a formula of the style fails.
    pub code: String,
    /// The part that it is about.
    pub place: String,
    /// One sentence.
    pub message: String,
    /// The error in the style's text, if a formula fails.
    pub fault: Option<SourceError>,
    /// The stage of the pipeline at which it is found; none if the job is to blame.
    pub(super) found_in: Option<FoundIn>,
    /// The panels of the tray, by entry, if it can be made but does not hold.
    pub(super) panels: Vec<PanelEntryId>,
}

/// Tries one job.
pub fn try_out(style: &Style, job: &Job) -> Outcome {
    match tried(style, job) {
        Outcome::AtFault(_) if is_beyond(job) => Outcome::OutOfRange,
        outcome => outcome,
    }
}

/// Whether a box is smaller or larger than those for which a style must be sound.
fn is_beyond(job: &Job) -> bool {
    if !job.has_box() {
        return false;
    }
    let size = &job.box_size;
    let sides = [size.length.mm(), size.width.mm(), size.depth.mm()];
    let mut ranges = sides.into_iter().zip(BOXES_MM);
    ranges.any(|(side, [least, _, most])| side < least || side > most)
}

fn tried(style: &Style, job: &Job) -> Outcome {
    match check(style, job) {
        Ok(tray) => match wrong_order(job, &tray) {
            Some(error) => Outcome::AtFault(error),
            None => Outcome::Made(made_and_held(style, job, &tray)),
        },
        Err(Refusal::Job(_)) => Outcome::Unsupported,
        Err(Refusal::Style(faults)) => Outcome::AtFault(of_formula(style, faults)),
        Err(Refusal::Tray(report)) => refused(style, job, &report.findings),
    }
}

fn refused(style: &Style, job: &Job, findings: &[Finding]) -> Outcome {
    let errors: Vec<&Finding> = findings.iter().filter(|found| found.is_error()).collect();
    let certain = |finding: &&&Finding| matches!(blame(finding), Blame::Style(_));
    let all_flaws = errors.iter().all(|finding| is_flaw(style, job, finding));
    let flaw = errors
        .iter()
        .find(certain)
        .or(errors.first().filter(|_| all_flaws));
    let unit = job.unit;
    if let Some(flaw) = flaw {
        return Outcome::AtFault(StyleError::of(flaw, unit));
    }
    let of = |flaw| StyleError::of(flaw, unit);
    Outcome::Refused {
        errors: errors.into_iter().map(of).collect(),
        told: codes(findings),
    }
}

/// The steps of a style that are blocked, although another order of folds works.
fn wrong_order(job: &Job, tray: &CheckedTray) -> Option<StyleError> {
    let is_it = |found: &&Finding| matches!(found.built_in(), Some(BuiltIn::OtherOrder { .. }));
    let found = tray.report().findings.iter().find(is_it)?;
    let size = &job.box_size;
    let is_flaw = size.depth.mm() <= DEEP_PART * size.width.mm();
    is_flaw.then(|| StyleError::of(found, job.unit))
}

/// The codes of all findings.
fn codes(findings: &[Finding]) -> Vec<String> {
    let codes = findings.iter().map(|finding| finding.code().to_owned());
    codes.collect()
}

/// Who is to blame for an error, as far as its kind decides it.
fn blame(finding: &Finding) -> Blame {
    match &finding.kind {
        FindingKind::BuiltIn(built_in) => built_in.blame(),
        // A rule of the style refuses only jobs that its author meant to refuse.
        FindingKind::Rule(_) => Blame::Job,
        FindingKind::NoFallback(_) => Blame::Either(FoundIn::Values),
    }
}

/// Whether a refusal shows an error of the style.
fn is_flaw(style: &Style, job: &Job, finding: &Finding) -> bool {
    let (size, caliper) = (&job.box_size, job.board.caliper.mm());
    match (blame(finding), finding.built_in()) {
        (Blame::Style(_), _) => true,
        (Blame::Job, _) => false,
        (Blame::Either(_), Some(BuiltIn::BridgeTooNarrow { .. })) => {
            job.board.hinge() <= FAR_HINGE_PART * caliper
        }
        // Derived: flaps take caliper + 2 hinge at most, that is two calipers, out of what the fit leaves the item.
        (Blame::Either(_), Some(BuiltIn::ItemDoesNotEnter { .. })) => {
            job.fit.around_item.mm() >= 2.0 * caliper - TOUCH_MM
        }
        (Blame::Either(_), Some(BuiltIn::ItemSlides { .. })) => !is_held_otherwise(style, job),
        // A fold without space to turn, or in a wrong order.
        (Blame::Either(_), Some(_)) => size.depth.mm() <= DEEP_PART * size.width.mm(),
        // A list of fallbacks should end with one that every job can take.
        (Blame::Either(_), None) => true,
    }
}

/// Whether the items of a job are held without their pads or with flaps on all edges.
fn is_held_otherwise(style: &Style, job: &Job) -> bool {
    let without_pads = |mut job: Job| {
        for item in &mut job.items {
            item.pad = Length::default();
        }
        job
    };
    let mut crossed = job.clone();
    crossed.slot.cut = Cut::Cross;
    let slides = |finding: &Finding| matches!(finding.built_in(), Some(BuiltIn::ItemSlides { .. }));
    let others = [
        level_with_the_deck(style, job),
        without_pads(job.clone()),
        crossed.clone(),
        without_pads(crossed),
    ];
    others.iter().any(|job| match check(style, job) {
        Ok(_) => true,
        // A tray that fails at an earlier stage shows nothing about its items.
        Err(Refusal::Tray(report)) => {
            report.has_pushed_items() && !report.findings.iter().any(slides)
        }
        Err(_) => false,
    })
}

/// The job with pads that raise each item to the deck of the tray that was made.
fn level_with_the_deck(style: &Style, job: &Job) -> Job {
    let mut job = job.clone();
    let Err(Refusal::Tray(report)) = check(style, &job) else {
        return job;
    };
    for measure in &report.measures {
        if let Measured::Item {
            measure: ItemMeasure::BelowDeck,
            item,
            ..
        } = measure.of
        {
            let pad = job.items[item].pad.mm() + measure.value;
            job.items[item].pad = Length::known(pad.max(0.0));
        }
    }
    job
}

fn of_formula(style: &Style, mut faults: Vec<SourceError>) -> StyleError {
    let fault = faults.swap_remove(0);
    StyleError {
        code: "formula".to_owned(),
        found_in: Some(FoundIn::Values),
        place: style.name().to_owned(),
        message: fault.message.clone(),
        fault: Some(fault),
        panels: Vec::new(),
    }
}

impl StyleError {
    fn of(finding: &Finding, unit: Unit) -> Self {
        let found_in = match blame(finding) {
            Blame::Job => None,
            Blame::Style(found_in) | Blame::Either(found_in) => Some(found_in),
        };
        StyleError {
            code: finding.code().to_owned(),
            place: finding.place.to_string(),
            message: finding.message(unit),
            fault: None,
            found_in,
            panels: Vec::new(),
        }
    }
}

/// The facts about a tray that was made. A wall that is loose because of a setting only gives the maker a warning; it
/// counts as loose only if it stays loose with all settings at their defaults.
fn made_and_held(style: &Style, job: &Job, tray: &CheckedTray) -> Made {
    let mut made = made(style, job, tray);
    if is_beyond(job) {
        made.loose.clear();
    }
    if !made.loose.is_empty() && !job.settings.is_empty() {
        let mut plain = job.clone();
        plain.settings.clear();
        let loose = match check(style, &plain) {
            Ok(tray) => self::made(style, &plain, &tray).loose,
            Err(_) => Vec::new(),
        };
        made.loose.retain(|wall| loose.contains(wall));
    }
    made
}

/// The parts of a tray that was made.
fn made(style: &Style, job: &Job, tray: &CheckedTray) -> Made {
    let sheet = &style.sheet;
    let findings = &tray.report().findings;
    let panels = tray.drawn().tray.panels.iter();
    let entries: Vec<PanelEntryId> = panels.filter_map(|panel| panel.entry).collect();
    let Extent { least, most } = tray.laid().blank.extent();
    let is_loose = |found: &&Finding| matches!(found.built_in(), Some(BuiltIn::WallNotHeld));
    let loose = findings.iter().filter(is_loose);
    let mut made = Made {
        blank: [most.x - least.x, most.y - least.y],
        told: codes(findings),
        panels: sheet
            .panels
            .ids()
            .filter(|entry| entries.contains(entry))
            .collect(),
        loose: loose.map(|finding| finding.place.to_string()).collect(),
        ..Made::default()
    };
    if let Ok(values) = Values::for_job(style, job) {
        for opening in values.graph.openings.ids() {
            if values.opening_exists(opening).is_ok_and(|there| there) {
                made.openings.push(values.graph.openings[opening].entry);
            }
        }
        for (opening, _, entry) in sheet.openings.enumerated() {
            // A thumb notch is not an opening of the graph.
            let OpeningEntry::ThumbNotch(notch) = entry else {
                continue;
            };
            let there = values.holds(notch.when.as_ref(), Scope::Style);
            made.openings
                .extend(there.is_ok_and(|there| there).then_some(opening));
        }
        for (tongue, _, entry) in sheet.tongues.enumerated() {
            let there = values.holds(entry.when.as_ref(), Scope::Style);
            made.tongues
                .extend(there.is_ok_and(|there| there).then_some(tongue));
        }
        let taken = |fallback| Some((fallback, values.taken(fallback).ok()?));
        made.options = sheet.fallbacks.ids().filter_map(taken).collect();
    }
    made
}
