//! Small styles, each for one construct of the language, and hostile ones.
//!
//! The modules compare trays of a style's sections and a job with round values against values computed by hand. They
//! use a shipped style only to break it.

mod asks;
mod creases;
mod drawn;
mod hostile;
mod names;
mod reading;
mod roots;
mod sizes;
mod trims;
mod words;

use traywright_document::{Document, Panel, Segment};
use traywright_engine::job::{BoxSize, Item, Job, Length};
use traywright_engine::{Refusal, Report, SourceError, Style, make};

/// Values computed by hand have at least this many decimals.
const ALIKE: f64 = 1e-6;

/// A box of 102 × 82 × 32 with a fit of 2, so that the tray has 100 × 80 × 30, and card with round allowances: a
/// thickness of 1 with fold lines 0.25 above its middle, so that a right angle takes 0.75 outside and 0.25 inside. The
/// lens is as deep as the tray may be, so that the edge of an opening holds it, however low the deck.
fn job() -> Job {
    let box_size = BoxSize {
        length: Length::known(102.0),
        width: Length::known(82.0),
        depth: Length::known(32.0),
    };
    let items = vec![item("lens", [30.0, 20.0, 30.0])];
    let mut job = Job::plain("tried", box_size, Length::known(1.0), items);
    job.board.hinge = Some(0.25);
    job
}

fn item(name: &str, size: [f64; 3]) -> Item {
    Item::plain(name, size.map(Length::known))
}

/// A whole style with these sections.
fn whole(sections: &str) -> String {
    format!("Style(language: 1, about: \"tried\", {sections})")
}

/// The same sections with an opening for the lens, if they have none for it.
fn seated(sections: &str) -> String {
    if sections.contains("openings:") {
        return sections.to_owned();
    }
    format!("{sections}, openings: {{\"seat\": Slot(on: \"deck\", cut: Open)}}")
}

fn style(sections: &str) -> Style {
    let text = whole(sections);
    Style::read("tried", &text).unwrap_or_else(|faults| panic!("{sections}\n{faults:#?}"))
}

/// The errors when a style is read.
fn faults(sections: &str) -> Vec<SourceError> {
    match Style::read("tried", &whole(sections)) {
        Ok(_) => panic!("read without a fault: {sections}"),
        Err(faults) => faults,
    }
}

/// The part of the text at an error's span.
fn pointed<'t>(text: &'t str, fault: &SourceError) -> &'t str {
    &text[fault.place.clone()]
}

/// The report, whether or not the tray would fit.
fn report(sections: &str, job: &Job) -> Report {
    match make(&style(sections), job) {
        Ok(tray) => tray.report().clone(),
        Err(Refusal::Tray(report)) => report,
        Err(refusal) => panic!("{sections}\n{refusal:#?}"),
    }
}

/// Compares measures of the report with expected values.
fn measured(sections: &str, job: &Job, expected: &[(&str, f64)]) {
    let report = report(sections, job);
    for (name, figure) in expected {
        let found = report
            .measures
            .iter()
            .find(|found| found.of.to_string() == *name);
        let found = found.unwrap_or_else(|| panic!("no {name} in {report:#?}"));
        let difference = (found.value - figure).abs();
        assert!(
            difference < ALIKE,
            "{name}: {} and not {figure}\n{sections}",
            found.value
        );
    }
}

/// A tray that must be made, with an opening for the lens.
fn made(sections: &str) -> Document {
    match make(&style(&seated(sections)), &job()) {
        Ok(tray) => tray.finish().document(),
        Err(refusal) => panic!("{sections}\n{refusal:#?}"),
    }
}

fn panel<'d>(document: &'d Document, name: &str) -> &'d Panel {
    let named = document.panels.iter().find(|panel| panel.name == name);
    named.unwrap_or_else(|| panic!("no {name} among {:?}", names(document)))
}

fn names(document: &Document) -> Vec<&str> {
    document
        .panels
        .iter()
        .map(|panel| panel.name.as_str())
        .collect()
}

/// The corners of a panel, from the lower left corner of the root's extent, in any order.
fn corners(document: &Document, name: &str) -> Vec<[f64; 2]> {
    let root = points(&document.panels[0]);
    let least = [0, 1].map(|axis| {
        root.iter()
            .map(|point| point[axis])
            .fold(f64::INFINITY, f64::min)
    });
    let moved = |point: [f64; 2]| [point[0] - least[0], point[1] - least[1]];
    points(panel(document, name))
        .into_iter()
        .map(moved)
        .collect()
}

fn points(panel: &Panel) -> Vec<[f64; 2]> {
    let ends = panel.outline.segments.iter().map(|segment| match segment {
        Segment::Line { to } | Segment::Arc { to, .. } => [to.x, to.y],
    });
    ends.collect()
}

/// Compares the corners of a panel with expected points, in any order.
fn cornered(document: &Document, name: &str, expected: &[[f64; 2]]) {
    let found = corners(document, name);
    let same = |one: &[f64; 2], other: &[f64; 2]| {
        (one[0] - other[0]).abs() < ALIKE && (one[1] - other[1]).abs() < ALIKE
    };
    let all = expected
        .iter()
        .all(|place| found.iter().any(|other| same(place, other)));
    assert!(
        all && found.len() == expected.len(),
        "{name}: {found:?} and not {expected:?}"
    );
}
