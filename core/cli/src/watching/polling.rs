//! Watching on any system: looks through the folders ten times a second and compares the files' sizes and times.

use std::collections::HashMap;
use std::fs;
use std::io;
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, PoisonError};
use std::thread;
use std::time::{Duration, SystemTime};

/// Time between two looks. Common practice: a tenth of a second is hardly felt, and a look is cheap.
const PAUSE: Duration = Duration::from_millis(100);

/// What changes when a file is saved.
type Stamp = (u64, Option<SystemTime>);

/// The files of a folder.
type Stamps = HashMap<PathBuf, Stamp>;

/// Watches folders until the program ends.
#[derive(Debug)]
pub(crate) struct Watcher {
    folders: Arc<Mutex<HashMap<PathBuf, Stamps>>>,
}

impl Watcher {
    /// A watcher of no folder yet; `saved` is called with the path of each saved file.
    ///
    /// # Errors
    /// A system that starts no more threads.
    pub(crate) fn start(saved: impl Fn(PathBuf) + Send + 'static) -> io::Result<Self> {
        let folders: Arc<Mutex<HashMap<PathBuf, Stamps>>> = Arc::default();
        let known = Arc::clone(&folders);
        thread::Builder::new().spawn(move || {
            loop {
                thread::sleep(PAUSE);
                let mut known = known.lock().unwrap_or_else(PoisonError::into_inner);
                for (folder, stamps) in known.iter_mut() {
                    let now = look(folder).unwrap_or_default();
                    let changed = now
                        .iter()
                        .filter(|(file, stamp)| stamps.get(*file) != Some(stamp));
                    changed.for_each(|(file, _)| saved(file.clone()));
                    *stamps = now;
                }
            }
        })?;
        Ok(Watcher { folders })
    }

    /// Watches a folder too; one that is watched already stays as it is.
    ///
    /// # Errors
    /// A folder that is not there or may not be read.
    pub(crate) fn add(&self, folder: &Path) -> io::Result<()> {
        let mut folders = self.folders.lock().unwrap_or_else(PoisonError::into_inner);
        if !folders.contains_key(folder) {
            folders.insert(folder.to_owned(), look(folder)?);
        }
        Ok(())
    }
}

fn look(folder: &Path) -> io::Result<Stamps> {
    let opened = match folder.as_os_str().is_empty() {
        true => Path::new("."),
        false => folder,
    };
    let mut stamps = Stamps::new();
    for entry in fs::read_dir(opened)? {
        let entry = entry?;
        // A file that vanishes while it is looked at is not there.
        if let Ok(about) = fs::metadata(entry.path()) {
            let stamp = (about.len(), about.modified().ok());
            stamps.insert(folder.join(entry.file_name()), stamp);
        }
    }
    Ok(stamps)
}
