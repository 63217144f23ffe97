//! `make`: all files of the call, or none.
//!
//! Checks every job's tray, runs the exporters in memory, and only then writes all files together. After any error the
//! folder is unchanged.

use std::collections::HashMap;
use std::ffi::OsStr;
use std::path::{Path, PathBuf};
use std::time::Duration;

use traywright_document::plugin_api::File;
use traywright_document::wire;
use traywright_job::checked_job::CheckedJob;
use traywright_job::report::text;

use crate::Verdict;
use crate::args::{GlobalOptions, MakeArguments};
use crate::check_jobs::{Fixes, check_jobs};
use crate::error::CliError;
use crate::exporter_file::ExporterFile;
use crate::exporter_host::{ExporterError, Running};
use crate::exporters;
use crate::inputs::Inputs;
use crate::report::{Output, make_summary};
use crate::style_folders::style_files;
use crate::write_files::write_all_or_nothing;

/// The exporters used if no list is given, as far as they exist.
// Source: core/CONTRACT.md, "Commands".
const DEFAULT_EXPORTERS: [&str; 4] = ["svg", "pdf", "dxf", "booklet"];

/// Makes the files of trays.
pub(crate) fn run(
    asked: &MakeArguments,
    everywhere: &GlobalOptions,
    output: &Output,
) -> Result<Verdict, Vec<CliError>> {
    let mut judged = check_jobs(&asked.jobs, &everywhere.styles, Fixes::OfRefused)?;
    judged.errors.extend(jobs_with_equal_stems(&asked.jobs));
    let exporters = match chosen(&asked.formats, &everywhere.plugins) {
        Ok(exporters) => exporters,
        Err(errors) => {
            judged.errors.extend(errors);
            Vec::new()
        }
    };
    let (fit, misfit): (Vec<_>, Vec<_>) = judged.trays.iter().partition(|tray| tray.fits());
    for tray in &misfit {
        output.finding(&text::refusal(tray));
    }
    if !judged.errors.is_empty() {
        return Err(judged.errors);
    }
    if fit.is_empty() || !misfit.is_empty() && !asked.keep_going {
        output.print_info(&make_summary::nothing_written(&fit));
        return Ok(Verdict::DoesNotFit);
    }
    let made = export_all(&fit, &exporters, asked.patience.exporter_seconds)?;
    let inputs = inputs(&asked.jobs, &everywhere.styles, &judged.trays, &exporters)?;
    let into = asked.into.as_deref().unwrap_or(Path::new(""));
    let written = write_all_or_nothing(into, made.files, &inputs)?;
    output.print_info(&make_summary::written(&fit, &made.warnings, &written));
    Ok(if misfit.is_empty() {
        Verdict::Done
    } else {
        Verdict::DoesNotFit
    })
}

/// The files that this call reads.
pub(super) fn inputs(
    jobs: &[PathBuf],
    style_folders: &[PathBuf],
    trays: &[CheckedJob],
    exporters: &[ExporterFile],
) -> Result<Inputs, CliError> {
    let mut inputs = Inputs::default();
    inputs.add("job", jobs.iter().map(PathBuf::as_path));
    let fonts = trays
        .iter()
        .filter_map(|tray| tray.job.output.paper.page().font.as_ref());
    inputs.add("font", fonts.map(Path::new));
    let styles = style_files(style_folders)?;
    inputs.add("style", styles.iter().map(PathBuf::as_path));
    inputs.add(
        "exporter",
        exporters.iter().map(|exporter| exporter.path.as_path()),
    );
    Ok(inputs)
}

/// The requested exporters, each once; without a list the default ones that exist.
pub(super) fn chosen(
    formats: &[String],
    plugins: &[PathBuf],
) -> Result<Vec<ExporterFile>, Vec<CliError>> {
    let known = exporters::find(plugins)?;
    let mut chosen: Vec<ExporterFile> = Vec::new();
    let mut errors = Vec::new();
    for name in formats {
        match exporters::named(name, &known) {
            Ok(exporter) if chosen.contains(exporter) => {}
            Ok(exporter) => chosen.push(exporter.clone()),
            Err(error) => errors.push(error),
        }
    }
    if formats.is_empty() {
        let usual = |name: &&str| {
            known
                .iter()
                .find(|exporter| exporter.name == **name)
                .cloned()
        };
        chosen.extend(DEFAULT_EXPORTERS.iter().filter_map(usual));
        if chosen.is_empty() {
            errors.push(CliError::sentence(exporters::nothing_found()));
        }
    }
    if errors.is_empty() {
        Ok(chosen)
    } else {
        Err(errors)
    }
}

