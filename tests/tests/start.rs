//! `start` as a maker meets it: without a terminal, and at one.
//!
//! The terminal is a pseudo-terminal: the program cannot tell it from a real one. Source of what is expected:
//! core/CONTRACT.md, "Commands"; the lengths typed are worked out with 10 mm to the cm and 25.4 mm to the inch.

use std::fs::{self, File};
use std::io::{Read, Write};
use std::path::Path;
use std::process::{Command, Stdio};

use rustix::fs::{Mode, OFlags, open};
use rustix::pty::{OpenptFlags, grantpt, openpt, ptsname, unlockpt};
use traywright_tests::{program, repository, run};

/// Types lines at a terminal; gives the exit code and all that was on the screen.
fn typed(folder: &Path, arguments: &[&str], lines: &str) -> (Option<i32>, String) {
    let terminal = openpt(OpenptFlags::RDWR | OpenptFlags::NOCTTY).expect("a terminal");
    grantpt(&terminal).expect("its other end may be used");
    unlockpt(&terminal).expect("its other end is open");
    let name = ptsname(&terminal, Vec::new()).expect("its other end has a name");
    let keyboard = open(name, OFlags::RDWR | OFlags::NOCTTY, Mode::empty()).expect("its other end");
    let mut child = Command::new(program())
        .current_dir(folder)
        .args(arguments)
        .stdin(keyboard)
        .stdout(Stdio::null())
        .stderr(Stdio::piped())
        .spawn()
        .expect("the program can be started");
    let mut typing = File::from(terminal);
    typing
        .write_all(lines.as_bytes())
        .expect("the terminal takes the lines");
    // The end of the answers, so that a question too many is refused and does not wait for ever.
    typing
        .write_all(b"\x04")
        .expect("the terminal takes the end");
    let mut said = String::new();
    let mut screen = child.stderr.take().expect("what it says is piped");
    screen.read_to_string(&mut said).expect("words");
    (child.wait().expect("it ends").code(), said)
}

/// The lines of a job without its notes.
fn lines(path: &Path) -> Vec<String> {
    let text = fs::read_to_string(path).expect("the job is there");
    let is_line = |line: &&str| !line.is_empty() && !line.starts_with("//");
    text.lines().filter(is_line).map(str::to_owned).collect()
}

fn fits(folder: &Path, job: &str) {
    let checked = run(folder, &["check", job]);
    assert_eq!(checked.code, 0, "{}{}", checked.stdout, checked.stderr);
}

#[test]
fn every_style_and_unit_gives_a_job_that_passes_as_it_stands() {
    let folder = tempfile::tempdir().expect("a folder");
    let styles = fs::read_dir(repository().join("designs/styles")).expect("the shipped styles");
    let mut count = 0;
    for style in styles.flatten().map(|entry| entry.path()) {
        let name = style
            .file_stem()
            .expect("a name")
            .to_string_lossy()
            .into_owned();
        for unit in ["mm", "in"] {
            let job = format!("{name}-{unit}.kdl");
            let began = run(
                folder.path(),
                &["start", "--style", &name, "--unit", unit, &job],
            );
            assert_eq!(
                (began.code, began.stdout.as_str()),
                (0, ""),
                "{}",
                began.stderr
            );
            assert!(
                began.stderr.contains("traywright check"),
                "{}",
                began.stderr
            );
            fits(folder.path(), &job);
            count += 1;
        }
    }
    assert!(count >= 2);
    let text = fs::read_to_string(folder.path().join("single-slot-mm.kdl")).expect("the job");
    for told in [
        "at the rim and at the floor",
        "both ends",
        "write the least",
        "closed lid",
        "ten sheets",
    ] {
        assert!(text.contains(told), "{told} is not in\n{text}");
    }
    let inches = lines(&folder.path().join("single-slot-in.kdl"));
    assert!(
        inches.contains(&"fit box=(in)0.1 item=(in)0.1".to_owned()),
        "{inches:?}"
    );
}

