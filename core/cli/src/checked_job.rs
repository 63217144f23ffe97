//! Job files become judgements: what the engine says of each tray.
//!
//! Given the paths of jobs and the folders of styles, gives a [`CheckedJob`] for every job that could be judged, and the
//! troubles of all others, so that a maker sees every fault at once. Never prints and never writes.

use std::collections::BTreeMap;
use std::fs::File;
use std::io::{self, ErrorKind, Read};
use std::path::{Path, PathBuf};

use traywright_engine::job::Job;
use traywright_engine::{CheckedTray, Finding, Level, Refusal, Report, SourceError, Style, make};

use crate::error::CliError;
use crate::job_file;
use crate::library::{Boards, StyleText, Styles};
use crate::nearest::suggestion;

/// No more of a file is read than this, far more than the 256 KiB that a job may have.
const MOST_READ: u64 = 16 * 1024 * 1024;

/// A job that could be judged, and the verdict on its tray.
#[derive(Debug)]
pub(crate) struct CheckedJob {
    /// The job's file as the maker named it.
    pub(crate) path: String,
    /// What was asked for.
    pub(crate) job: Job,
    /// The tray, or why there is none.
    pub(crate) tray: Result<CheckedTray, Report>,
}

/// Judges all jobs in their order. Troubles come in the order of the jobs too.
///
/// # Refuses
/// Styles that cannot be found at all.
pub(crate) fn judge(jobs: &[PathBuf], style_folders: &[PathBuf]) -> Result<CheckResults, CliError> {
    let styles = Styles::find(style_folders)?;
    let boards = Boards::shipped();
    let mut shelf = StyleCache {
        styles: &styles,
        read: BTreeMap::new(),
    };
    let mut judged = CheckResults::default();
    for path in jobs {
        match shelf.judge(path, &boards) {
            Ok(checked_job) => judged.trays.push(checked_job),
            Err(errors) => judged.errors.extend(errors),
        }
    }
    Ok(judged)
}

/// What became of all jobs of a call.
#[derive(Debug, Default)]
pub(crate) struct CheckResults {
    /// Those that could be judged.
    pub(crate) trays: Vec<CheckedJob>,
    /// What kept the others from it.
    pub(crate) errors: Vec<CliError>,
}

impl CheckResults {
    /// Whether every tray that could be judged fits.
    pub(crate) fn all_fit(&self) -> bool {
        self.trays.iter().all(CheckedJob::fits)
    }
}

impl CheckedJob {
    /// Whether the tray fits, folds and holds.
    pub(crate) fn fits(&self) -> bool {
        self.tray.is_ok()
    }

    /// Its figures and what was found.
    pub(crate) fn report(&self) -> &Report {
        match &self.tray {
            Ok(tray) => tray.report(),
            Err(report) => report,
        }
    }

    /// What was found of one level.
    pub(crate) fn findings(&self, level: Level) -> impl Iterator<Item = &Finding> {
        self.report()
            .findings
            .iter()
            .filter(move |finding| finding.level == level)
    }

    /// A figure of the report, if it was reached.
    pub(crate) fn measure(&self, name: &str) -> Option<f64> {
        let found = self
            .report()
            .measures
            .iter()
            .find(|measure| measure.name == name);
        found.map(|measure| measure.value)
    }
}

/// The styles that this call has used so far; `None` for one whose faults are already told.
struct StyleCache<'a> {
    styles: &'a Styles,
    read: BTreeMap<&'a str, Option<Style>>,
}

impl StyleCache<'_> {
    fn judge(&mut self, path: &Path, boards: &Boards) -> Result<CheckedJob, Vec<CliError>> {
        let shown = path.display().to_string();
        let bytes = job_bytes(path)?;
        let mut job = job_file::read(&shown, &bytes, boards)?;
        // A font is named from where the job lies, whatever folder the program runs in.
        let beside = |font: String| path.with_file_name(font).display().to_string();
        job.page.font = job.page.font.map(beside);
        let in_job = |faults| CliError::Text {
            path: shown.clone(),
            text: String::from_utf8_lossy(&bytes).into_owned(),
            faults,
        };
        let Some(style_text) = self.styles.get(&job.style) else {
            return Err(in_job(vec![unknown_style(&job, self.styles)]).into());
        };
        let useless = || {
            let style = &job.style;
            CliError::sentence(format_args!(
                "the job {shown} needs the style `{style}`, which cannot be used"
            ))
        };
        let mut told = Vec::new();
        let style = self
            .read
            .entry(&style_text.name)
            .or_insert_with(|| style_text.read().map_err(|error| told.push(error)).ok());
        let Some(style) = style else {
            told.push(useless());
            return Err(told);
        };
        let tray = match make(style, &job) {
            Ok(tray) => Ok(tray),
            Err(Refusal::Tray(report)) => Err(report),
            Err(Refusal::Job(faults)) => return Err(in_job(faults).into()),
            Err(Refusal::Style(faults)) => return Err(vec![style_text.faulty(faults), useless()]),
        };
        Ok(CheckedJob {
            path: shown,
            job,
            tray,
        })
    }
}

impl StyleText {
    /// Reads the style.
    ///
    /// # Refuses
    /// A text that is no style, with all its faults.
    pub(crate) fn read(&self) -> Result<Style, CliError> {
        Style::read(&self.name, &self.text).map_err(|faults| self.faulty(faults))
    }

    /// The text in which the engine counts its places: it begins behind a byte order mark.
    pub(crate) fn counted(&self) -> &str {
        self.text.trim_start_matches('\u{feff}')
    }

    /// Faults of this style, as the engine found them.
    pub(crate) fn faulty(&self, faults: Vec<SourceError>) -> CliError {
        CliError::Text {
            path: self.path.clone(),
            text: self.counted().to_owned(),
            faults,
        }
    }
}

/// What stands in a job's file.
///
/// # Refuses
/// A file that cannot be read, by its name.
pub(crate) fn job_bytes(path: &Path) -> Result<Vec<u8>, CliError> {
    bytes_of(path).map_err(|error| unreadable(&path.display().to_string(), &error))
}

fn bytes_of(path: &Path) -> io::Result<Vec<u8>> {
    let mut bytes = Vec::new();
    File::open(path)?.take(MOST_READ).read_to_end(&mut bytes)?;
    Ok(bytes)
}

fn unreadable(job: &str, error: &io::Error) -> CliError {
    match error.kind() {
        ErrorKind::NotFound => CliError::sentence(format_args!("there is no job {job}")),
        ErrorKind::IsADirectory => CliError::sentence(format_args!("{job} is a folder, not a job")),
        ErrorKind::PermissionDenied => {
            CliError::sentence(format_args!("the job {job} may not be read"))
        }
        _ => CliError::sentence(format_args!("the job {job} cannot be read: {error}")),
    }
}

fn unknown_style(job: &Job, styles: &Styles) -> SourceError {
    SourceError::new(
        job.style_place.clone(),
        format!("there is no style `{}`", job.style),
        suggestion(&job.style, &styles.names()),
    )
    .with_hint("`traywright styles` lists them; `--styles DIR` adds a folder of them")
}
