//! `check`: whether the trays fit; writes no files.
//!
//! Reports on every job that can be checked, in words or in JSON, and all errors of the others and of pages that `make`
//! could not print. JSON is complete or
//! absent, so that a script never takes half a list for the whole. An explanation of a finding comes last, or alone.

mod pages;
mod vary;

use traywright_job::checked_job::{CheckedJob, Checker};
use traywright_job::explain::explanation;
use traywright_job::report::json;
use traywright_job::report::text::{Detail, one};

use crate::Verdict;
use crate::args::{CheckArguments, GlobalOptions, ReportFormat};
use crate::check_jobs::{Fixes, check_each};
use crate::error::CliError;
use crate::exporter_pool::ExporterPool;
use crate::report::Output;
use crate::report::progress::Progress;
use crate::style_folders::styles;

/// Reports on trays.
pub(crate) fn run(
    asked: &CheckArguments,
    everywhere: &GlobalOptions,
    output: &Output,
) -> Result<Verdict, Vec<CliError>> {
    if !asked.vary.is_empty() {
        return vary::run(asked, everywhere, output);
    }
    if asked.format == ReportFormat::Csv {
        let words = "`--format csv` is the table of a comparison: add `--vary PLACE=VALUES`";
        return Err(CliError::sentence(words).into());
    }
    let explained = explained(asked, everywhere)?;
    if asked.jobs.is_empty() {
        output.print_result(&explained)?;
        return Ok(Verdict::Done);
    }
    let styles = styles(&everywhere.styles)?;
    let checker = Checker::new(&styles);
    let printing = pages::printing(&asked.formats, &everywhere.plugins)?;
    let pool = ExporterPool::new(&printing, asked.patience.exporter_seconds);
    let report = |_, checked: CheckedJob| Reported {
        words: words(asked, &checked),
        fits: checked.fits(),
        page_errors: pages::errors(&checked, &pool),
    };
    let progress = Progress::new(asked.jobs.len(), *output);
    let mut told = Told::default();
    check_each(&asked.jobs, &checker, Fixes::Try, report, |checked| {
        progress.step();
        match checked {
            Ok(reported) => told.take(reported, asked.format, &progress),
            Err(errors) => told.errors.extend(errors),
        }
    });
    drop(progress);
    told.errors
        .extend(pool.finish().into_iter().map(CliError::from));
    told.end(asked, &explained, output)
}

/// What is told of one job.
struct Reported {
    words: String,
    fits: bool,
    /// Why its pages cannot be printed.
    page_errors: Vec<CliError>,
}

/// What has been told of the jobs so far.
#[derive(Default)]
struct Told {
    errors: Vec<CliError>,
    misfits: usize,
    /// Reports in words that have been printed.
    printed: usize,
    /// Reports in JSON.
    objects: Vec<String>,
    /// Why a report could not be printed.
    not_printed: Option<CliError>,
}

impl Told {
    /// Prints a report in words at once, and keeps one in JSON until all are there.
    fn take(&mut self, reported: Reported, format: ReportFormat, progress: &Progress) {
        let words = reported.words;
        self.misfits += usize::from(!reported.fits);
        self.errors.extend(reported.page_errors);
        if format == ReportFormat::Json {
            self.objects.push(words);
        } else if self.not_printed.is_none() {
            let gap = if self.printed > 0 { "\n" } else { "" };
            self.not_printed = progress.result(&format!("{gap}{words}")).err();
            self.printed += 1;
        }
    }

    fn end(
        self,
        asked: &CheckArguments,
        explained: &str,
        output: &Output,
    ) -> Result<Verdict, Vec<CliError>> {
        if let Some(error) = self.not_printed {
            return Err(error.into());
        }
        match asked.format {
            ReportFormat::Json if self.errors.is_empty() => {
                output.print_result(&json::together(&self.objects, asked.jobs.len() > 1))?;
            }
            ReportFormat::Text if !explained.is_empty() => {
                let gap = if self.printed > 0 { "\n" } else { "" };
                output.print_result(&format!("{gap}{explained}"))?;
            }
            _ => {}
        }
        match (self.errors.is_empty(), self.misfits) {
            (false, _) => Err(self.errors),
            (true, 0) => Ok(Verdict::Done),
            (true, _) => Ok(Verdict::DoesNotFit),
        }
    }
}

/// The report on one job.
fn words(asked: &CheckArguments, checked: &CheckedJob) -> String {
    let detail = if asked.all {
        Detail::All
    } else {
        Detail::Short
    };
    match asked.format {
        ReportFormat::Json => json::object(checked),
        ReportFormat::Text | ReportFormat::Csv => one(checked, detail, asked.jobs.len() == 1),
    }
}

/// The explanation that was asked for, or an empty text.
///
/// # Refuses
/// An unknown code, and an explanation in JSON, before any job is read.
fn explained(asked: &CheckArguments, everywhere: &GlobalOptions) -> Result<String, Vec<CliError>> {
    match &asked.explain {
        None => Ok(String::new()),
        Some(_) if asked.format == ReportFormat::Json => Err(CliError::sentence(
            "an explanation is for people: leave out `--explain` or `--format json`",
        )
        .into()),
        Some(code) => explanation(code, &styles(&everywhere.styles)?).map_err(CliError::inputs),
    }
}
