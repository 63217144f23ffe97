//! The end of the conversation: the verdict, the fixes by number, and the files if the maker wants them.
//!
//! **Input:** the text of the new job. **Output:** the text with the fixes that the maker chose. **Errors:** the end of
//! the answers.

use std::io::{BufRead, Write};
use std::path::{Path, PathBuf};

use traywright_job::job_file::changed;
use traywright_job::report::fixes::lines;
use traywright_job::report::text;

use crate::check_jobs::{Fixes, check_text};
use crate::error::CliError;

use super::prompts::Terminal;

/// Prints the verdict and applies fixes until the maker accepts the job; returns the text, and whether the tray fits.
pub(super) fn mend(
    path: &Path,
    mut job_text: String,
    style_folders: &[PathBuf],
    terminal: &mut Terminal<impl BufRead, impl Write>,
) -> Result<(String, bool), Vec<CliError>> {
    loop {
        let checked = check_text(path, &job_text, style_folders, Fixes::Try)?;
        terminal.print(&format!(
            "\n{}{}",
            text::verdict(&checked),
            text::findings(&checked)
        ))?;
        if checked.fixes.is_empty() {
            return Ok((job_text, checked.fits()));
        }
        terminal.print(&format!("\nFixes, each tried\n{}", lines(&checked)))?;
        let prompt = "Type the number of a fix to take it, or press Enter to keep the job as it is";
        let answer = terminal.answer(prompt)?;
        if answer.is_empty() {
            return Ok((job_text, checked.fits()));
        }
        let number = answer.parse::<usize>().ok();
        let fix = number.and_then(|number| checked.fixes.get(number.checked_sub(1)?));
        match fix.and_then(|fix| changed(&job_text, &fix.changes)) {
            Some(text) => job_text = text,
            None => terminal.print(&format!(
                "  Type a number from 1 to {}, or press Enter.\n",
                checked.fixes.len()
            ))?,
        }
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
