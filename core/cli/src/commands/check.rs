//! `check`: whether the trays fit, and nothing written.
//!
//! Given job files, it reports on every one that can be judged, in words or in JSON, and tells all faults of the
//! others. JSON is whole or not there at all: a script never takes half a list for the whole.

use crate::Verdict;
use crate::args::{CheckArguments, Everywhere, ReportFormat};
use crate::judgement::judge;
use crate::report::{Voice, json, text};
use crate::trouble::Trouble;

/// Reports on trays.
pub(crate) fn run(
    asked: &CheckArguments,
    everywhere: &Everywhere,
    voice: &Voice,
) -> Result<Verdict, Vec<Trouble>> {
    let judged = judge(&asked.jobs, &everywhere.styles)?;
    match asked.format {
        ReportFormat::Text => voice.answer(&text::blocks(&judged.trays))?,
        ReportFormat::Json if judged.troubles.is_empty() => {
            voice.answer(&json::answer(&judged.trays, asked.jobs.len() > 1))?;
        }
        ReportFormat::Json => {}
    }
    match (judged.troubles.is_empty(), judged.all_fit()) {
        (false, _) => Err(judged.troubles),
        (true, true) => Ok(Verdict::Done),
        (true, false) => Ok(Verdict::DoesNotFit),
    }
}
