//! All files of a call, or none.
//!
//! Writes the files into a hidden folder inside the target folder, and moves them into place only when every byte is on
//! the disk. Existing files are kept until the last move, and are restored if a move fails. No temporary file and no
//! new folder is left behind. No file system moves many files at once, so a power failure between two moves can leave
//! some new and some old files, but never half a file.

use std::collections::HashSet;
use std::fs::{self, File};
use std::io::{self, ErrorKind, Write};
use std::path::{Path, PathBuf};

use tempfile::TempDir;

use crate::error::CliError;
use crate::inputs::Inputs;

/// Writes files into a folder, which is made if it is missing; returns their paths in the same order.
///
/// # Refuses
/// Two files with one name, a target that is an input or a folder, and anything that cannot be written. Then everything
/// is as it was before.
pub(crate) fn write_all_or_nothing(
    into: &Path,
    files: Vec<(String, Vec<u8>)>,
    inputs: &Inputs,
) -> Result<Vec<PathBuf>, CliError> {
    let into = match into.as_os_str().is_empty() {
        true => Path::new("."),
        false => into,
    };
    let targets: Vec<PathBuf> = files.iter().map(|(name, _)| into.join(name)).collect();
    refuse_impossible(&targets)?;
    inputs.keep(&targets)?;
    let made = make_folders(into)?;
    let outcome = write_aside(into, &files).and_then(|aside| move_all(aside, &targets));
    match outcome {
        Ok(()) => Ok(targets),
        Err(error) => {
            remove_folders(&made);
            Err(error)
        }
    }
}

fn refuse_impossible(targets: &[PathBuf]) -> Result<(), CliError> {
    let mut seen = HashSet::new();
    for target in targets {
        if !seen.insert(target) {
            return Err(CliError::sentence(format_args!(
                "two files of this call would be {}: rename a job, or leave out an exporter",
                target.display()
            )));
        }
        match fs::symlink_metadata(target) {
            Ok(there) if there.is_dir() => {
                return Err(cannot_write(target, &"a folder has that name"));
            }
            Ok(_) => {}
            Err(error) if error.kind() == ErrorKind::NotFound => {}
            Err(error) => return Err(cannot_write(target, &error)),
        }
    }
    Ok(())
}

/// Makes the folder and its parents; returns those that were missing, the outermost first.
fn make_folders(into: &Path) -> Result<Vec<PathBuf>, CliError> {
    let mut missing: Vec<&Path> = into
        .ancestors()
        .take_while(|folder| !folder.as_os_str().is_empty() && !folder.exists())
        .collect();
    missing.reverse();
    let mut made = Vec::new();
    for folder in missing {
        match fs::create_dir(folder) {
            Ok(()) => made.push(folder.to_owned()),
            // For example `a/..`, which exists as soon as `a` does.
            Err(_) if folder.is_dir() => {}
            Err(error) => {
                remove_folders(&made);
                return Err(CliError::sentence(format_args!(
                    "the folder {} cannot be made: {error}",
                    folder.display()
                )));
            }
        }
    }
    Ok(made)
}

/// Folders that are no longer empty are used by somebody else by now and stay.
fn remove_folders(made: &[PathBuf]) {
    for folder in made.iter().rev() {
        let _ = fs::remove_dir(folder);
    }
}

fn write_aside(into: &Path, files: &[(String, Vec<u8>)]) -> Result<TempDir, CliError> {
    let aside = tempfile::Builder::new()
        .prefix(".traywright-")
        .tempdir_in(into)
        .map_err(|error| cannot_write(into, &reason(&error)))?;
    for (index, (name, bytes)) in files.iter().enumerate() {
        write_through(&new_file(&aside, index), bytes)
            .map_err(|error| cannot_write(&into.join(name), &error))?;
    }
    Ok(aside)
}

fn write_through(path: &Path, bytes: &[u8]) -> io::Result<()> {
    let mut file = File::create_new(path)?;
    file.write_all(bytes)?;
    file.sync_all()
}

fn move_all(aside: TempDir, targets: &[PathBuf]) -> Result<(), CliError> {
    for (index, target) in targets.iter().enumerate() {
        if let Err(error) = replace(&aside, index, target) {
            // The one that failed may already have lost its old file.
            let undone = (0..=index)
                .rev()
                .try_for_each(|index| put_back(&aside, index, &targets[index]));
            return Err(match undone {
                Ok(()) => cannot_write(target, &error),
                Err(_) => CliError::sentence(format_args!(
                    "{} cannot be written: {error}; the files that stood there before are now in {}",
                    target.display(),
                    aside.keep().display()
                )),
            });
        }
    }
    Ok(())
}

fn replace(aside: &TempDir, index: usize, target: &Path) -> io::Result<()> {
    let old = old_file(aside, index);
    if fs::symlink_metadata(target).is_ok() {
        // With a second name for the old file, the target always exists.
        fs::hard_link(target, &old).or_else(|_| fs::rename(target, &old))?;
    }
    fs::rename(new_file(aside, index), target)
}

fn put_back(aside: &TempDir, index: usize, target: &Path) -> io::Result<()> {
    let old = old_file(aside, index);
    let moved = !new_file(aside, index).exists();
    if fs::symlink_metadata(&old).is_ok() {
        fs::rename(old, target)
    } else if moved {
        fs::remove_file(target)
    } else {
        Ok(())
    }
}

/// Numbered, because the name of a target may be as long as the file system allows.
fn new_file(aside: &TempDir, index: usize) -> PathBuf {
    aside.path().join(format!("new-{index}"))
}

fn old_file(aside: &TempDir, index: usize) -> PathBuf {
    aside.path().join(format!("old-{index}"))
}

fn cannot_write(target: &Path, reason: &dyn std::fmt::Display) -> CliError {
    CliError::sentence(format_args!(
        "{} cannot be written: {reason}",
        target.display()
    ))
}

/// The system's own words, without the name of the temporary folder, which means nothing to the maker.
fn reason(error: &io::Error) -> String {
    match error.raw_os_error() {
        Some(code) => io::Error::from_raw_os_error(code).to_string(),
        None => error.kind().to_string(),
    }
}
