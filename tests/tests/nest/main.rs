//! `nest`: what is laid, what is written, and what is refused.
//!
//! Source of every expectation: core/CONTRACT.md, "Commands"; figures name their own.

mod another_program;
mod cut_ups;
mod refusals;
mod sheets;

use std::fs;
use std::path::Path;

use tempfile::TempDir;
use traywright_tests::repository;

/// A folder with copies of example jobs.
fn desk(jobs: &[&str]) -> TempDir {
    let desk = tempfile::tempdir().expect("a temporary folder can be made");
    for job in jobs {
        let from = repository().join("designs/jobs").join(job);
        fs::copy(from, desk.path().join(job)).expect("an example job can be copied");
    }
    desk
}

fn names(folder: &Path) -> Vec<String> {
    let entries = fs::read_dir(folder).expect("the folder can be read");
    let name = |entry: std::io::Result<fs::DirEntry>| {
        entry
            .expect("an entry")
            .file_name()
            .to_string_lossy()
            .into_owned()
    };
    let mut names: Vec<String> = entries.map(name).collect();
    names.sort();
    names
}
