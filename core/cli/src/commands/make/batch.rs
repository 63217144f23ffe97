//! The jobs of a call, made together: all files, or none.
//!
//! **Input:** the jobs of the call. **Output:** a verdict; the files in place; refusals, summary and table in the order
//! of the call. With one core or many the words and the files are the same.

use std::collections::HashMap;
use std::path::{Path, PathBuf};

use traywright_job::checked_job::Checker;

use super::one_job::{End, Export, Making};
use super::{duplicate_output, inputs_with, jobs_with_equal_stems};
use crate::Verdict;
use crate::args::MakeArguments;
use crate::check_jobs::{Fixes, check_each};
use crate::error::CliError;
use crate::exporter_host::ExporterError;
use crate::exporter_pool::ExporterPool;
use crate::interrupt;
use crate::report::make_summary::TrayNotes;
use crate::report::make_table::TableRow;
use crate::report::progress::Progress;
use crate::report::{Output, make_summary, make_table};
use crate::write_files::{Delivery, StoredFile};

/// A call of `make`.
pub(super) struct Batch<'a> {
    asked: &'a MakeArguments,
    style_folders: &'a [PathBuf],
    checker: &'a Checker<'a>,
    pool: &'a ExporterPool<'a>,
    output: Output,
    /// The fonts that the jobs name.
    pub(super) fonts: Vec<PathBuf>,
}

/// What became of all jobs, in their order.
#[derive(Default)]
struct Gathered {
    rows: Vec<TableRow>,
    errors: Vec<CliError>,
    misfits: usize,
    trays: Vec<FittingTray>,
    /// The first file that could not be stored.
    not_stored: Option<CliError>,
}

/// A tray that fits, with what each exporter gave.
struct FittingTray {
    row: usize,
    notes: TrayNotes,
    exports: Vec<Export>,
}

impl<'a> Batch<'a> {
    pub(super) fn new(
        asked: &'a MakeArguments,
        style_folders: &'a [PathBuf],
        checker: &'a Checker<'a>,
        pool: &'a ExporterPool<'a>,
        output: Output,
    ) -> Self {
        Batch {
            asked,
            style_folders,
            checker,
            pool,
            output,
            fonts: Vec::new(),
        }
    }

    /// Makes all files. `missing` are the errors of exporters that were not found; `finish` ends the children before
    /// anything is moved into place, if this is the end of their work.
    pub(super) fn run(
        &mut self,
        missing: Vec<CliError>,
        finish: impl FnOnce() -> Vec<ExporterError>,
    ) -> Result<Verdict, Vec<CliError>> {
        let asked = self.asked;
        let into = asked.files.folder();
        let progress = Progress::new(asked.jobs.len(), self.output);
        let making = Making::new(
            self.pool,
            Delivery::new(into, self.output),
            progress,
            asked.keep_going,
        );
        let mut gathered = self.gather(&making);
        let Making {
            delivery, progress, ..
        } = making;
        drop(progress);
        if interrupt::asked() {
            return Err(CliError::sentence("the call was stopped, and nothing was written").into());
        }
        gathered.errors.extend(jobs_with_equal_stems(&asked.jobs));
        gathered.errors.extend(missing);
        if !gathered.errors.is_empty() {
            return Err(gathered.errors);
        }
        if gathered.trays.is_empty() || gathered.misfits > 0 && !asked.keep_going {
            let words = make_summary::nothing_written(gathered.trays.len());
            self.output.print_info(&words);
            self.print_table(&gathered.rows);
            return Ok(Verdict::DoesNotFit);
        }
        if let Some(error) = gathered.not_stored {
            return Err(error.into());
        }
        let failures = gathered.take_failures(asked.keep_going, self.pool.exporters().len());
        if !failures.is_empty() && !asked.keep_going {
            return Err(failures);
        }
        let late = finish();
        if !late.is_empty() {
            return Err(late.into_iter().map(CliError::from).collect());
        }
        self.deliver(delivery, &mut gathered, &failures)
    }

    /// Checks and exports all jobs over all cores.
    fn gather(&mut self, making: &Making<'_>) -> Gathered {
        let mut gathered = Gathered::default();
        let jobs = &self.asked.jobs;
        let tell = |number, checked| making.job(number, &checked);
        check_each(jobs, self.checker, Fixes::OfRefused, tell, |end| {
            making.progress.step();
            match end {
                Err(errors) => {
                    making.write_nothing();
                    gathered.errors.extend(errors);
                }
                Ok(job) => {
                    self.fonts.extend(job.font);
                    match job.end {
                        End::Misfit(words) => {
                            making.progress.finding(&words);
                            gathered.misfits += 1;
                        }
                        End::Fits(notes, exports) => gathered.add(*notes, exports),
                    }
                    gathered.rows.push(job.row);
                }
            }
        });
        gathered
    }