#[test]
fn nothing_is_overwritten_and_nothing_is_written_halfway() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("mine.kdl");
    fs::write(&path, "mine").expect("a file");
    let again = run(folder.path(), &["start", "mine.kdl"]);
    assert_eq!(again.code, 2);
    assert!(
        again.stderr.contains("mine.kdl is there already"),
        "{}",
        again.stderr
    );
    assert_eq!(fs::read_to_string(&path).expect("still there"), "mine");

    for wrong in [
        &["start", "--style", "singel-slot", "new.kdl"][..],
        &["start", "--like", "no-such.kdl", "new.kdl"],
        &["start", "--like", "mine.kdl", "new.kdl"],
        &["start", "no-such-folder/new.kdl"],
    ] {
        let refused = run(folder.path(), wrong);
        assert_eq!(
            (refused.code, refused.stdout.as_str()),
            (2, ""),
            "{wrong:?}"
        );
    }
    let (code, said) = typed(folder.path(), &["start", "new.kdl"], "182\n121\n");
    assert_eq!(code, Some(2), "{said}");
    assert!(said.contains("nothing is written"), "{said}");
    let there: Vec<_> = fs::read_dir(folder.path())
        .expect("the folder")
        .flatten()
        .collect();
    assert_eq!(there.len(), 1, "{there:?}");
}

#[test]
fn a_maker_at_a_terminal_is_asked_and_understood() {
    let folder = tempfile::tempdir().expect("a folder");
    let lines_typed =
        "18.2 cm\n121\n33\n1\nbarometer\n\n96\n6,1cm\n28\n\n\nindex-255\n\nA3\n3\n34\n\nno\n";
    let (code, said) = typed(folder.path(), &["start", "mine.kdl"], lines_typed);
    assert_eq!(code, Some(0), "{said}");
    for repeated in [
        "= 182 mm",
        "= 61 mm",
        "= 33 mm",
        "= 34 mm",
        "at the floor",
        "closed lid",
        "mine: fits",
        "traywright make mine.kdl",
    ] {
        assert!(said.contains(repeated), "{repeated} is not in\n{said}");
    }
    let written = lines(&folder.path().join("mine.kdl"));
    for line in [
        "box length=(mm)182 width=(mm)121 depth=(mm)34",
        "item \"barometer\" length=(mm)96 width=(mm)61 depth=(mm)28",
        "board \"index-255\"",
        "page \"A3\" margin=(mm)6",
    ] {
        assert!(
            written.contains(&line.to_owned()),
            "{line} is not in {written:#?}"
        );
    }
    fits(folder.path(), "mine.kdl");
}

#[test]
fn an_item_that_lies_too_deep_gets_its_pad_at_once() {
    // Derived: in a box 60 deep with 2 above the tray, an item 20 deep lies 38 below the deck; 39 brings its top half way
    // to the lid.
    let folder = tempfile::tempdir().expect("a folder");
    let lines_typed = "182\n121\n60\n1\nlens\n\n60\n61\n20\n\n\nindex-255\n\nA3\n\nno\n";
    let (code, said) = typed(folder.path(), &["start", "lens.kdl"], lines_typed);
    assert_eq!(code, Some(0), "{said}");
    assert!(said.contains("lens needs a pad of 39 mm"), "{said}");
    let written = lines(&folder.path().join("lens.kdl"));
    let line = "item \"lens\" length=(mm)60 width=(mm)61 depth=(mm)20 pad=(mm)39";
    assert!(written.contains(&line.to_owned()), "{written:#?}");
    fits(folder.path(), "lens.kdl");
}

