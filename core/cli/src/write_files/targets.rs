//! Places where no file of a call may go.
//!
//! **Input:** targets, or files in the hidden folder. **Output:** an error if a target is a folder, or if two files of the
//! call would be one. **Does not** look at what the call reads (`inputs`).

use std::collections::HashSet;
use std::fs;
use std::io::{self, ErrorKind};
use std::path::{Path, PathBuf};

use super::StoredFile;
use super::error::{cannot_write, reason, same_name};
use super::hidden::{is_there, new_folder};
use crate::error::CliError;

/// Two names of one file, for example `a.svg` and `A.svg` where the file system does not tell them apart. The second
/// new file is then in a folder of its own, because its name was taken by another one.
pub(super) fn refuse_second_names(
    hidden: &Path,
    files: &[StoredFile],
    into: &Path,
) -> Result<(), CliError> {
    let named = |folder: &Path, name: &Path| -> io::Result<bool> {
        for entry in folder.read_dir()? {
            if entry?.file_name() == name.as_os_str() {
                return Ok(true);
            }
        }
        Ok(false)
    };
    for file in files {
        for lower in 1..file.folder {
            let folder = hidden.join(new_folder(lower));
            let is_other_name = is_there(&folder.join(&file.name))
                .and_then(|taken| Ok(taken && !named(&folder, &file.name)?));
            match is_other_name {
                Ok(false) => {}
                Ok(true) => return Err(same_name(&into.join(&file.name))),
                Err(error) => return Err(cannot_write(into, &reason(&error))),
            }
        }
    }
    Ok(())
}

/// Two files of one name, and a target that is a folder or cannot be looked at.
pub(super) fn refuse_impossible(targets: &[PathBuf]) -> Result<(), CliError> {
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
