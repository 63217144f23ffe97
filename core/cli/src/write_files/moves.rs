//! The moves of a delivery: recorded before the first, then finished or undone, by this call or by the next one.
//!
//! **Input:** new files in the hidden folder, and where they belong. **Output:** all of them in place, or the old files
//! as they were. Which moves are done is seen from the files: a new file that has left the hidden folder is in place.
//! So a call that was killed at any point can be continued.

use std::fs::{self, File, Metadata};
use std::io::{self, ErrorKind, Write};
use std::path::{Component, Path, PathBuf};
use std::time::UNIX_EPOCH;

use serde::{Deserialize, Serialize};

use super::StoredFile;
use super::disk::{keep_owner_and_mode, move_new, second_name, sync_folder, sync_folder_of_target};
use super::hidden::{MOVES, NOTE, OLD, UNDO, UNFINISHED, again, is_there, new_folder};

/// The version of the list's format.
const VERSION: u32 = 1;

/// A move that failed: where to, and why.
pub(super) type Failed = (PathBuf, io::Error);

/// All moves of a call.
#[derive(Debug)]
pub(super) struct Moves<'a> {
    into: &'a Path,
    hidden: &'a Path,
    moves: Vec<Move>,
    recorded: bool,
}

#[derive(Debug, Serialize, Deserialize)]
struct List {
    traywright: u32,
    moves: Vec<Move>,
}

#[derive(Debug, Serialize, Deserialize)]
struct Move {
    name: PathBuf,
    /// The folder of the new file, by its number.
    folder: usize,
    new: Stamp,
    /// The file that is replaced.
    old: Option<Stamp>,
}

/// Tells whether a file is still the one that it was.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
struct Stamp {
    bytes: u64,
    /// Nanoseconds since the beginning of 1970.
    modified: i64,
}

impl<'a> Moves<'a> {
    /// Prepares the moves: gives each old file a second name, and its owner and mode to the new one.
    pub(super) fn prepare(
        into: &'a Path,
        hidden: &'a Path,
        files: &[StoredFile],
    ) -> Result<Self, Failed> {
        let mut moves = Vec::new();
        for file in files {
            let target = into.join(&file.name);
            let prepared = prepare(hidden, file, &target);
            moves.push(prepared.map_err(|error| (target, error))?);
        }
        Ok(Moves {
            into,
            hidden,
            moves,
            recorded: false,
        })
    }

    /// Writes the list, with everything that it names, to the disk. A single file needs none, because the system moves
    /// it at once; only undoing that move has a list.
    pub(super) fn record(&mut self) -> io::Result<()> {
        if self.moves.len() < 2 {
            return Ok(());
        }
        let last = self.moves.iter().map(|each| each.folder).max();
        for number in 1..=last.unwrap_or(1) {
            sync_folder(&self.hidden.join(new_folder(number)))?;
        }
        sync_folder(&self.hidden.join(OLD))?;
        // Windows writes only a file to the disk that is open for writing.
        let note = File::options().append(true).open(self.hidden.join(NOTE))?;
        note.sync_all()?;
        self.write_list(MOVES)?;
        sync_folder_of_target(self.into)
    }

    fn write_list(&mut self, name: &str) -> io::Result<()> {
        let list = List {
            traywright: VERSION,
            moves: std::mem::take(&mut self.moves),
        };
        let text = serde_json::to_vec_pretty(&list).map_err(io::Error::other);
        self.moves = list.moves;
        let part = self.hidden.join(UNFINISHED);
        let mut file = File::create(&part)?;
        file.write_all(&text?)?;
        file.sync_all()?;
        fs::rename(part, self.hidden.join(name))?;
        self.recorded = true;
        sync_folder(self.hidden)
    }

    /// Whether a list on the disk tells the next call what to do.
    pub(super) fn is_recorded(&self) -> bool {
        self.recorded
    }

    /// Where the first old file is.
    pub(super) fn old_file(&self) -> Option<PathBuf> {
        let first = self.moves.first()?;
        first.old.map(|_| self.hidden.join(OLD).join(&first.name))
    }

    /// The moves of a call that was interrupted, and whether they are to be undone. None if it changed nothing, or had
    /// nothing left to do.
    pub(super) fn read(into: &'a Path, hidden: &'a Path) -> io::Result<Option<(Self, bool)>> {
        for (list, undo) in [(UNDO, true), (MOVES, false)] {
            let list = hidden.join(list);
            if is_there(&list)? {
                let list: List = serde_json::from_slice(&fs::read(list)?)?;
                let plain = |each: &Move| is_plain(&each.name);
                if list.traywright != VERSION || !list.moves.iter().all(plain) {
                    return Err(io::Error::other("its list cannot be read by this version"));
                }
                let moves = Moves {
                    into,
                    hidden,
                    moves: list.moves,
                    recorded: true,
                };
                return Ok(Some((moves, undo)));
            }
        }
        Ok(None)
    }

    /// Moves every new file into its place that is not there yet.
    pub(super) fn finish(&self) -> Result<(), Failed> {
        for each in &self.moves {
            let target = self.into.join(&each.name);
            let moved = self.finish_one(each, &target);
            moved.map_err(|error| (target, error))?;
        }
        sync_folder_of_target(self.into).map_err(|error| (self.into.to_owned(), error))
    }

