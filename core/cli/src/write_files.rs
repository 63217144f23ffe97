//! All files of a call, or none.
//!
//! Writes the files into a hidden folder inside the target folder as they are made, and moves them into place only when
//! every byte of every file is on the disk. Before the first move a list of all moves is on the disk too, and every
//! replaced file has a second name. If a move fails, all are undone. If the call is killed between two moves, or the
//! power fails, the next call into the folder finishes them. A failed call leaves no hidden folder and no new folder;
//! if clearing up fails too, that is said.

mod disk;
mod error;
mod folder_lock;
mod hidden;
mod moves;
mod repair;

use std::collections::HashSet;
use std::fs::{self, File};
use std::io::{self, ErrorKind};
use std::path::{Path, PathBuf};
use std::sync::{Mutex, PoisonError};

use traywright_job::report::sentence::paragraph;

use crate::error::CliError;
use crate::inputs::Inputs;
use crate::interrupt::{self, Orderly};
use crate::report::Output;
use disk::write_through;
use error::{cannot_write, not_put_back, same_name, stopped};
use folder_lock::FolderLock;
use hidden::{Hidden, NOTE, new_folder};
use moves::Moves;

/// Attempts to make a folder that another call keeps removing. Common practice, none published.
const ATTEMPTS: usize = 5;

/// The files of a call on their way into a folder. Without [`Delivery::complete`] everything is as it was before.
#[derive(Debug)]
pub(crate) struct Delivery {
    into: PathBuf,
    output: Output,
    opened: Mutex<Option<Opened>>,
    _orderly: Orderly,
}

/// The folders made for a delivery.
#[derive(Debug)]
struct Opened {
    /// The missing folders, the outermost first.
    made: Vec<PathBuf>,
    hidden: Hidden,
}

/// A new file in the hidden folder.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct StoredFile {
    /// Its name in the target folder.
    pub(crate) name: PathBuf,
    /// Its folder in the hidden one, by number.
    folder: usize,
}

impl Delivery {
    /// A delivery into a folder, which is made with its parents if it is missing, once there is a file.
    pub(crate) fn new(into: &Path, output: Output) -> Self {
        let into = match into.as_os_str().is_empty() {
            true => Path::new("."),
            false => into,
        };
        Delivery {
            into: into.to_owned(),
            output,
            opened: Mutex::new(None),
            _orderly: Orderly::begin(),
        }
    }

    /// Writes a file into the hidden folder. Threads may store files side by side.
    ///
    /// # Refuses
    /// A folder that cannot be made or that another call keeps for long, and a file that cannot be written.
    pub(crate) fn store(&self, name: &Path, bytes: &[u8]) -> Result<StoredFile, CliError> {
        let hidden = self.hidden()?;
        let stored = || -> io::Result<usize> {
            let (number, file) = new_file(&hidden, name)?;
            write_through(file, bytes)?;
            Ok(number)
        };
        match stored() {
            Ok(folder) => Ok(StoredFile {
                name: name.to_owned(),
                folder,
            }),
            Err(error) => Err(cannot_write(&self.into.join(name), &error)),
        }
    }

    /// The hidden folder, made for the first file.
    fn hidden(&self) -> Result<PathBuf, CliError> {
        let mut opened = self.opened.lock().unwrap_or_else(PoisonError::into_inner);
        let opened = match &mut *opened {
            Some(opened) => opened,
            none => none.insert(Opened::in_folder(&self.into, self.output)?),
        };
        Ok(opened.hidden.path().to_owned())
    }

    /// Moves these files into place; returns their paths in the same order. Other stored files vanish. A signal that
    /// comes during the moves changes nothing.
    ///
    /// # Refuses
    /// Two files with one name, a target that is an input or a folder, and anything that cannot be written. Then
    /// everything is as it was before.
    pub(crate) fn complete(
        self,
        files: &[StoredFile],
        inputs: &Inputs,
    ) -> Result<Vec<PathBuf>, CliError> {
        self.deliver(files, |targets| {
            refuse_impossible(targets)?;
            inputs.keep(targets)
        })
    }

    /// Moves one file to a place where nothing is.
    ///
    /// # Refuses
    /// As [`Delivery::complete`]; and a target that is there by now.
    pub(crate) fn complete_new(self, file: StoredFile) -> Result<(), CliError> {
        let delivered = self.deliver(&[file], |targets| match hidden::is_there(&targets[0]) {
            Ok(false) => Ok(()),
            Ok(true) => Err(cannot_write(&targets[0], &"it has appeared meanwhile")),
            Err(error) => Err(cannot_write(&targets[0], &error)),
        });
        delivered.map(drop)
    }

    fn deliver(
        self,
        files: &[StoredFile],
        check: impl FnOnce(&[PathBuf]) -> Result<(), CliError>,
    ) -> Result<Vec<PathBuf>, CliError> {
        let targets = files.iter().map(|file| self.into.join(&file.name));
        let targets: Vec<PathBuf> = targets.collect();
        let mut opened = self.opened.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some(opened) = &mut *opened {
            // Where there are no locks, that has been said.
            let _lock = FolderLock::wait(&self.into, self.output)?;
            check(&targets)?;
            opened.deliver(&self.into, files, self.output)?;
        }
        Ok(targets)
    }
}

