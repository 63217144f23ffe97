//! A job in inches gives the blank of its twin in millimetres, to the byte; only what is read differs.
//!
//! Source: 1 in = 25.4 mm exactly, so both jobs ask for one tray; tests/facts/folding.md geo-13.

use std::fs;
use std::path::Path;

use traywright_tests::{repository, run};

/// The example's box and item, divided by 25.4; all else as in the example.
fn inch_twin() -> String {
    let inches = |mm: f64| format!("(in){}", mm / 25.4);
    let measures = |[length, width, depth]: [f64; 3]| {
        format!(
            "length={} width={} depth={}",
            inches(length),
            inches(width),
            inches(depth)
        )
    };
    format!(
        "tray style=\"single-slot\" name=\"Barometer keepsake box\"\nbox {}\nitem \"barometer\" {}\nboard \"index-255\"\n",
        measures([182.0, 121.0, 34.0]),
        measures([96.0, 61.0, 28.0])
    )
}

fn svg(folder: &Path, job: &str, into: &str) -> String {
    let made = run(folder, &["make", job, "--as", "svg", "--into", into]);
    assert_eq!(made.code, 0, "{}", made.stderr);
    fs::read_to_string(folder.join(into).join("barometer.svg")).expect("the drawing")
}

/// The text of a group, from its opening to its end; an empty one ends where it opens.
fn group<'a>(svg: &'a str, id: &str) -> &'a str {
    let opening = format!("id=\"{id}\"");
    let start = svg
        .find(&opening)
        .unwrap_or_else(|| panic!("no group {id}"));
    let head = svg[start..].find('>').expect("a tag has an end");
    if svg[..start + head].ends_with('/') {
        return &svg[start..start + head];
    }
    let length = svg[start..].find("</g>").expect("a group has an end");
    &svg[start..start + length]
}

#[test]
fn the_inch_twin_of_a_job_gives_the_same_lines() {
    let folder = tempfile::tempdir().expect("a folder");
    fs::copy(
        repository().join("designs/jobs/barometer.kdl"),
        folder.path().join("barometer.kdl"),
    )
    .expect("the example");
    let metric = svg(folder.path(), "barometer.kdl", "metric");
    fs::write(folder.path().join("barometer.kdl"), inch_twin()).expect("its twin");
    let inches = svg(folder.path(), "barometer.kdl", "inches");

    for id in ["cutting", "creasing"] {
        assert!(group(&metric, id).contains("<path"), "{id} is empty");
    }
    for id in ["cutting", "creasing", "reverse-creasing"] {
        assert_eq!(group(&metric, id), group(&inches, id), "{id}");
    }
    // Source: 182 mm less the fit of 2 mm are 180 mm, 7.087 in.
    assert_ne!(group(&metric, "dimensions"), group(&inches, "dimensions"));
}
