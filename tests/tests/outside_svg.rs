//! Readers that know nothing of traywright agree on what its SVG says.
//!
//! Outsiders: svgelements 1.9 and shapely 2.2 (Python, `outside/svg.py`), usvg 0.49, rsvg-convert. Expected values come
//! from the job and from the finished tray's panels, not from the file.

use std::fs;
use std::process::Command;

use serde_json::Value;
use tempfile::TempDir;
use traywright_document::{Contour, Document, Panel, Segment};
use traywright_engine::{Job, Style};
use traywright_tests::jobs::job;
use traywright_tests::trying::draw;
use traywright_tests::{measured, repository, system_program};

/// The worked example of the house, as a maker writes it; `job_of_the_example` is the same in plain data.
const EXAMPLE: &str = "tray style=\"single-slot\" name=\"Barometer\"\n\
    box length=(mm)182 width=(mm)121 depth=(mm)34\n\
    item \"barometer\" length=(mm)96 width=(mm)61 depth=(mm)28 pad=(mm)4\n\
    board caliper=(mm)0.29\n";

#[test]
fn a_path_library_finds_the_blank_whole_and_its_area_the_sum_of_the_panels() {
    let Some(seen) = judge(&draw(EXAMPLE)) else {
        return;
    };
    let seen = seen.unwrap_or_else(|fault| panic!("{fault}"));
    let panels: f64 = example().panels.iter().map(area).sum();
    let blank = number(&seen["blank_area"]);
    // Source: reasoning: every bit of the blank belongs to one panel.
    assert!(
        (blank - panels).abs() < 1e-6 * panels,
        "blank {blank}, panels {panels}"
    );
    // Source: the words beside the bar: 100 mm.
    assert!((number(&seen["scale_bar"]) - 100.0).abs() < 1e-4, "{seen}");
    assert!(number(&seen["dimensions"]) >= 6.0, "{seen}");
    // Source: the opening is the item and its fit: 96 + 2 and 61 + 2.
    for (axis, expected) in [98.0, 63.0].into_iter().enumerate() {
        let found = number(&seen["opening"][axis]);
        // Two places, each rounded to 0.0001.
        assert!(
            (found - expected).abs() < 2e-4,
            "opening {found} instead of {expected}"
        );
    }
}

#[test]
fn every_kind_of_opening_and_both_faces_satisfy_the_path_library() {
    // Source: the opening is the item and its fit: 96 + 2 and 61 + 2.
    let opening = [98.0, 63.0];
    for (cut, creased) in [
        ("cross", [true, true]),
        ("doors", [false, true]),
        ("open", [false, false]),
    ] {
        for face in ["inside", "outside"] {
            let job = format!("{EXAMPLE}slot cut=\"{cut}\"\ndraw face=\"{face}\"\n");
            let Some(seen) = judge(&draw(&job)) else {
                return;
            };
            let seen = seen.unwrap_or_else(|fault| panic!("{cut} {face}: {fault}"));
            for axis in [0, 1].into_iter().filter(|axis| creased[*axis]) {
                let found = number(&seen["opening"][axis]);
                assert!(
                    (found - opening[axis]).abs() < 2e-4,
                    "{cut} {face}: {found}"
                );
            }
        }
    }
}

#[test]
fn the_sheet_is_as_large_for_two_more_readers_as_the_file_says() {
    let svg = draw(EXAMPLE);
    let options = usvg::Options {
        dpi: 25.4,
        ..usvg::Options::default()
    };
    let size = usvg::Tree::from_str(&svg, &options)
        .expect("usvg reads the file")
        .size();
    let sheet = [f64::from(size.width()), f64::from(size.height())];
    if let Some(seen) = judge(&svg) {
        let seen = seen.unwrap_or_else(|fault| panic!("{fault}"));
        for (axis, size) in sheet.into_iter().enumerate() {
            // svgelements counts an inch as 25.40001 mm or so; usvg holds seven digits.
            assert!((number(&seen["sheet"][axis]) - size).abs() < 1e-3, "{seen}");
            assert!(
                (number(&seen["written"][axis]) - size).abs() < 1e-3,
                "{seen}"
            );
        }
    }
    if let Some(picture) = picture_size(&svg) {
        for axis in [0, 1] {
            let expected = sheet[axis] * 10.0;
            assert!(
                (f64::from(picture[axis]) - expected).abs() <= 1.0,
                "{picture:?}, {sheet:?}"
            );
        }
    }
}

#[test]
fn the_path_library_refuses_what_the_contract_forbids() {
    // Source: core/CONTRACT.md, "Files: SVG": each of these breaks one sentence of it.
    let Some(sound) = judge(SOUND) else { return };
    let sound = sound.unwrap_or_else(|fault| panic!("{fault}"));
    // Source: counted by hand: 100 by 80, a corner rounded by 10, a window 10 by 4.
    let expected = 8000.0 - (100.0 - std::f64::consts::FRAC_PI_4 * 100.0) - 40.0;
    assert!(
        (number(&sound["blank_area"]) - expected).abs() < 1e-9,
        "{sound}"
    );
    for (from, to, words) in BROKEN {
        assert!(SOUND.contains(from), "{from}");
        let verdict = judge(&SOUND.replacen(from, to, 1)).expect("the Python was there before");
        let fault = verdict.expect_err(&format!("{to} was let pass"));
        assert!(fault.contains(words), "{to}: {fault}");
    }
}