impl Drop for Delivery {
    fn drop(&mut self) {
        let opened = self.opened.get_mut();
        if let Some(opened) = opened.unwrap_or_else(PoisonError::into_inner) {
            let _undisturbed = interrupt::undisturbed();
            opened.clear_up(self.output);
        }
    }
}

impl Opened {
    fn in_folder(into: &Path, output: Output) -> Result<Self, CliError> {
        for _ in 0..ATTEMPTS {
            let made = make_folders(into)?;
            match Self::hidden_in(into, output) {
                // Another call has failed, and has removed the folder that it had made.
                Ok(None) => {}
                Ok(Some(hidden)) => return Ok(Opened { made, hidden }),
                Err(error) => {
                    remove_folders(&made);
                    return Err(error);
                }
            }
        }
        Err(cannot_write(into, &"it vanishes again and again"))
    }

    /// A hidden folder; none if the folder in which it should lie is gone.
    fn hidden_in(into: &Path, output: Output) -> Result<Option<Hidden>, CliError> {
        let lock = match FolderLock::wait(into, output)? {
            Ok(lock) => Some(lock),
            Err(error) if error.kind() == ErrorKind::NotFound => return Ok(None),
            Err(error) => {
                output.print_info(&paragraph("", &no_locks(into, &error)));
                None
            }
        };
        repair::leftovers(into, lock.is_some(), output);
        match Hidden::make(into) {
            Ok(hidden) => Ok(Some(hidden)),
            Err(error) if error.kind() == ErrorKind::NotFound => Ok(None),
            Err(error) => Err(cannot_write(into, &reason(&error))),
        }
    }

    fn deliver(
        &mut self,
        into: &Path,
        files: &[StoredFile],
        output: Output,
    ) -> Result<(), CliError> {
        let cannot = |(target, error): (PathBuf, io::Error)| cannot_write(&target, &error);
        let hidden = self.hidden.path().to_owned();
        let mut moves = Moves::prepare(into, &hidden, files).map_err(cannot)?;
        moves.record().map_err(|error| cannot_write(into, &error))?;
        let _undisturbed = interrupt::undisturbed();
        if interrupt::asked() {
            return Err(stopped());
        }
        let Err((target, error)) = moves.finish() else {
            self.made.clear();
            self.clear_up(output);
            return Ok(());
        };
        if moves.undo().is_ok() {
            return Err(cannot_write(&target, &error));
        }
        self.made.clear();
        self.hidden.keep();
        Err(not_put_back(&target, &error, &hidden.join(NOTE)))
    }

    /// Removes the hidden folder, and the folders that were made for nothing.
    fn clear_up(&mut self, output: Output) {
        let hidden = self.hidden.path().to_owned();
        if let Err(error) = self.hidden.remove() {
            let words = format!(
                "The hidden folder {} cannot be removed: {}. The next call into its folder tries again.",
                hidden.display(),
                reason(&error)
            );
            output.finding(&paragraph("", &words));
        }
        remove_folders(&std::mem::take(&mut self.made));
    }
}

/// Writes files into a folder, all or none; returns their paths in the same order.
///
/// # Refuses
/// As [`Delivery`].
pub(crate) fn write_all_or_nothing(
    into: &Path,
    files: Vec<(String, Vec<u8>)>,
    inputs: &Inputs,
    output: Output,
) -> Result<Vec<PathBuf>, CliError> {
    let delivery = Delivery::new(into, output);
    let stored: Vec<StoredFile> = files
        .into_iter()
        .map(|(name, bytes)| delivery.store(Path::new(&name), &bytes))
        .collect::<Result<_, _>>()?;
    delivery.complete(&stored, inputs)
}

/// A new file under its own name, in the first folder in which that name is free.
fn new_file(hidden: &Path, name: &Path) -> io::Result<(usize, File)> {
    let mut number = 1;
    loop {
        let folder = hidden.join(new_folder(number));
        match File::create_new(folder.join(name)) {
            Ok(file) => return Ok((number, file)),
            Err(error) if error.kind() == ErrorKind::AlreadyExists => number += 1,
            Err(error) if error.kind() == ErrorKind::NotFound && number > 1 => {
                // Another thread may have made it.
                fs::create_dir(&folder).or_else(|error| match folder.is_dir() {
                    true => Ok(()),
                    false => Err(error),
                })?;
            }
            Err(error) => return Err(error),
        }
    }
}

fn refuse_impossible(targets: &[PathBuf]) -> Result<(), CliError> {
    let mut seen = HashSet::new();
    for target in targets {
        if !seen.insert(target) {
            return Err(same_name(target));
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

fn no_locks(into: &Path, error: &io::Error) -> String {
    format!(
        "{} keeps no locks ({}): let only one call at a time write into it.",
        into.display(),
        reason(error)
    )
}

/// The system's own words, without the name of the hidden folder, which means nothing to the maker.
fn reason(error: &io::Error) -> String {
    match error.raw_os_error() {
        Some(code) => io::Error::from_raw_os_error(code).to_string(),
        // A library that makes temporary files adds the name to the system's words.
        None => {
            let words = error.to_string();
            let named = words.split_once(" at path ");
            named.map_or(words.clone(), |(system, _)| system.to_owned())
        }
    }
}
