//! One job of the range, and whose fault it is when it gives no tray.
//!
//! Given a style and a job; gives the tray's parts, or the codes by which it is refused, or the [`StyleError`] of the style. A
//! refusal by a rule of the style is the style's own say. One by the house is the job's matter where it follows from the
//! box, the card or the item whatever the style; where a sound style would have had a rule, or a tray, it is a flaw.

use traywright_document::Extent;

use crate::CheckedTray;
use crate::checked::judged;
use crate::finding::{Finding, Level, Refusal, SourceError};
use crate::geometry::TOUCH_MM;
use crate::job::Job;
use crate::lint::parameters::BOXES_MM;
use crate::style::Style;
use crate::style::names::Scope;
use crate::style::text::{OpeningEntry, SlotCut};
use crate::values::Values;

/// The code of a formula that fails in some jobs.
pub(super) const FORMULA: &str = "formula";

/// The code of a wall that nothing holds.
pub(super) const LOOSE: &str = "wall-not-held";

/// Codes for which no job can be blamed: a panel that vanishes, card that is cut twice, torn or filled twice, a tray of the wrong size.
const CERTAIN: [&str; 9] = [
    "panel-too-small",
    "panels-overlap",
    "outline-broken",
    "crease-off-edge",
    "slabs-collide",
    "does-not-fill",
    "outside-too-large",
    "tongue-misses",
    "notch-off-edge",
];

/// A box deeper than this part of its width leaves a wall that rolls over no room to swing, whatever the style.
// Derived: a panel as high as the tray swings in what the layers of the opposite wall leave of the width; with four
// layers of the thickest card and their play that is two thirds of the narrowest box of the range.
const DEEP_PART: f64 = 2.0 / 3.0;

/// A fold line farther from the middle of the card than this part of the caliper may leave nothing of a strip that folds
/// on both its sides.
// Derived: a strip for no layer is caliper + play - 2 hinge wide, and without play vanishes at half the caliper.
const FAR_HINGE_PART: f64 = 0.4;

/// What became of one job.
#[derive(Clone, Debug, PartialEq)]
pub enum Outcome {
    /// It gives a tray.
    Made(Made),
    /// The style or the job is to blame for nothing: it is refused as it should be.
    Refused {
        /// Its errors, never none.
        errors: Vec<StyleError>,
        /// Codes of all that was found.
        told: Vec<String>,
    },
    /// The style lets it through, and it cannot be made.
    AtFault(StyleError),
    /// Its box is smaller or larger than the range, and there it cannot be made.
    OutOfRange,
    /// It asks for what this program cannot make yet, or for answers that do not go together.
    Unsupported,
}

/// What is known of a tray that was made.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Made {
    /// Extent of the blank.
    pub blank: [f64; 2],
    /// Codes of all that was found.
    pub told: Vec<String>,
    /// Entries of panels, openings and tongues that exist, each in the order of the style.
    pub(super) panels: Vec<usize>,
    pub(super) openings: Vec<usize>,
    pub(super) tongues: Vec<usize>,
    /// The option taken, by choice.
    pub(super) options: Vec<Option<usize>>,
    /// Walls that nothing but the box holds.
    pub(super) loose: Vec<String>,
}

/// What one job shows to be wrong.
#[derive(Clone, Debug, PartialEq)]
pub struct StyleError {
    /// The finding's code; `formula` where a formula of the style fails.
    pub code: String,
    /// What it is about.
    pub place: String,
    /// One sentence.
    pub message: String,
    /// The place in the style's text, where a formula fails.
    pub fault: Option<SourceError>,
    /// The panels of the tray, by entry, where it is made and does not hold.
    pub(super) panels: Vec<usize>,
}

/// Tries one job.
pub fn try_out(style: &Style, job: &Job) -> Outcome {
    match tried(style, job) {
        Outcome::AtFault(_) if is_beyond(job) => Outcome::OutOfRange,
        outcome => outcome,
    }
}

/// Whether a box is smaller or larger than those for which a style has to be sound.
fn is_beyond(job: &Job) -> bool {
    let size = &job.box_size;
    let sides = [size.length, size.width, size.depth];
    let mut ranges = sides.into_iter().zip(BOXES_MM);
    ranges.any(|(side, [least, _, most])| side < least || side > most)
}

fn tried(style: &Style, job: &Job) -> Outcome {
    match judged(style, job) {
        Ok(tray) => Outcome::Made(made_and_held(style, job, &tray)),
        Err(Refusal::Job(_)) => Outcome::Unsupported,
        Err(Refusal::Style(faults)) => Outcome::AtFault(of_formula(style, faults)),
        Err(Refusal::Tray(report)) => refused(style, job, &report.findings),
    }
}

fn refused(style: &Style, job: &Job, findings: &[Finding]) -> Outcome {
    let is_error = |finding: &&Finding| finding.level == Level::Error;
    let errors: Vec<&Finding> = findings.iter().filter(is_error).collect();
    let certain = |finding: &&&Finding| CERTAIN.contains(&finding.code.as_str());
    let all_flaws = errors.iter().all(|finding| is_flaw(style, job, finding));
    let flaw = errors
        .iter()
        .find(certain)
        .or(errors.first().filter(|_| all_flaws));
    if let Some(flaw) = flaw {
        return Outcome::AtFault(StyleError::of(flaw));
    }
    Outcome::Refused {
        errors: errors.into_iter().map(StyleError::of).collect(),
        told: findings
            .iter()
            .map(|finding| finding.code.clone())
            .collect(),
    }
}

