//! `strip`: the files of a strip for measuring the card of a job.
//!
//! **Input:** a job file. **Output:** NAME-strip.* as `make` writes them: all, or none. **Does not** check the tray of
//! the job, which may not fit yet, because the strip helps to make it fit.

use traywright_engine::wording::length;
use traywright_job::checked_job::{CheckedJob, Checker};
use traywright_job::report::sentence::paragraph;
use traywright_job::report::text;
use traywright_job::strip;

use super::make::{chosen, export_all, inputs, stem_of};
use crate::Verdict;
use crate::args::{GlobalOptions, StripArguments};
use crate::check_jobs::job_of;
use crate::error::CliError;
use crate::report::{Output, make_summary};
use crate::style_folders::styles;
use crate::write_files::write_all_or_nothing;

/// Makes the files of the strip.
pub(crate) fn run(
    asked: &StripArguments,
    everywhere: &GlobalOptions,
    output: &Output,
) -> Result<Verdict, Vec<CliError>> {
    let (bytes, job) = job_of(&asked.job)?;
    let name = format!("{}-strip", stem_of(&asked.job)?);
    let styles = styles(&everywhere.styles)?;
    let shown = asked.job.display().to_string();
    let strip = strip::job(&job, &name);
    let mut checked = Checker::new(&styles)
        .check(&shown, &bytes, strip)
        .map_err(CliError::inputs)?;
    let exporters = chosen(&asked.files.formats, &everywhere.plugins)?;
    if !checked.fits() {
        output.finding(&text::refusal(&checked));
        output.print_info(&paragraph("", "Nothing was written."));
        return Ok(Verdict::DoesNotFit);
    }
    let inputs = inputs(
        std::slice::from_ref(&asked.job),
        &everywhere.styles,
        std::slice::from_ref(&checked),
        &exporters,
    )?;
    // The files are named after the strip and not after the job.
    checked.path = format!("{name}.kdl");
    let made = export_all(
        &[&checked],
        &exporters,
        asked.files.patience.exporter_seconds,
    )?;
    let into = asked.files.folder();
    let written = write_all_or_nothing(into, made.files, &inputs, *output)?;
    let mut said: String = made
        .warnings
        .iter()
        .map(|words| paragraph("", words))
        .collect();
    said.push_str(&make_summary::names(&written));
    said.push_str(&paragraph("", &next(&checked, &shown)));
    output.print_info(&said);
    Ok(Verdict::Done)
}

/// The next actions of the hands, as briefly as possible without the booklet.
fn next(strip: &CheckedJob, job: &str) -> String {
    let unit = strip.job.unit;
    let [least, most] = strip
        .job
        .board
        .possible_readings()
        .map(|reading| length(reading.mm(), unit));
    let sign = unit.sign();
    format!(
        "Next: print it at 100 %, crease and cut it, and measure its length flat with digital calipers (A). \
         Fold it into a U, and measure across the U (B) and both legs from the outside (C, D). \
         Write B + C + D - A, from {least} to {most}, into the line `board` of {job}: reading=({sign})…"
    )
}
