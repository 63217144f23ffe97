//! Input that `nest` refuses: the exit code, the words, and no file.

use std::fs;

use traywright_tests::run;

use crate::{desk, names};

const JOBS: [&str; 3] = ["barometer.kdl", "marine-clock.kdl", "observatory-watch.kdl"];

/// Runs `nest` with these words; it must end with the code, say the words and write nothing.
fn refused(arguments: &[&str], code: i32, words: &[&str]) {
    let desk = desk(&JOBS);
    let before = names(desk.path());
    let outcome = run(desk.path(), &[&["nest"], arguments].concat());
    assert_eq!(outcome.code, code, "{arguments:?}: {}", outcome.stderr);
    let said = outcome
        .stderr
        .split_whitespace()
        .collect::<Vec<_>>()
        .join(" ");
    for word in words {
        assert!(said.contains(word), "{arguments:?}: no `{word}` in {said}");
    }
    assert_eq!(names(desk.path()), before, "{arguments:?}");
}

#[test]
fn sizes_that_are_none_are_refused() {
    for stock in [
        "1000x700",
        "0x700 mm",
        "1000x700 cm",
        "NaNxNaN mm",
        "-5x700 mm",
        "1e9x1 mm",
        "B4",
        "",
        "1000 mm",
        "infx1 in",
    ] {
        let stock = format!("--stock={stock}");
        refused(&["barometer.kdl", &stock], 2, &["--stock"]);
    }
    refused(&["barometer.kdl"], 2, &["--stock"]);
}

#[test]
fn counts_gaps_and_times_that_are_none_are_refused() {
    let stock = "--stock=1000x700 mm";
    for wrong in [
        "--count=0",
        "--count=-1",
        "--count=1.5",
        "--count=NaN",
        "--count=barometer=",
        "--count=99999999999",
    ] {
        refused(
            &["barometer.kdl", stock, wrong],
            2,
            &["--count", "from 1 to 10000"],
        );
    }
    for wrong in [
        "--gap=3",
        "--gap=-1mm",
        "--gap=NaNmm",
        "--margin=1e9mm",
        "--margin=mm",
        "--gap=3cubits",
    ] {
        refused(&["barometer.kdl", stock, wrong], 2, &["with its unit"]);
    }
    for wrong in ["--seconds=0", "--seconds=NaN", "--seconds=-3"] {
        refused(&["barometer.kdl", stock, wrong], 2, &["seconds"]);
    }
    refused(
        &["barometer.kdl", stock, "--grain=diagonal"],
        2,
        &["--grain"],
    );
    refused(
        &["barometer.kdl", stock, "--count", "clock=3"],
        2,
        &["`--count clock=…`", "it has barometer"],
    );
}

#[test]
fn what_cannot_share_a_sheet_is_refused_by_name() {
    let stock = "--stock=1000x700 mm";
    refused(
        &["barometer.kdl", "marine-clock.kdl", stock],
        2,
        &[
            "barometer and marine-clock cannot share a sheet",
            "1 mm",
            "two calls",
        ],
    );
    refused(
        &["barometer.kdl", "barometer.kdl", stock],
        2,
        &["files of one name, `barometer`"],
    );
    refused(
        &["barometer.kdl", stock, "--as", "booklet"],
        2,
        &["`booklet` explains one tray"],
    );
    refused(&["none.kdl", stock], 2, &["there is no job none.kdl"]);
}

// Source: the report of the job: its blank is longer than A4 is.
#[test]
fn a_blank_larger_than_the_stock_is_told_with_numbers() {
    refused(
        &["barometer.kdl", "--stock=A4", "--gap=3mm"],
        1,
        &[
            "The blank of barometer is",
            "A4 has room for 200 x 287 mm",
            "margin of 5 mm",
            "Nothing was written",
        ],
    );
    refused(
        &["barometer.kdl", "--stock=1000x700 mm", "--margin=400mm"],
        1,
        &["has room for"],
    );
}

#[test]
fn a_tray_that_does_not_fit_is_not_laid() {
    let desk = desk(&JOBS);
    let text = fs::read_to_string(desk.path().join("barometer.kdl")).expect("it is there");
    fs::write(
        desk.path().join("tall.kdl"),
        text.replace("depth=(mm)28", "depth=(mm)80"),
    )
    .expect("a job can be written");
    let before = names(desk.path());
    let outcome = run(desk.path(), &["nest", "tall.kdl", "--stock=1000x700 mm"]);
    assert_eq!(outcome.code, 1, "{}", outcome.stderr);
    assert!(
        outcome.stderr.contains("does not fit"),
        "{}",
        outcome.stderr
    );
    assert_eq!(names(desk.path()), before);
}
