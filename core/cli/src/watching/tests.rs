//! Both ways of watching see the same saves.

use std::fs;
use std::path::{Path, PathBuf};
use std::sync::mpsc::{self, Receiver};
use std::time::Duration;

use super::{Watcher, polling};

/// Waits for a path; the time only ends a test that has failed.
fn hears(paths: &Receiver<PathBuf>, wanted: &Path) {
    let patience = Duration::from_secs(20);
    while paths.recv_timeout(patience).expect("the save is noticed") != wanted {}
}

fn saves_are_noticed(folder: &Path, paths: &Receiver<PathBuf>) {
    let (file, other) = (folder.join("job.kdl"), folder.join(".job.kdl.new"));
    fs::write(&file, "in place").expect("a file can be written");
    hears(paths, &file);
    fs::write(&other, "a new file over the old one").expect("a file can be written");
    fs::rename(&other, &file).expect("a file can be renamed");
    hears(paths, &file);
}

#[test]
fn a_save_in_place_and_a_save_by_renaming_are_noticed() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let (sender, paths) = mpsc::channel();
    let watcher = Watcher::start(move |path| drop(sender.send(path))).expect("a watcher");
    watcher.add(folder.path()).expect("the folder is there");
    saves_are_noticed(folder.path(), &paths);

    let (sender, paths) = mpsc::channel();
    let watcher = polling::Watcher::start(move |path| drop(sender.send(path))).expect("a watcher");
    watcher.add(folder.path()).expect("the folder is there");
    saves_are_noticed(folder.path(), &paths);
    assert!(watcher.add(&folder.path().join("missing")).is_err());
}
