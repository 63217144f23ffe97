//! A maker's desk: one job that fits, in a folder of its own, and the exporters of these tests.
//!
//! Given a list of exporters and a folder to write into, it runs `make` as a maker would, and says whether one sentence
//! came of it. It never says which sentence is right.

use std::fs;
use std::path::Path;

use tempfile::TempDir;
use traywright_tests::{Outcome, run};

use super::compiled::plugins;

pub(super) const JOB: &str = r#"tray style="single-slot"
box length=(mm)182 width=(mm)121 depth=(mm)34.5
item "barometer" length=(mm)96 width=(mm)61 depth=(mm)28
board caliper=(mm)0.29
"#;

/// A folder with one job.
pub(super) fn desk() -> TempDir {
    let desk = tempfile::tempdir().expect("a folder can be made");
    fs::write(desk.path().join("barometer.kdl"), JOB).expect("a job can be written");
    desk
}

/// `make barometer.kdl --as LIST --into INTO`, with the exporters of these tests and more time than any good one needs.
pub(super) fn make(desk: &TempDir, list: &str, into: &str) -> Outcome {
    make_with(
        desk,
        list,
        into,
        &["--exporter-seconds", "20"],
        &[plugins()],
    )
}

/// The same with flags and folders of one's own.
pub(super) fn make_with(
    desk: &TempDir,
    list: &str,
    into: &str,
    flags: &[&str],
    folders: &[&Path],
) -> Outcome {
    let mut words = vec!["make", "barometer.kdl", "--as", list, "--into", into];
    words.extend(flags);
    for folder in folders {
        words.extend(["--plugins", folder.to_str().expect("a path in ASCII")]);
    }
    run(desk.path(), &words)
}

/// Names in a folder, hidden ones too, in order.
pub(super) fn names(folder: &Path) -> Vec<String> {
    let mut names: Vec<String> = fs::read_dir(folder)
        .expect("the folder can be read")
        .map(|entry| entry.expect("the folder can be read").file_name())
        .map(|name| name.to_string_lossy().into_owned())
        .collect();
    names.sort();
    names
}

/// Exit 2, nothing asked for, one sentence in one line with these words.
#[track_caller]
pub(super) fn check_one_sentence(outcome: &Outcome, words: &[&str]) {
    assert_eq!(outcome.code, 2, "{outcome:?}");
    assert_eq!(outcome.stdout, "");
    assert!(outcome.stderr.starts_with("error: "), "{}", outcome.stderr);
    assert_eq!(
        outcome.stderr.matches('\n').count(),
        1,
        "{}",
        outcome.stderr
    );
    for words in words {
        assert!(
            outcome.stderr.contains(words),
            "no `{words}` in\n{}",
            outcome.stderr
        );
    }
}
