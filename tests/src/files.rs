//! Files of the repository.

use std::fs;
use std::path::{Path, PathBuf};

use crate::repository;

/// Files of one kind in a folder of the repository and in all folders below it.
pub fn files(folder: &str, ending: &str) -> Vec<PathBuf> {
    let mut found = Vec::new();
    gather(&repository().join(folder), ending, &mut found);
    found.sort();
    assert!(!found.is_empty(), "there is no *.{ending} in {folder}");
    found
}

fn gather(folder: &Path, ending: &str, found: &mut Vec<PathBuf>) {
    for entry in fs::read_dir(folder).expect("a folder can be read") {
        let path = entry.expect("a folder can be listed").path();
        if path.is_dir() {
            gather(&path, ending, found);
        } else if path.extension().is_some_and(|own| own == ending) {
            found.push(path);
        }
    }
}
