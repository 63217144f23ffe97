//! A job's text becomes an answer in JSON.
//!
//! **Input:** a name and a text. **Output:** an [`Answer`]. **Errors:** are answers too: a text that is no job has its
//! errors with their places.

use serde::Serialize;
use serde_json::{Value, json};
use traywright_document::{Document, wire};
use traywright_engine::SourceError;
use traywright_engine::finding::Change;
use traywright_job::checked_job::{CheckedJob, Checker};
use traywright_job::error::InputError;
use traywright_job::job_file::{changed, read, written};
use traywright_job::library::{Boards, Styles};
use traywright_job::report::text::{Detail, blocks};
use traywright_job::report::{json, snippet};
use traywright_job::{fixes, job_file};

use crate::drawing::drawing;
use crate::library::library;
use crate::settings::settings;

/// A larger text is no job that a page reads.
// Derived: a hundred times a long job; a text made to be tangled takes 4 KiB of stack a byte.
const LARGEST: usize = 16 * 1024;

/// What became of a job.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Outcome {
    /// The tray fits, folds and holds.
    Fits,
    /// It does not.
    DoesNotFit,
    /// The text is no job.
    Unreadable,
}

/// An outcome with what a page shows of it, as JSON.
#[derive(Clone, Debug)]
pub struct Answer {
    /// What became of the job.
    pub outcome: Outcome,
    /// What a page shows.
    pub json: String,
}

/// Checks jobs, and keeps the last one for its fixes and files.
#[derive(Debug)]
pub struct Program {
    checker: Checker<'static>,
    styles: &'static Styles,
    boards: Boards,
    last: Option<CheckedJob>,
}

impl Default for Program {
    fn default() -> Program {
        // A module has one program, for as long as it lives.
        let styles: &'static Styles = Box::leak(Box::new(Styles::shipped()));
        Program {
            checker: Checker::new(styles),
            styles,
            boards: Boards::shipped(),
            last: None,
        }
    }
}

impl Program {
    /// Boards, styles, pages and languages.
    pub fn library(&self) -> String {
        library(self.styles, &self.boards, LARGEST).to_string()
    }

    /// A small drawing of a style, for a form; `null` if there is none.
    pub fn drawing(&self, name: &str) -> String {
        let found = self.styles.all().iter().find(|text| text.name == name);
        let style = found.and_then(|text| text.read().ok());
        style
            .map_or(Value::Null, |style| drawing(&style))
            .to_string()
    }

    /// Checks a job: its report and its words, the lines of its text, and the settings of its style with their ranges.
    pub fn check(&mut self, path: &str, text: &str) -> Answer {
        self.last = None;
        match self.checked(path, text) {
            Ok(checked) => {
                let outcome = match checked.fits() {
                    true => Outcome::Fits,
                    false => Outcome::DoesNotFit,
                };
                let json = self.describe(&checked);
                self.last = Some(checked);
                Answer { outcome, json }
            }
            Err(errors) => Answer {
                outcome: Outcome::Unreadable,
                json: unreadable(text, &errors).to_string(),
            },
        }
    }

    fn checked(&mut self, path: &str, text: &str) -> Result<CheckedJob, Vec<InputError>> {
        if text.len() > LARGEST {
            return Err(InputError::sentence(format_args!(
                "{path} is {} KiB large, and the page reads at most {}: is it the right file?",
                text.len().div_ceil(1024),
                LARGEST / 1024
            ))
            .into());
        }
        let job = read(path, text.as_bytes(), &self.boards)?;
        self.checker.check(path, text.as_bytes(), job)
    }

    fn describe(&self, checked: &CheckedJob) -> String {
        let style = self.checker.style_of(&checked.job);
        let settings = style.map(|style| settings(style, &checked.job));
        json!({
            "report": report(checked),
            "words": blocks(std::slice::from_ref(checked), Detail::All),
            "title": checked.job.title,
            "unit": checked.job.unit.sign(),
            "lines": written(&checked.text),
            "settings": settings,
        })
        .to_string()
    }