/// What is written instead of what in the sound file, and a word of the complaint.
const BROKEN: [(&str, &str, &str); 13] = [
    ("width=\"120mm\"", "width=\"120\"", "not a length in mm"),
    (
        "viewBox=\"0 0 120 100\"",
        "viewBox=\"0 0 240 200\"",
        "the viewBox",
    ),
    (
        "<g id=\"creasing\">",
        "<g id=\"creasing\" transform=\"scale(1)\">",
        "transform",
    ),
    (
        "<g id=\"creasing\">",
        "<g id=\"crease\">",
        "there is no group",
    ),
    ("M 40 40 L 40 60", "M 40 40 l 0 20", "holds a path with"),
    (
        "<g id=\"reverse-creasing\"/>",
        "<g id=\"reverse-creasing\"><line/></g>",
        "holds",
    ),
    ("90 L 10 90 Z", "90 L 10 90", "leaves the blank"),
    ("M 10 10 L 110 10", "M 10 10 L 60 95 L 110 10", "not simple"),
    (
        "M 40 40 L 40 60",
        "M 40 40 L 40 60 M 40 50 L 40 58",
        "drawn twice",
    ),
    ("M 40 40 L 40 60", "M 55 50 L 55 58", "drawn twice"),
    ("M 40 40 L 40 60", "M 5 40 L 40 60", "leaves the blank"),
    (
        "<g id=\"dimensions\"/>",
        "<g id=\"dimensions\"><path d=\"M 10 95 L 110 95\"/></g><g id=\"dimension-figures\"><text>100.02</text></g>",
        "is said to be",
    ),
    (
        "<g id=\"dimensions\"/>",
        "<g id=\"dimensions\"/><g id=\"legend\"><path d=\"M 5 20 L 20 20\"/></g>",
        "draws on the blank",
    ),
];

const SOUND: &str = r#"<svg xmlns="http://www.w3.org/2000/svg" width="120mm" height="100mm" viewBox="0 0 120 100"><g id="cutting"><path d="M 10 10 L 110 10 L 110 80 A 10 10 0 0 1 100 90 L 10 90 Z"/><path d="M 55 48 L 65 48 L 65 52 L 55 52 Z"/><path d="M 40 40 L 55 48"/></g><g id="creasing"><path d="M 40 40 L 40 60 M 80 40 L 80 60"/></g><g id="reverse-creasing"/><g id="dimensions"/></svg>"#;

/// What `outside/svg.py` measures, or what it complains of; none if it cannot be asked.
fn judge(svg: &str) -> Option<Result<Value, String>> {
    let (_folder, path) = saved(svg);
    measured("svg.py", &[&path])
}

/// Width and height in pixels of the picture that rsvg-convert draws at ten pixels a millimetre.
fn picture_size(svg: &str) -> Option<[u32; 2]> {
    let program = system_program("rsvg-convert", "size of the sheet")?;
    let (_folder, path) = saved(svg);
    let output = Command::new(program)
        .args(["--dpi-x", "254", "--dpi-y", "254", "--format", "png", &path])
        .output()
        .expect("rsvg-convert can be started");
    assert!(
        output.status.success(),
        "{}",
        String::from_utf8_lossy(&output.stderr)
    );
    // Source: PNG specification, 11.2.2 IHDR: width and height are the first two numbers of the first chunk.
    let number = |at: usize| {
        output.stdout[at..at + 4]
            .iter()
            .fold(0, |sum, byte| sum * 256 + u32::from(*byte))
    };
    Some([number(16), number(20)])
}

fn saved(svg: &str) -> (TempDir, String) {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let path = folder.path().join("judged.svg");
    fs::write(&path, svg).expect("a file can be written");
    let path = path
        .to_str()
        .expect("a temporary folder has a plain name")
        .to_owned();
    (folder, path)
}

fn number(value: &Value) -> f64 {
    value.as_f64().unwrap_or(f64::NAN)
}

/// The area of a panel without its holes, by the shoelace; the example has straight edges alone.
fn area(panel: &Panel) -> f64 {
    let shoelace = |contour: &Contour| {
        let mut from = contour.start;
        let mut double = 0.0;
        for segment in &contour.segments {
            assert!(
                matches!(segment, Segment::Line { .. }),
                "{} has an arc",
                panel.name
            );
            double += from.x * segment.to().y - segment.to().x * from.y;
            from = segment.to();
        }
        (double / 2.0).abs()
    };
    shoelace(&panel.outline) - panel.holes.iter().map(shoelace).sum::<f64>()
}

fn example() -> Document {
    let path = repository().join("designs/styles/single-slot.ron");
    let text = fs::read_to_string(path).expect("the style ships");
    let style = Style::read("single-slot", &text).expect("the style can be read");
    let tray = traywright_engine::make(&style, &job_of_the_example()).expect("the example fits");
    tray.finish().document()
}

fn job_of_the_example() -> Job {
    job([182.0, 121.0, 34.0], [96.0, 61.0, 28.0], 0.29)
}
