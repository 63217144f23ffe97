//! `fix`: the fixes of a job, or the job with one of them.
//!
//! **Input:** a job file, and perhaps the number of a fix and a new file. **Output:** a list of fixes that were tried; with
//! a number the changed job, its comments kept, on standard output or in the new file. **Errors:** a number that the list
//! does not have, and a file that is there already.

use std::path::Path;

use traywright_engine::Finding;
use traywright_job::checked_job::CheckedJob;
use traywright_job::job_file::changed;
use traywright_job::report::fixes::list;

use crate::Verdict;
use crate::args::{FixArguments, GlobalOptions};
use crate::check_jobs::{Fixes, check_jobs};
use crate::error::CliError;
use crate::new_file::{there_already, write_new};
use crate::report::Output;

/// Lists the fixes of a job, or writes it with one.
pub(crate) fn run(
    asked: &FixArguments,
    everywhere: &GlobalOptions,
    output: &Output,
) -> Result<Verdict, Vec<CliError>> {
    if let Some(into) = asked
        .into
        .as_deref()
        .filter(|into| into.symlink_metadata().is_ok())
    {
        return Err(there_already(&into.display().to_string(), "fix").into());
    }
    let jobs = std::slice::from_ref(&asked.job);
    let mut checked = check_jobs(jobs, &everywhere.styles, Fixes::Try)?;
    let Some(job) = checked.trays.pop() else {
        return Err(checked.errors);
    };
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

/// Nothing to fix is done; a job that no fix was found for is not.
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
    match &asked.into {
        None => output.print_result(&text)?,
        Some(into) => {
            write_new(into, &text, "fix")?;
            output.print_info(&format!("wrote {}\n{}", into.display(), next(into)));
        }
    }
    Ok(Verdict::Done)
}

fn next(into: &Path) -> String {
    format!("next: traywright check {}\n", into.display())
}