    /// Seeks fixes of the job checked last: each with the text of the changed job; and its report, which names them.
    pub fn fixes(&mut self) -> String {
        let Some(checked) = &mut self.last else {
            return json!({ "fixes": [] }).to_string();
        };
        if let Some(style) = self.checker.style_of(&checked.job) {
            checked.fixes = fixes::tried(checked, style, &self.boards);
        }
        let fixed = checked.fixes.iter().map(|fix| Fixed {
            says: &fix.says,
            leaves: fix.leaves,
            changes: fix.changes.iter().map(change).collect(),
            job: changed(&checked.text, &fix.changes),
        });
        let fixed: Vec<Fixed<'_>> = fixed.collect();
        json!({ "fixes": fixed, "report": report(checked) }).to_string()
    }

    /// The tray checked last, without the search for a ruler's step; none if it does not fit.
    pub fn document(&self) -> Option<Document> {
        let tray = self.last.as_ref()?.tray.as_ref().ok()?;
        Some(tray.unrounded().document())
    }

    /// The bytes that exporters get of the tray checked last, as the command line gives them.
    ///
    /// # Errors
    /// A sentence: no tray that fits, or a font or a picture of the maker's own, which a page cannot read.
    pub fn encoded(&self) -> Result<Vec<u8>, &'static str> {
        let checked = self.last.as_ref();
        let fitting = checked.and_then(|job| Some((job, job.tray.as_ref().ok()?)));
        let (checked, tray) = fitting.ok_or("there is no tray that fits")?;
        if checked.job.output.paper.page().font.is_some() {
            return Err(
                "the page prints in DejaVu Sans: remove `font` from the line `page`, or use the program for the command line",
            );
        }
        if !checked.job.prints.is_empty() {
            return Err(
                "the page reads no picture files: remove the lines `print`, or use the program for the command line",
            );
        }
        Ok(wire::encode(&tray.finish().document()))
    }
}

/// A fix that was tried, with the job that it makes.
#[derive(Serialize)]
struct Fixed<'a> {
    says: &'a str,
    leaves: usize,
    changes: Vec<Value>,
    job: Option<String>,
}

/// A change as data, so that a page says it in its own language.
fn change(change: &Change) -> Value {
    json!({ "node": change.node, "item": change.item, "key": change.key, "to": change.to })
}

/// What `check --format json` prints.
fn report(checked: &CheckedJob) -> Value {
    serde_json::from_str(&json::object(checked)).expect("a report is JSON")
}

fn unreadable(text: &str, errors: &[InputError]) -> Value {
    let errors: Vec<Value> = errors.iter().map(error).collect();
    // What is too large to be checked is too large for a form.
    let lines = (text.len() <= LARGEST).then(|| job_file::written(text));
    json!({ "errors": errors, "lines": lines.flatten() })
}

/// An error as the command line prints it, and the places of its faults, in bytes of the text.
fn error(error: &InputError) -> Value {
    match error {
        InputError::Text { path, text, faults } => {
            let places: Vec<Fault<'_>> = faults.iter().map(Fault::of).collect();
            json!({ "words": snippet::all(path, text, faults), "faults": places })
        }
        InputError::Sentence(words) => json!({ "words": words, "faults": [] }),
    }
}

/// An error of the text, and the bytes from `start` to `end` that it is about.
#[derive(Serialize)]
struct Fault<'a> {
    start: usize,
    end: usize,
    message: &'a str,
    label: &'a str,
    hint: Option<&'a str>,
}

impl<'a> Fault<'a> {
    fn of(fault: &'a SourceError) -> Fault<'a> {
        Fault {
            start: fault.place.start,
            end: fault.place.end,
            message: &fault.message,
            label: &fault.label,
            hint: fault.hint.as_deref(),
        }
    }
}
