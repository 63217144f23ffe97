//! Reads a job's file.
//!
//! **Input:** a path. **Output:** the bytes, and the [`Job`] in them. **Errors:** a file that cannot be read, and every
//! error in its text. The reader runs in a thread of its own, because the KDL parser needs more stack for a bad text
//! than for a good one, and for some malicious texts takes far too long.

use std::fs::File;
use std::io::{self, ErrorKind, Read};
use std::path::Path;
use std::sync::OnceLock;
use std::sync::mpsc;
use std::thread;
use std::time::Duration;

use traywright_engine::Job;
use traywright_job::error::InputError;
use traywright_job::job_file;
use traywright_job::library::Boards;

use crate::error::CliError;

/// Maximum number of bytes read from a file, far more than the 256 KiB that a job may have.
const MOST_READ: u64 = 16 * 1024 * 1024;

/// Stack for each byte of the text.
// Derived: the parser calls itself at every sign that it cannot place; without optimisation that took 1.7 KiB a byte.
const STACK_FOR_A_BYTE: usize = 4 * 1024;

/// Stack for every text.
const STACK: usize = 4 * 1024 * 1024;

/// Time limit; a normal job takes a thousandth of a second.
const PATIENCE: Duration = Duration::from_secs(10);

/// Reads a job; `path_as_named` is its file as the maker named it.
pub(crate) fn read_job(path_as_named: &str, bytes: &[u8]) -> Result<Job, InputError> {
    let (path, owned) = (path_as_named.to_owned(), bytes.to_owned());
    let (sender, receiver) = mpsc::channel();
    // A text that is too large is refused before it reaches the parser.
    let parsed = bytes.len().min(job_file::LARGEST);
    let started = thread::Builder::new()
        .stack_size(STACK + STACK_FOR_A_BYTE * parsed)
        .spawn(move || drop(sender.send(job_file::read(&path, &owned, boards()))));
    if let Err(error) = started {
        return Err(no_thread(path_as_named, &error));
    }
    let read = receiver.recv_timeout(PATIENCE);
    read.unwrap_or_else(|_| Err(job_file::too_tangled(path_as_named, bytes)))
}

/// The error that the system has no memory or no process left, which says nothing about the text.
fn no_thread(job: &str, error: &io::Error) -> InputError {
    InputError::sentence(format_args!(
        "the job {job} cannot be read, because the system starts no thread for it ({error}): close other programs, or raise the limits of the shell (`ulimit -a` lists them)"
    ))
}

/// The shipped boards, read once.
pub(crate) fn boards() -> &'static Boards {
    static BOARDS: OnceLock<Boards> = OnceLock::new();
    BOARDS.get_or_init(Boards::shipped)
}

/// The bytes of a job's file.
///
/// # Errors
/// A file that cannot be read, by its name.
pub(crate) fn job_bytes(path: &Path) -> Result<Vec<u8>, CliError> {
    bytes_of(path).map_err(|error| unreadable(&path.display().to_string(), &error))
}

fn bytes_of(path: &Path) -> io::Result<Vec<u8>> {
    let mut bytes = Vec::new();
    let read = File::open(path)?.take(MOST_READ).read_to_end(&mut bytes)?;
    if read as u64 == MOST_READ {
        let most = MOST_READ / 1024 / 1024;
        return Err(io::Error::other(format!(
            "it has {most} MiB or more, and a job has at most 256 KiB: is it the right file?"
        )));
    }
    Ok(bytes)
}

fn unreadable(job: &str, error: &io::Error) -> CliError {
    match error.kind() {
        ErrorKind::NotFound => CliError::sentence(format_args!("there is no job {job}")),
        ErrorKind::IsADirectory => CliError::sentence(format_args!("{job} is a folder, not a job")),
        ErrorKind::PermissionDenied => {
            CliError::sentence(format_args!("the job {job} may not be read"))
        }
        _ => CliError::sentence(format_args!("the job {job} cannot be read: {error}")),
    }
}

#[cfg(test)]
mod fuzz;
