//! The scripts of a page and the module behind them, run by Node.js and in a browser.
//!
//! Outsiders: Node.js, another run of the same scripts than any browser's; chromium with playwright-core and axe-core
//! (`outside/page.js`). Expected values come from the native program's
//! files; FOLD files come from the document's poses by another way than the scripts.

mod browser;
mod module;
mod pictures;
mod poses;
mod scripts;
mod words;

use std::fs;
use std::path::{Path, PathBuf};

use tempfile::TempDir;
use traywright_tests::{repository, run};

/// A job with its name.
struct Job {
    name: String,
    text: String,
}

/// The shipped jobs.
fn shipped() -> Vec<Job> {
    let folder = repository().join("designs/jobs");
    let entries = fs::read_dir(folder).expect("the shipped jobs can be listed");
    let mut paths: Vec<PathBuf> = entries.flatten().map(|entry| entry.path()).collect();
    paths.retain(|path| path.extension().is_some_and(|ending| ending == "kdl"));
    paths.sort();
    let read = |path: &PathBuf| Job {
        name: word(Path::new(path.file_stem().expect("a job has a name"))),
        text: fs::read_to_string(path).expect("a job can be read"),
    };
    paths.iter().map(read).collect()
}

/// The files that the native program makes of jobs.
fn made(jobs: &[Job], formats: &str) -> TempDir {
    let folder = tempfile::tempdir().expect("a folder can be made");
    for job in jobs {
        let name = format!("{}.kdl", job.name);
        fs::write(folder.path().join(&name), &job.text).expect("a job can be written");
        let words = [
            "make",
            "--quiet",
            "--exporter-seconds",
            "50",
            "--as",
            formats,
            &name,
        ];
        let outcome = run(folder.path(), &words);
        assert_eq!(outcome.code, 0, "{name}: {}", outcome.stderr);
    }
    folder
}

/// A path as a word of a command line.
fn word(path: &Path) -> String {
    path.to_str().expect("a path in UTF-8").to_owned()
}

/// The folder of the scripts.
fn web() -> String {
    word(&repository().join("exporters/html/web"))
}
