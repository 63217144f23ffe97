//! A folder with jobs in it, in which commands are run.

use std::fs;
use std::path::Path;

use tempfile::TempDir;
use traywright_engine::Job;

use super::yardstick::write_jobs;
use crate::jobs::written;
use crate::run;

/// A folder with one file for each job, `job-0.kdl` and so on, and the same jobs for the yardstick in `jobs.json`.
#[derive(Debug)]
pub struct Desk {
    folder: TempDir,
    files: Vec<String>,
}

impl Desk {
    /// A desk with these jobs for a style.
    ///
    /// # Panics
    /// When it cannot be written.
    pub fn with(style: &str, jobs: &[Job]) -> Desk {
        let folder = tempfile::tempdir().expect("a folder can be made");
        let files = (0..jobs.len()).map(|number| format!("job-{number}.kdl"));
        let files: Vec<String> = files.collect();
        for (file, job) in files.iter().zip(jobs) {
            fs::write(folder.path().join(file), written(style, job)).expect("a job can be written");
        }
        write_jobs(jobs, &folder.path().join("jobs.json"));
        Desk { folder, files }
    }

    /// Where it is.
    pub fn path(&self) -> &Path {
        self.folder.path()
    }

    /// Runs the program.
    ///
    /// # Panics
    /// When it fails.
    pub fn run(&self, words: &[&str]) {
        let outcome = run(self.path(), words);
        assert_eq!(outcome.code, 0, "{words:?}: {}", outcome.stderr);
    }

    /// Runs a command with the files of all jobs behind it.
    ///
    /// # Panics
    /// When it fails.
    pub fn run_all(&self, words: &[&str]) {
        let files = self.files.iter().map(String::as_str);
        let words: Vec<&str> = words.iter().copied().chain(files).collect();
        self.run(&words);
    }
}