    fn deliver(
        &self,
        delivery: Delivery,
        gathered: &mut Gathered,
        failures: &[CliError],
    ) -> Result<Verdict, Vec<CliError>> {
        let (files, warnings) = gathered.take_files(self.pool.exporters().len())?;
        let inputs = inputs_with(
            &self.asked.jobs,
            self.style_folders,
            &self.fonts,
            self.pool.exporters(),
        )?;
        let written = delivery.complete(&files, &inputs)?;
        let trays: Vec<&TrayNotes> = gathered.trays.iter().map(|tray| &tray.notes).collect();
        let words = match trays.is_empty() {
            true => make_summary::nothing_written(0),
            false => make_summary::written(&trays, &warnings, &written),
        };
        self.output.print_info(&words);
        self.output.errors(failures);
        self.print_table(&gathered.rows);
        Ok(match (failures.is_empty(), gathered.misfits) {
            (false, _) => Verdict::ErrorsTold,
            (true, 0) => Verdict::Done,
            (true, _) => Verdict::DoesNotFit,
        })
    }

    fn print_table(&self, rows: &[TableRow]) {
        if self.asked.keep_going {
            self.output.print_info(&make_table::of(rows));
        }
    }
}

impl Gathered {
    /// Takes a tray that fits, whose row comes next.
    fn add(&mut self, notes: TrayNotes, exports: Vec<Result<Export, CliError>>) {
        let exports = exports.into_iter().map(|export| {
            export.unwrap_or_else(|error| {
                self.not_stored.get_or_insert(error);
                Export::Skipped
            })
        });
        self.trays.push(FittingTray {
            row: self.rows.len(),
            notes,
            exports: exports.collect(),
        });
    }

    /// The failures of exporters. With `keep_going` those of all jobs, which are then left out; otherwise the first of
    /// each exporter.
    fn take_failures(&mut self, keep_going: bool, exporters: usize) -> Vec<CliError> {
        let mut failures = Vec::new();
        if keep_going {
            let rows = &mut self.rows;
            self.trays.retain_mut(|tray| {
                let before = failures.len();
                for export in std::mem::take(&mut tray.exports) {
                    match export {
                        Export::Failed(error) => {
                            rows[tray.row].failed(error.exporter());
                            failures.push(error.into());
                        }
                        other => tray.exports.push(other),
                    }
                }
                failures.len() == before
            });
            return failures;
        }
        for exporter in 0..exporters {
            let of_jobs = self
                .trays
                .iter_mut()
                .map(|tray| &mut tray.exports[exporter]);
            let mut failed =
                of_jobs.filter_map(|export| match std::mem::replace(export, Export::Skipped) {
                    Export::Failed(error) => Some(error.into()),
                    other => {
                        *export = other;
                        None
                    }
                });
            failures.extend(failed.next());
        }
        failures
    }

    /// All files and warnings, in the order of the exporters and then of the jobs.
    ///
    /// # Refuses
    /// Two jobs with a file of one name. `Delivery` refuses two exporters with one.
    fn take_files(&mut self, exporters: usize) -> Result<(Vec<StoredFile>, Vec<String>), CliError> {
        let (mut files, mut warnings) = (Vec::new(), Vec::new());
        let mut jobs: HashMap<String, String> = HashMap::new();
        for exporter in 0..exporters {
            for tray in &mut self.trays {
                let job = &tray.notes.path;
                match std::mem::replace(&mut tray.exports[exporter], Export::Skipped) {
                    Export::Files(stored, said) => {
                        for file in &stored {
                            let name = file.name.display().to_string();
                            let other = jobs.insert(name.clone(), job.clone());
                            if let Some(other) = other.filter(|other| other != job) {
                                let (other, job) = (Path::new(&other), Path::new(job));
                                return Err(duplicate_output(other, job, &name));
                            }
                        }
                        files.extend(stored);
                        warnings.extend(said);
                    }
                    Export::Failed(_) | Export::Skipped => {}
                }
            }
        }
        Ok((files, warnings))
    }
}
