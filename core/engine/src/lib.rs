//! From a style and a job to a tray that is known to fit, fold and hold.
//!
//! No file, clock, environment, print, thread, randomness or global: the same style and job give the same tray.

pub mod finding;
pub mod formula;
pub mod job;

pub use finding::{Fault, Finding, Level, Refusal, Report};
pub use job::Job;
use traywright_document::Document;

/// A tray style: a panel graph with formulas. (Being built.)
#[derive(Debug)]
pub struct Style {}

impl Style {
    /// Reads a style from its text. The name is the stem of its file.
    pub fn read(_name: &str, _text: &str) -> Result<Style, Vec<Fault>> {
        Ok(Style {})
    }
    /// Its name.
    pub fn name(&self) -> &str {
        ""
    }
    /// One sentence for the list of styles.
    pub fn about(&self) -> &str {
        ""
    }
}

/// A tray that is known to fit, fold and hold. (Being built.)
#[derive(Debug)]
pub struct CheckedTray {
    report: Report,
}

impl CheckedTray {
    /// Its figures and what was found.
    pub fn report(&self) -> &Report {
        &self.report
    }
    /// The finished tray in plain data.
    pub fn document(&self) -> Document {
        todo!()
    }
}

/// The whole road. (Being built.)
pub fn make(_style: &Style, _job: &Job) -> Result<CheckedTray, Refusal> {
    Err(Refusal::Tray(Report::default()))
}
