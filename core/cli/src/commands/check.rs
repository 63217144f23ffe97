//! `check`: whether the trays fit; writes no files.
//!
//! Reports on every job that can be checked, in words or in JSON, and all errors of the others. JSON is complete or
//! absent, so that a script never takes half a list for the whole. An explanation of a finding comes last, or alone.

use traywright_job::explain::explanation;
use traywright_job::report::text::Detail;
use traywright_job::report::{json, text};

use crate::Verdict;
use crate::args::{CheckArguments, GlobalOptions, ReportFormat};
use crate::check_jobs::{Fixes, check_jobs};
use crate::error::CliError;
use crate::report::Output;
use crate::style_folders::styles;

/// Reports on trays.
pub(crate) fn run(
    asked: &CheckArguments,
    everywhere: &GlobalOptions,
    output: &Output,
) -> Result<Verdict, Vec<CliError>> {
    let explained = explained(asked, everywhere)?;
    if asked.jobs.is_empty() {
        output.print_result(&explained)?;
        return Ok(Verdict::Done);
    }
    let judged = check_jobs(&asked.jobs, &everywhere.styles, Fixes::Try)?;
    match asked.format {
        ReportFormat::Text => {
            let detail = if asked.all {
                Detail::All
            } else {
                Detail::Short
            };
            let mut blocks = text::blocks(&judged.trays, detail);
            if !blocks.is_empty() && !explained.is_empty() {
                blocks.push('\n');
            }
            output.print_result(&(blocks + &explained))?;
        }
        ReportFormat::Json if judged.errors.is_empty() => {
            output.print_result(&json::answer(&judged.trays, asked.jobs.len() > 1))?;
        }
        ReportFormat::Json => {}
    }
    match (judged.errors.is_empty(), judged.all_fit()) {
        (false, _) => Err(judged.errors),
        (true, true) => Ok(Verdict::Done),
        (true, false) => Ok(Verdict::DoesNotFit),
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
