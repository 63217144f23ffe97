//! The values of one style for one job, each evaluated on demand and kept.
//!
//! **Input:** a style and a job. **Output:** the value of any formula of the style, the shape of any panel and the
//! position of any opening. **Errors:** an error in the style, such as a circular value, and values that do not exist
//! in this job. **Does not** check the tray: a tray that cannot be made still has values.

mod arrangement;
mod field;
mod form;
mod job_figures;
mod memo;
mod named;
mod openings;
mod outlines;
mod panels;
mod rows;
mod settings;
mod shape;
mod tongues;

pub(crate) use arrangement::{Arrangement, ArrangementResult, SearchVerdict};
pub(crate) use form::{Form, lies_along};
pub(crate) use openings::Rect;
pub(crate) use panels::CreaseSpan;
pub(crate) use shape::{PanelShape, ShapeCorner};
pub(crate) use tongues::TongueForm;

use memo::Memo;

use std::cell::Cell;

use crate::finding::SourceSpan;
use crate::finding::{Finding, Refusal, SourceError};
use crate::formula::{Card, Comparison, Side as FormulaSide, Value, ValueFault};
use crate::job::{Job, Unit, numbers};
use crate::style::graph::Graph;
use crate::style::names::Scope;
use crate::style::text::StyleFile;
use crate::style::written::Written;
use crate::style::{Style, in_the_text};

/// Maximum levels of brackets, in all unfinished formulas together.
// Derived: the innermost levels of one formula take up to 16 KiB each unoptimized; 96 of them stay under 2 MiB.
const MOST_LEVELS_WAITING: usize = 96;

/// No tray has more millimetres or degrees, or larger plain numbers, than this.
// Derived: a thousand times a box of 1 m; a job's lengths end at 5 m.
const LARGEST_AMOUNT: f64 = 1e6;

/// The values of one style for one job.
pub(crate) struct Values<'a> {
    pub(crate) style: &'a Style,
    pub(crate) job: &'a Job,
    pub(crate) graph: Graph,
    card: Card,
    memo: Memo,
    /// Levels of brackets of all formulas that are being evaluated.
    levels: Cell<usize>,
    /// Step limit of the search for a packing.
    pub(crate) search_steps: usize,
}

/// Why a value cannot be evaluated.
#[derive(Clone, Debug)]
pub(crate) enum EvalError {
    /// The style has an error.
    SourceError(Box<SourceError>),
    /// The value depends on something that does not exist in this job.
    Absent(MissingValue),
    /// No option of a fallback fits this job.
    NoFallback(Box<Finding>),
}

/// A name that does not exist in this job, and where it is used.
#[derive(Clone, Debug)]
pub(crate) struct MissingValue {
    name: String,
    place: Option<SourceSpan>,
}

impl EvalError {
    /// An error in the style.
    pub(crate) fn fault(fault: SourceError) -> EvalError {
        EvalError::SourceError(Box::new(fault))
    }

    /// A name that does not exist in this job.
    pub(crate) fn absent(name: impl Into<String>) -> EvalError {
        EvalError::Absent(MissingValue {
            name: name.into(),
            place: None,
        })
    }

    /// The error as one of the style, for callers where only a style error can have stopped the evaluation.
    pub(crate) fn into_fault(self) -> SourceError {
        match self {
            EvalError::SourceError(fault) => *fault,
            EvalError::Absent(MissingValue { name, place }) => {
                let label = "ask for it only where it exists: give this a `when` of its own";
                let message = format!("`{name}` does not exist in this job, and this needs it");
                SourceError::new(place.unwrap_or(0..0), message, label)
            }
            EvalError::NoFallback(finding) => SourceError::new(
                0..0,
                finding.message(Unit::default()),
                "let one option always be true",
            ),
        }
    }
}

impl<'a> Values<'a> {
    /// Builds the graph for the job's items and takes the job's settings.
    ///
    /// # Refuses
    /// Settings that the style does not have or cannot take, more items than it takes, and features that are not made
    /// yet.
    pub(crate) fn for_job(style: &'a Style, job: &'a Job) -> Result<Self, Refusal> {
        let mut errors = numbers::errors(job);
        if errors.is_empty() {
            errors = settings::judge_job(style, job);
        }
        if !errors.is_empty() {
            return Err(Refusal::Job(errors));
        }
        let (graph, faults) = Graph::draw(&style.sheet, job.items.len());
        if !faults.is_empty() {
            return Err(Refusal::Style(faults));
        }
        let card = Card {
            caliper: job.board.caliper.mm(),
            hinge: job.board.hinge(),
        };
        let values = Values {
            style,
            job,
            graph,
            card,
            memo: Memo::empty(),
            levels: Cell::new(0),
            search_steps: arrangement::MOST_STEPS,
        };
        settings::judge_ranges(&values)?;
        Ok(values)
    }

