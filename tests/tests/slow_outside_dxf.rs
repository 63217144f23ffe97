//! Readers that know nothing of traywright find in its DXF the lines of its SVG, and nothing to mend.
//!
//! Outsiders: ezdxf 1.4 (reads, audits, recovers), OGR by pyogrio 0.13, svgelements 1.9 and shapely 2.2, all in
//! `outside/dxf.py`. Jobs are drawn over every style, shape and cut that ships, both releases and both faces.

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;
use std::process::Command;

use serde_json::Value;
use traywright_tests::every_style::{make, styles};
use traywright_tests::{measured, program, repository};

/// Source: core/CONTRACT.md, "Files: DXF": the lines of the SVG within 0.001 mm. The number of jobs is our choice.
const JOBS: usize = 200;

#[test]
fn two_readers_find_the_lines_of_the_svg_each_once_and_nothing_to_mend() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    // Every third job is written in release 12, one in seven with gaps, one in five with a cut that has a width.
    let extra_lines = |index: usize| {
        let mut lines = String::new();
        for (every, line) in [
            (3, "dxf version=\"R12\"\n"),
            (7, "nicks\n"),
            (5, "kerf width=(mm)0.2\n"),
        ] {
            if index.is_multiple_of(every) {
                lines += line;
            }
        }
        lines
    };
    let made = make(folder.path(), 11, JOBS, "svg,dxf", extra_lines);
    let Some(told) = judged(folder.path()) else {
        return;
    };
    let told = told.unwrap_or_else(|fault| panic!("{fault}"));
    assert_eq!(told.as_object().map(|told| told.len()), Some(made.len()));
    let mut counts: BTreeMap<String, usize> = BTreeMap::new();
    let mut greatest: f64 = 0.0;
    for (name, kind) in &made {
        let result = &told[name];
        greatest = greatest.max(result["greatest"].as_f64().expect("a number"));
        *counts.entry(kind.style.clone()).or_default() += 1;
        *counts.entry(result["release"].to_string()).or_default() += 1;
        if result["arcs"].as_u64() > Some(0) {
            *counts.entry("with arcs".to_owned()).or_default() += 1;
        }
        if !kind.shape.is_empty() || kind.slot.contains("finger") {
            *counts
                .entry(format!("round or notched, {}", kind.style))
                .or_default() += 1;
        }
    }
    let jobs = made.len();
    println!("{jobs} jobs, at most {greatest:.7} mm spacing: {counts:?}");
    for style in styles() {
        assert!(counts.contains_key(&style), "no job of {style}: {counts:?}");
    }
    // Round and oval openings and notches, in the styles that have openings.
    assert!(counts["with arcs"] > 30, "{counts:?}");
    assert!(
        counts["\"AC1015\""] > 50 && counts["\"AC1009\""] > 50,
        "{counts:?}"
    );
}

#[test]
fn a_line_that_is_missing_moved_or_doubled_is_noticed() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let made = make(folder.path(), 5, 1, "svg,dxf", |_| String::new());
    let path = folder.path().join(&made[0].0).with_extension("dxf");
    let sound = fs::read_to_string(&path).expect("the DXF was made");
    for (text, words) in planted(&sound) {
        check_noticed(&path, &sound, &text, words);
    }
}

/// A line drawn twice (with a handle of its own), one left out, a corner moved by 0.01, the unit of inches, and a measure
/// with a letter that readers do not take for one, a dimension of another length, and a crease without an angle.
fn planted(sound: &str) -> [(String, &'static str); 7] {
    let once = |from: &str, to: &str| sound.replacen(from, to, 1);
    let line_from = sound.find("  0\r\nLWPOLYLINE").expect("there are lines");
    let line = &sound[line_from..];
    let second = line[1..].find("  0\r\nLWPOLYLINE").expect("there are more");
    let line = &line[..=second];
    let words_from = sound.find("\r\nTEXT\r\n").expect("there are words");
    let words = value(&sound[words_from..], "  1");
    let handle = format!("\r\n{}\r\n", value(line, "  5"));
    let twice = format!("{line}{}", line.replacen(&handle, "\r\nFFFF\r\n", 1));
    let x = value(line, " 10");
    let measured = sound
        .find("\r\nDIMENSION\r\n")
        .expect("there are dimensions");
    let length = value(&sound[measured..], " 42");
    let angle = value(
        &sound[sound.find("fold-angle").expect("creases have angles")..],
        "1040",
    );
    let moved = x.parse::<f64>().expect("a number") + 0.01;
    [
        (
            once(line, &twice).replacen("$HANDSEED\r\n  5\r\n", "$HANDSEED\r\n  5\r\nF", 1),
            "covered",
        ),
        (once(line, ""), "off in the other file"),
        (
            once(&format!(" 10\r\n{x}\r\n"), &format!(" 10\r\n{moved}\r\n")),
            "off in the other file",
        ),
        (
            once("$INSUNITS\r\n 70\r\n4", "$INSUNITS\r\n 70\r\n1"),
            "unit 1",
        ),
        (
            once(
                &format!("\r\n  1\r\n{words}\r\n"),
                &format!("\r\n  1\r\n\\U+2300{words}\r\n"),
            ),
            "words differ",
        ),
        (
            once(
                &format!("\r\n 42\r\n{length}\r\n"),
                &format!("\r\n 42\r\n1{length}\r\n"),
            ),
            "and measures",
        ),
        (
            once(&format!("\r\n1040\r\n{angle}\r\n"), "\r\n1040\r\n0.0\r\n"),
            "carries",
        ),
    ]
}

/// What stands under a code for the first time.
fn value<'a>(text: &'a str, code: &str) -> &'a str {
    let rest = text.split(&format!("\r\n{code}\r\n")).nth(1);
    let value = rest.and_then(|rest| rest.split("\r\n").next());
    value.unwrap_or_else(|| panic!("no {code}"))
}

/// Puts a planted fault in place of the sound file: the readers complain in these words.
#[track_caller]
fn check_noticed(path: &Path, sound: &str, text: &str, words: &str) {
    assert_ne!(text, sound, "{words}");
    fs::write(path, text).expect("the DXF can be replaced");
    let folder = path.parent().expect("the file lies in a folder");
    let Some(verdict) = judged(folder) else {
        return;
    };
    let fault = verdict.expect_err(&format!("{words} was let pass"));
    assert!(fault.contains(words), "{words}: {fault}");
}

#[test]
fn the_file_is_the_same_in_every_time_zone() {
    // Source: core/CONTRACT.md, "Files": same job, same bytes, in any time zone; the library's own header differs.
    let folder = tempfile::tempdir().expect("a folder can be made");
    let job = repository().join("designs/jobs/barometer.kdl");
    let written = ["UTC", "Asia/Kolkata"].map(|zone| {
        let into = folder.path().join(zone.replace('/', "-"));
        let made = Command::new(program())
            .args(["make", "--as", "dxf", "--into"])
            .arg(&into)
            .arg(&job)
            .env("TZ", zone)
            .output()
            .expect("the program can be started");
        assert!(
            made.status.success(),
            "{}",
            String::from_utf8_lossy(&made.stderr)
        );
        fs::read(into.join("barometer.dxf")).expect("the DXF was made")
    });
    assert!(written[0] == written[1]);
}

fn judged(folder: &Path) -> Option<Result<Value, String>> {
    let folder = folder
        .to_str()
        .expect("a temporary folder has a plain name");
    measured("dxf.py", &["pairs", folder])
}
