//! A folder belongs to one call at a time.
//!
//! **Input:** a folder. **Output:** a lock that ends with the process, so that a killed call leaves none. On Unix the
//! folder itself is locked; Windows locks no folders, so a file in it is held, which the system deletes when the
//! process ends. The lock is advisory: programs of others do not see it.

use std::fs::File;
use std::io::{self, ErrorKind};
use std::path::Path;
use std::thread;
use std::time::{Duration, Instant};

use super::error::{in_use, stopped};
use crate::error::CliError;
use crate::interrupt;
use crate::report::Output;

/// How long a call waits for another one. Moving thousands of files takes less. Common practice, none published.
const PATIENCE: Duration = Duration::from_secs(10);

/// Nothing is said about a shorter wait. Common practice, none published.
const SILENCE: Duration = Duration::from_millis(500);

/// Time between two attempts. Common practice, none published.
const PAUSE: Duration = Duration::from_millis(10);

/// The file that is held in a folder where the system locks no folders.
pub(super) const LOCK_FILE: &str = ".traywright-lock";

/// A locked folder.
#[derive(Debug)]
pub(super) struct FolderLock(#[expect(dead_code, reason = "held, never read")] File);

impl FolderLock {
    /// Locks a folder, if no other call has it.
    ///
    /// # Errors
    /// A folder that is gone (`NotFound`), and a file system that keeps no locks.
    pub(super) fn attempt(folder: &Path) -> io::Result<Option<Self>> {
        let locked = locked(folder)?;
        if let Some(file) = &locked {
            is_still(folder, file)?;
        }
        Ok(locked.map(FolderLock))
    }

    /// Waits for the folder.
    ///
    /// # Errors
    /// As [`FolderLock::attempt`].
    ///
    /// # Refuses
    /// A folder that another call keeps for long; a signal.
    pub(super) fn wait(folder: &Path, output: Output) -> Result<io::Result<Self>, CliError> {
        Self::wait_for(PATIENCE, folder, output)
    }

    fn wait_for(
        patience: Duration,
        folder: &Path,
        output: Output,
    ) -> Result<io::Result<Self>, CliError> {
        let begun = Instant::now();
        let mut said = false;
        loop {
            match Self::attempt(folder) {
                Ok(Some(lock)) => return Ok(Ok(lock)),
                Err(error) => return Ok(Err(error)),
                Ok(None) if interrupt::asked() => return Err(stopped()),
                Ok(None) if begun.elapsed() >= patience => return Err(in_use(folder)),
                Ok(None) => {}
            }
            if !said && begun.elapsed() >= SILENCE {
                output.print_info(&format!(
                    "Waiting: another call of traywright writes into {}.\n",
                    folder.display()
                ));
                said = true;
            }
            thread::sleep(PAUSE);
        }
    }
}

#[cfg(not(windows))]
fn locked(folder: &Path) -> io::Result<Option<File>> {
    use std::fs::TryLockError;
    let file = File::open(folder)?;
    loop {
        match file.try_lock() {
            Ok(()) => return Ok(Some(file)),
            Err(TryLockError::WouldBlock) => return Ok(None),
            Err(TryLockError::Error(error)) if error.kind() == ErrorKind::Interrupted => {}
            Err(TryLockError::Error(error)) => return Err(error),
        }
    }
}

#[cfg(windows)]
fn locked(folder: &Path) -> io::Result<Option<File>> {
    use std::os::windows::fs::OpenOptionsExt;
    // Source: the Windows interface, "Access Mask Format", "CreateFile" and "System Error Codes".
    const WRITE: u32 = 0x4000_0000;
    const DELETE: u32 = 0x0001_0000;
    const DELETE_ON_CLOSE: u32 = 0x0400_0000;
    const SHARING_VIOLATION: i32 = 32;
    let opened = File::options()
        .write(true)
        .create(true)
        .access_mode(WRITE | DELETE)
        .share_mode(0)
        .custom_flags(DELETE_ON_CLOSE)
        .open(folder.join(LOCK_FILE));
    match opened {
        Ok(file) => Ok(Some(file)),
        Err(error) if error.raw_os_error() == Some(SHARING_VIOLATION) => Ok(None),
        Err(error) => Err(error),
    }
}

/// Another call may have removed the folder between opening and locking, and a third may have made a new one.
#[cfg(unix)]
fn is_still(folder: &Path, locked: &File) -> io::Result<()> {
    use std::os::unix::fs::MetadataExt;
    let (there, locked) = (folder.metadata()?, locked.metadata()?);
    match (there.dev(), there.ino()) == (locked.dev(), locked.ino()) {
        true => Ok(()),
        false => Err(ErrorKind::NotFound.into()),
    }
}

#[cfg(not(unix))]
fn is_still(_folder: &Path, _locked: &File) -> io::Result<()> {
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_folder_belongs_to_one_call_at_a_time() {
        let folder = tempfile::tempdir().expect("a folder can be made");
        let first = FolderLock::attempt(folder.path()).expect("there are locks");
        assert!(first.is_some());
        let second = FolderLock::attempt(folder.path()).expect("there are locks");
        assert!(second.is_none());
        let refused = FolderLock::wait_for(Duration::ZERO, folder.path(), Output::new(true));
        let words = format!("{:?}", refused.expect_err("it is in use"));
        assert!(words.contains("another call"), "{words}");
        drop(first);
        let third = FolderLock::attempt(folder.path()).expect("there are locks");
        assert!(third.is_some());
        let left = folder.path().read_dir().expect("it can be read").count();
        assert_eq!(left, usize::from(cfg!(windows)), "the lock is a file");
    }

    #[cfg(unix)]
    #[test]
    fn a_folder_that_was_replaced_is_another_one() {
        let folder = tempfile::tempdir().expect("a folder can be made");
        let (one, other) = (folder.path().join("one"), folder.path().join("other"));
        std::fs::create_dir(&one).expect("a folder can be made");
        let file = File::open(&one).expect("it can be opened");
        std::fs::rename(&one, &other).expect("it can be renamed");
        assert!(is_still(&other, &file).is_ok());
        assert!(is_still(&one, &file).is_err());
        std::fs::create_dir(&one).expect("a folder can be made");
        assert!(is_still(&one, &file).is_err());
    }
}
