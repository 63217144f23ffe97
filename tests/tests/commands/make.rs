//! `make`: all files of a call or none, and what is said about them.

use std::fs;

use traywright_tests::run;

use crate::{BAROMETER, check, desk, files};

#[test]
fn make_writes_into_a_new_folder_and_says_what_and_what_next() {
    let desk = desk();
    let outcome = run(
        desk.path(),
        &["make", "barometer.kdl", "--as", "svg", "--into", "new/out"],
    );
    check(&outcome, 0, &["barometer.svg", "100 %"]);
    assert_eq!(outcome.stdout, "");
    assert_eq!(files(&desk.path().join("new/out")), ["barometer.svg"]);
}

#[test]
fn make_repeats_the_verdict_and_names_each_pad_to_cut() {
    let desk = desk();
    let padded = BAROMETER.replace("depth=(mm)28", "depth=(mm)26 pad=(mm)4");
    fs::write(desk.path().join("padded.kdl"), padded).expect("a file can be written");
    let outcome = run(desk.path(), &["make", "padded.kdl", "--as", "svg"]);
    check(
        &outcome,
        0,
        &[
            "Barometer keepsake box: fits.",
            "Wrote ./padded.svg.",
            "Cut a pad for barometer: 96 × 61 mm, 4 mm thick.",
            "Check that the item lies still.",
        ],
    );
}

#[test]
fn make_says_who_prints_a_whole_page_and_who_joins_sheets() {
    let desk = desk();
    let whole = format!("{BAROMETER}\npage \"whole\"\n");
    fs::write(desk.path().join("whole.kdl"), whole).expect("a file can be written");
    for (job, said, unsaid) in [
        ("whole.kdl", "print shop", "join"),
        ("barometer.kdl", "join", "print shop"),
    ] {
        let outcome = run(desk.path(), &["make", job, "--as", "pdf"]);
        check(&outcome, 0, &[said]);
        assert!(!outcome.stderr.contains(unsaid), "{}", outcome.stderr);
    }
}

#[test]
fn make_without_a_list_writes_what_exists_into_the_current_folder() {
    let desk = desk();
    check(&run(desk.path(), &["make", "barometer.kdl"]), 0, &[]);
    let left = files(desk.path());
    assert!(left.contains(&"barometer.svg".to_owned()), "{left:?}");
    assert!(left.iter().all(|name| !name.starts_with('.')), "{left:?}");
}

#[test]
fn quiet_make_says_nothing_when_all_is_well_and_still_names_what_is_wrong() {
    let desk = desk();
    let outcome = run(
        desk.path(),
        &["--quiet", "make", "barometer.kdl", "--as", "svg"],
    );
    check(&outcome, 0, &[]);
    assert_eq!((outcome.stdout.as_str(), outcome.stderr.as_str()), ("", ""));
    check(
        &run(desk.path(), &["make", "--quiet", "tall.kdl"]),
        1,
        &["tall.kdl", "item-too-deep"],
    );
}

#[test]
fn a_tray_that_does_not_fit_keeps_every_file_away_and_every_old_file_as_it_is() {
    let desk = desk();
    fs::write(desk.path().join("barometer.svg"), "old").expect("a file can be written");
    let both = ["make", "barometer.kdl", "tall.kdl", "--as", "svg"];
    check(
        &run(desk.path(), &both),
        1,
        &["tall.kdl", "item-too-deep", "othing"],
    );
    assert_eq!(
        fs::read_to_string(desk.path().join("barometer.svg")).expect("it is there"),
        "old"
    );
    let into: Vec<&str> = both.into_iter().chain(["--into", "out"]).collect();
    check(&run(desk.path(), &into), 1, &["tall.kdl"]);
    assert!(!desk.path().join("out").exists());
}

#[test]
fn keep_going_writes_the_trays_that_fit_and_still_exits_1() {
    let desk = desk();
    fs::write(desk.path().join("barometer.svg"), "old").expect("a file can be written");
    let outcome = run(
        desk.path(),
        &[
            "make",
            "tall.kdl",
            "barometer.kdl",
            "--as",
            "svg",
            "--keep-going",
        ],
    );
    check(&outcome, 1, &["tall.kdl", "item-too-deep", "barometer.svg"]);
    assert!(
        fs::read_to_string(desk.path().join("barometer.svg"))
            .is_ok_and(|text| text.contains("<svg"))
    );
    assert!(!desk.path().join("tall.svg").exists());
    let typo = [
        "make",
        "typo.kdl",
        "barometer.kdl",
        "--as",
        "svg",
        "--keep-going",
        "--into",
        "out",
    ];
    check(&run(desk.path(), &typo), 2, &["typo.kdl:2:"]);
    assert!(!desk.path().join("out").exists());
}

