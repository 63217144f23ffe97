//! Single acts on files, as each system allows them.
//!
//! **Input:** paths. **Output:** a second name of a file, a move that replaces nothing, a folder that is on the disk.
//! **Does not** know what a delivery is.

use std::fs::{self, File, Metadata};
use std::io::{self, ErrorKind, Write};
use std::path::Path;

use super::hidden::is_there;

/// Writes a new file to the disk.
pub(super) fn write_through(mut file: File, bytes: &[u8]) -> io::Result<()> {
    file.write_all(bytes)?;
    file.sync_all()
}

/// Gives a file or link a second name. Where the file system refuses that, the second name is a copy.
///
/// # Errors
/// A second name that is taken: copying onto it would empty the file, if both are names of one file already.
pub(super) fn second_name(file: &Path, about: &Metadata, second: &Path) -> io::Result<()> {
    match fs::hard_link(file, second) {
        Err(error) if error.kind() == ErrorKind::AlreadyExists => Err(error),
        Err(_) if about.is_file() => copy(file, about, second),
        Err(_) if about.is_symlink() => copy_link(file, second),
        named => named,
    }
}

fn copy(file: &Path, about: &Metadata, copy: &Path) -> io::Result<()> {
    fs::copy(file, copy)?;
    let written = File::options().append(true).open(copy)?;
    written.set_modified(about.modified()?)?;
    written.sync_all()
}

#[cfg(unix)]
fn copy_link(link: &Path, copy: &Path) -> io::Result<()> {
    std::os::unix::fs::symlink(fs::read_link(link)?, copy)
}

#[cfg(not(unix))]
fn copy_link(_link: &Path, _copy: &Path) -> io::Result<()> {
    Err(io::Error::new(ErrorKind::Unsupported, "it is a link"))
}

/// Gives the owner, group and mode of a replaced file to the new one, as far as the system allows.
#[cfg(unix)]
pub(super) fn keep_owner_and_mode(old: &Metadata, new: &Path) {
    use std::os::unix::fs::{MetadataExt, PermissionsExt, chown};
    /// Reading, writing and running, without the right to become somebody else.
    const PLAIN: u32 = 0o777;
    let Ok(now) = new.symlink_metadata() else {
        return;
    };
    if !old.is_file() {
        return;
    }
    let is_owner_the_same = now.uid() == old.uid() && now.gid() == old.gid();
    let is_mode_the_same = (now.mode() ^ old.mode()) & PLAIN == 0;
    if is_owner_the_same && is_mode_the_same {
        return;
    }
    // Opened before the mode may forbid it.
    let file = File::open(new);
    if now.uid() != old.uid() {
        let _ = chown(new, Some(old.uid()), None);
    }
    if now.gid() != old.gid() {
        let _ = chown(new, None, Some(old.gid()));
    }
    if !is_mode_the_same {
        let _ = fs::set_permissions(new, fs::Permissions::from_mode(old.mode() & PLAIN));
    }
    let _ = file.and_then(|file| file.sync_all());
}

#[cfg(not(unix))]
pub(super) fn keep_owner_and_mode(_old: &Metadata, _new: &Path) {}

/// Moves a new file to a place where nothing is.
///
/// # Errors
/// Something that is there by now.
pub(super) fn move_new(new: &Path, target: &Path) -> io::Result<()> {
    #[cfg(target_os = "linux")]
    {
        use rustix::fs::{CWD, RenameFlags, renameat_with};
        use rustix::io::Errno;
        match renameat_with(CWD, new, CWD, target, RenameFlags::NOREPLACE) {
            // A kernel or file system without this kind of move.
            Err(Errno::INVAL | Errno::NOSYS | Errno::NOTSUP) => {}
            moved => return Ok(moved?),
        }
    }
    match is_there(target)? {
        true => Err(ErrorKind::AlreadyExists.into()),
        false => fs::rename(new, target),
    }
}

/// Waits until the names in a folder of this call are on the disk.
pub(super) fn sync_folder(folder: &Path) -> io::Result<()> {
    #[cfg(unix)]
    match File::open(folder)?.sync_all() {
        // A file system that does this for files alone.
        Err(error)
            if matches!(
                error.kind(),
                ErrorKind::InvalidInput | ErrorKind::Unsupported
            ) => {}
        synced => return synced,
    }
    let _ = folder;
    Ok(())
}

/// As [`sync_folder`], for a folder that the maker may write and not read, and that therefore cannot be opened.
pub(super) fn sync_folder_of_target(folder: &Path) -> io::Result<()> {
    match sync_folder(folder) {
        Err(error) if error.kind() == ErrorKind::PermissionDenied => Ok(()),
        synced => synced,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    // As on a file system that does not tell `a.svg` from `A.svg`.
    #[test]
    fn a_file_that_has_the_second_name_already_is_not_emptied() {
        let folder = tempfile::tempdir().expect("a folder can be made");
        let [file, second] = ["a.svg", "second.svg"].map(|name| folder.path().join(name));
        fs::write(&file, "lines").expect("a file can be written");
        let about = file.metadata().expect("it is there");
        second_name(&file, &about, &second).expect("the name is free");
        let again = second_name(&file, &about, &second).expect_err("the name is taken");
        assert_eq!(again.kind(), ErrorKind::AlreadyExists);
        assert_eq!(fs::read(&file).expect("it is there"), b"lines");
    }
}
