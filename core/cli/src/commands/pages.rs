//! `__pages DIR`: the manual pages and the shell completions, for packaging.
//!
//! Writes one manual page per command and one completion file per shell into a folder. Both come from the definitions
//! in `args`, so they always match the program.

use std::fs;
use std::path::Path;

use clap_complete::Shell;

use crate::Verdict;
use crate::args::Arguments;
use crate::error::CliError;

const SHELLS: [Shell; 5] = [
    Shell::Bash,
    Shell::Zsh,
    Shell::Fish,
    Shell::PowerShell,
    Shell::Elvish,
];

/// Writes the manual pages and completions into a folder, which is made if it is missing.
pub(crate) fn write(folder: &Path) -> Result<Verdict, Vec<CliError>> {
    let refused = |error| {
        CliError::sentence(format_args!(
            "{}: pages cannot be written: {error}",
            folder.display()
        ))
    };
    fs::create_dir_all(folder).map_err(refused)?;
    clap_mangen::generate_to(Arguments::definition(), folder).map_err(refused)?;
    for shell in SHELLS {
        clap_complete::generate_to(shell, &mut Arguments::definition(), "traywright", folder)
            .map_err(refused)?;
    }
    Ok(Verdict::Done)
}
