//! `start`: a job file to begin with, filled with the example's measures or with what the maker answers.
//!
//! Given the name of a file that does not exist yet, writes a commented job there. On a terminal it asks for the
//! measures first; otherwise it takes those of the example, so that the file passes `check` as it stands. Never
//! overwrites a file, and writes nothing unless everything is known.

mod prompts;

use std::io::{self, IsTerminal};
use std::path::Path;

use traywright_engine::job::Unit;
use traywright_job::lengths::read_out;
use traywright_job::library::{Boards, Styles};
use traywright_job::nearest::suggestion;
use traywright_job::start::draft::{Carried, JobDraft, example};
use traywright_job::start::{pad, template};

use crate::Verdict;
use crate::args::{GlobalOptions, StartArguments, TypedUnit};
use crate::error::CliError;
use crate::new_file::{there_already, write_new};
use crate::read_job::{job_bytes, read_job};
use crate::report::Output;
use crate::style_folders::styles;

use prompts::Prompter;

/// Writes a job to begin with.
pub(crate) fn run(
    asked: &StartArguments,
    everywhere: &GlobalOptions,
    output: &Output,
) -> Result<Verdict, Vec<CliError>> {
    let shown = asked.file.display().to_string();
    if asked.file.symlink_metadata().is_ok() {
        return Err(there_already(&shown, "start").into());
    }
    let boards = Boards::shipped();
    let carried = match &asked.like {
        Some(old) => Some(carried_from(old)?),
        None => None,
    };
    let typed = asked.unit.map(|unit| match unit {
        TypedUnit::Mm => Unit::Millimetre,
        TypedUnit::In => Unit::Inch,
    });
    let unit = typed
        .or(carried.as_ref().map(|carried| carried.unit))
        .unwrap_or_default();
    let styles = styles(&everywhere.styles)?;
    let mut draft = example(unit);
    if let Some(name) = &asked.style {
        draft.style = known_style(name, &styles)?;
    }
    draft.carried = carried;
    if io::stdin().is_terminal() {
        draft = Prompter::new(io::stdin().lock(), io::stderr(), &boards).fill(draft)?;
    }
    draft.pad = pad::needed(&draft, &styles, &boards);
    write_new(&asked.file, &template::job(&draft), "start")?;
    output.print_info(&format!("wrote {shown}\n{}", next(&shown, &draft)));
    Ok(Verdict::Done)
}

fn next(shown: &str, draft: &JobDraft) -> String {
    let pad = draft.pad.map_or_else(String::new, |pad| {
        let thick = read_out(pad);
        format!(
            "A pad of {thick} lies under {}: without it the item lies too deep.\n",
            draft.item_name
        )
    });
    let pad = match draft.wants_strip() {
        true => format!(
            "{pad}Fold the strip first, which shows where this card folds: traywright strip {shown}\n"
        ),
        false => pad,
    };
    if draft.answered {
        format!("{pad}next: traywright check {shown}\n")
    } else {
        format!("{pad}next: put your own measures into it, then: traywright check {shown}\n")
    }
}

fn known_style(name: &str, styles: &Styles) -> Result<String, CliError> {
    match styles.all().iter().find(|style| style.name == name) {
        Some(style) => Ok(style.name.clone()),
        None => Err(CliError::sentence(format_args!(
            "there is no style `{name}`; {}",
            suggestion(name, &styles.names())
        ))),
    }
}

/// What a job that worked hands on.
fn carried_from(old: &Path) -> Result<Carried, CliError> {
    let bytes = job_bytes(old)?;
    let job = read_job(&old.display().to_string(), &bytes)?;
    let text = String::from_utf8_lossy(&bytes);
    Ok(Carried::new(&text, &job))
}
