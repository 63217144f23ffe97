//! Bytes of others, and what has to hold whatever they are: no panic, and errors that lie inside the text.
//!
//! The fuzz targets and the test `fuzzing` share these functions. Each takes any bytes, panics on a mistake, and tells whether the bytes were what they should be.
// Each target uses one of the functions.
#![allow(dead_code)]

use std::sync::OnceLock;

use traywright_document::wire;
use traywright_engine::formula::Formula;
use traywright_engine::{SourceError, Style};
use traywright_job::checked_job::Checker;
use traywright_job::error::InputError;
use traywright_job::job_file;
use traywright_job::library::{Boards, Styles};
use traywright_job::report::{json, snippet};

fn boards() -> &'static Boards {
    static BOARDS: OnceLock<Boards> = OnceLock::new();
    BOARDS.get_or_init(Boards::shipped)
}

fn styles() -> &'static Styles {
    static STYLES: OnceLock<Styles> = OnceLock::new();
    STYLES.get_or_init(Styles::shipped)
}

/// Reads a job.
pub(crate) fn job(bytes: &[u8]) -> bool {
    let read = job_file::read("job.kdl", bytes, boards());
    read.map_err(|error| told(&error)).is_ok()
}

/// Checks a job with the shipped styles, and tells the result.
pub(crate) fn check(bytes: &[u8]) -> bool {
    let Ok(job) = job_file::read("job.kdl", bytes, boards()) else {
        return false;
    };
    match Checker::new(styles()).check("job.kdl", bytes, job) {
        Ok(checked) => !json::object(&checked).is_empty(),
        Err(errors) => {
            errors.iter().for_each(told);
            false
        }
    }
}

/// Reads a style.
pub(crate) fn style(bytes: &[u8]) -> bool {
    let Ok(text) = std::str::from_utf8(bytes) else {
        return false;
    };
    // A byte order mark at the start is no part of the text.
    let marked =
        |faults: Vec<SourceError>| inside(text.strip_prefix('\u{feff}').unwrap_or(text), &faults);
    Style::read("fuzz", text).map_err(marked).is_ok()
}

/// Reads a formula.
pub(crate) fn formula(bytes: &[u8]) -> bool {
    let Ok(text) = std::str::from_utf8(bytes) else {
        return false;
    };
    let Ok(formula) = Formula::read(text) else {
        return false;
    };
    for (name, place) in formula.names() {
        assert_eq!(text.get(place), Some(name));
    }
    true
}

/// Reads the document that an exporter gets. It cannot always be written again: words of a later release are read and
/// not passed on.
pub(crate) fn wire(bytes: &[u8]) -> bool {
    wire::decode(bytes).is_ok()
}

fn told(error: &InputError) {
    if let InputError::Text { path, text, faults } = error {
        inside(text, faults);
        assert!(!snippet::all(path, text, faults).is_empty());
    }
}

fn inside(text: &str, faults: &[SourceError]) {
    assert!(!faults.is_empty(), "refused for nothing");
    for fault in faults {
        assert!(
            text.get(fault.place.clone()).is_some(),
            "{fault:?} is not inside the text"
        );
    }
}
