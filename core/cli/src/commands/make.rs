//! `make`: all files of the call, or none.
//!
//! Given job files and the names of exporters, it judges every tray, lets the exporters make their files in memory, and
//! only then delivers them together. Whatever goes wrong, the folder stays as it was.

use std::collections::HashMap;
use std::ffi::OsStr;
use std::path::{Path, PathBuf};
use std::time::Duration;

use traywright_document::door::File;
use traywright_document::wire;

use crate::Verdict;
use crate::args::{Everywhere, MakeArguments};
use crate::delivery::deliver;
use crate::exporter_host::Running;
use crate::exporters::{self, ExporterFile};
use crate::judgement::{Judgement, judge};
use crate::report::{Voice, outcome, text};
use crate::trouble::Trouble;

/// What is written when no list is given, as far as it exists.
// Source: the contract, "Commands".
const USUAL: [&str; 4] = ["svg", "pdf", "dxf", "booklet"];

/// Makes the files of trays.
pub(crate) fn run(
    asked: &MakeArguments,
    everywhere: &Everywhere,
    voice: &Voice,
) -> Result<Verdict, Vec<Trouble>> {
    let mut judged = judge(&asked.jobs, &everywhere.styles)?;
    judged.troubles.extend(twins(&asked.jobs));
    let exporters = match chosen(&asked.formats, &everywhere.plugins) {
        Ok(exporters) => exporters,
        Err(troubles) => {
            judged.troubles.extend(troubles);
            Vec::new()
        }
    };
    let (fit, misfit): (Vec<_>, Vec<_>) = judged.trays.iter().partition(|tray| tray.fits());
    for tray in &misfit {
        voice.finding(&text::refusal(tray));
    }
    if !judged.troubles.is_empty() {
        return Err(judged.troubles);
    }
    if fit.is_empty() || !misfit.is_empty() && !asked.keep_going {
        voice.remark(&outcome::nothing_written(&fit));
        return Ok(Verdict::DoesNotFit);
    }
    let made = export_all(&fit, &exporters, asked.patience.exporter_seconds)?;
    let into = asked.into.as_deref().unwrap_or(Path::new(""));
    let written = deliver(into, made.files)?;
    voice.remark(&outcome::written(&fit, &made.warnings, &written));
    Ok(if misfit.is_empty() {
        Verdict::Done
    } else {
        Verdict::DoesNotFit
    })
}

/// The exporters asked for, each once; without a list the usual ones that exist.
fn chosen(formats: &[String], plugins: &[PathBuf]) -> Result<Vec<ExporterFile>, Vec<Trouble>> {
    let known = exporters::find(plugins)?;
    let mut chosen: Vec<ExporterFile> = Vec::new();
    let mut troubles = Vec::new();
    for name in formats {
        match exporters::named(name, &known) {
            Ok(exporter) if chosen.contains(exporter) => {}
            Ok(exporter) => chosen.push(exporter.clone()),
            Err(trouble) => troubles.push(trouble),
        }
    }
    if formats.is_empty() {
        let usual = |name: &&str| {
            known
                .iter()
                .find(|exporter| exporter.name == **name)
                .cloned()
        };
        chosen.extend(USUAL.iter().filter_map(usual));
        if chosen.is_empty() {
            troubles.push(Trouble::sentence(exporters::nothing_found()));
        }
    }
    if troubles.is_empty() {
        Ok(chosen)
    } else {
        Err(troubles)
    }
}

/// Jobs whose files would have one name, whatever the exporters.
fn twins(jobs: &[PathBuf]) -> Vec<Trouble> {
    let mut first: HashMap<&OsStr, &Path> = HashMap::new();
    let mut troubles = Vec::new();
    for job in jobs {
        let stem = job.file_stem().unwrap_or_default();
        match first.get(stem) {
            Some(other) => troubles.push(one_name(other, job, &stem.to_string_lossy())),
            None => {
                first.insert(stem, job);
            }
        }
    }
    troubles
}

fn one_name(one: &Path, other: &Path, name: &str) -> Trouble {
    let (one, other) = (one.display(), other.display());
    Trouble::sentence(format_args!(
        "{one} and {other} would write files of one name, `{name}`: rename a job, or make them in two calls with two folders"
    ))
}

/// Files that exist in memory only.
#[derive(Default)]
struct Made<'a> {
    /// Name and content.
    files: Vec<(String, Vec<u8>)>,
    /// The job of each name.
    jobs: HashMap<String, &'a Path>,
    /// What the exporters want the maker to know.
    warnings: Vec<String>,
}

/// One child an exporter serves the trays one after the other. An exporter that failed is not asked again, but the
/// others are, so that all failures are told at once.
fn export_all<'a>(
    trays: &[&'a Judgement],
    exporters: &[ExporterFile],
    time_limit: Duration,
) -> Result<Made<'a>, Vec<Trouble>> {
    let mut made = Made::default();
    let mut troubles = Vec::new();
    let documents = trays.iter().filter_map(|tray| tray.tray.as_ref().ok());
    let documents: Vec<Vec<u8>> = documents
        .map(|tray| wire::encode(&tray.document()))
        .collect();
    for exporter in exporters {
        let outcome = export_with(exporter, trays, &documents, time_limit, &mut made);
        troubles.extend(outcome.err());
    }
    if troubles.is_empty() {
        Ok(made)
    } else {
        Err(troubles)
    }
}

fn export_with<'a>(
    exporter: &ExporterFile,
    trays: &[&'a Judgement],
    documents: &[Vec<u8>],
    time_limit: Duration,
    made: &mut Made<'a>,
) -> Result<(), Trouble> {
    let mut running = Running::start(exporter, time_limit)?;
    for (tray, document) in trays.iter().zip(documents) {
        let exported = running
            .export(document)
            .map_err(|trouble| about(tray, trouble))?;
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
    running.finish()
}

impl<'a> Made<'a> {
    /// Two exporters that make one file are found by the delivery; two jobs that do are named here.
    fn take(&mut self, tray: &'a Judgement, file: File) -> Result<(), Trouble> {
        let job = Path::new(&tray.path);
        let name = format!("{}{}", stem_of(job)?, file.suffix);
        if let Some(other) = self
            .jobs
            .insert(name.clone(), job)
            .filter(|other| *other != job)
        {
            return Err(one_name(other, job, &name));
        }
        self.files.push((name, file.bytes));
        Ok(())
    }
}

fn stem_of(job: &Path) -> Result<&str, Trouble> {
    let path = job.display();
    let nameless = || {
        Trouble::sentence(format_args!(
            "the job {path} has no name to call its files by"
        ))
    };
    job.file_stem().and_then(OsStr::to_str).ok_or_else(nameless)
}

/// A failed exporter is named already; the job that it failed on is added.
fn about(tray: &Judgement, trouble: Trouble) -> Trouble {
    match trouble {
        Trouble::Sentence(words) => Trouble::sentence(format_args!("{}: {words}", tray.path)),
        text => text,
    }
}
