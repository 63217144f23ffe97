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
mod targets;
#[cfg(test)]
mod tests;

use std::fs::{self, File};
use std::io::{self, ErrorKind};
use std::path::{Path, PathBuf};
use std::sync::{Mutex, PoisonError};

use traywright_job::report::sentence::paragraph;

use crate::error::CliError;
use crate::inputs::Inputs;
use crate::interrupt::{self, Orderly};
use crate::report::Output;
use disk::{sync_folder_of_target, write_through};
use error::{cannot_write, not_put_back, old_file_aside, reason, stopped};
use folder_lock::FolderLock;
use hidden::{Hidden, NOTE, new_folder};
use moves::Moves;
use targets::{refuse_impossible, refuse_second_names};

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
    /// Whether the file system keeps locks.
    keeps_locks: bool,
    /// Hidden folders of earlier calls that stay, which has been said.
    named: Vec<PathBuf>,
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
            let lock = FolderLock::wait(&self.into, self.output)?;
            let _lock = match lock {
                // Where there are no locks, that has been said.
                Err(error) if opened.keeps_locks => {
                    return Err(cannot_write(&self.into, &reason(&error)));
                }
                lock => lock,
            };
            // A call that was killed meanwhile comes first: its files are older.
            if opened.keeps_locks {
                repair::leftovers(&self.into, true, &mut opened.named, self.output);
            }
            refuse_second_names(opened.hidden.path(), files, &self.into)?;
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
                Ok(Some(opened)) => return Ok(Opened { made, ..opened }),
                Err(error) => {
                    remove_folders(&made);
                    return Err(error);
                }
            }
        }
        Err(cannot_write(into, &"it vanishes again and again"))
    }

    /// A hidden folder; none if the folder in which it should lie is gone.
    fn hidden_in(into: &Path, output: Output) -> Result<Option<Opened>, CliError> {
        let lock = match FolderLock::wait(into, output)? {
            Ok(lock) => Some(lock),
            Err(error) if error.kind() == ErrorKind::NotFound => return Ok(None),
            Err(error) => {
                output.print_info(&paragraph("", &no_locks(into, &error)));
                None
            }
        };
        let keeps_locks = lock.is_some();
        let mut named = Vec::new();
        repair::leftovers(into, keeps_locks, &mut named, output);
        match Hidden::make(into, keeps_locks) {
            Ok(hidden) => Ok(Some(Opened {
                made: Vec::new(),
                hidden,
                keeps_locks,
                named,
            })),
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
        // A second signal must not come between the list and the first move.
        let _undisturbed = interrupt::undisturbed();
        self.record(&mut moves)
            .map_err(|error| cannot_write(into, &error))?;
        if interrupt::asked() {
            return match moves.undo() {
                Ok(()) => Err(stopped()),
                Err(error) => Err(self.leave(&moves, (into, &error))),
            };
        }
        let Err((target, error)) = moves.finish() else {
            self.made.clear();
            self.clear_up(output);
            return Ok(());
        };
        match moves.undo() {
            Ok(()) => Err(cannot_write(&target, &error)),
            Err(_) => Err(self.leave(&moves, (&target, &error))),
        }
    }

    /// Writes everything to the disk that the moves need after a power failure.
    fn record(&self, moves: &mut Moves) -> io::Result<()> {
        for made in &self.made {
            if let Some(parent) = made.parent() {
                let parent = match parent.as_os_str().is_empty() {
                    true => Path::new("."),
                    false => parent,
                };
                sync_folder_of_target(parent)?;
            }
        }
        moves.record()
    }

    /// Leaves the hidden folder to the next call, or to the maker.
    fn leave(&mut self, moves: &Moves, (target, why): (&Path, &io::Error)) -> CliError {
        self.made.clear();
        self.hidden.keep();
        let note = self.hidden.path().join(NOTE);
        match moves.old_file().filter(|_| !moves.is_recorded()) {
            Some(old) => old_file_aside(target, why, &old),
            None => not_put_back(target, why, &note),
        }
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
