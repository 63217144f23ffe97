//! One job of a call: checked, exported with every exporter side by side, its files stored aside.
//!
//! **Input:** a checked job. **Output:** what the end of the call needs of it, and no more, so that a call may have
//! thousands of jobs. **Does not** move a file into place or print.

use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicBool, AtomicUsize, Ordering};

use traywright_job::checked_job::CheckedJob;
use traywright_job::report::text;

use super::{encoded, font_of, stem_of, warning};
use crate::error::CliError;
use crate::exporter_host::ExporterError;
use crate::exporter_pool::{EncodedDocument, ExporterPool};
use crate::interrupt;
use crate::report::make_summary::TrayNotes;
use crate::report::make_table::TableRow;
use crate::report::progress::Progress;
use crate::write_files::{Delivery, StoredFile};

/// A job that was checked, and exported if it fits.
pub(super) struct JobEnd {
    pub(super) row: TableRow,
    pub(super) font: Option<PathBuf>,
    pub(super) end: End,
}

/// What became of a job.
pub(super) enum End {
    /// Its tray does not fit; carries the reasons in words.
    Misfit(String),
    /// Its tray fits; carries what each exporter gave, or a file that cannot be stored.
    Fits(Box<TrayNotes>, Vec<Result<Export, CliError>>),
}

/// What an exporter gave for a job.
pub(super) enum Export {
    /// Files, and warnings for the maker.
    Files(Vec<StoredFile>, Vec<String>),
    /// A failure of the exporter.
    Failed(ExporterError),
    /// Nothing, because the call writes nothing any more.
    Skipped,
}

/// What the jobs of a call share while they are made.
pub(super) struct Making<'a> {
    pub(super) pool: &'a ExporterPool<'a>,
    pub(super) delivery: Delivery,
    pub(super) progress: Progress,
    keep_going: bool,
    /// Whether the call may still write files.
    writes: AtomicBool,
    /// The first job of the call, by its number, on which each exporter failed.
    failed: Vec<AtomicUsize>,
}

impl<'a> Making<'a> {
    pub(super) fn new(
        pool: &'a ExporterPool<'a>,
        delivery: Delivery,
        progress: Progress,
        keep_going: bool,
    ) -> Self {
        let none = |_| AtomicUsize::new(usize::MAX);
        Making {
            pool,
            delivery,
            progress,
            keep_going,
            writes: AtomicBool::new(true),
            failed: pool.exporters().iter().map(none).collect(),
        }
    }

    /// Nothing will be written; jobs are only checked from now on.
    pub(super) fn write_nothing(&self) {
        self.writes.store(false, Ordering::Relaxed);
    }

    /// Exports a checked job, the one with this number in the call.
    pub(super) fn job(&self, number: usize, checked: &CheckedJob) -> JobEnd {
        let end = match &checked.tray {
            Err(_) => {
                if !self.keep_going {
                    self.write_nothing();
                }
                End::Misfit(text::refusal(checked))
            }
            Ok(tray) if self.goes_on() && !self.failed.is_empty() => {
                let document = encoded(tray, self.pool.exporters());
                let export = |exporter| self.export(exporter, number, checked, &document);
                End::Fits(Box::new(TrayNotes::of(checked)), self.pool.each(export))
            }
            Ok(_) => {
                let skipped = self.failed.iter().map(|_| Ok(Export::Skipped));
                End::Fits(Box::new(TrayNotes::of(checked)), skipped.collect())
            }
        };
        JobEnd {
            row: TableRow::of(checked),
            font: font_of(checked),
            end,
        }
    }

    fn goes_on(&self) -> bool {
        self.writes.load(Ordering::Relaxed) && !interrupt::asked()
    }

    fn export(
        &self,
        exporter: usize,
        number: usize,
        checked: &CheckedJob,
        document: &EncodedDocument,
    ) -> Result<Export, CliError> {
        // One that failed on an earlier job ends the call. Jobs before that one still need it, so that the failure on
        // the first of them is reported, whatever the number of cores.
        let hopeless = self.failed[exporter].load(Ordering::Relaxed) < number;
        if !self.goes_on() || hopeless && !self.keep_going {
            return Ok(Export::Skipped);
        }
        let (path, file) = (&checked.path, &self.pool.exporters()[exporter]);
        self.progress.making(&format!("{path}: {}", file.name));
        let exported = match self.pool.export(exporter, document) {
            Ok(exported) => exported,
            Err(error) => {
                self.failed[exporter].fetch_min(number, Ordering::Relaxed);
                return Ok(Export::Failed(error.on(path)));
            }
        };
        let store = || -> Result<Vec<StoredFile>, CliError> {
            let stem = stem_of(Path::new(path))?;
            let stored = exported.files.iter().map(|file| {
                let name = format!("{stem}{}", file.suffix);
                self.delivery.store(Path::new(&name), &file.bytes)
            });
            stored.collect()
        };
        match store() {
            Ok(files) => {
                let warnings = exported.warnings.iter();
                let warnings = warnings.map(|words| warning(path, file, words));
                Ok(Export::Files(files, warnings.collect()))
            }
            Err(error) => {
                self.write_nothing();
                Err(error)
            }
        }
    }
}
