//! Writes a text into a new file, which must not exist yet.
//!
//! **Input:** a path and a text. **Output:** the whole file, or none. **Errors:** a file of that name, and a folder that
//! does not exist or cannot be written to.

use std::io;
use std::path::Path;

use crate::error::CliError;
use crate::report::Output;
use crate::write_files::Delivery;

/// Writes a new file for a command; never over another file, and never in part.
pub(crate) fn write_new(
    path: &Path,
    text: &str,
    command: &str,
    output: Output,
) -> Result<(), CliError> {
    let name = refuse_impossible(path, command)?;
    let delivery = Delivery::new(folder_of(path), output);
    let file = delivery.store(name, text.as_bytes())?;
    // It may have appeared by now; then it stays.
    delivery.complete_new(file)
}

/// Tests whether a new file can be written, and makes none.
///
/// # Errors
/// As [`write_new`], as far as they can be known before.
pub(crate) fn can_be_written(path: &Path, command: &str) -> Result<(), CliError> {
    refuse_impossible(path, command)?;
    let folder = folder_of(path);
    may_write(folder).map_err(|error| {
        CliError::sentence(format_args!(
            "{} cannot be written: {error}",
            path.display()
        ))
    })
}

/// The name of the new file.
fn refuse_impossible<'a>(path: &'a Path, command: &str) -> Result<&'a Path, CliError> {
    let shown = path.display();
    // There may be a broken link, which only its own metadata show.
    if path.symlink_metadata().is_ok() {
        return Err(there_already(&shown.to_string(), command));
    }
    if !folder_of(path).is_dir() {
        return Err(CliError::sentence(format_args!(
            "there is no folder for {shown}: make it first"
        )));
    }
    match path.file_name() {
        Some(name) => Ok(Path::new(name)),
        None => Err(CliError::sentence(format_args!("{shown} names no file"))),
    }
}

fn folder_of(path: &Path) -> &Path {
    match path.parent() {
        Some(parent) if !parent.as_os_str().is_empty() => parent,
        Some(_) | None => Path::new("."),
    }
}

#[cfg(unix)]
fn may_write(folder: &Path) -> io::Result<()> {
    use rustix::fs::{Access, AtFlags, CWD, accessat};
    Ok(accessat(
        CWD,
        folder,
        Access::WRITE_OK | Access::EXEC_OK,
        AtFlags::EACCESS,
    )?)
}

#[cfg(not(unix))]
fn may_write(_folder: &Path) -> io::Result<()> {
    Ok(())
}

/// The error about an existing file.
fn there_already(shown: &str, command: &str) -> CliError {
    CliError::sentence(format_args!(
        "{shown} is there already, and `{command}` never overwrites: give another name"
    ))
}
