//! What a page is told of jobs: the same as the command line prints, and what a form needs beside it.

use std::fs;

use serde_json::Value;
use traywright_page::{Outcome, Program};

fn barometer() -> String {
    let job = concat!(
        env!("CARGO_MANIFEST_DIR"),
        "/../../designs/jobs/barometer.kdl"
    );
    fs::read_to_string(job).expect("the job ships")
}

fn read(text: &str) -> Value {
    serde_json::from_str(text).expect("answers are JSON")
}

#[test]
fn a_job_that_fits_has_a_report_its_lines_and_settings() {
    let mut program = Program::default();
    let answer = program.check("barometer.kdl", &barometer());
    assert_eq!(answer.outcome, Outcome::Fits);
    let told = read(&answer.json);
    assert_eq!(told["report"]["verdict"], "fits");
    assert_eq!(told["unit"], "mm");
    // Source: the job.
    let lines = told["lines"].as_array().expect("lines");
    let item = lines
        .iter()
        .find(|line| line["name"] == "item")
        .expect("an item");
    assert_eq!(item["entries"][0]["text"], "barometer");
    assert_eq!(item["entries"][3]["text"], "28");
    // Source: designs/styles/single-slot.ron, settings.
    let settings = told["settings"].as_array().expect("settings");
    let web = settings
        .iter()
        .find(|setting| setting["name"] == "edge-web")
        .expect("edge-web");
    assert_eq!(web["kind"], "length");
    assert!(
        web["default"].as_f64().is_some_and(|default| default > 0.0),
        "{web}"
    );
    assert!(program.document().is_some());
    assert!(program.encoded().is_ok());
}

#[test]
fn a_tray_that_does_not_fit_gets_fixes_that_mend_it() {
    let mut program = Program::default();
    let shallow = barometer().replace("depth=(mm)34", "depth=(mm)26");
    assert_eq!(
        program.check("shallow.kdl", &shallow).outcome,
        Outcome::DoesNotFit
    );
    assert!(program.document().is_none());
    assert!(program.encoded().is_err());
    let told = read(&program.fixes());
    let fixes = told["fixes"].as_array().expect("fixes");
    assert!(!fixes.is_empty(), "{told}");
    for fix in fixes {
        let job = fix["job"].as_str().expect("the changed job");
        assert_ne!(job, shallow);
        let outcome = program.check("mended.kdl", job).outcome;
        assert_eq!(outcome == Outcome::Fits, fix["leaves"] == 0, "{fix}");
    }
}

#[test]
fn errors_of_a_text_have_their_places() {
    let mut program = Program::default();
    let text = barometer().replace("\nbox ", "\nbx ");
    let answer = program.check("wrong.kdl", &text);
    assert_eq!(answer.outcome, Outcome::Unreadable);
    let told = read(&answer.json);
    let fault = &told["errors"][0]["faults"][0];
    assert_eq!(
        fault["start"].as_u64(),
        text.find("\nbx ").map(|at| at as u64 + 1)
    );
    let words = told["errors"][0]["words"].as_str().unwrap_or_default();
    assert!(words.contains("wrong.kdl"), "{words}");
    assert!(
        told["lines"]
            .as_array()
            .is_some_and(|lines| lines.len() > 3)
    );
    assert_eq!(
        read(&program.check("torn.kdl", "box {").json)["lines"],
        Value::Null
    );
    let large = "// long\n".repeat(4000);
    assert_eq!(
        program.check("large.kdl", &large).outcome,
        Outcome::Unreadable
    );
    assert!(program.document().is_none());
}

#[test]
fn a_font_of_the_makers_own_is_refused_with_a_reason() {
    let mut program = Program::default();
    let job = format!("{}\npage \"A4\" font=\"mine.ttf\"\n", barometer());
    let lines = job
        .lines()
        .filter(|line| !line.starts_with("page ") || line.contains("font"));
    let job: String = lines.map(|line| format!("{line}\n")).collect();
    assert_eq!(program.check("font.kdl", &job).outcome, Outcome::Fits);
    assert!(
        program
            .encoded()
            .is_err_and(|why| why.contains("DejaVu Sans"))
    );
}

#[test]
fn the_library_has_what_the_lists_of_the_command_line_have() {
    let told = read(&Program::default().library());
    for (list, name) in [("boards", "index-255"), ("styles", "lid-lock")] {
        let list = told[list].as_array().expect("a list");
        assert!(list.iter().any(|entry| entry["name"] == name), "{list:?}");
    }
    for (list, name) in [("pages", "A4"), ("languages", "de")] {
        let list = told[list].as_array().expect("a list");
        assert!(list.iter().any(|entry| entry == name), "{list:?}");
    }
}

#[test]
fn every_style_for_a_box_has_a_drawing_of_its_blank() {
    let program = Program::default();
    let library = read(&program.library());
    for style in library["styles"].as_array().expect("a list") {
        let name = style["name"].as_str().expect("a name");
        let drawing = read(&program.drawing(name));
        let side = |key: &str| drawing[key].as_f64().unwrap_or_default();
        let path = |key: &str| drawing[key].as_str().unwrap_or_default().to_owned();
        // Derived: the first contour of the cuts is the outline, so it spans the whole drawing, as written to 0.1 mm.
        let cuts = path("cuts");
        let outline = spans(cuts.split_inclusive('Z').next().unwrap_or_default());
        for (span, side) in outline.into_iter().zip([side("width"), side("height")]) {
            assert!(
                span[0].abs() < 0.06 && (span[1] - side).abs() < 0.06,
                "{name}: {span:?} {side}"
            );
        }
        // Derived: a crease ends at cuts, so all creases lie within the outline.
        let creases = spans(&path("creases"));
        for (crease, outline) in creases.into_iter().zip(outline) {
            assert!(
                crease[0] >= outline[0] && crease[1] <= outline[1],
                "{name}: {crease:?}"
            );
            assert!(crease[1] > crease[0], "{name}");
        }
    }
    assert_eq!(read(&program.drawing("no-such-style")), Value::Null);
}

/// The least and the greatest x and y of a path of absolute points.
fn spans(path: &str) -> [[f64; 2]; 2] {
    let numbers: Vec<f64> = path
        .split(['M', 'L', 'Z', ' '])
        .filter_map(|number| number.parse().ok())
        .collect();
    [0, 1].map(|axis| {
        let along = || numbers.iter().skip(axis).step_by(2).copied();
        [
            along().fold(f64::INFINITY, f64::min),
            along().fold(f64::NEG_INFINITY, f64::max),
        ]
    })
}
