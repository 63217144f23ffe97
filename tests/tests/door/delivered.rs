//! All files of a call, or none, whatever stood there before.
//!
//! Given good exporters and bad ones, and folders in which something is in the way. Source of every expectation: the
//! contract, "Commands": all files of a call appear, or none; existing files are replaced only then; `--into` makes
//! missing folders.

use std::fs;
use std::process::Command;

use traywright_tests::repository;
use traywright_tests::skip;

use super::compiled::plugins;
use super::desk::{JOB, check_one_sentence, desk, make, make_with, names};

#[test]
fn one_bad_exporter_among_good_ones_leaves_everything_as_it_was() {
    let desk = desk();
    fs::write(desk.path().join("barometer.txt"), "old").expect("a file can be written");
    for list in ["noisy,null-write,figures", "figures,noisy,crashes-late"] {
        check_one_sentence(&make(&desk, list, "."), &["crashed"]);
        assert_eq!(names(desk.path()), ["barometer.kdl", "barometer.txt"]);
        let text = fs::read_to_string(desk.path().join("barometer.txt")).expect("it is there");
        assert_eq!(text, "old");
    }
}

#[test]
fn printing_and_listening_spoil_no_file_and_the_old_one_is_replaced() {
    for exporter in ["noisy", "listens"] {
        let desk = desk();
        fs::write(desk.path().join("barometer.txt"), "old").expect("a file can be written");
        let outcome = make(&desk, exporter, ".");
        assert_eq!(outcome.code, 0, "{}", outcome.stderr);
        assert!(!outcome.stderr.contains("noise"), "{}", outcome.stderr);
        assert_eq!(outcome.stdout, "");
        assert_eq!(names(desk.path()), ["barometer.kdl", "barometer.txt"]);
        let text = fs::read_to_string(desk.path().join("barometer.txt")).expect("it is there");
        assert_eq!(text, "text");
    }
}

#[test]
fn what_cannot_be_delivered_is_refused_and_leaves_everything_as_it_was() {
    let desk = desk();
    // Two exporters, or one, that make two files of one name.
    check_one_sentence(
        &make(&desk, "noisy,warns", "new"),
        &["barometer.txt", "two"],
    );
    check_one_sentence(
        &make(&desk, "twice", "new"),
        &["`twice`", "two files", "`.txt`"],
    );
    // A target that is a folder, a folder that is a file.
    fs::create_dir(desk.path().join("barometer.txt")).expect("a folder can be made");
    check_one_sentence(
        &make(&desk, "figures,noisy", "."),
        &["barometer.txt", "folder"],
    );
    check_one_sentence(&make(&desk, "figures", "barometer.kdl"), &["barometer.kdl"]);
    check_one_sentence(
        &make(&desk, "figures", "barometer.kdl/new"),
        &["barometer.kdl"],
    );
    // Missing folders of which the last cannot be made; 255 bytes are the limit of common file systems.
    let long = format!("new/and/{}", "x".repeat(256));
    check_one_sentence(&make(&desk, "figures", &long), &["new/and/xxx"]);
    assert_eq!(names(desk.path()), ["barometer.kdl", "barometer.txt"]);
}

#[test]
fn when_a_move_fails_the_old_files_come_back() {
    let desk = desk();
    let locked = desk.path().join("barometer.txt");
    let old = desk.path().join("barometer-box.txt");
    fs::write(&locked, "old").expect("a file can be written");
    fs::write(&old, "old").expect("a file can be written");
    let lock = |flag| {
        let done = Command::new("chattr").arg(flag).arg(&locked).output();
        done.is_ok_and(|done| done.status.success())
    };
    if !lock("+i") {
        skip(
            "a move that fails",
            "no file can be made immutable here (chattr +i)",
        );
        return;
    }
    let outcome = make(&desk, "figures,noisy", ".");
    assert!(lock("-i"), "the file can be unlocked again");
    check_one_sentence(&outcome, &["barometer.txt"]);
    assert_eq!(
        names(desk.path()),
        ["barometer-box.txt", "barometer.kdl", "barometer.txt"]
    );
    for file in [locked, old] {
        assert_eq!(fs::read_to_string(file).expect("it is there"), "old");
    }
}

#[test]
fn no_file_of_a_call_replaces_a_job_or_a_style_that_it_reads() {
    let desk = desk();
    fs::create_dir(desk.path().join("styles")).expect("a folder can be made");
    fs::copy(
        repository().join("designs/styles/single-slot.ron"),
        desk.path().join("styles/barometer.ron"),
    )
    .expect("a style can be copied");
    let flags = ["--styles", "styles"];
    let in_styles = make_with(&desk, "writes-inputs", "styles", &flags, &[plugins()]);
    check_one_sentence(
        &in_styles,
        &["styles/barometer.ron", "the style styles/barometer.ron"],
    );
    // Without that folder the style is no input, and the job still is.
    let beside = make(&desk, "writes-inputs", ".");
    check_one_sentence(&beside, &["barometer.kdl", "the job barometer.kdl"]);
    assert_eq!(names(desk.path()), ["barometer.kdl", "styles"]);
    assert_eq!(names(&desk.path().join("styles")), ["barometer.ron"]);
    let text = fs::read_to_string(desk.path().join("barometer.kdl")).expect("it is there");
    assert_eq!(text, JOB);
}
