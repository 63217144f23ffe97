//! The proof of a document sees what is wrong with it.
//!
//! Reasoning of each test: the proof that every other law rests on must be able to fail.

use traywright_document::{Document, Point, Segment};
use traywright_engine::make;
use traywright_tests::jobs::{job, style};
use traywright_tests::union;

fn barometer() -> Document {
    let style = style("designs/styles/single-slot.ron");
    let barometer = job([182.0, 121.0, 34.0], [96.0, 61.0, 28.0], 0.29);
    make(&style, &barometer)
        .unwrap_or_else(|refusal| panic!("{refusal:#?}"))
        .finish()
        .document()
}

#[test]
fn a_good_document_passes() {
    union::check(&barometer());
}

#[test]
#[should_panic(expected = "panels and lines are 9")]
fn a_panel_that_is_not_there_is_missed() {
    let mut document = barometer();
    document.panels.pop();
    union::check(&document);
}

#[test]
#[should_panic(expected = "panels share")]
fn a_panel_that_is_there_twice_is_seen() {
    let mut document = barometer();
    let twice = document.panels[3].clone();
    document.panels.push(twice);
    union::check(&document);
}

#[test]
#[should_panic(expected = "panels and lines are 0.")]
fn an_outline_that_leaves_its_panels_by_a_tenth_is_seen() {
    let mut document = barometer();
    let Segment::Line { to } = &mut document.flat.outline.segments[5] else {
        panic!("the outline is straight");
    };
    to.x += 0.1;
    union::check(&document);
}

#[test]
#[should_panic(expected = "lie on one another")]
fn a_hole_in_a_hole_is_seen() {
    let mut document = barometer();
    let twice = document.panels[0].holes[0].clone();
    document.panels[0].holes.push(twice);
    union::check(&document);
}

#[test]
#[should_panic(expected = "the crease of")]
fn a_crease_beside_its_edge_is_seen() {
    let mut document = barometer();
    let crease = &mut document.flat.creases[0];
    crease.from = Point {
        y: crease.from.y + 1.0,
        ..crease.from
    };
    crease.to = Point {
        y: crease.to.y + 1.0,
        ..crease.to
    };
    union::check(&document);
}

#[test]
#[should_panic(expected = "drawn twice")]
fn a_line_that_is_drawn_twice_is_seen() {
    let mut document = barometer();
    let twice = document.flat.open_cuts[0].clone();
    document.flat.open_cuts.push(twice);
    union::check(&document);
}
