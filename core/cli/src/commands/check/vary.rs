//! `check --vary`: variations of one job in one table.
//!
//! **Input:** a job that can be read, and the values of some of its places. **Output:** the table in words, JSON or
//! comma-separated values. **Errors:** several jobs, a place that no job has, and a value that the job does not take.

use std::path::Path;

use traywright_job::checked_job::Checker;
use traywright_job::job_file::changed;
use traywright_job::report::comparison::{self, Variant};
use traywright_job::vary::{Combination, combinations};

use crate::Verdict;
use crate::args::{CheckArguments, GlobalOptions, ReportFormat};
use crate::check_jobs::{Fixes, check_bytes, job_of};
use crate::error::CliError;
use crate::report::Output;
use crate::report::progress::Progress;
use crate::side_by_side::in_order;
use crate::style_folders::styles;

/// Compares the variations.
pub(super) fn run(
    asked: &CheckArguments,
    everywhere: &GlobalOptions,
    output: &Output,
) -> Result<Verdict, Vec<CliError>> {
    let [path] = asked.jobs.as_slice() else {
        let words = "`--vary` compares variations of one job: name one job";
        return Err(CliError::sentence(words).into());
    };
    let (bytes, job) = job_of(path)?;
    let text = String::from_utf8_lossy(&bytes);
    let refused = |words: String| CliError::sentence(format_args!("{}: {words}", path.display()));
    let all = combinations(&asked.vary, &job).map_err(refused)?;
    let styles = styles(&everywhere.styles)?;
    let checker = Checker::new(&styles);
    let progress = Progress::new(all.len(), *output);
    let (mut variants, mut first_error) = (Vec::with_capacity(all.len()), None);
    let work = |number: usize| variant(path, &text, &all[number], &checker);
    in_order(all.len(), work, |variant| {
        progress.step();
        match variant {
            Ok(variant) => variants.push(variant),
            Err(errors) => first_error = first_error.take().or(Some(errors)),
        }
    });
    drop(progress);
    if let Some(errors) = first_error {
        return Err(errors);
    }
    let words = match asked.format {
        ReportFormat::Text => comparison::text(&path.display().to_string(), &variants),
        ReportFormat::Json => comparison::json(&variants),
        ReportFormat::Csv => comparison::csv(&variants),
    };
    output.print_result(&words)?;
    match variants.iter().all(Variant::fits) {
        true => Ok(Verdict::Done),
        false => Ok(Verdict::DoesNotFit),
    }
}

fn variant(
    path: &Path,
    text: &str,
    combination: &Combination,
    checker: &Checker<'_>,
) -> Result<Variant, Vec<CliError>> {
    let refused = |words: String| CliError::sentence(format_args!("{}: {words}", path.display()));
    let Some(text) = changed(text, &combination.changes) else {
        let words = format!(
            "with {}: this cannot be written into the job",
            combination.words()
        );
        return Err(refused(words).into());
    };
    let checked = check_bytes(path, text.as_bytes(), checker, Fixes::Skip);
    let checked = checked.map_err(|errors| {
        let errors = errors.into_iter().map(|error| match error {
            CliError::Input(error) => refused(combination.refusal(&error)),
            other => other,
        });
        errors.collect::<Vec<CliError>>()
    })?;
    Ok(Variant::of(combination, &checked))
}
