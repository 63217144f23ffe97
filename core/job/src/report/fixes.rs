//! The fixes of a job as a list: each was tried, and is a line to write into the job.

use std::fmt::Write;

use super::sentence::paragraph;
use crate::checked_job::CheckedJob;

/// The list that `fix` prints.
pub fn list(job: &CheckedJob) -> String {
    let title = &job.job.title;
    if job
        .report()
        .findings
        .iter()
        .all(|found| !found.needs_a_look())
    {
        return paragraph("", &format!("{title}: nothing to fix."));
    }
    if job.fixes.is_empty() {
        let what = "no change of the job that was tried helps.";
        let next = format!("`traywright check {}` says what is wrong.", job.path);
        return paragraph("", &format!("{title}: {what} {next}"));
    }
    let head = paragraph("", &format!("{title}: each of these changes was tried."));
    head + &lines(job) + &paragraph("", &take(job))
}

fn take(job: &CheckedJob) -> String {
    let path = &job.path;
    format!("`traywright fix {path} --take 1 --into NEW.kdl` writes the job with fix 1.")
}

/// The section of a report about the fixes; empty if there are none.
pub(super) fn section(job: &CheckedJob) -> String {
    if job.fixes.is_empty() {
        return String::new();
    }
    lines(job) + &paragraph("  ", &take(job))
}

/// The fixes with their numbers, one line or more each.
pub fn lines(job: &CheckedJob) -> String {
    let mut text = String::new();
    for (at, fix) in job.fixes.iter().enumerate() {
        let rest = match (fix.leaves, fix.warnings) {
            (0, 0) => String::new(),
            (0, 1) => " (then 1 warning)".to_owned(),
            (0, warnings) => format!(" (then {warnings} warnings)"),
            (1, _) => " (1 error remains)".to_owned(),
            (errors, _) => format!(" ({errors} errors remain)"),
        };
        let _ = write!(
            text,
            "{}",
            paragraph(&format!("  {}. ", at + 1), &format!("{}{rest}", fix.says))
        );
    }
    text
}
