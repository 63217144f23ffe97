//! Reads the job files of a call and checks each, over all cores.
//!
//! **Input:** paths of jobs and folders of styles. **Output:** a [`CheckedJob`] for every job that can be checked, and
//! the errors of all others, in the order of the jobs, so that the maker sees every error at once. **Does not** print
//! or write.

use std::path::{Path, PathBuf};

use traywright_engine::{Job, SourceError};
use traywright_job::checked_job::{CheckedJob, Checker};
use traywright_job::error::InputError;
use traywright_job::fixes;

use crate::error::CliError;
use crate::read_job::{boards, job_bytes, read_job};
use crate::side_by_side::in_order;
use crate::style_folders::styles;
use crate::{font, pictures};

/// The jobs for which fixes are searched; each trial is a check of its own.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Fixes {
    /// All jobs with an error or a warning.
    Try,
    /// Jobs that do not fit.
    OfRefused,
    /// No job.
    Skip,
}

/// Checks all jobs. `tell` takes what is needed of each, with the number of the job, beside the check. That is handed over
/// in the order of the jobs, so that no more than a few checked jobs are in memory. The errors of a style are handed over
/// once.
pub(crate) fn check_each<Told: Send>(
    jobs: &[PathBuf],
    checker: &Checker<'_>,
    asked: Fixes,
    tell: impl Fn(usize, CheckedJob) -> Told + Sync,
    mut hand_over: impl FnMut(Result<Told, Vec<CliError>>),
) {
    let mut once = StyleErrorsOnce::default();
    let work =
        |job: usize| check_file(&jobs[job], checker, asked).map(|checked| tell(job, checked));
    let mut path = jobs.iter();
    in_order(jobs.len(), work, |checked| {
        let path = path.next().map(|path| path.display().to_string());
        let errors = |errors| once.first(&path.unwrap_or_default(), errors);
        hand_over(checked.map_err(errors));
    });
}

/// Leaves out the errors of a style that were told with an earlier job.
#[derive(Debug, Default)]
pub(crate) struct StyleErrorsOnce {
    told: Vec<(String, Vec<SourceError>)>,
}

impl StyleErrorsOnce {
    /// The errors of a job that are new.
    pub(crate) fn first(&mut self, job: &str, mut errors: Vec<CliError>) -> Vec<CliError> {
        errors.retain(|error| match error {
            CliError::Input(InputError::Text { path, faults, .. }) if path != job => {
                let said = (path.clone(), faults.clone());
                let new = !self.told.contains(&said);
                if new {
                    self.told.push(said);
                }
                new
            }
            _ => true,
        });
        errors
    }
}

/// Checks one job.
///
/// # Errors
/// Those of a job that cannot be read, and styles that cannot be found at all.
pub(crate) fn check_job(
    path: &Path,
    style_folders: &[PathBuf],
    asked: Fixes,
) -> Result<CheckedJob, Vec<CliError>> {
    let styles = styles(style_folders)?;
    check_file(path, &Checker::new(&styles), asked)
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
    let font = font::find_beside(path, &mut job).map_err(|fault| vec![*fault]);
    let files = font.and_then(|()| pictures::read_beside(path, &mut job));
    files.map_err(|faults| InputError::Text {
        path: shown,
        text: String::from_utf8_lossy(bytes).into_owned(),
        faults,
    })?;
    Ok(job)
}

/// Checks the job in a file.
pub(crate) fn check_file(
    path: &Path,
    checker: &Checker<'_>,
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
    check_bytes(path, text.as_bytes(), &Checker::new(&styles), asked)
}

/// Checks bytes as if they were the job in this file.
pub(crate) fn check_bytes(
    path: &Path,
    bytes: &[u8],
    checker: &Checker<'_>,
    asked: Fixes,
) -> Result<CheckedJob, Vec<CliError>> {
    let shown = path.display().to_string();
    let job = job_in(path, bytes)?;
    let mut checked = checker
        .check(&shown, bytes, job)
        .map_err(CliError::inputs)?;
    let sought = match asked {
        Fixes::Try => true,
        Fixes::OfRefused => !checked.fits(),
        Fixes::Skip => false,
    };
    if let (true, Some(style)) = (sought, checker.style_of(&checked.job)) {
        checked.fixes = fixes::tried(&checked, style, boards());
    }
    Ok(checked)
}
