//! Writes a text into a new file, which must not exist yet.

use std::fs::{self, OpenOptions};
use std::io::{ErrorKind, Write};
use std::path::Path;

use crate::error::CliError;

/// Writes a new file for a command; never over another file, and never in part.
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
        // Half a job is worse than none; if removing it fails as well, it stays.
        let _ = fs::remove_file(path);
        CliError::sentence(format_args!("{shown} cannot be written: {error}"))
    })
}

/// Tests whether a new file can be written, without leaving one behind.
///
/// # Errors
/// A file of that name, a folder that does not exist or cannot be written to.
pub(crate) fn can_be_written(path: &Path, command: &str) -> Result<(), CliError> {
    // There may be a broken link, which only its own metadata show.
    if path.symlink_metadata().is_ok() {
        return Err(there_already(&path.display().to_string(), command));
    }
    write_new(path, "", command)?;
    // The file was made by this call, and it is empty.
    let _ = fs::remove_file(path);
    Ok(())
}

/// The error about an existing file.
fn there_already(shown: &str, command: &str) -> CliError {
    CliError::sentence(format_args!(
        "{shown} is there already, and `{command}` never overwrites: give another name"
    ))
}
