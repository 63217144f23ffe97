//! What is said when files cannot be delivered.
//!
//! **Input:** a file or folder, and a reason. **Output:** an error in one sentence.

use std::fmt::Display;
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

/// A move failed, and so did putting the old files back. The note tells a person what to do.
pub(super) fn not_put_back(target: &Path, reason: &dyn Display, note: &Path) -> CliError {
    CliError::sentence(format_args!(
        "{} cannot be written: {reason}; some files are new and some old. The next call into this folder puts them \
         right; {} says what to do by hand",
        target.display(),
        note.display()
    ))
}
