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

/// Tries whether a new file can be written, and leaves nothing behind.
///
/// # Errors
/// A file of that name, a folder that does not exist or cannot be written to.
pub(crate) fn can_be_written(path: &Path, command: &str) -> Result<(), CliError> {
    // What is there may be a broken link, which only its own data show.
    if path.symlink_metadata().is_ok() {
        return Err(there_already(&path.display().to_string(), command));
    }
    write_new(path, "", command)?;
    // The file was made by this call, and it is empty.
    let _ = fs::remove_file(path);
    Ok(())
}

/// The error that a file is there.
fn there_already(shown: &str, command: &str) -> CliError {
    CliError::sentence(format_args!(
        "{shown} is there already, and `{command}` never overwrites: give another name"
    ))
}
