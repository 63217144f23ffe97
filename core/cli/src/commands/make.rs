//! `make`: all files of the call, or none.
//!
//! Checks and exports the jobs over all cores, stores the files aside, and only then moves all files together into
//! place. After any error the folder is unchanged.

mod batch;
mod one_job;
mod watch;

use std::collections::HashMap;
use std::ffi::OsStr;
use std::path::{Path, PathBuf};
use std::time::Duration;

use traywright_engine::CheckedTray;
use traywright_job::checked_job::{CheckedJob, Checker};

use crate::Verdict;
use crate::args::{GlobalOptions, MakeArguments};
use crate::error::CliError;
use crate::exporter_file::ExporterFile;
use crate::exporter_pool::{EncodedDocument, ExporterPool};
use crate::exporters;
use crate::inputs::Inputs;
use crate::interrupt;
use crate::report::Output;
use crate::style_folders::{style_files, styles};
use batch::Batch;

/// The exporters used if no list is given, as far as they exist.
// Source: core/CONTRACT.md, "Commands".
const DEFAULT_EXPORTERS: [&str; 4] = ["svg", "pdf", "dxf", "booklet"];

/// The exporters of this program that do not read the step for drawing by hand; any other one may.
const WITHOUT_HAND_STEP: [&str; 6] = ["svg", "pdf", "dxf", "fold", "html", "solid"];

/// Makes the files of trays.
pub(crate) fn run(
    asked: &MakeArguments,
    everywhere: &GlobalOptions,
    output: &Output,
) -> Result<Verdict, Vec<CliError>> {
    if asked.watch {
        return watch::run(asked, everywhere, output);
    }
    interrupt::listen(|| {});
    let styles = styles(&everywhere.styles)?;
    let (exporters, missing) = match chosen(&asked.files.formats, &everywhere.plugins) {
        Ok(exporters) => (exporters, Vec::new()),
        Err(errors) => (Vec::new(), errors),
    };
    let pool = ExporterPool::new(&exporters, asked.files.patience.exporter_seconds);
    pool.warm_up();
    let checker = Checker::new(&styles);
    let mut batch = Batch::new(asked, &everywhere.styles, &checker, &pool, *output);
    batch.run(missing, || pool.finish())
}

/// The files that this call reads.
pub(super) fn inputs(
    jobs: &[PathBuf],
    style_folders: &[PathBuf],
    trays: &[CheckedJob],
    exporters: &[ExporterFile],
) -> Result<Inputs, CliError> {
    let fonts: Vec<PathBuf> = trays.iter().filter_map(font_of).collect();
    inputs_with(jobs, style_folders, &fonts, exporters)
}

/// The file of a job's own font.
fn font_of(tray: &CheckedJob) -> Option<PathBuf> {
    let font = tray.job.output.paper.page().font.as_ref();
    font.map(PathBuf::from)
}

fn inputs_with(
    jobs: &[PathBuf],
    style_folders: &[PathBuf],
    fonts: &[PathBuf],
    exporters: &[ExporterFile],
) -> Result<Inputs, CliError> {
    let mut inputs = Inputs::default();
    inputs.add("job", jobs.iter().map(PathBuf::as_path));
    inputs.add("font", fonts.iter().map(PathBuf::as_path));
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
pub(super) fn jobs_with_equal_stems(jobs: &[PathBuf]) -> Vec<CliError> {
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
#[derive(Debug, Default)]
pub(super) struct Made {
    /// Name and content.
    pub(super) files: Vec<(String, Vec<u8>)>,
    /// Warnings of the exporters for the maker.
    pub(super) warnings: Vec<String>,
}

/// A document for exporters.
#[derive(Debug)]
pub(super) struct NamedDocument {
    /// What messages call it.
    pub(super) label: String,
    /// What its files are called, without their suffix.
    pub(super) stem: String,
    /// The document itself.
    pub(super) document: EncodedDocument,
}

/// The files of a few trays, in memory. All failures are reported at once.
pub(super) fn export_all(
    trays: &[&CheckedJob],
    exporters: &[ExporterFile],
    time_limit: Duration,
) -> Result<Made, Vec<CliError>> {
    let fitting = trays
        .iter()
        .filter_map(|tray| Some((tray, tray.tray.as_ref().ok()?)));
    let named = fitting.map(|(tray, fitting)| {
        Ok(NamedDocument {
            label: tray.path.clone(),
            stem: stem_of(Path::new(&tray.path))?.to_owned(),
            document: encoded(fitting, exporters),
        })
    });
    let documents = named.collect::<Result<Vec<_>, CliError>>()?;
    export_documents(&documents, exporters, time_limit)
}

/// The files of a few documents, in memory. All failures are reported at once.
pub(super) fn export_documents(
    documents: &[NamedDocument],
    exporters: &[ExporterFile],
    time_limit: Duration,
) -> Result<Made, Vec<CliError>> {
    let pool = ExporterPool::new(exporters, time_limit);
    pool.warm_up();
    let mut made = Made::default();
    let mut errors: Vec<CliError> = Vec::new();
    for NamedDocument {
        label,
        stem,
        document,
    } in documents
    {
        let exported = pool.each(|exporter| pool.export(exporter, document));
        for (exporter, exported) in exporters.iter().zip(exported) {
            match exported {
                Ok(exported) => {
                    let files = exported.files.into_iter();
                    let named = files.map(|file| (format!("{stem}{}", file.suffix), file.bytes));
                    made.files.extend(named);
                    let warnings = exported.warnings.iter();
                    made.warnings
                        .extend(warnings.map(|words| warning(label, exporter, words)));
                }
                Err(error) => errors.push(error.on(label).into()),
            }
        }
    }
    if errors.is_empty() {
        errors.extend(pool.finish().into_iter().map(CliError::from));
    }
    match errors.is_empty() {
        true => Ok(made),
        false => Err(errors),
    }
}

/// The bytes of a tray's document, which all its exporters read. The step for drawing by hand is left out if no
/// exporter reads it, because its search takes longer than a drawing.
pub(super) fn encoded(tray: &CheckedTray, exporters: &[ExporterFile]) -> EncodedDocument {
    let reads_it = |exporter: &ExporterFile| !WITHOUT_HAND_STEP.contains(&exporter.name.as_str());
    let document = match exporters.iter().any(reads_it) {
        true => tray.finish().document(),
        false => tray.unrounded().document(),
    };
    EncodedDocument::from(&document)
}

/// A warning of an exporter, with the job that it is about.
fn warning(job: &str, exporter: &ExporterFile, words: &str) -> String {
    format!("{job} ({}): {words}", exporter.name)
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
