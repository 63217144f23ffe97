//! What a call reads stays as it is: jobs, styles and fonts are checked before anything is written, and never replaced.

use std::fs;
use std::os::unix::fs::symlink;
use std::process::Command;

use traywright_tests::{program, run};

use crate::{BAROMETER, check, desk, files};

/// The first bytes of a TrueType file.
// Source: OpenType 1.9, "Table directory": sfntVersion 0x00010000 for TrueType outlines.
const TRUE_TYPE: [u8; 4] = [0, 1, 0, 0];

/// The barometer's job with a font.
fn with_font(font: &str) -> String {
    format!("{BAROMETER}page \"A4\" font=\"{font}\"\n")
}

// Source: core/CONTRACT.md, "Commands": exit 2 is bad input; a fault of a text prints FILE:LINE:COL.
#[test]
fn a_font_that_cannot_be_read_is_an_error_of_the_job_at_its_place() {
    let desk = desk();
    fs::create_dir(desk.path().join("folder.ttf")).expect("a folder can be made");
    fs::write(desk.path().join("words.ttf"), "no font").expect("a file can be written");
    for (font, why) in [
        ("nope.ttf", "there is no file nope.ttf"),
        ("folder.ttf", "folder.ttf is a folder"),
        ("words.ttf", "words.ttf is no TrueType font"),
    ] {
        fs::write(desk.path().join("plain.kdl"), with_font(font)).expect("a job can be written");
        for command in [
            &["check", "plain.kdl"][..],
            &["make", "plain.kdl", "--as", "svg", "--into", "out"],
        ] {
            let outcome = run(desk.path(), command);
            check(&outcome, 2, &["plain.kdl:5:11", font, why]);
            assert_eq!(outcome.stdout, "");
            assert_eq!(
                outcome.stderr.matches("error").count(),
                1,
                "{}",
                outcome.stderr
            );
        }
        assert!(!desk.path().join("out").exists());
    }
}

#[test]
fn a_font_is_named_from_where_the_job_lies() {
    let desk = desk();
    fs::create_dir(desk.path().join("shelf")).expect("a folder can be made");
    fs::write(desk.path().join("shelf/hand.ttf"), TRUE_TYPE).expect("a file can be written");
    fs::write(desk.path().join("shelf/job.kdl"), with_font("hand.ttf")).expect("a job");
    check(&run(desk.path(), &["check", "shelf/job.kdl"]), 0, &[]);
}

#[test]
fn make_never_replaces_a_file_that_it_reads() {
    let desk = desk();
    let write = |name: &str, bytes: &[u8]| {
        fs::write(desk.path().join(name), bytes).expect("a file can be written");
    };
    symlink(desk.path(), desk.path().join("elsewhere")).expect("a link can be made");
    write("y.svg", BAROMETER.as_bytes());
    write("hand.kdl", with_font("hand.svg").as_bytes());
    write("hand.svg", &TRUE_TYPE);
    let before = files(desk.path());
    let ways: [(&[&str], &[&str]); 4] = [
        (&["y.svg"], &["y.svg", "the job y.svg"]),
        (
            &["y.svg", "--into", "elsewhere"],
            &["elsewhere/y.svg", "the job y.svg"],
        ),
        (
            &["elsewhere/y.svg", "--into", "."],
            &["./y.svg", "the job elsewhere/y.svg"],
        ),
        (&["hand.kdl"], &["hand.svg", "the font hand.svg"]),
    ];
    for (way, words) in ways {
        let command = [&["make", "--as", "svg"], way].concat();
        check(&run(desk.path(), &command), 2, words);
    }
    assert_eq!(files(desk.path()), before);
    let read = |name: &str| fs::read(desk.path().join(name)).expect("it is there");
    assert_eq!(read("y.svg"), BAROMETER.as_bytes());
    assert_eq!(read("hand.svg"), TRUE_TYPE);
    // The same files go into another folder without a word.
    let apart = ["make", "y.svg", "hand.kdl", "--as", "svg", "--into", "out"];
    check(&run(desk.path(), &apart), 0, &[]);
}

// Source: POSIX.1-2024, "ulimit": -v counts in units of 1,024 bytes. The reader's stack for a text of 200 KB needs more.
#[test]
fn a_job_without_a_thread_to_read_it_is_not_called_tangled() {
    let desk = desk();
    let long = format!("{BAROMETER}{}", "// a word on the card\n".repeat(9_000));
    fs::write(desk.path().join("long.kdl"), long).expect("a job can be written");
    check(&run(desk.path(), &["check", "long.kdl"]), 0, &[]);
    let limited = "ulimit -v 400000 && exec \"$@\"";
    let outcome = Command::new("sh")
        .current_dir(desk.path())
        .args(["-c", limited, "sh"])
        .arg(program())
        .args(["check", "long.kdl"])
        .output()
        .expect("a shell can be started");
    let said = String::from_utf8_lossy(&outcome.stderr);
    assert_eq!(outcome.status.code(), Some(2), "{said}");
    assert!(said.contains("starts no thread"), "{said}");
    assert!(
        said.contains("ulimit") && !said.contains("tangled"),
        "{said}"
    );
}

#[test]
fn a_folder_of_exporters_that_cannot_be_read_is_named_once() {
    let desk = desk();
    fs::create_dir(desk.path().join("lib")).expect("a folder can be made");
    fs::write(desk.path().join("lib/traywright"), "no folder").expect("a file can be written");
    fs::create_dir(desk.path().join("bin")).expect("a folder can be made");
    let copy = desk.path().join("bin/traywright");
    fs::copy(program(), &copy).expect("the program can be copied");
    let outcome = Command::new(&copy)
        .current_dir(desk.path())
        .args(["make", "barometer.kdl", "--as", "svg,dxf"])
        .output()
        .expect("the copy can be started");
    let said = String::from_utf8_lossy(&outcome.stderr);
    assert_eq!(outcome.status.code(), Some(2), "{said}");
    assert_eq!(said.matches("cannot be read").count(), 1, "{said}");
    assert!(said.contains("lib/traywright"), "{said}");
    assert!(!said.contains("no library"), "{said}");
}
