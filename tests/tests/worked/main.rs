//! Four trays that were worked out before there was a program, polygon by polygon.
//!
//! Source of every figure: `tests/worked/trays.json`, worked out by two separate prototypes that agree to 1e-9, written
//! down to 0.0001. The engine is used as a library.

mod figures;
mod four;

use std::fs;

use serde_json::Value;
use traywright_document::{Contour, Document, Point};
use traywright_engine::{Job, make};
use traywright_tests::jobs::style;
use traywright_tests::repository;

/// How far a place may be off.
// Source: the file is written to 0.0001.
const ALLOWED_MM: f64 = 0.0001;

/// One tray of the file.
fn tray(style: &str) -> Value {
    let file = repository().join("tests/worked/trays.json");
    let text = fs::read_to_string(file).expect("the worked trays can be read");
    let mut trays: Value = serde_json::from_str(&text).expect("the worked trays are JSON");
    trays[style].take()
}

/// A panel of a worked tray by its name there.
fn worked_panel<'t>(tray: &'t Value, name: &str) -> &'t Value {
    let panels = tray["panels"].as_array().expect("a tray has panels");
    let named = panels.iter().find(|panel| panel["name"] == name);
    named.unwrap_or_else(|| panic!("no panel {name} was worked out"))
}

fn point(value: &Value) -> [f64; 2] {
    [0, 1].map(|axis| value[axis].as_f64().expect("a place has two numbers"))
}

fn points(value: &Value) -> Vec<[f64; 2]> {
    let places = value.as_array().expect("a list of places");
    places.iter().map(point).collect()
}

/// The corners of a run with straight edges only; the last one of a closed run is not its first again.
fn corners(run: &Contour) -> Vec<[f64; 2]> {
    let mut corners = vec![[run.start.x, run.start.y]];
    corners.extend(run.segments.iter().map(|segment| {
        let Point { x, y } = segment.to();
        [x, y]
    }));
    if run.closed {
        corners.pop();
    }
    corners
}

fn near(one: [f64; 2], other: [f64; 2]) -> bool {
    (one[0] - other[0]).abs() <= ALLOWED_MM && (one[1] - other[1]).abs() <= ALLOWED_MM
}

/// The same closed polygon, whatever its first corner and the way it runs.
fn is_same_polygon(one: &[[f64; 2]], other: &[[f64; 2]]) -> bool {
    let count = one.len();
    let fits = |start: usize, step: usize| {
        (0..count).all(|at| near(one[at], other[(start + at * step) % count]))
    };
    count == other.len() && (0..count).any(|start| fits(start, 1) || fits(start, count - 1))
}

/// A shipped style's tray in plain data.
fn document(style: &str, job: &Job) -> Document {
    let job = Job {
        style: style.to_owned(),
        ..job.clone()
    };
    let style = self::style(&format!("designs/styles/{style}.ron"));
    make(&style, &job)
        .unwrap_or_else(|refusal| panic!("{}: {refusal:#?}", style.name()))
        .finish()
        .document()
}

#[test]
fn a_polygon_is_known_again_and_another_is_not() {
    // Reasoning: the comparison that all others rest on must be able to fail.
    let square = [[0.0, 0.0], [1.0, 0.0], [1.0, 1.0], [0.0, 1.0]];
    let turned = [[1.0, 1.0], [1.0, 0.0], [0.0, 0.0], [0.0, 1.0]];
    let other = [[1.0, 1.0], [1.0, 0.0002], [0.0, 0.0], [0.0, 1.0]];
    assert!(is_same_polygon(&square, &turned));
    assert!(!is_same_polygon(&square, &other));
    assert!(!is_same_polygon(&square, &square[..3]));
}
