//! Watching on Linux: the kernel reports each file that was closed after writing, or moved into a folder.
//!
//! A file is reported once it is whole, so nobody reads half of it. Source: inotify(7).

use std::collections::HashMap;
use std::ffi::OsStr;
use std::io;
use std::mem::MaybeUninit;
use std::os::fd::OwnedFd;
use std::os::unix::ffi::OsStrExt;
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, PoisonError};
use std::thread;

use rustix::fs::inotify::{self, CreateFlags, Reader, WatchFlags};

/// The folders as named, by the kernel's number of the folder.
type Folders = Arc<Mutex<HashMap<i32, Vec<PathBuf>>>>;

/// Watches folders until the program ends.
#[derive(Debug)]
pub(crate) struct Watcher {
    inotify: Arc<OwnedFd>,
    folders: Folders,
}

impl Watcher {
    /// A watcher of no folder yet; `saved` is called with the path of each saved file.
    ///
    /// # Errors
    /// A system that grants no more watchers.
    pub(crate) fn start(saved: impl Fn(PathBuf) + Send + 'static) -> io::Result<Self> {
        let inotify = Arc::new(inotify::init(CreateFlags::CLOEXEC)?);
        let folders = Folders::default();
        let (source, known) = (Arc::clone(&inotify), Arc::clone(&folders));
        thread::Builder::new().spawn(move || report(&source, &known, &saved))?;
        Ok(Watcher { inotify, folders })
    }

    /// Watches a folder too; one that is watched already stays as it is.
    ///
    /// # Errors
    /// A folder that is not there or may not be read.
    pub(crate) fn add(&self, folder: &Path) -> io::Result<()> {
        let opened = match folder.as_os_str().is_empty() {
            true => Path::new("."),
            false => folder,
        };
        // Locked first, so that no event comes before its folder is known.
        let mut folders = self.folders.lock().unwrap_or_else(PoisonError::into_inner);
        let flags = WatchFlags::CLOSE_WRITE | WatchFlags::MOVED_TO;
        let number = inotify::add_watch(&*self.inotify, opened, flags)?;
        // Two names of one folder have one number.
        let names = folders.entry(number).or_default();
        if !names.iter().any(|name| name == folder) {
            names.push(folder.to_owned());
        }
        Ok(())
    }
}

/// Passes events on until there are no more.
fn report(source: &OwnedFd, folders: &Folders, saved: &impl Fn(PathBuf)) {
    let mut buffer = [MaybeUninit::uninit(); 4096];
    let mut events = Reader::new(source, &mut buffer);
    loop {
        let event = match events.next() {
            Ok(event) => event,
            Err(rustix::io::Errno::INTR) => continue,
            Err(_) => return,
        };
        let Some(name) = event.file_name() else {
            continue;
        };
        let name = OsStr::from_bytes(name.to_bytes());
        let folders = folders.lock().unwrap_or_else(PoisonError::into_inner);
        for folder in folders.get(&event.wd()).into_iter().flatten() {
            saved(folder.join(name));
        }
    }
}
