//! The findings of the checks about a tray, as data.
//!
//! A [`SourceError`] is an error in a *text* (a job, a style). A [`Finding`] is a fact about the *tray*: its
//! [`FindingKind`] with its values, its [`Place`], and a [`Fix`] if one is known. A [`Refusal`] holds either source errors or findings. A
//! [`PassedCheck`] is a check without an error. None of them holds sentences: `built_in` has the table of the engine's
//! own findings with their sentences, and [`Finding::message`] fills one in, in the maker's unit.

mod built_in;
mod clause;
mod fix;
mod passed;
mod place;
mod rule;
mod sentence;
mod source_error;

pub use built_in::{Blame, BuiltIn, FoundIn};
pub(crate) use clause::Clause;
pub use fix::{Advice, Change, Fix, changes_in_words};
pub use passed::PassedCheck;
pub use place::{Place, Side};
pub use rule::{Lack, NoFallback, RuleFinding};
pub use sentence::{Chance, Degrees, FineDegrees, Mm, Percent, Size, Spread, SquareMm};
pub use source_error::{SourceError, SourceSpan};

use crate::measure::{ItemMeasure, Measure, Measured};
use crate::wording::lengths_apart;
use traywright_document::{Unit, filled};

/// The level of a finding.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Level {
    /// The tray does not fit, fold or hold: nothing is written.
    Error,
    /// The tray works, but the maker should know.
    Warning,
    /// A choice that was made for the maker.
    Note,
}

/// One fact about the tray that is worth reporting.
#[derive(Clone, Debug, PartialEq)]
pub struct Finding {
    /// Its level.
    pub level: Level,
    /// The finding, with its values.
    pub kind: FindingKind,
    /// The part that it is about.
    pub place: Place,
    /// The fix, if one is known.
    pub fix: Option<Fix>,
    /// The value found, in mm (or degrees, or a plain number).
    pub value: Option<f64>,
    /// The limit that it is compared with.
    pub limit: Option<f64>,
}

/// The origin of a finding.
#[derive(Clone, Debug, PartialEq)]
pub enum FindingKind {
    /// The engine's own checks.
    BuiltIn(BuiltIn),
    /// A rule of the style.
    Rule(RuleFinding),
    /// A list of fallbacks of the style, none of which suits this job.
    NoFallback(NoFallback),
}

impl Finding {
    /// A finding of the engine, at the level in the table.
    pub(crate) fn new(built_in: BuiltIn, place: Place) -> Finding {
        Finding {
            level: built_in.level(),
            kind: FindingKind::BuiltIn(built_in),
            place,
            fix: None,
            value: None,
            limit: None,
        }
    }

    /// The same finding with the value found and its limit, in mm unless the sentence says otherwise.
    pub(crate) fn measured(mut self, value: f64, limit: f64) -> Finding {
        self.value = Some(value);
        self.limit = Some(limit);
        self
    }

    /// The same finding with a fix.
    pub(crate) fn with_fix(mut self, fix: impl Into<Fix>) -> Finding {
        self.fix = Some(fix.into());
        self
    }

    /// Its code: short and permanent, such as `slot-tight`.
    pub fn code(&self) -> &str {
        match &self.kind {
            FindingKind::BuiltIn(built_in) => built_in.code(),
            FindingKind::Rule(rule) => &rule.code,
            FindingKind::NoFallback(none) => &none.code,
        }
    }

    /// The engine's finding; none for a finding of the style.
    pub fn built_in(&self) -> Option<&BuiltIn> {
        match &self.kind {
            FindingKind::BuiltIn(built_in) => Some(built_in),
            _ => None,
        }
    }

    /// Whether it is an error or a warning.
    pub fn needs_a_look(&self) -> bool {
        self.level != Level::Note
    }

    /// Whether the finding is an error.
    pub fn is_error(&self) -> bool {
        self.level == Level::Error
    }

    /// Whether another finding says the same of another place.
    pub fn differs_only_in_place(&self, other: &Finding) -> bool {
        let elsewhere = Finding {
            place: self.place.clone(),
            ..other.clone()
        };
        *self == elsewhere
    }

    /// One sentence with values in the maker's unit; without advice, capital letter and full stop.
    pub fn message(&self, unit: Unit) -> String {
        match &self.kind {
            FindingKind::BuiltIn(built_in) => {
                let mut words = built_in.in_words(unit);
                words.push(("place", self.place.to_string()));
                if let (Some(value), Some(limit)) = (self.value, self.limit) {
                    let (value, limit) = lengths_apart(value, limit, unit);
                    words.extend([("value", value), ("limit", limit)]);
                }
                filled(built_in.sentence(), &words)
            }
            FindingKind::Rule(rule) => rule.message(unit),
            FindingKind::NoFallback(none) => none.in_words(unit),
        }
    }

    /// The sentence that [`message`](Finding::message) fills in, with its gaps.
    pub fn sentence(&self) -> &str {
        match &self.kind {
            FindingKind::BuiltIn(built_in) => built_in.sentence(),
            FindingKind::Rule(rule) => &rule.sentence,
            FindingKind::NoFallback(_) => "",
        }
    }
}

/// The measures of a tray and the findings about it.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Report {
    /// The checks passed; none if the tray was refused.
    pub proofs: Vec<PassedCheck>,
    /// The measures computed so far.
    pub measures: Vec<Measure>,
    /// Findings, the gravest first.
    pub findings: Vec<Finding>,
}

impl Report {
    /// Whether the stage that pushes the items was reached.
    pub fn has_pushed_items(&self) -> bool {
        let is_travel = |of: &Measured| matches!(of, Measured::Item { measure, .. } if *measure == ItemMeasure::TravelLength);
        self.measures.iter().any(|measure| is_travel(&measure.of))
    }

    /// The subjects of the warnings in a few words each, without duplicates; a warning of the style is its code.
    pub fn watch_points(&self) -> Vec<&str> {
        let mut points = Vec::new();
        let warnings = self.findings.iter();
        for warning in warnings.filter(|finding| finding.level == Level::Warning) {
            let point = match warning.built_in() {
                Some(built_in) => built_in.title(),
                None => warning.code(),
            };
            if !points.contains(&point) {
                points.push(point);
            }
        }
        points
    }
}

/// Why there is no tray.
#[derive(Clone, Debug, PartialEq)]
pub enum Refusal {
    /// The job's text has errors, or asks for the impossible.
    Job(Vec<SourceError>),
    /// The style's text has errors.
    Style(Vec<SourceError>),
    /// The tray would not fit, fold or hold.
    Tray(Report),
}
