//! A job's text with changes, checked again.

use std::cell::Cell;

use traywright_engine::finding::{Change, Finding};
use traywright_engine::{Level, Refusal, Report, Style, make};

use crate::checked_job::CheckedJob;
use crate::job_file::{changed, read};
use crate::library::Boards;

/// Additional checks that a blocked fold counts as, because it starts a search for another order.
// Derived: about as long as it takes.
const BLOCKED: usize = 7;

/// A job that is checked with changes.
pub(super) struct Trial<'a> {
    path: &'a str,
    text: &'a str,
    pub(super) style: &'a Style,
    pub(super) boards: &'a Boards,
    left: Cell<usize>,
}

/// The findings about a tray.
#[derive(Clone, Debug)]
pub(super) struct Outcome {
    pub(super) errors: Vec<Finding>,
    pub(super) warnings: Vec<Finding>,
    /// Whether the last stage with errors was reached; an earlier failure hides the errors of later stages.
    pub(super) is_complete: bool,
}

impl Outcome {
    pub(super) fn of(report: &Report) -> Outcome {
        let of = |level: Level| {
            let found = report.findings.iter();
            found
                .filter(|found| found.level == level)
                .cloned()
                .collect()
        };
        Outcome {
            errors: of(Level::Error),
            warnings: of(Level::Warning),
            is_complete: report.has_pushed_items(),
        }
    }

    /// Whether there is nothing to fix.
    pub(super) fn is_clean(&self) -> bool {
        self.errors.is_empty() && self.warnings.is_empty()
    }

    /// The findings to fix first: the errors, or if there are none, the warnings.
    pub(super) fn worst(&self) -> &[Finding] {
        match self.errors.is_empty() {
            false => &self.errors,
            true => &self.warnings,
        }
    }

    /// How bad it is: errors may be hidden, then errors, then warnings.
    pub(super) fn weight(&self) -> (bool, usize, usize) {
        (!self.is_complete, self.errors.len(), self.warnings.len())
    }
}

impl<'a> Trial<'a> {
    pub(super) fn new(checked: &'a CheckedJob, style: &'a Style, boards: &'a Boards) -> Trial<'a> {
        Trial {
            path: &checked.path,
            text: &checked.text,
            style,
            boards,
            left: Cell::new(0),
        }
    }

    /// Allows this number of checks from now on, whatever was left.
    pub(super) fn allow(&self, checks: usize) {
        self.left.set(checks);
    }

    /// Whether the limit of checks is reached.
    pub(super) fn is_over(&self) -> bool {
        self.left.get() == 0
    }

    /// The findings with these changes; none if the changed text is not a job, or the search is over.
    pub(super) fn check(&self, changes: &[Change]) -> Option<Outcome> {
        self.left.set(self.left.get().checked_sub(1)?);
        let outcome = self.outcome(changes)?;
        let is_blocked = |found: &Finding| matches!(found.code(), "step-blocked" | "no-swing-room");
        if outcome.errors.iter().any(is_blocked) {
            self.left.set(self.left.get().saturating_sub(BLOCKED));
        }
        Some(outcome)
    }

    fn outcome(&self, changes: &[Change]) -> Option<Outcome> {
        let text = changed(self.text, changes)?;
        let job = read(self.path, text.as_bytes(), self.boards).ok()?;
        match make(self.style, &job) {
            Ok(tray) => Some(Outcome::of(tray.report())),
            Err(Refusal::Tray(report)) => Some(Outcome::of(&report)),
            Err(Refusal::Job(_) | Refusal::Style(_)) => None,
        }
    }
}
