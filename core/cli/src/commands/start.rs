//! `start`: a new job file, filled with the example's lengths or with the maker's answers.
//!
//! **Input:** the name of a file that does not exist yet. **Output:** a job with comments in it. On a terminal it asks
//! for the lengths, reports whether the tray fits, applies fixes and makes the files; otherwise it uses the example's
//! lengths, so that the file passes `check` unchanged. **Errors:** a file that exists, a folder that cannot be written
//! to. **Does not** overwrite a file, and writes only when everything is known.

mod ending;
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
use crate::args::{FilesArguments, GlobalOptions, MakeArguments, StartArguments, TypedUnit};
use crate::commands::make;
use crate::error::CliError;
use crate::exporters;
use crate::new_file::{can_be_written, write_new};
use crate::read_job::{job_bytes, read_job};
use crate::report::Output;
use crate::style_folders::styles;

use ending::{Decision, agrees, mend};
use prompts::{Prompter, Settled, Terminal, choices};

/// Writes a new job.
pub(crate) fn run(
    asked: &StartArguments,
    everywhere: &GlobalOptions,
    output: &Output,
) -> Result<Verdict, Vec<CliError>> {
    can_be_written(&asked.file, "start")?;
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
    if let Some(carried) = &carried {
        draft.style.clone_from(&carried.style);
    }
    if let Some(name) = &asked.style {
        draft.style = known_style(name, &styles)?;
    }
    draft.carried = carried;
    if io::stdin().is_terminal() {
        return converse(asked, everywhere, output, draft, &styles);
    }
    pad::lay(&mut draft, &styles, &Boards::shipped());
    write_new(&asked.file, &template::job(&draft), "start", *output)?;
    let shown = asked.file.display();
    output.print_info(&format!(
        "Wrote {shown}.\n{}Next: put your own measures into it, then run: traywright check {shown}\n",
        advice(&asked.file, &draft)
    ));
    Ok(Verdict::Done)
}

/// Asks at a terminal, then writes the job and, if the maker wants them, its files.
fn converse(
    asked: &StartArguments,
    everywhere: &GlobalOptions,
    output: &Output,
    draft: JobDraft,
    styles: &Styles,
) -> Result<Verdict, Vec<CliError>> {
    let settled = Settled {
        style: asked.style.is_some() || draft.carried.is_some(),
        workshop: draft.carried.is_some(),
    };
    let (boards, choices) = (Boards::shipped(), choices(styles));
    let terminal = Terminal::new(io::stdin().lock(), io::stderr());
    let mut prompter = Prompter::new(terminal, &boards, &choices, settled);
    let mut answers = prompter.fill(draft)?;
    let (job_text, fits) = loop {
        let mut padded = answers.clone();
        pad::lay(&mut padded, styles, &boards);
        let terminal = &mut prompter.terminal;
        terminal.print(&advice(&asked.file, &padded))?;
        let job = template::job(&padded);
        match mend(&asked.file, job, &everywhere.styles, terminal)? {
            Decision::Keep { job_text, fits } => break (job_text, fits),
            Decision::ChangeLines => answers = prompter.revise(answers)?,
        }
    };
    let terminal = &mut prompter.terminal;
    write_new(&asked.file, &job_text, "start", *output)?;
    let shown = asked.file.display();
    terminal.print(&format!("\nWrote {shown}.\n"))?;
    let can_make = fits && !exporters::find(&everywhere.plugins)?.is_empty();
    if can_make && agrees(terminal, "Make the template and the booklet now?")? {
        return make::run(&make_it(&asked.file), everywhere, output);
    }
    let next = if fits { "make" } else { "check" };
    terminal.print(&format!("Next: traywright {next} {shown}\n"))?;
    Ok(Verdict::Done)
}

/// `make` for the new job, with its files in the same folder.
fn make_it(job: &Path) -> MakeArguments {
    let folder = job.parent().filter(|folder| !folder.as_os_str().is_empty());
    MakeArguments {
        jobs: vec![job.to_owned()],
        files: FilesArguments {
            into: folder.map(Path::to_owned),
            ..FilesArguments::default()
        },
        keep_going: false,
        watch: false,
    }
}

/// The maker's next steps: a line for each pad that was added, and the strip for an unknown card.
fn advice(job: &Path, draft: &JobDraft) -> String {
    let padded = draft
        .items
        .iter()
        .filter_map(|item| Some((item, item.pad?)));
    let mut words: String = padded
        .map(|(item, pad)| {
            format!(
                "{} needs a pad of {} under it: without the pad it lies too deep.\n",
                item.name,
                read_out(pad)
            )
        })
        .collect();
    if draft.wants_strip() {
        let shown = job.display();
        words.push_str(&format!(
            "Fold the strip first; it shows where this card folds: traywright strip {shown}\n"
        ));
    }
    words
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

/// The lines to copy from a job that worked.
fn carried_from(old: &Path) -> Result<Carried, CliError> {
    let bytes = job_bytes(old)?;
    let job = read_job(&old.display().to_string(), &bytes)?;
    let text = String::from_utf8_lossy(&bytes);
    Ok(Carried::new(&text, &job))
}