#[test]
fn the_next_tray_takes_card_and_paper_from_one_that_worked() {
    let folder = tempfile::tempdir().expect("a folder");
    let old = "tray style=\"single-slot\"\nbox length=(mm)182 width=(mm)121 depth=(mm)34\n\
        item \"lens\" length=(mm)60 width=(mm)60 depth=(mm)20\n\
        board caliper=(mm)0.31 grain=\"width\" // the grey card\nfit box=(mm)1.5 item=(mm)1\n\
        page \"A3\" margin=(mm)5\ndraw face=\"outside\"\n\
        kerf width=(mm)0.15\nnicks length=(mm)0.5 every=(mm)40 // thin card\ndxf version=\"R12\"\n";
    fs::write(folder.path().join("mine.kdl"), old).expect("the old job");
    let next = "7 3/16 in\n4-3/4\"\n1 3/8\n1\n\n\n3.75\n2 3/8\n1 1/16\n\n\n\nno\n";
    let (code, said) = typed(
        folder.path(),
        &["start", "--like", "mine.kdl", "next.kdl"],
        next,
    );
    assert_eq!(code, Some(0), "{said}");
    assert!(
        !said.contains("  card"),
        "what is carried over is not asked again\n{said}"
    );
    let written = lines(&folder.path().join("next.kdl"));
    for line in [
        "box length=(in)\"7 3/16\" width=(in)\"4 3/4\" depth=(in)\"1 3/8\"",
        "board caliper=(mm)0.31 grain=\"width\" // the grey card",
        "fit box=(mm)1.5 item=(mm)1",
        "page \"A3\" margin=(mm)5",
        "draw face=\"outside\"",
        "kerf width=(mm)0.15",
        "nicks length=(mm)0.5 every=(mm)40 // thin card",
        "dxf version=\"R12\"",
    ] {
        assert!(
            written.contains(&line.to_owned()),
            "{line} is not in {written:#?}"
        );
    }
    fits(folder.path(), "next.kdl");
}

// Derived: in a box 40 deep an item 20 deep lies 18 below the deck: 19 brings its top half way to the lid.
#[test]
fn a_box_for_three_different_items_ends_with_its_verdict_and_its_files() {
    let folder = tempfile::tempdir().expect("a folder");
    let lines_typed = "260\n180\n34 in\n40\n3\n\
        lens\nround\n52\n34\n\n\
        vial\nround\n20\n34\n4\n\
        labels\nback\nlabels\n\n60\n40\n20\n\n\n\
        index-255\n\n\n\n\n";
    let (code, said) = typed(folder.path(), &["start", "case.kdl"], lines_typed);
    assert_eq!(code, Some(0), "{said}");
    for words in [
        "deeper (34 in)",
        "labels needs a pad of 19 mm",
        "case: fits",
    ] {
        assert!(said.contains(words), "{words} is not in\n{said}");
    }
    let written = lines(&folder.path().join("case.kdl"));
    for line in [
        "tray style=\"multi-slot\"",
        "item \"lens\" length=(mm)52 width=(mm)52 depth=(mm)34 shape=\"round\"",
        "item \"vial\" length=(mm)20 width=(mm)20 depth=(mm)34 count=4 shape=\"round\"",
        "item \"labels\" length=(mm)60 width=(mm)40 depth=(mm)20 pad=(mm)19",
        "tool by=\"hand\"",
    ] {
        assert!(
            written.contains(&line.to_owned()),
            "{line} is not in {written:#?}"
        );
    }
}

// Derived: flaps of half of 12 mm end far above the item's top, which lies 28 mm below the deck.
#[test]
fn a_tray_that_does_not_fit_gets_its_fixes_by_number() {
    let folder = tempfile::tempdir().expect("a folder");
    let lines_typed = "95\n90\n140\n\n1\njar\n\n60\n60\n100\n\n\nindex-255\n\nA2\n\n1\n\n\nno\n";
    let (code, said) = typed(folder.path(), &["start", "jar.kdl"], lines_typed);
    assert_eq!(code, Some(0), "{said}");
    assert!(
        said.contains("jar: does not fit") && said.contains("jar: fits"),
        "{said}"
    );
    fits(folder.path(), "jar.kdl");
}

// Derived: an item 150 deep is deeper than its box of 40, whatever its flaps; 34 with 2 for the lid is not.
#[test]
fn a_maker_who_mistyped_goes_back_to_the_lines() {
    let folder = tempfile::tempdir().expect("a folder");
    let lines_typed = "160\n110\n40\n1\nbell\n\n60\n50\n150\n\n\n\nindex-255\n\n\n\n\
        what\nback\n9\n34\n\nno\n";
    let (code, said) = typed(folder.path(), &["start", "bell.kdl"], lines_typed);
    assert_eq!(code, Some(0), "{said}");
    let verdicts = [
        "bell: does not fit",
        "`back` to change a line",
        "bell: fits",
    ];
    let places = verdicts.map(|words| said.find(words));
    assert!(places.iter().all(Option::is_some), "{places:?} {said}");
    assert!(places.is_sorted(), "{places:?} {said}");
    fits(folder.path(), "bell.kdl");
}
