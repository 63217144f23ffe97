//! A text in a file of its own that must not exist yet.

use std::fs::{self, OpenOptions};
use std::io::{ErrorKind, Write};
use std::path::Path;

use crate::error::CliError;

/// Writes a new file for a command; never over another file, and never half.
pub(crate) fn write_new(path: &Path, text: &str, command: &str) -> Result<(), CliError> {
    let shown = path.display().to_string();
    let opened = OpenOptions::new().write(true).create_new(true).open(path);
    let mut file = opened.map_err(|error| match error.kind() {
        ErrorKind::AlreadyExists => there_already(&shown, command),
        ErrorKind::NotFound => CliError::sentence(format_args!(
            "there is no folder for {shown}: make it first"
        )),
        _ => CliError::sentence(format_args!("{shown} cannot be written: {error}")),
    })?;
    file.write_all(text.as_bytes()).map_err(|error| {
        // Half a job is worse than none; that it may stay if even this fails cannot be helped.
        let _ = fs::remove_file(path);
        CliError::sentence(format_args!("{shown} cannot be written: {error}"))
    })
}

/// The error that a file is there.
pub(crate) fn there_already(shown: &str, command: &str) -> CliError {
    CliError::sentence(format_args!(
        "{shown} is there already, and `{command}` never overwrites: give another name"
    ))
}
