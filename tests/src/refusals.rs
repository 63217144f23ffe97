//! Bad jobs and styles: what is expected of a run with each.
//!
//! A case is a folder `refusals/NAME`. It holds `job.kdl` or whatever `command.txt` speaks of, a folder `styles` if it
//! brings a style, and `expected.txt`: comment lines with `#` (the source of the expectation), then `exit 1` or
//! `exit 2`, then phrases, one a line, that the program must say in this order. Phrases may run over line ends.
//! Without `command.txt` the command is `make job.kdl --as svg --into out`.

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};

use crate::expected::complaints;
use crate::{Outcome, repository};

/// All cases, in the order of their names.
///
/// # Panics
/// When they cannot be listed.
pub fn cases() -> Vec<PathBuf> {
    let folder = repository().join("tests/refusals");
    let entries = fs::read_dir(folder).expect("the cases can be listed");
    let mut cases: Vec<PathBuf> = entries.flatten().map(|entry| entry.path()).collect();
    cases.sort();
    cases
}

/// What a run of a case lacks; nothing if all is as it should be.
///
/// # Panics
/// When the case cannot be read or copied.
pub fn judge(case: &Path, run: impl Fn(&Path, &[&str]) -> Outcome) -> Vec<String> {
    let name = case
        .file_name()
        .expect("a case has a name")
        .to_string_lossy();
    let expected =
        fs::read_to_string(case.join("expected.txt")).expect("a case says what it expects");
    let folder = tempfile::tempdir().expect("a folder can be made");
    copy(case, folder.path());
    let before = files(folder.path());
    let outcome = run(folder.path(), &words(&command(case)));
    let mut faults = complaints(&expected, &outcome);
    if files(folder.path()) != before {
        faults.push("it wrote or changed a file".to_owned());
    }
    let said = format!("{}{}", outcome.stdout, outcome.stderr);
    faults
        .iter()
        .map(|fault| format!("{name}: {fault}; it said:\n{said}"))
        .collect()
}

fn command(case: &Path) -> String {
    let command = fs::read_to_string(case.join("command.txt"));
    let command = command.unwrap_or_else(|_| "make job.kdl --as svg --into out".to_owned());
    if case.join("styles").is_dir() {
        format!("{command} --styles styles")
    } else {
        command
    }
}

fn words(command: &str) -> Vec<&str> {
    command.split_whitespace().collect()
}

fn copy(from: &Path, into: &Path) {
    fs::create_dir_all(into).expect("a folder can be made");
    for entry in fs::read_dir(from).expect("a case can be listed").flatten() {
        let target = into.join(entry.file_name());
        if entry.path().is_dir() {
            copy(&entry.path(), &target);
        } else {
            fs::copy(entry.path(), target).expect("a file can be copied");
        }
    }
}

/// Every file and folder below a folder, with the files' bytes.
fn files(folder: &Path) -> BTreeMap<PathBuf, Option<Vec<u8>>> {
    let mut found = BTreeMap::new();
    for entry in fs::read_dir(folder)
        .expect("a folder can be listed")
        .flatten()
    {
        let path = entry.path();
        if path.is_dir() {
            found.extend(files(&path));
            found.insert(path, None);
        } else {
            let bytes = fs::read(&path).expect("a file can be read");
            found.insert(path, Some(bytes));
        }
    }
    found
}
