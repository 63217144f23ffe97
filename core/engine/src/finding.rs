//! What is wrong, in the maker's words.
//!
//! Two kinds, never mixed. A [`SourceError`] says that a *text* is wrong (a job, a style): it has a place in it. A [`Finding`]
//! says what is true of the *tray*: it has a code that stays, a value and a limit. A [`Refusal`] is one or the other.

use traywright_document::Measure;

use crate::job::SourceSpan;

/// Something wrong in a text that the maker or an author wrote.
#[derive(Clone, Debug, PartialEq)]
pub struct SourceError {
    /// Bytes of the text that are wrong; empty for the whole of it.
    pub place: SourceSpan,
    /// What is wrong, as a title.
    pub message: String,
    /// What would be right, written under the place.
    pub label: String,
    /// One hint more, if there is one.
    pub hint: Option<String>,
    /// A second place that belongs to it, with its words.
    pub context: Option<(SourceSpan, String)>,
}

impl SourceError {
    /// A fault at a place, with what would be right there.
    pub fn new(place: SourceSpan, message: impl Into<String>, label: impl Into<String>) -> Self {
        SourceError {
            place,
            message: message.into(),
            label: label.into(),
            hint: None,
            context: None,
        }
    }

    /// The same fault with a hint.
    pub fn with_hint(mut self, hint: impl Into<String>) -> Self {
        self.hint = Some(hint.into());
        self
    }

    /// The same fault with a second place, such as where a word was used first.
    pub fn with_context(mut self, place: SourceSpan, words: impl Into<String>) -> Self {
        self.context = Some((place, words.into()));
        self
    }
}

/// How much a finding weighs.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Level {
    /// The tray does not fit, fold or hold: nothing is written.
    Error,
    /// The tray works, but the maker should know.
    Warning,
    /// A choice that was made for the maker.
    Note,
}

/// One thing that is true of the tray and worth saying.
#[derive(Clone, Debug, PartialEq)]
pub struct Finding {
    /// How much it weighs.
    pub level: Level,
    /// Short and permanent, such as `slot-tight`.
    pub code: String,
    /// The panel, opening or item it is about.
    pub place: String,
    /// One sentence, with numbers in the maker's unit.
    pub message: String,
    /// What would cure it.
    pub fix: Option<String>,
    /// The figure found, in mm (or degrees, or a plain number).
    pub value: Option<f64>,
    /// The figure it is held against.
    pub limit: Option<f64>,
}

/// A proof that the tray has passed, in one line.
#[derive(Clone, Debug, PartialEq)]
pub struct CheckResult {
    /// What was proved: `flat`, `folded`, `motion`, `holding` or `tolerance`.
    pub name: String,
    /// The verdict, with its figures.
    pub says: String,
}

/// What is known of a tray: its figures and what was found.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Report {
    /// The proofs passed; none when the tray was refused.
    pub proofs: Vec<CheckResult>,
    /// Figures, as far as they were reached.
    pub measures: Vec<Measure>,
    /// Findings, the gravest first.
    pub findings: Vec<Finding>,
}

/// Why there is no tray.
#[derive(Clone, Debug, PartialEq)]
pub enum Refusal {
    /// The job's text asks for something that cannot be.
    Job(Vec<SourceError>),
    /// The style's text is wrong.
    Style(Vec<SourceError>),
    /// The tray would not fit, fold or hold.
    Tray(Report),
}
