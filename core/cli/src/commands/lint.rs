//! `lint`: style files judged over their whole range.
//!
//! Given style files, tells all faults of their texts with places, then tries jobs of every size that each takes. The
//! smallest job that shows a fault is the answer, as a job file; all that is said of it besides, and of faults of a text,
//! goes beside it. Writes nothing but that job, and only if a folder is named.

mod job_text;
mod search;
mod words;

use std::path::Path;

use traywright_engine::{Fault, lint};

use crate::Verdict;
use crate::args::LintArguments;
use crate::delivery::deliver;
use crate::library::StyleText;
use crate::report::Voice;
use crate::trouble::Trouble;
use search::Search;

/// Judges styles.
pub(crate) fn run(asked: &LintArguments, voice: &Voice) -> Result<Verdict, Vec<Trouble>> {
    let mut verdict = Verdict::Done;
    let mut troubles = Vec::new();
    let mut files = Vec::new();
    for path in &asked.files {
        match judge(path, asked, voice) {
            Ok(None) => {}
            Ok(Some(job)) => {
                verdict = Verdict::DoesNotFit;
                files.push(job);
            }
            Err(trouble) => troubles.push(trouble),
        }
    }
    if let (Some(into), false) = (&asked.into, files.is_empty()) {
        match deliver(into, files) {
            Ok(written) => voice.remark(&words::written(&written)),
            Err(trouble) => troubles.push(trouble),
        }
    }
    if troubles.is_empty() {
        Ok(verdict)
    } else {
        Err(troubles)
    }
}

/// Judges one style; gives the job that shows its fault, with the name of its file.
///
/// # Refuses
/// A text that is no style, and a formula that fails in every job.
fn judge(
    path: &Path,
    asked: &LintArguments,
    voice: &Voice,
) -> Result<Option<(String, Vec<u8>)>, Trouble> {
    let text = StyleText::of_file(path)?;
    let style = lint::read(&text.name, &text.text).map_err(|faults| text.faulty(faults))?;
    let found = Search::run(&style, asked.thorough);
    if let Some(fault) = found.tally.never_works() {
        return Err(text.faulty(vec![fault.clone()]));
    }
    let mut odd: Vec<Fault> = lint::unread(&style);
    if found.shown.is_none() && !found.cut_short {
        odd.extend(found.tally.never_seen(&style));
    }
    let Some(shown) = &found.shown else {
        voice.answer(&words::sound(&text.path, &found))?;
        voice.warnings(&text.path, text.counted(), &odd);
        return Ok(None);
    };
    let job = job_text::job(&text, &style, shown);
    voice.answer(&job)?;
    if let Some(fault) = &shown.flaw.fault {
        voice.troubles(&[text.faulty(vec![fault.clone()])]);
    }
    voice.finding(&words::faulty(&text.path, &found, shown));
    voice.warnings(&text.path, text.counted(), &odd);
    let name = format!("{}-{}.kdl", text.name, shown.flaw.code);
    Ok(Some((name, job.into_bytes())))
}
