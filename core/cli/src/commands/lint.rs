//! `lint`: checks style files over their whole range.
//!
//! Reports all errors in the text of each style file, then tries jobs of every size that the style takes. The result is
//! the smallest job that shows an error, as a job file, on standard output; the rest of the report goes to standard
//! error. Writes only that job, and only if a folder is named.

mod job_text;
mod search;
mod words;

use std::path::{Path, PathBuf};

use traywright_engine::{SourceError, lint};

use crate::Verdict;
use crate::args::LintArguments;
use crate::error::CliError;
use crate::inputs::Inputs;
use crate::report::Output;
use crate::style_folders::style_of;
use crate::write_files::write_all_or_nothing;
use search::Search;

/// Checks styles.
pub(crate) fn run(asked: &LintArguments, output: &Output) -> Result<Verdict, Vec<CliError>> {
    let mut verdict = Verdict::Done;
    let mut errors = Vec::new();
    let mut files = Vec::new();
    for path in &asked.files {
        match judge(path, asked, output) {
            Ok(None) => {}
            Ok(Some(job)) => {
                verdict = Verdict::DoesNotFit;
                files.push(job);
            }
            Err(error) => errors.push(error),
        }
    }
    if let (Some(into), false) = (&asked.into, files.is_empty()) {
        let mut inputs = Inputs::default();
        inputs.add("style", asked.files.iter().map(PathBuf::as_path));
        match write_all_or_nothing(into, files, &inputs, *output) {
            Ok(written) => output.print_info(&words::written(&written)),
            Err(error) => errors.push(error),
        }
    }
    if errors.is_empty() {
        Ok(verdict)
    } else {
        Err(errors)
    }
}

/// Checks one style; returns the job that shows its error, with the name of its file.
///
/// # Refuses
/// A text that is not a style, and a formula that fails in every job.
fn judge(
    path: &Path,
    asked: &LintArguments,
    output: &Output,
) -> Result<Option<(String, Vec<u8>)>, CliError> {
    let text = style_of(path)?;
    let style = lint::read(&text.name, &text.text).map_err(|faults| text.faulty(faults))?;
    let found = Search::run(&style, asked.thorough);
    if let Some(fault) = found.tally.never_works() {
        return Err(text.faulty(vec![fault.clone()]).into());
    }
    let mut odd: Vec<SourceError> = lint::unread(&style);
    if found.shown.is_none() && !found.cut_short {
        odd.extend(found.tally.never_seen(&style));
    }
    let Some(shown) = &found.shown else {
        output.print_result(&words::no_fault(&text.path, &found))?;
        output.warnings(&text.path, text.counted(), &odd);
        return Ok(None);
    };
    let job = job_text::job(&text, &style, shown);
    output.print_result(&job)?;
    if let Some(fault) = &shown.flaw.fault {
        output.errors(&[text.faulty(vec![fault.clone()]).into()]);
    }
    output.finding(&words::faulty(&text.path, &found, shown));
    output.warnings(&text.path, text.counted(), &odd);
    let name = format!("{}-{}.kdl", text.name, shown.flaw.code);
    Ok(Some((name, job.into_bytes())))
}
