//! The hidden folder in which the files of a call wait: what lies in it, and how it is removed.
//!
//! It lies in the folder of the files, so that each can be moved by renaming alone:
//!
//! | entry | content |
//! |---|---|
//! | `new/NAME` | the new files, each under its own name; one with the name of another goes into `new-2` |
//! | `old/NAME` | the files that they replace: second names of the same files, or copies |
//! | `moves.json` | the moves; from then on they are finished, now or by the next call |
//! | `undo.json` | the same list when the moves are to be undone |
//! | `what-happened.txt` | what a person who finds the folder should know and do |
//!
//! A folder without a list has changed nothing, or is done; so the list is removed first.

use std::fs::{self, File};
use std::io::{self, ErrorKind, Write};
use std::path::{Path, PathBuf};

use super::disk::sync_folder;
use super::folder_lock::{FolderLock, LOCK_FILE};
use crate::interrupt;

/// How the name of every hidden folder begins.
pub(super) const PREFIX: &str = ".traywright-";
/// The folder of the files that are replaced.
pub(super) const OLD: &str = "old";
/// The list of moves to finish.
pub(super) const MOVES: &str = "moves.json";
/// The list of moves to undo.
pub(super) const UNDO: &str = "undo.json";
/// The list while it is written.
pub(super) const UNFINISHED: &str = "moves.part";
/// The note for a person.
pub(super) const NOTE: &str = "what-happened.txt";

const NOTE_TEXT: &str = "\
traywright keeps files here until all of them are ready, and then moves them
into the folder above. If no call of traywright is running, one was interrupted.

Simplest: run a call of traywright that writes into the folder above, for
example the same call again. It puts everything right and removes this folder.

By hand: if you have changed files in the folder above since then, put your own
files aside first. Then look here for a list.
- No moves.json and no undo.json: the files above are all old or all new.
  Remove this folder.
- moves.json: some files above may still be old. Look only at the names in the
  list. If `new` (or `new-2`, where \"folder\" is 2) still holds the file, move
  it into the folder above. Then remove this folder.
- undo.json: some files above may be new ones that should not be there. Look
  only at the names in the list that `new` (or `new-2`) no longer holds. If
  `old` holds the file, move it into the folder above; if the list says
  \"old\": null, delete the file above. Then remove this folder.
";

/// Attempts to remove something. Common practice, none published.
const ATTEMPTS: usize = 3;

/// The hidden folder of a running call.
#[derive(Debug)]
pub(super) struct Hidden {
    path: PathBuf,
    /// Tells other calls that this one still runs. None where the file system keeps no locks.
    lock: Option<FolderLock>,
    stays: bool,
}

impl Hidden {
    /// Makes a hidden folder in a folder. If that `keeps_locks`, this call has locked it, and locks the hidden one too.
    pub(super) fn make(into: &Path, keeps_locks: bool) -> io::Result<Self> {
        let made = || {
            let folder = tempfile::Builder::new().prefix(PREFIX).tempdir_in(into)?;
            let whole = folder.keep();
            // As the maker names it: `tempdir_in` gives the whole path.
            Ok(whole
                .file_name()
                .map_or(whole.clone(), |name| into.join(name)))
        };
        let mut hidden = Hidden {
            path: interrupt::hidden_folder(made, |hidden| remove(hidden).is_ok())?,
            lock: None,
            stays: false,
        };
        let filled = hidden.fill(keeps_locks);
        match filled {
            Ok(()) => Ok(hidden),
            Err(error) => {
                // What cannot be removed is named by the next call.
                let _ = hidden.remove();
                Err(error)
            }
        }
    }

    fn fill(&mut self, keeps_locks: bool) -> io::Result<()> {
        if keeps_locks {
            // Without it a later call would take this one for dead.
            let lock = FolderLock::attempt(&self.path)?;
            self.lock =
                Some(lock.ok_or_else(|| io::Error::other("another program has locked it"))?);
        }
        File::create_new(self.path.join(NOTE))?.write_all(NOTE_TEXT.as_bytes())?;
        fs::create_dir(self.path.join(new_folder(1)))?;
        fs::create_dir(self.path.join(OLD))
    }

    /// Where it is.
    pub(super) fn path(&self) -> &Path {
        &self.path
    }

    /// Leaves it for the next call.
    pub(super) fn keep(&mut self) {
        self.stays = true;
        interrupt::forget_hidden(&self.path);
    }

    /// Removes it, unless it is to stay.
    pub(super) fn remove(&mut self) -> io::Result<()> {
        if std::mem::replace(&mut self.stays, true) {
            return Ok(());
        }
        // Windows removes no folder in which a file is held.
        #[cfg(windows)]
        drop(self.lock.take());
        let removed = remove(&self.path);
        interrupt::forget_hidden(&self.path);
        removed
    }
}

/// The folder of new files: the first, or one for files whose names are taken there.
pub(super) fn new_folder(number: usize) -> String {
    match number {
        1 => "new".to_owned(),
        _ => format!("new-{number}"),
    }
}

/// Whether a call may have made an entry of this name.
pub(super) fn is_known(entry: &str) -> bool {
    let numbered = entry.strip_prefix("new-").map(str::parse::<usize>);
    [OLD, MOVES, UNDO, UNFINISHED, NOTE, LOCK_FILE, "new"].contains(&entry)
        || matches!(numbered, Some(Ok(_)))
}

/// Removes a hidden folder: its list first, its note last.
pub(super) fn remove(hidden: &Path) -> io::Result<()> {
    again(|| attempt_to_remove(hidden))
}

fn attempt_to_remove(hidden: &Path) -> io::Result<()> {
    for list in [MOVES, UNDO, UNFINISHED] {
        gone(fs::remove_file(hidden.join(list)))?;
    }
    // Without its list the folder counts as done, so that has to be on the disk before any file of the list goes.
    let _ = sync_folder(hidden);
    for number in 1.. {
        let folder = hidden.join(new_folder(number));
        if number > 1 && !is_there(&folder)? {
            break;
        }
        gone(fs::remove_dir_all(folder))?;
    }
    gone(fs::remove_dir_all(hidden.join(OLD)))?;
    gone(fs::remove_file(hidden.join(NOTE)))?;
    gone(fs::remove_dir(hidden))
}

/// Something that is gone already is removed.
pub(super) fn gone(removed: io::Result<()>) -> io::Result<()> {
    match removed {
        Err(error) if error.kind() == ErrorKind::NotFound => Ok(()),
        removed => removed,
    }
}

/// Whether there is anything of this name, a broken link too.
pub(super) fn is_there(path: &Path) -> io::Result<bool> {
    match path.symlink_metadata() {
        Ok(_) => Ok(true),
        Err(error) if error.kind() == ErrorKind::NotFound => Ok(false),
        Err(error) => Err(error),
    }
}

/// Does something that has to be done, again if it fails.
pub(super) fn again(mut act: impl FnMut() -> io::Result<()>) -> io::Result<()> {
    let mut done = act();
    for _ in 1..ATTEMPTS {
        if done.is_ok() {
            break;
        }
        done = act();
    }
    done
}
