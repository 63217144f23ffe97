//! What earlier calls left behind because they were killed, or because the power failed.
//!
//! **Input:** a folder that this call has locked. **Output:** the files of each interrupted call all in place or all as
//! before, and its hidden folder gone; or a sentence that names the folder and why it stays. Says what it did.

use std::fs::DirEntry;
use std::io::{self, ErrorKind};
use std::path::{Path, PathBuf};

use traywright_job::report::sentence::paragraph;

use super::folder_lock::FolderLock;
use super::hidden::{self, NOTE, PREFIX};
use super::moves::Moves;
use crate::report::Output;

/// What became of a hidden folder.
enum Repaired {
    /// All files of the call are in place.
    Finished,
    /// All files are as they were before the call.
    Undone,
    /// The call had changed nothing, or it was done.
    Removed,
    /// It belongs to a call that still runs.
    InUse,
    /// Its call may still run; why that is not known.
    Unknown(&'static str),
}

/// Repairs what is left in a folder, but for the hidden folders that have been `named` already; adds to them those that
/// stay. If the folder `keeps_locks`, no other call writes into it now; otherwise leftovers are only named, because a
/// call that still runs looks the same.
pub(super) fn leftovers(into: &Path, keeps_locks: bool, named: &mut Vec<PathBuf>, output: Output) {
    // A folder that cannot be read may still be written.
    let Ok(entries) = into.read_dir() else {
        return;
    };
    let mut folders: Vec<_> = entries.flatten().filter(is_hidden_folder).collect();
    folders.sort_by_key(DirEntry::file_name);
    for folder in folders {
        let hidden = folder.path();
        if named.contains(&hidden) {
            continue;
        }
        let into_words = into.display();
        let words = match outcome(into, &folder, keeps_locks) {
            Ok(Repaired::InUse) => continue,
            Ok(Repaired::Finished) => format!(
                "An earlier call was interrupted while it moved its files into {into_words}. All of them are in place now."
            ),
            Ok(Repaired::Undone) => format!(
                "An earlier call was interrupted while it put the old files of {into_words} back. All of them are back now."
            ),
            Ok(Repaired::Removed) => format!(
                "An earlier call into {into_words} was interrupted; its hidden folder has been removed. No file was half done."
            ),
            Ok(Repaired::Unknown(why)) => {
                named.push(hidden.clone());
                format!(
                    "{} belongs to a call that was interrupted or still runs; {why}, so it stays.{}",
                    hidden.display(),
                    read_the_note(&hidden)
                )
            }
            Err(reason) => {
                named.push(hidden.clone());
                format!(
                    "{} belongs to an earlier call that was interrupted, and it stays: {reason}.{}",
                    hidden.display(),
                    read_the_note(&hidden)
                )
            }
        };
        output.finding(&paragraph("", &words));
    }
}

/// Points to the note, if there is one.
fn read_the_note(hidden: &Path) -> String {
    let note = hidden.join(NOTE);
    match hidden::is_there(&note) {
        Ok(true) => format!(" Read {}.", note.display()),
        _ => String::new(),
    }
}

fn is_hidden_folder(entry: &DirEntry) -> bool {
    let name = entry.file_name();
    let named = name.to_str().is_some_and(|name| name.starts_with(PREFIX));
    named && entry.file_type().is_ok_and(|kind| kind.is_dir())
}

fn outcome(into: &Path, folder: &DirEntry, keeps_locks: bool) -> Result<Repaired, String> {
    let metadata = match folder.metadata() {
        Ok(metadata) => metadata,
        Err(error) if error.kind() == ErrorKind::NotFound => return Ok(Repaired::InUse),
        Err(error) => return Err(error.to_string()),
    };
    if !is_ours(&metadata) {
        // Its list could name files that its owner may not touch.
        return Ok(Repaired::Unknown("it is another user's"));
    }
    if !keeps_locks {
        return Ok(Repaired::Unknown(
            "this file system keeps no locks that would tell",
        ));
    }
    repair(into, &folder.path())
}

#[cfg(unix)]
fn is_ours(metadata: &std::fs::Metadata) -> bool {
    use std::os::unix::fs::MetadataExt;
    metadata.uid() == rustix::process::geteuid().as_raw()
}

#[cfg(not(unix))]
fn is_ours(_metadata: &std::fs::Metadata) -> bool {
    true
}

fn repair(into: &Path, hidden: &Path) -> Result<Repaired, String> {
    let told = |error: io::Error| error.to_string();
    let _lock = match FolderLock::attempt(hidden) {
        Ok(Some(lock)) => lock,
        Ok(None) => return Ok(Repaired::InUse),
        Err(error) if error.kind() == ErrorKind::NotFound => return Ok(Repaired::InUse),
        Err(error) => return Err(told(error)),
    };
    refuse_unknown(hidden)?;
    let repaired = match Moves::read(into, hidden).map_err(told)? {
        None => Repaired::Removed,
        Some((mut moves, undo)) => {
            let told =
                |(target, error): (PathBuf, io::Error)| format!("{}: {error}", target.display());
            moves.check_unchanged(undo).map_err(told)?;
            match undo {
                true => moves.undo().map_err(|error| error.to_string())?,
                false => moves.finish().map_err(told)?,
            }
            if undo {
                Repaired::Undone
            } else {
                Repaired::Finished
            }
        }
    };
    #[cfg(windows)]
    drop(_lock);
    hidden::remove(hidden).map_err(|error| format!("it cannot be removed: {error}"))?;
    Ok(repaired)
}

/// A folder that holds something else was not made by this program, or somebody has put something into it.
fn refuse_unknown(hidden: &Path) -> Result<(), String> {
    let entries = hidden.read_dir().map_err(|error| error.to_string())?;
    for entry in entries.flatten() {
        let name = entry.file_name();
        if !name.to_str().is_some_and(hidden::is_known) {
            return Err(format!("it holds {}", entry.path().display()));
        }
    }
    Ok(())
}
