//! Bytes of others, and what has to hold whatever they are: no panic, and errors that lie inside the text.
//!
//! The fuzz targets and the test `fuzzing` share these functions. Each takes any bytes and panics on a mistake.
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
pub(crate) fn job(bytes: &[u8]) {
    if let Err(error) = job_file::read("job.kdl", bytes, boards()) {
        told(&error);
    }
}

/// Checks a job with the shipped styles, and tells the result.
pub(crate) fn check(bytes: &[u8]) {
    let Ok(job) = job_file::read("job.kdl", bytes, boards()) else {
        return;
    };
    match Checker::new(styles()).check("job.kdl", bytes, job) {
        Ok(checked) => drop(json::object(&checked)),
        Err(errors) => errors.iter().for_each(told),
    }
}

/// Reads a style.
pub(crate) fn style(bytes: &[u8]) {
    let Ok(text) = std::str::from_utf8(bytes) else {
        return;
    };
    if let Err(faults) = Style::read("fuzz", text) {
        // A byte order mark at the start is no part of the text.
        inside(text.strip_prefix('\u{feff}').unwrap_or(text), &faults);
    }
}

/// Reads a formula.
pub(crate) fn formula(bytes: &[u8]) {
    let Ok(text) = std::str::from_utf8(bytes) else {
        return;
    };
    if let Ok(formula) = Formula::read(text) {
        for (name, place) in formula.names() {
            assert_eq!(text.get(place), Some(name));
        }
    }
}

/// Reads the document that an exporter gets. What it reads, it writes, and reads again.
pub(crate) fn wire(bytes: &[u8]) {
    if let Ok(document) = wire::decode(bytes) {
        let written = wire::encode(&document);
        let again = wire::decode(&written).expect("what was written can be read");
        assert_eq!(wire::encode(&again), written);
    }
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
