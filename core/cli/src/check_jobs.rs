//! Reads the job files of a call and checks each.
//!
//! **Input:** paths of jobs and folders of styles. **Output:** a [`CheckedJob`] for every job that can be checked, and
//! the errors of all others, so that the maker sees every error at once. **Does not** print or write.

use std::path::{Path, PathBuf};

use traywright_engine::Job;
use traywright_job::checked_job::{CheckedJob, Checker};
use traywright_job::error::InputError;
use traywright_job::fixes;
use traywright_job::library::Boards;

use crate::error::CliError;
use crate::font;
use crate::read_job::{job_bytes, read_job};
use crate::style_folders::styles;

/// The results of all jobs of a call.
#[derive(Debug, Default)]
pub(crate) struct CheckResults {
    /// The jobs that could be checked.
    pub(crate) trays: Vec<CheckedJob>,
    /// The reasons why the others could not be checked.
    pub(crate) errors: Vec<CliError>,
}

impl CheckResults {
    /// Whether every tray that could be checked fits.
    pub(crate) fn all_fit(&self) -> bool {
        self.trays.iter().all(CheckedJob::fits)
    }
}

/// The jobs for which fixes are searched; each trial is a check of its own.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Fixes {
    /// All jobs with an error or a warning.
    Try,
    /// Jobs that do not fit.
    OfRefused,
}

/// Checks all jobs in their order. Errors come in the order of the jobs too.
///
/// # Errors
/// Styles that cannot be found at all.
pub(crate) fn check_jobs(
    jobs: &[PathBuf],
    style_folders: &[PathBuf],
    asked: Fixes,
) -> Result<CheckResults, CliError> {
    let styles = styles(style_folders)?;
    let mut checker = Checker::new(&styles);
    let mut results = CheckResults::default();
    for path in jobs {
        match check_job(path, &mut checker, asked) {
            Ok(checked_job) => results.trays.push(checked_job),
            Err(errors) => results.errors.extend(errors),
        }
    }
    Ok(results)
}

/// The job in a file, its bytes, and its font's path relative to the job's folder.
pub(crate) fn job_of(path: &Path) -> Result<(Vec<u8>, Job), CliError> {
    let bytes = job_bytes(path)?;
    let job = job_in(path, &bytes)?;
    Ok((bytes, job))
}

/// The job in the bytes of a file.
fn job_in(path: &Path, bytes: &[u8]) -> Result<Job, CliError> {
    let shown = path.display().to_string();
    let mut job = read_job(&shown, bytes)?;
    font::find_beside(path, &mut job).map_err(|fault| InputError::Text {
        path: shown,
        text: String::from_utf8_lossy(bytes).into_owned(),
        faults: vec![*fault],
    })?;
    Ok(job)
}

fn check_job(
    path: &Path,
    checker: &mut Checker<'_>,
    asked: Fixes,
) -> Result<CheckedJob, Vec<CliError>> {
    check_bytes(path, &job_bytes(path)?, checker, asked)
}

/// Checks a text as if it were a job in this file.
///
/// # Errors
/// Those of a job that cannot be read, and styles that cannot be found at all.
pub(crate) fn check_text(
    path: &Path,
    text: &str,
    style_folders: &[PathBuf],
    asked: Fixes,
) -> Result<CheckedJob, Vec<CliError>> {
    let styles = styles(style_folders)?;
    check_bytes(path, text.as_bytes(), &mut Checker::new(&styles), asked)
}

fn check_bytes(
    path: &Path,
    bytes: &[u8],
    checker: &mut Checker<'_>,
    asked: Fixes,
) -> Result<CheckedJob, Vec<CliError>> {
    let shown = path.display().to_string();
    let job = job_in(path, bytes)?;
    let mut checked = checker
        .check(&shown, bytes, job)
        .map_err(CliError::inputs)?;
    let sought = asked == Fixes::Try || !checked.fits();
    if let (true, Some(style)) = (sought, checker.style_of(&checked.job)) {
        checked.fixes = fixes::tried(&checked, style, &Boards::shipped());
    }
    Ok(checked)
}
