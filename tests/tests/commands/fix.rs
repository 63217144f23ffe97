//! `fix`: the list of fixes, and the job with one of them.
//!
//! Source of every expectation: core/CONTRACT.md, "Commands": `fix`.

use std::fs;

use traywright_tests::run;

use super::{BAROMETER, check, desk, files};

/// A job that needs a pad: the doors hold its item across the box alone.
const CLOCK: &str = r#"// The clock of the hall.
tray style="single-slot" name="Clock"
box length=(mm)210 width=(mm)160 depth=(mm)58   // at the rim
item "clock" length=(mm)104 width=(mm)90 depth=(mm)49
board "index-255"
slot cut="doors"
"#;

#[test]
fn without_a_number_fix_lists_and_writes_nothing() {
    let desk = desk();
    fs::write(desk.path().join("clock.kdl"), CLOCK).expect("a job can be written");
    let before = files(desk.path());
    let outcome = run(desk.path(), &["fix", "clock.kdl"]);
    check(&outcome, 0, &[]);
    // Derived: the deck is 56 high, and half the air of 2 mm is added: 56 - 49 + 1.
    let line = "  1. item \"clock\" pad=(mm)8\n";
    assert!(outcome.stdout.contains(line), "{}", outcome.stdout);
    assert_eq!(files(desk.path()), before);
}

#[test]
fn a_fix_that_is_taken_keeps_comments_and_makes_the_tray_fit() {
    let desk = desk();
    fs::write(desk.path().join("clock.kdl"), CLOCK).expect("a job can be written");
    let taken = run(
        desk.path(),
        &["fix", "clock.kdl", "--take", "1", "--into", "new.kdl"],
    );
    check(&taken, 0, &["Wrote new.kdl"]);
    let expected = CLOCK.replace("depth=(mm)49", "depth=(mm)49 pad=(mm)8");
    let written = fs::read_to_string(desk.path().join("new.kdl")).expect("it was written");
    assert_eq!(written, expected);
    check(&run(desk.path(), &["check", "new.kdl"]), 0, &[]);
    // Without a file it goes to standard output.
    let printed = run(desk.path(), &["fix", "clock.kdl", "--take", "1"]);
    assert_eq!((printed.code, printed.stdout), (0, expected));
}

#[test]
fn fix_never_overwrites_and_knows_its_numbers() {
    let desk = desk();
    fs::write(desk.path().join("clock.kdl"), CLOCK).expect("a job can be written");
    let into = ["fix", "clock.kdl", "--take", "1", "--into", "clock.kdl"];
    check(&run(desk.path(), &into), 2, &["clock.kdl is there already"]);
    let kept = fs::read_to_string(desk.path().join("clock.kdl")).expect("it is there still");
    assert_eq!(kept, CLOCK);
    for number in ["0", "9"] {
        let outcome = run(desk.path(), &["fix", "clock.kdl", "--take", number]);
        check(&outcome, 2, &[&format!("has no fix {number}")]);
    }
    check(&run(desk.path(), &["fix", "typo.kdl"]), 2, &["typo.kdl"]);
    check(
        &run(desk.path(), &["fix", "missing.kdl"]),
        2,
        &["missing.kdl"],
    );
}

#[test]
fn nothing_to_fix_is_done_and_no_fix_is_told_apart() {
    let desk = desk();
    let outcome = run(desk.path(), &["fix", "barometer.kdl"]);
    check(&outcome, 0, &[]);
    assert!(
        outcome.stdout.contains("nothing to fix"),
        "{}",
        outcome.stdout
    );
    // No change helps a job whose only card is as large as a stamp.
    let job = BAROMETER.replace("caliper=(mm)0.29", "caliper=(mm)0.29 sheet=\"50x50 mm\"");
    fs::write(desk.path().join("small.kdl"), job).expect("a job can be written");
    let outcome = run(desk.path(), &["fix", "small.kdl"]);
    check(&outcome, 1, &[]);
    assert!(outcome.stdout.contains("no change"), "{}", outcome.stdout);
}

// Derived: 2 mm + 0.5 mm, and 2 mm - 0.5 mm; the job has no line `fit`, so it gets one.
#[test]
fn what_was_found_on_the_first_tray_goes_into_the_job() {
    let desk = desk();
    let padded = CLOCK.replace("depth=(mm)49", "depth=(mm)49 pad=(mm)8");
    fs::write(desk.path().join("clock.kdl"), padded).expect("a job can be written");
    let readings = ["--tight", "box=(mm)0.5", "--loose", "item=0.5mm"];
    let new = ["--into", "new.kdl"];
    let outcome = run(
        desk.path(),
        &[&["fix", "clock.kdl"], &readings[..], &new].concat(),
    );
    check(&outcome, 0, &["new.kdl"]);
    let text = fs::read_to_string(desk.path().join("new.kdl")).expect("the new job");
    assert!(text.contains("fit box=(mm)2.5 item=(mm)1.5"), "{text}");
    assert!(text.starts_with("// The clock of the hall."), "{text}");

    let too_loose = run(desk.path(), &["fix", "new.kdl", "--loose", "box=(mm)3"]);
    check(&too_loose, 2, &["new.kdl", "`fit box` is 2.5 mm"]);
    let not_both = run(
        desk.path(),
        &["fix", "new.kdl", "--take", "1", "--tight", "box=(mm)1"],
    );
    assert_eq!(not_both.code, 2, "{}", not_both.stderr);
    // Derived: 160 - 70 = 90 leaves the clock of 90 and its opening no room; then nothing is written.
    let arguments = [
        "fix",
        "new.kdl",
        "--tight",
        "box=(mm)70",
        "--into",
        "third.kdl",
    ];
    let misfit = run(desk.path(), &arguments);
    check(&misfit, 1, &["does not fit", "Nothing was written."]);
    assert!(!desk.path().join("third.kdl").exists());
}