#[test]
fn two_jobs_with_files_of_one_name_are_refused_naming_both() {
    let desk = desk();
    for folder in ["attic", "cellar"] {
        fs::create_dir(desk.path().join(folder)).expect("a folder can be made");
        fs::write(desk.path().join(folder).join("tin.kdl"), BAROMETER)
            .expect("a job can be written");
    }
    let jobs = [
        "make",
        "attic/tin.kdl",
        "cellar/tin.kdl",
        "--as",
        "svg",
        "--into",
        "out",
    ];
    check(
        &run(desk.path(), &jobs),
        2,
        &["attic/tin.kdl", "cellar/tin.kdl", "`tin`"],
    );
    check(
        &run(
            desk.path(),
            &["make", "tall.kdl", "tall.kdl", "--as", "svg"],
        ),
        2,
        &["tall.kdl"],
    );
    assert!(!desk.path().join("out").exists());
}

#[test]
fn an_unknown_exporter_is_refused_with_the_nearest_name_and_the_list() {
    let desk = desk();
    let outcome = run(
        desk.path(),
        &["make", "barometer.kdl", "--as", "svgg", "--into", "out"],
    );
    check(&outcome, 2, &["`svgg`", "svg"]);
    assert!(!desk.path().join("out").exists());
}

#[test]
fn a_place_that_cannot_be_written_leaves_everything_as_it_was() {
    let desk = desk();
    fs::create_dir(desk.path().join("barometer.svg")).expect("a folder can be made");
    fs::write(desk.path().join("small.kdl"), BAROMETER).expect("a job can be written");
    let outcome = run(
        desk.path(),
        &["make", "small.kdl", "barometer.kdl", "--as", "svg"],
    );
    check(&outcome, 2, &["barometer.svg"]);
    assert!(!desk.path().join("small.svg").exists());
    let beneath_a_file = run(
        desk.path(),
        &["make", "small.kdl", "--as", "svg", "--into", "tall.kdl/out"],
    );
    check(&beneath_a_file, 2, &["tall.kdl"]);
    assert_eq!(
        files(desk.path()),
        [
            "barometer.kdl",
            "barometer.svg",
            "small.kdl",
            "tall.kdl",
            "typo.kdl"
        ]
    );
}

#[test]
fn the_same_job_gives_the_same_bytes_in_another_folder() {
    let desk = desk();
    for into in ["monday", "tuesday"] {
        check(
            &run(
                desk.path(),
                &["make", "barometer.kdl", "--as", "svg", "--into", into],
            ),
            0,
            &[],
        );
    }
    let read = |into: &str| {
        fs::read(desk.path().join(into).join("barometer.svg")).expect("it was written")
    };
    assert_eq!(read("monday"), read("tuesday"));
}

// Source: core/CONTRACT.md, "Files: PDF" and "Files: booklet". DejaVu Sans lacks U+6F22, a Chinese letter, and has the rest.
#[test]
fn pages_that_lack_a_letter_say_which_and_how_it_is_written() {
    let desk = desk();
    let job = BAROMETER.replace("keepsake", "\u{6F22} \u{141}\u{F3}d\u{17A}");
    fs::write(desk.path().join("named.kdl"), job).expect("a job can be written");
    for pages in ["pdf", "booklet"] {
        let outcome = run(desk.path(), &["make", "named.kdl", "--as", pages]);
        check(&outcome, 0, &["the pages write `\u{6F22}` as U+6F22"]);
        assert_eq!(
            outcome.stderr.matches("U+").count(),
            1,
            "{}",
            outcome.stderr
        );
    }
    let outcome = run(
        desk.path(),
        &["make", "barometer.kdl", "--as", "pdf,booklet"],
    );
    assert!(
        !outcome.stderr.contains("the font lacks"),
        "{}",
        outcome.stderr
    );
}