/// Errors about jobs whose files would have the same name, in any exporter.
fn jobs_with_equal_stems(jobs: &[PathBuf]) -> Vec<CliError> {
    let mut first: HashMap<&OsStr, &Path> = HashMap::new();
    let mut errors = Vec::new();
    for job in jobs {
        let stem = job.file_stem().unwrap_or_default();
        match first.get(stem) {
            Some(other) => errors.push(duplicate_output(other, job, &stem.to_string_lossy())),
            None => {
                first.insert(stem, job);
            }
        }
    }
    errors
}

fn duplicate_output(one: &Path, other: &Path, name: &str) -> CliError {
    let (one, other) = (one.display(), other.display());
    CliError::sentence(format_args!(
        "{one} and {other} would write files of one name, `{name}`: rename a job, or make them in two calls with two folders"
    ))
}

/// Files that exist in memory only.
#[derive(Default)]
pub(super) struct Made<'a> {
    /// Name and content.
    pub(super) files: Vec<(String, Vec<u8>)>,
    /// The job of each name.
    jobs: HashMap<String, &'a Path>,
    /// Warnings of the exporters for the maker.
    pub(super) warnings: Vec<String>,
}

/// One child per exporter serves the trays one after the other. An exporter that failed gets no further trays, but the
/// others do, so that all failures are reported at once.
pub(super) fn export_all<'a>(
    trays: &[&'a CheckedJob],
    exporters: &[ExporterFile],
    time_limit: Duration,
) -> Result<Made<'a>, Vec<CliError>> {
    let mut made = Made::default();
    let mut errors = Vec::new();
    let documents = trays.iter().filter_map(|tray| tray.tray.as_ref().ok());
    let documents: Vec<Vec<u8>> = documents
        .map(|tray| wire::encode(&tray.finish().document()))
        .collect();
    for exporter in exporters {
        let outcome = export_with(exporter, trays, &documents, time_limit, &mut made);
        errors.extend(outcome.err());
    }
    if errors.is_empty() {
        Ok(made)
    } else {
        Err(errors)
    }
}

fn export_with<'a>(
    exporter: &ExporterFile,
    trays: &[&'a CheckedJob],
    documents: &[Vec<u8>],
    time_limit: Duration,
    made: &mut Made<'a>,
) -> Result<(), CliError> {
    let failed = |cause| ExporterError::new(exporter, cause);
    let mut running = Running::start(exporter, time_limit).map_err(failed)?;
    for (tray, document) in trays.iter().zip(documents) {
        let exported = running
            .export(document)
            .map_err(|cause| failed(cause).on(&tray.path))?;
        for file in exported.files {
            made.take(tray, file)?;
        }
        let name = &exporter.name;
        let told = exported
            .warnings
            .iter()
            .map(|words| format!("{} ({name}): {words}", tray.path));
        made.warnings.extend(told);
    }
    running.finish().map_err(|cause| failed(cause).into())
}

impl<'a> Made<'a> {
    /// `write_files` detects two exporters with one file name; this reports two jobs with one.
    fn take(&mut self, tray: &'a CheckedJob, file: File) -> Result<(), CliError> {
        let job = Path::new(&tray.path);
        let name = format!("{}{}", stem_of(job)?, file.suffix);
        if let Some(other) = self
            .jobs
            .insert(name.clone(), job)
            .filter(|other| *other != job)
        {
            return Err(duplicate_output(other, job, &name));
        }
        self.files.push((name, file.bytes));
        Ok(())
    }
}

pub(super) fn stem_of(job: &Path) -> Result<&str, CliError> {
    let path = job.display();
    let nameless = || {
        CliError::sentence(format_args!(
            "the job {path} has no name to call its files by"
        ))
    };
    job.file_stem().and_then(OsStr::to_str).ok_or_else(nameless)
}
