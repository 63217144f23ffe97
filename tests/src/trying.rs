//! Tries one job text in a folder of its own.
//!
//! Given the words of a job, it gives the report that `check` writes for programs, or the SVG that `make` writes. It
//! expects the program to answer at all, and never says which answer is right.

use std::fs;

use serde_json::Value;
use tempfile::TempDir;

use crate::running::{Outcome, run};

/// The report of `check --format json`, whether the tray fits or not.
///
/// # Panics
/// When the program answers with no report, as for a text that is wrong.
pub fn check(job: &str) -> Value {
    let (_folder, outcome) = run_in_folder(job, &["check", "tried.kdl", "--format", "json"]);
    serde_json::from_str(&outcome.stdout)
        .unwrap_or_else(|_| panic!("no report for\n{job}\n{}", outcome.stderr))
}

/// One figure of a report.
///
/// # Panics
/// When the report does not hold it.
pub fn measure(report: &Value, name: &str) -> f64 {
    report["measures"][name]
        .as_f64()
        .unwrap_or_else(|| panic!("no figure {name} in {report:#}"))
}

/// The codes of the findings of a report.
pub fn codes(report: &Value) -> Vec<&str> {
    let findings = report["findings"].as_array().map_or(&[][..], Vec::as_slice);
    findings
        .iter()
        .filter_map(|finding| finding["code"].as_str())
        .collect()
}

/// The SVG of a job that fits.
///
/// # Panics
/// When it is not made.
pub fn draw(job: &str) -> String {
    let (folder, outcome) = run_in_folder(job, &["make", "tried.kdl", "--as", "svg"]);
    assert_eq!(outcome.code, 0, "not made:\n{job}\n{}", outcome.stderr);
    fs::read_to_string(folder.path().join("tried.svg")).expect("the SVG that was made can be read")
}

fn run_in_folder(job: &str, arguments: &[&str]) -> (TempDir, Outcome) {
    let folder = tempfile::tempdir().expect("a folder can be made");
    fs::write(folder.path().join("tried.kdl"), job).expect("a job can be written");
    let outcome = run(folder.path(), arguments);
    (folder, outcome)
}