    /// The style's entries.
    pub(crate) fn sheet(&self) -> &'a StyleFile {
        &self.style.sheet
    }

    /// Distance from a crease to the outside corner of its fold.
    pub(crate) fn outer(&self, angle_deg: f64) -> f64 {
        self.card.outer(angle_deg)
    }

    /// Distance from a crease to the inside corner of its fold.
    pub(crate) fn inner(&self, angle_deg: f64) -> f64 {
        self.card.inner(angle_deg)
    }

    /// The value of a formula.
    pub(crate) fn value(&self, written: &'a Written, scope: Scope) -> Result<Value, EvalError> {
        let waiting = self.levels.get();
        let levels = waiting + written.formula().levels();
        if levels > MOST_LEVELS_WAITING {
            let message = "this formula and those that wait for it nest too deep";
            return Err(EvalError::fault(SourceError::new(
                written.place.clone(),
                message,
                "give some of it a name among the values",
            )));
        }
        self.levels.set(levels);
        let value = written
            .formula()
            .value(&self.card, &mut |name| self.named(scope, name));
        self.levels.set(waiting);
        value.map_err(|fault| stop(fault, written))
    }

    /// The value of one side of a formula that is a comparison.
    pub(crate) fn side(
        &self,
        written: &'a Written,
        side: FormulaSide<'a>,
    ) -> Result<Value, EvalError> {
        let value = side.value(&self.card, &mut |name| self.named(Scope::Style, name));
        value.map_err(|fault| stop(fault, written))
    }

    /// The number of a formula that is known to give a length, an angle or a number.
    pub(crate) fn amount(&self, written: &'a Written, scope: Scope) -> Result<f64, EvalError> {
        let amount = self.unbounded(written, scope)?;
        if amount.abs() > LARGEST_AMOUNT {
            let message = format!("this is {amount:.3e} for this job");
            let label = format!("no more than {LARGEST_AMOUNT} belongs in a tray");
            return Err(EvalError::fault(SourceError::new(
                written.place.clone(),
                message,
                label,
            )));
        }
        Ok(amount)
    }

    /// The same number without a limit.
    fn unbounded(&self, written: &'a Written, scope: Scope) -> Result<f64, EvalError> {
        let value = self.value(written, scope)?;
        Ok(value
            .amount()
            .expect("kinds were checked when the style was read"))
    }

    /// The result of a condition; a missing condition is true.
    pub(crate) fn holds(
        &self,
        written: Option<&'a Written>,
        scope: Scope,
    ) -> Result<bool, EvalError> {
        let Some(written) = written else {
            return Ok(true);
        };
        let value = self.value(written, scope)?;
        Ok(value
            .truth()
            .expect("kinds were checked when the style was read"))
    }

    /// The sides of a formula, if it is one comparison.
    pub(crate) fn comparison(written: &'a Written) -> Option<Comparison<'a>> {
        written.formula().comparison()
    }

    /// The value of a built-in setting.
    pub(crate) fn built_in_setting(&self, ask: &str) -> Result<Value, EvalError> {
        let entry = self
            .sheet()
            .settings
            .id(ask)
            .expect("a style with a slot has the built-in settings");
        self.answer(entry)
    }

    /// The length that a built-in setting gives.
    pub(crate) fn built_in_length(&self, ask: &str) -> Result<f64, EvalError> {
        Ok(self
            .built_in_setting(ask)?
            .length()
            .expect("a built-in setting keeps its kind"))
    }
}

fn stop(fault: ValueFault<EvalError>, written: &Written) -> EvalError {
    match fault {
        ValueFault::Formula(fault) => EvalError::fault(in_the_text(&fault, &written.place)),
        ValueFault::Name(EvalError::SourceError(fault)) if fault.place == (0..0) => {
            EvalError::fault(SourceError {
                place: written.place.clone(),
                ..*fault
            })
        }
        ValueFault::Name(EvalError::Absent(MissingValue { name, place: None })) => {
            EvalError::Absent(MissingValue {
                name,
                place: Some(written.place.clone()),
            })
        }
        ValueFault::Name(stop) => stop,
    }
}
