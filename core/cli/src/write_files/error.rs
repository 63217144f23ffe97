//! What is said when files cannot be delivered.
//!
//! **Input:** a file or folder, and a reason. **Output:** an error in one sentence.

use std::fmt::Display;
use std::io;
use std::path::Path;

use crate::error::CliError;

/// A target that cannot be written.
pub(super) fn cannot_write(target: &Path, reason: &dyn Display) -> CliError {
    CliError::sentence(format_args!(
        "{} cannot be written: {reason}",
        target.display()
    ))
}

/// A signal came before the first file was moved.
pub(super) fn stopped() -> CliError {
    CliError::sentence("the call was stopped, and nothing was written")
}

/// A folder that another call keeps.
pub(super) fn in_use(folder: &Path) -> CliError {
    CliError::sentence(format_args!(
        "another call of traywright writes into {}: call again when it has ended, or use another folder",
        folder.display()
    ))
}

/// Two files of one name.
pub(super) fn same_name(target: &Path) -> CliError {
    CliError::sentence(format_args!(
        "two files of this call would be {}: rename a job, or leave out an exporter",
        target.display()
    ))
}

/// A single file was moved, and could not be moved back. No list tells the next call of that.
pub(super) fn old_file_aside(target: &Path, reason: &dyn Display, old: &Path) -> CliError {
    CliError::sentence(format_args!(
        "{} is the new file, but {reason}, and the old one could not be put back. The old one is {}: move it away \
         before the next call into this folder, which removes it",
        target.display(),
        old.display()
    ))
}

/// A move failed, and so did putting the old files back. The note tells a person what to do.
pub(super) fn not_put_back(target: &Path, reason: &dyn Display, note: &Path) -> CliError {
    CliError::sentence(format_args!(
        "{} cannot be written: {reason}; some files are new and some old. The next call into this folder puts them \
         right; {} says what to do by hand",
        target.display(),
        note.display()
    ))
}

/// The system's own words, without the name of the hidden folder, which means nothing to the maker.
pub(super) fn reason(error: &io::Error) -> String {
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
