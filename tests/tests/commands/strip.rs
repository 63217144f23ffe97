//! `strip`: a strip that measures the card of a job, and the reading that the job takes.

use std::fs;

use traywright_tests::run;

use crate::{BAROMETER, check, desk, files};

#[test]
fn strip_writes_beside_the_files_of_the_tray_and_leaves_them_alone() {
    let desk = desk();
    let outcome = run(
        desk.path(),
        &["strip", "barometer.kdl", "--as", "svg,dxf", "--into", "new"],
    );
    check(
        &outcome,
        0,
        &["barometer-strip.svg", "B + C + D - A", "reading=(mm)"],
    );
    assert_eq!(
        files(&desk.path().join("new")),
        ["barometer-strip.dxf", "barometer-strip.svg"]
    );
    let svg = fs::read_to_string(desk.path().join("new/barometer-strip.svg")).expect("it is there");
    assert!(!svg.contains(", box "), "the strip goes into no box");
}

#[test]
fn a_job_whose_tray_does_not_fit_has_its_strip() {
    let desk = desk();
    check(&run(desk.path(), &["check", "tall.kdl"]), 1, &[]);
    let outcome = run(desk.path(), &["strip", "tall.kdl", "--as", "svg"]);
    check(&outcome, 0, &["tall-strip.svg"]);
}

#[test]
fn a_strip_never_replaces_a_job_and_is_no_strip_of_a_reading_that_cannot_be() {
    let desk = desk();
    let job = BAROMETER.replace("caliper=(mm)0.29", "caliper=(mm)0.3 reading=(mm)9");
    fs::write(desk.path().join("wrong.kdl"), job).expect("a file can be written");
    let before = files(desk.path());
    let outcome = run(desk.path(), &["strip", "wrong.kdl", "--as", "svg"]);
    check(&outcome, 1, &["reading-range", "9 mm longer", "0.6 mm"]);
    assert_eq!(files(desk.path()), before);
}

// Derived: 1 mm board whose strip grew by 3 mm folds 3 / 4 - 1 / 2 = 0.25 mm from its middle; √(0.025² + 0.025²) = 0.04.
#[test]
fn check_says_where_the_card_folds_and_how_sure_that_is() {
    let desk = desk();
    let job = BAROMETER.replace("caliper=(mm)0.29", "caliper=(mm)1 reading=(mm)3");
    fs::write(desk.path().join("read.kdl"), job).expect("a file can be written");
    let outcome = run(desk.path(), &["check", "read.kdl"]);
    check(&outcome, 0, &[]);
    for words in ["0.25 mm from the middle", "±0.04 mm"] {
        assert!(outcome.stdout.contains(words), "{}", outcome.stdout);
    }
}

#[test]
fn a_piece_without_item_and_box_is_checked_as_what_it_is() {
    let desk = desk();
    let own = "tray style=\"strip\"\nboard caliper=(mm)1\n";
    fs::write(desk.path().join("own.kdl"), own).expect("a file can be written");
    let outcome = run(desk.path(), &["check", "own.kdl"]);
    check(&outcome, 0, &[]);
    assert!(
        outcome.stdout.starts_with("own: folds."),
        "{}",
        outcome.stdout
    );
    for word in ["held", "the lid", "box", "item", "Deck"] {
        assert!(!outcome.stdout.contains(word), "{word}: {}", outcome.stdout);
    }
    let of_a_tray = own.replace("strip", "single-slot");
    fs::write(desk.path().join("bare.kdl"), of_a_tray).expect("a file can be written");
    let outcome = run(desk.path(), &["check", "bare.kdl"]);
    check(&outcome, 2, &["takes one item", "the job has none"]);
    let boxed = format!("{own}box length=(mm)182 width=(mm)121 depth=(mm)34\n");
    fs::write(desk.path().join("boxed.kdl"), boxed).expect("a file can be written");
    let outcome = run(desk.path(), &["check", "boxed.kdl"]);
    check(&outcome, 2, &["goes into no box"]);
}
