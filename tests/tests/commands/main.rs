//! What the commands promise to a shell and to a script: exit codes, streams, files, JSON.
//!
//! Source of every expectation: core/CONTRACT.md, "Commands" and "Files"; figures name their own.

mod check;
mod fix;
mod inputs;
mod make;
mod pages;
mod strip;
mod styles;
mod words;

use std::fs;
use std::path::Path;

use tempfile::TempDir;
use traywright_tests::Outcome;

const BAROMETER: &str = r#"tray style="single-slot" name="Barometer keepsake box"
box length=(mm)182 width=(mm)121 depth=(mm)34
item "barometer" length=(mm)96 width=(mm)61 depth=(mm)28
board caliper=(mm)0.29
"#;

/// A folder with a job that fits, one whose item is deeper than its box, and one with a unit that is unknown.
fn desk() -> TempDir {
    let desk = tempfile::tempdir().expect("a temporary folder can be made");
    let write = |name: &str, text: &str| {
        fs::write(desk.path().join(name), text).expect("a job can be written")
    };
    write("barometer.kdl", BAROMETER);
    write(
        "tall.kdl",
        &BAROMETER.replace("depth=(mm)28", "depth=(mm)40"),
    );
    write("typo.kdl", &BAROMETER.replace("(mm)121", "(cm)12.1"));
    desk
}

/// Every file below a folder, sorted.
fn files(folder: &Path) -> Vec<String> {
    let mut names: Vec<String> = match fs::read_dir(folder) {
        Ok(entries) => entries
            .map(|entry| {
                entry
                    .expect("a folder can be read")
                    .file_name()
                    .to_string_lossy()
                    .into_owned()
            })
            .collect(),
        Err(_) => Vec::new(),
    };
    names.sort();
    names
}

#[track_caller]
fn check(outcome: &Outcome, code: i32, stderr_says: &[&str]) {
    assert_eq!(
        outcome.code, code,
        "stdout:\n{}\nstderr:\n{}",
        outcome.stdout, outcome.stderr
    );
    for words in stderr_says {
        assert!(
            outcome.stderr.contains(words),
            "no `{words}` in\n{}",
            outcome.stderr
        );
    }
}
