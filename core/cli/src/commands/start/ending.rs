//! The end of the conversation: the verdict, the fixes by number, and the files if the maker wants them.
//!
//! **Input:** the text of the new job. **Output:** the text with the fixes that the maker chose, or the wish to change an
//! answer. **Errors:** the end of the answers.

use std::io::{BufRead, Write};
use std::path::{Path, PathBuf};

use clap::ValueEnum;
use traywright_job::job_file::changed;
use traywright_job::report::fixes::lines;
use traywright_job::report::text;

use crate::check_jobs::{Fixes, check_text};
use crate::error::CliError;

use super::prompts::{Command, Terminal};

/// The maker's decision after the verdict.
pub(super) enum Decision {
    /// The job is to be written as it is now.
    Keep {
        /// Its text.
        job_text: String,
        /// Whether its tray fits.
        fits: bool,
    },
    /// The maker wants to change an answer.
    ChangeLines,
}

/// Prints the verdict and applies fixes until the maker accepts the job or wants to change an answer.
pub(super) fn mend(
    path: &Path,
    mut job_text: String,
    style_folders: &[PathBuf],
    terminal: &mut Terminal<impl BufRead, impl Write>,
) -> Result<Decision, Vec<CliError>> {
    loop {
        let checked = check_text(path, &job_text, style_folders, Fixes::Try)?;
        terminal.print(&format!(
            "\n{}{}",
            text::verdict(&checked),
            text::findings(&checked)
        ))?;
        let fits = checked.fits();
        let prompt = match checked.fixes.len() {
            0 if fits => return Ok(Decision::Keep { job_text, fits }),
            0 => {
                "\nNo fix was found. Type `back` to change a line, or press Enter to keep the job as it is"
            }
            _ => {
                terminal.print(&format!("\nFixes, each tried\n{}", lines(&checked)))?;
                "Type the number of a fix to take it, `back` to change a line, or press Enter to keep the job as it is"
            }
        };
        let answer = terminal.answer(prompt)?;
        if answer.is_empty() {
            return Ok(Decision::Keep { job_text, fits });
        }
        if let Ok(Command::Back) = Command::from_str(&answer, true) {
            return Ok(Decision::ChangeLines);
        }
        let number = answer.parse::<usize>().ok();
        let fix = number.and_then(|number| checked.fixes.get(number.checked_sub(1)?));
        match fix.and_then(|fix| changed(&job_text, &fix.changes)) {
            Some(text) => job_text = text,
            None => terminal.print(&format!(
                "  Type {}`back`, or press Enter.\n",
                numbers(checked.fixes.len())
            ))?,
        }
    }
}

/// The numbers of the fixes, for a list of valid answers.
fn numbers(fixes: usize) -> String {
    match fixes {
        0 => String::new(),
        1 => "1, ".to_owned(),
        count => format!("a number from 1 to {count}, "),
    }
}

/// Whether the maker answers yes; Enter alone counts as yes.
pub(super) fn agrees(
    terminal: &mut Terminal<impl BufRead, impl Write>,
    question: &str,
) -> Result<bool, CliError> {
    loop {
        let answer = terminal.answer(&format!("{question} [yes]"))?;
        match answer.to_lowercase().as_str() {
            "" | "y" | "yes" => return Ok(true),
            "n" | "no" => return Ok(false),
            _ => terminal.print("  Type yes or no.\n")?,
        }
    }
}