/// Whether a refusal shows a fault of the style.
fn is_flaw(style: &Style, job: &Job, finding: &Finding) -> bool {
    let (size, caliper) = (&job.box_size, job.board.caliper);
    match finding.code.as_str() {
        code if CERTAIN.contains(&code) => true,
        // A large item runs over its panel; a window or a fence of the style should not.
        // Two openings that are too near each other are told by both their names.
        "openings-overlap" => {
            !finding.place.contains(" and ") && !is_cut_for_items(style, &finding.place)
        }
        "spine-too-narrow" => job.board.hinge <= FAR_HINGE_PART * caliper,
        "no-swing-room" | "step-blocked" => size.depth <= DEEP_PART * size.width,
        // Derived: flaps take caliper + 2 hinge at most, that is two calipers, out of what the fit leaves the item.
        "item-does-not-enter" => job.fit.around_item >= 2.0 * caliper - TOUCH_MM,
        code => {
            let choice = code.strip_prefix("no-");
            choice.is_some_and(|choice| style.sheet.choices.get(choice).is_some())
        }
    }
}

/// Whether an opening is cut in a panel for an item.
fn is_cut_for_items(style: &Style, panel: &str) -> bool {
    style
        .sheet
        .openings
        .iter()
        .any(|(_, opening)| match opening {
            // A member is called after its entry, with its edges behind a hyphen.
            OpeningEntry::Slot(slot) => {
                slot.cut != SlotCut::Uncut && panel.starts_with(slot.on.word.as_str())
            }
            _ => false,
        })
}

fn of_formula(style: &Style, mut faults: Vec<SourceError>) -> StyleError {
    let fault = faults.swap_remove(0);
    StyleError {
        code: FORMULA.to_owned(),
        place: style.name().to_owned(),
        message: fault.message.clone(),
        fault: Some(fault),
        panels: Vec::new(),
    }
}

impl StyleError {
    pub(super) fn of(finding: &Finding) -> Self {
        StyleError {
            code: finding.code.clone(),
            place: finding.place.clone(),
            message: finding.message.clone(),
            fault: None,
            panels: Vec::new(),
        }
    }

    /// How late in the work it shows; the earliest is the cause of most others.
    pub(super) fn stage(&self) -> usize {
        // Source: the order of the stages in `checked`.
        const LATE: [&str; 9] = [
            "panels-overlap",
            "outline-broken",
            "crease-off-edge",
            "outside-too-large",
            "does-not-fill",
            "slabs-collide",
            "step-blocked",
            "no-swing-room",
            LOOSE,
        ];
        let late = LATE.iter().position(|code| *code == self.code);
        late.map_or(0, |stage| stage + 1)
    }
}

/// What is known of a tray that was made. A wall that is loose because of an answer is the answer's matter, of which the
/// maker is warned; it counts as loose only if it stays so when all answers are the usual ones.
fn made_and_held(style: &Style, job: &Job, tray: &CheckedTray) -> Made {
    let mut made = made(style, job, tray);
    if is_beyond(job) {
        made.loose.clear();
    }
    if !made.loose.is_empty() && !job.settings.is_empty() {
        let mut plain = job.clone();
        plain.settings.clear();
        let loose = match judged(style, &plain) {
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
    let panels = tray.tray.panels.iter();
    let entries: Vec<usize> = panels.filter_map(|panel| panel.entry).collect();
    let Extent { least, most } = tray.blank.extent();
    let loose = findings.iter().filter(|finding| finding.code == LOOSE);
    let mut made = Made {
        blank: [most.x - least.x, most.y - least.y],
        told: findings
            .iter()
            .map(|finding| finding.code.clone())
            .collect(),
        panels: (0..sheet.panels.0.len())
            .filter(|entry| entries.contains(entry))
            .collect(),
        loose: loose.map(|finding| finding.place.clone()).collect(),
        ..Made::default()
    };
    if let Ok(mut values) = Values::for_job(style, job) {
        for opening in 0..values.graph.openings.len() {
            if values.opening_exists(opening).is_ok_and(|there| there) {
                made.openings.push(values.graph.openings[opening].entry);
            }
        }
        for (opening, (_, entry)) in sheet.openings.0.iter().enumerate() {
            // A notch in an edge is no opening of the graph.
            let OpeningEntry::Scoop(scoop) = entry else {
                continue;
            };
            let there = values.holds(scoop.when.as_ref(), Scope::Style);
            made.openings
                .extend(there.is_ok_and(|there| there).then_some(opening));
        }
        for (tongue, (_, entry)) in sheet.tongues.0.iter().enumerate() {
            let there = values.holds(entry.when.as_ref(), Scope::Style);
            made.tongues
                .extend(there.is_ok_and(|there| there).then_some(tongue));
        }
        let taken = (0..sheet.choices.0.len()).map(|choice| values.taken(choice).ok());
        made.options = taken.collect();
    }
    made
}
