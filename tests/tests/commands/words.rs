//! The words of the command line, help, lists, manual pages, and a reader that does not wait.

use std::fs;
use std::process::{Command, Stdio};

use traywright_tests::{program, repository, run};

use crate::{check, desk, files};

#[test]
fn words_that_make_no_command_exit_2_and_help_exits_0() {
    let desk = desk();
    for wrong in [
        &["make"][..],
        &["mend", "barometer.kdl"],
        &["check", "barometer.kdl", "--format", "xml"],
    ] {
        let outcome = run(desk.path(), wrong);
        check(&outcome, 2, &["--help"]);
        assert_eq!(outcome.stdout, "");
    }
    for seconds in ["0", "-1", "soon", "NaN"] {
        check(
            &run(
                desk.path(),
                &["make", "barometer.kdl", "--exporter-seconds", seconds],
            ),
            2,
            &["seconds"],
        );
    }
    for asked in [
        &["--help"][..],
        &["--version"],
        &["help", "make"],
        &["check", "--help"],
    ] {
        let outcome = run(desk.path(), asked);
        check(&outcome, 0, &[]);
        assert!(!outcome.stdout.is_empty());
    }
}

#[test]
fn a_reader_that_has_gone_away_is_no_trouble() {
    let desk = desk();
    let (reader, writer) = std::io::pipe().expect("a pipe can be made");
    drop(reader);
    let output = Command::new(program())
        .current_dir(desk.path())
        .args(["check", "barometer.kdl"])
        .stdout(writer)
        .stderr(Stdio::piped())
        .output()
        .expect("the program can be started");
    assert_eq!(output.status.code(), Some(0));
    assert_eq!(String::from_utf8_lossy(&output.stderr), "");
}

#[test]
fn folders_named_before_the_command_and_behind_it_both_count() {
    let desk = desk();
    for (folder, style) in [("one", "lens-nest"), ("two", "vial-rack")] {
        fs::create_dir(desk.path().join(folder)).expect("a folder can be made");
        let shipped = repository().join("designs/styles/single-slot.ron");
        fs::copy(
            shipped,
            desk.path().join(folder).join(format!("{style}.ron")),
        )
        .expect("a style can be copied");
    }
    let list = run(
        desk.path(),
        &["--styles", "one", "styles", "--styles", "two"],
    );
    check(&list, 0, &[]);
    for style in ["lens-nest ", "vial-rack "] {
        assert!(
            list.stdout.lines().any(|line| line.starts_with(style)),
            "no {style} in\n{}",
            list.stdout
        );
    }
}

#[test]
fn manual_pages_and_completions_are_written_for_packaging() {
    let desk = desk();
    check(&run(desk.path(), &["__pages", "pages"]), 0, &[]);
    let pages = files(&desk.path().join("pages"));
    for page in [
        "traywright.1",
        "traywright-make.1",
        "traywright.bash",
        "_traywright",
        "traywright.fish",
    ] {
        assert!(
            pages.iter().any(|name| name == page),
            "no {page} in {pages:?}"
        );
    }
    assert!(!run(desk.path(), &["--help"]).stdout.contains("__"));
}
