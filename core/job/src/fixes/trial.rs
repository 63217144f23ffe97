//! A job's text with changes, checked again.

use std::cell::Cell;

use traywright_engine::finding::{Change, Finding};
use traywright_engine::{Level, Refusal, Report, Style, make};

use crate::checked_job::CheckedJob;
use crate::job_file::{changed, read};
use crate::library::Boards;

/// Checks for which a blocked fold counts besides: another order is sought then.
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

/// What is found of a tray.
#[derive(Clone, Debug)]
pub(super) struct Outcome {
    pub(super) errors: Vec<Finding>,
    pub(super) warnings: Vec<Finding>,
    /// Whether the last stage that finds errors was reached: what fails before it hides what that would find.
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

    /// Whether nothing needs to be changed.
    pub(super) fn is_clean(&self) -> bool {
        self.errors.is_empty() && self.warnings.is_empty()
    }

    /// What has to go first: the errors, and of a tray without errors the warnings.
    pub(super) fn worst(&self) -> &[Finding] {
        match self.errors.is_empty() {
            false => &self.errors,
            true => &self.warnings,
        }
    }

    /// How much is wrong: what is hidden, then errors, then warnings.
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

    /// Allows so many checks from now on, whatever was left.
    pub(super) fn allow(&self, checks: usize) {
        self.left.set(checks);
    }

    /// Whether no more checks are made.
    pub(super) fn is_over(&self) -> bool {
        self.left.get() == 0
    }

    /// What is found with these changes; none if they make no job, or the search is over.
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