    fn finish_one(&self, each: &Move, target: &Path) -> io::Result<()> {
        let new = self.new_file(each);
        if !is_there(&new)? {
            return Ok(());
        }
        match each.old {
            Some(_) => fs::rename(new, target),
            None => move_new(&new, target),
        }
    }

    /// Checks that nobody has changed a file since, which finishing or undoing would then destroy, and that finishing
    /// still has every new file.
    pub(super) fn check_unchanged(&self, undo: bool) -> Result<(), Failed> {
        for each in &self.moves {
            let target = self.into.join(&each.name);
            let checked = self.check_one(each, &target, undo);
            checked.map_err(|error| (target, error))?;
        }
        Ok(())
    }

    fn check_one(&self, each: &Move, target: &Path, undo: bool) -> io::Result<()> {
        let waits = is_there(&self.new_file(each))?;
        let there = stamp_of(target)?;
        let is_new = there == Some(each.new);
        let is_unchanged = match (undo, waits) {
            (true, true) => true,
            (false, true) => there == each.old,
            (true, false) => there == each.old || is_new,
            // It was moved, and somebody may have changed it since: that stays.
            (false, false) if is_new || (there.is_some() && there != each.old) => true,
            (false, false) => return Err(io::Error::other("its new file is lost")),
        };
        match is_unchanged {
            true => Ok(()),
            false => Err(io::Error::other("it was changed after the interruption")),
        }
    }

    /// Puts every old file back, and removes the new files that have none. What is undone already stays so.
    pub(super) fn undo(&mut self) -> io::Result<()> {
        if !self.recorded && self.moves.iter().all(|each| self.waits(each)) {
            return Ok(());
        }
        again(|| match self.recorded {
            true => self.turn_list_round(),
            false => self.write_list(UNDO),
        })?;
        for each in self.moves.iter().rev() {
            again(|| self.undo_one(each))?;
        }
        // The old names count even where the disk does not confirm them.
        let _ = again(|| sync_folder_of_target(self.into));
        Ok(())
    }

    fn turn_list_round(&self) -> io::Result<()> {
        let undo = self.hidden.join(UNDO);
        match is_there(&undo)? {
            true => Ok(()),
            false => {
                fs::rename(self.hidden.join(MOVES), undo)?;
                // Either list leads to a whole set.
                let _ = sync_folder(self.hidden);
                Ok(())
            }
        }
    }

    fn undo_one(&self, each: &Move) -> io::Result<()> {
        if is_there(&self.new_file(each))? {
            return Ok(());
        }
        let target = self.into.join(&each.name);
        let old = self.hidden.join(OLD).join(&each.name);
        match each.old {
            Some(_) if is_there(&old)? => fs::rename(old, target),
            None if stamp_of(&target)? == Some(each.new) => fs::remove_file(target),
            Some(_) | None => Ok(()),
        }
    }

    /// Whether a new file has not left the hidden folder yet, as far as that can be seen.
    fn waits(&self, each: &Move) -> bool {
        matches!(is_there(&self.new_file(each)), Ok(true))
    }

    fn new_file(&self, each: &Move) -> PathBuf {
        self.hidden.join(new_folder(each.folder)).join(&each.name)
    }
}

fn prepare(hidden: &Path, file: &StoredFile, target: &Path) -> io::Result<Move> {
    let new = hidden.join(new_folder(file.folder)).join(&file.name);
    let there = metadata(target)?;
    if let Some(there) = &there {
        second_name(target, there, &hidden.join(OLD).join(&file.name))?;
        keep_owner_and_mode(there, &new);
    }
    Ok(Move {
        name: file.name.clone(),
        folder: file.folder,
        new: Stamp::of(&new.symlink_metadata()?),
        old: there.as_ref().map(Stamp::of),
    })
}

impl Stamp {
    fn of(metadata: &Metadata) -> Self {
        // Before 1970 the clock is wrong anyway; then the size alone tells.
        let modified = metadata.modified().ok();
        let since = modified.and_then(|time| time.duration_since(UNIX_EPOCH).ok());
        Stamp {
            bytes: metadata.len(),
            modified: since.map_or(0, |since| since.as_nanos() as i64),
        }
    }
}

fn stamp_of(path: &Path) -> io::Result<Option<Stamp>> {
    Ok(metadata(path)?.as_ref().map(Stamp::of))
}

/// What is known about a file or link; none if it is not there.
fn metadata(path: &Path) -> io::Result<Option<Metadata>> {
    match path.symlink_metadata() {
        Ok(metadata) => Ok(Some(metadata)),
        Err(error) if error.kind() == ErrorKind::NotFound => Ok(None),
        Err(error) => Err(error),
    }
}

/// A name that leads to no other folder.
fn is_plain(name: &Path) -> bool {
    let mut parts = name.components();
    matches!(
        (parts.next(), parts.next()),
        (Some(Component::Normal(part)), None) if part == name.as_os_str()
    )
}
