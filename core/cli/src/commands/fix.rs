//! `fix`: the fixes of a job, or the job with one of them, or with corrections from its first tray.
//!
//! **Input:** a job file; optionally the number of a fix or how tight or loose the first tray was, and a new file.
//! **Output:** a list of tried fixes; or the changed job, its comments kept, on standard output or in the new file.
//! **Errors:** a number that is not in the list, a clearance below 0, and a file that exists.

use std::path::Path;

use traywright_engine::Finding;
use traywright_job::checked_job::CheckedJob;
use traywright_job::job_file::changed;
use traywright_job::refit::{self, Way};
use traywright_job::report::{self, fixes::list};

use crate::Verdict;
use crate::args::{FixArguments, GlobalOptions};
use crate::check_jobs::{Fixes, check_job, check_text};
use crate::error::CliError;
use crate::new_file::{can_be_written, write_new};
use crate::report::Output;

/// Lists the fixes of a job, or writes it with one.
pub(crate) fn run(
    asked: &FixArguments,
    everywhere: &GlobalOptions,
    output: &Output,
) -> Result<Verdict, Vec<CliError>> {
    if let Some(into) = &asked.into {
        can_be_written(into, "fix")?;
    }
    let job = check_job(&asked.job, &everywhere.styles, Fixes::Try)?;
    if !asked.tight.is_empty() || !asked.loose.is_empty() {
        return refit_job(asked, &job, everywhere, output);
    }
    match asked.take {
        None => {
            output.print_result(&list(&job))?;
            Ok(verdict(&job))
        }
        Some(_) if job.fixes.is_empty() => {
            output.print_info(&list(&job));
            Ok(verdict(&job))
        }
        Some(number) => take(asked, &job, number, output),
    }
}

/// A job without anything to fix is done; a job for which no fix was found is not.
fn verdict(job: &CheckedJob) -> Verdict {
    let needs_a_look = job.report().findings.iter().any(Finding::needs_a_look);
    match !needs_a_look || !job.fixes.is_empty() {
        true => Verdict::Done,
        false => Verdict::DoesNotFit,
    }
}

fn take(
    asked: &FixArguments,
    job: &CheckedJob,
    number: usize,
    output: &Output,
) -> Result<Verdict, Vec<CliError>> {
    let fix = number.checked_sub(1).and_then(|at| job.fixes.get(at));
    let Some(fix) = fix else {
        let numbers = match job.fixes.len() {
            1 => "there is one, number 1".to_owned(),
            count => format!("they are 1 to {count}"),
        };
        let path = asked.job.display();
        return Err(
            CliError::sentence(format_args!("{path} has no fix {number}: {numbers}")).into(),
        );
    };
    let text = changed(&job.text, &fix.changes).expect("a fix was tried on this text");
    hand_out(asked, &text, output)
}

/// The job with corrections from its first tray, if the corrected tray fits too.
fn refit_job(
    asked: &FixArguments,
    job: &CheckedJob,
    everywhere: &GlobalOptions,
    output: &Output,
) -> Result<Verdict, Vec<CliError>> {
    let tight = asked.tight.iter().map(|reading| (Way::Tight, *reading));
    let loose = asked.loose.iter().map(|reading| (Way::Loose, *reading));
    let readings: Vec<_> = tight.chain(loose).collect();
    let changes = refit::changes(&job.job, &readings)
        .map_err(|words| CliError::sentence(format_args!("{}: {words}", job.path)))?;
    let Some(text) = changed(&job.text, &changes) else {
        let path = &job.path;
        let words =
            format!("{path}: the line `fit` cannot be changed: write the new clearance by hand");
        return Err(CliError::sentence(words).into());
    };
    let refitted = check_text(&asked.job, &text, &everywhere.styles, Fixes::OfRefused)?;
    if !refitted.fits() {
        output.finding(&report::text::refusal(&refitted));
        output.print_info("Nothing was written.\n");
        return Ok(Verdict::DoesNotFit);
    }
    output.print_info(&report::text::verdict(&refitted));
    hand_out(asked, &text, output)
}

/// Writes the changed job into the new file, or prints it.
fn hand_out(asked: &FixArguments, text: &str, output: &Output) -> Result<Verdict, Vec<CliError>> {
    match &asked.into {
        None => output.print_result(text)?,
        Some(into) => {
            write_new(into, text, "fix", *output)?;
            output.print_info(&format!("Wrote {}.\n{}", into.display(), next(into)));
        }
    }
    Ok(Verdict::Done)
}

fn next(into: &Path) -> String {
    format!("Next: traywright check {}\n", into.display())
}
