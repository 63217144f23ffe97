//! A failing exporter in a call with several jobs.
//!
//! Given an exporter that crashes or hangs on a tray of a certain name, the other jobs of the call are what they would
//! be without that tray. Source: core/CONTRACT.md, "Commands".

use std::fs;

use tempfile::TempDir;
use traywright_tests::{Outcome, run};

use super::compiled::plugins;
use super::desk::{JOB, check_one_sentence, names};

/// A folder with a job for each name; the name is that of the tray too.
fn jobs(names: &[&str]) -> TempDir {
    let desk = tempfile::tempdir().expect("a folder can be made");
    for name in names {
        let text = JOB.replace("tray ", &format!("tray name=\"{name}\" "));
        fs::write(desk.path().join(format!("{name}.kdl")), text).expect("a job can be written");
    }
    desk
}

fn make(desk: &TempDir, names: &[&str], flags: &[&str]) -> Outcome {
    let files: Vec<String> = names.iter().map(|name| format!("{name}.kdl")).collect();
    let plugins = plugins().to_str().expect("a path in ASCII");
    let mut words = vec![
        "make",
        "--as",
        "moody",
        "--into",
        "out",
        "--plugins",
        plugins,
    ];
    words.extend(files.iter().map(String::as_str));
    words.extend(flags);
    run(desk.path(), &words)
}

#[test]
fn with_keep_going_a_crash_and_a_hang_cost_their_jobs_alone() {
    let all = ["a", "crash-here", "b", "hang-here", "c"];
    let desk = jobs(&all);
    let flags = ["--keep-going", "--exporter-seconds", "2"];
    let outcome = make(&desk, &all, &flags);
    assert_eq!(outcome.code, 2, "{}", outcome.stderr);
    assert_eq!(names(&desk.path().join("out")), ["a.txt", "b.txt", "c.txt"]);
    for words in [
        "error: crash-here.kdl: the exporter `moody` crashed with signal 11",
        "error: hang-here.kdl: the exporter `moody` took longer than 2 s",
        "Wrote out/a.txt, out/b.txt, out/c.txt.",
    ] {
        assert!(
            outcome.stderr.contains(words),
            "{words}\n{}",
            outcome.stderr
        );
    }
    let table = outcome
        .stderr
        .split("\njob ")
        .nth(1)
        .expect("a table at the end");
    let rows: Vec<Vec<&str>> = table
        .lines()
        .skip(1)
        .map(|row| row.split_whitespace().take(2).collect())
        .collect();
    assert_eq!(
        rows,
        [
            vec!["a.kdl", "fits"],
            vec!["crash-here.kdl", "not-made"],
            vec!["the", "exporter"],
            vec!["b.kdl", "fits"],
            vec!["hang-here.kdl", "not-made"],
            vec!["the", "exporter"],
            vec!["c.kdl", "fits"],
        ]
    );
}

#[test]
fn without_it_the_first_crash_of_the_call_is_told_and_nothing_is_written() {
    let all = ["a", "b", "crash-here", "c", "crash-here-too", "d", "e", "f"];
    let desk = jobs(&all);
    let before = names(desk.path());
    for _ in 0..3 {
        let outcome = make(&desk, &all, &[]);
        check_one_sentence(&outcome, &["crash-here.kdl:", "`moody`", "crashed"]);
        assert_eq!(names(desk.path()), before);
    }
}
