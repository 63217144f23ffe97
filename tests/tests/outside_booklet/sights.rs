//! The lines of figures held against a depth buffer that knows nothing of ours.
//!
//! Source: `outside/visible.py`, numpy. A line that it finds hidden is not drawn, and one that it finds visible is,
//! beyond two of its steps of a quarter of a millimetre; errors that are put in on purpose are found.

use serde_json::{Value, json};
use traywright_document::steps::{alike, joined};
use traywright_document::{Action, Document, Step};
use traywright_engine::{Job, make};
use traywright_tests::jobs::{drawn_for, job, style};
use traywright_tests::sights::{judged, sights};

/// Of so many random trays of each style, so many figures are looked at; all figures of more trays are a slow test.
const TRAYS: usize = 3;
const FIGURES: usize = 4;

#[test]
fn no_hidden_line_is_drawn_and_no_visible_one_is_missing() {
    let mut views = 0;
    for name in ["single-slot", "multi-slot", "double-wall", "lid-lock"] {
        let mut hidden = 0;
        for document in random(name).take(TRAYS) {
            let all = sights(&document);
            // The last figures of a booklet show the most, the tray in its box above all.
            let last = all.len() - 1;
            let some: Vec<Value> = (0..FIGURES)
                .map(|step| all[last - step * last / FIGURES].clone())
                .collect();
            views += some.len();
            let Some(told) = judged(&some) else { return };
            let told = told.unwrap_or_else(|faults| panic!("{name}: {faults}"));
            hidden += told["hidden"].as_u64().expect("a count");
        }
        // Every style has lines that are hidden, or the test would see nothing.
        assert!(hidden > 100, "{name}: {hidden}");
    }
    assert!(views >= 40, "only {views} views");
}

#[test]
fn an_item_is_in_the_tray_from_the_step_that_puts_it_in() {
    // Source: reasoning: a block that stands in a tray has four sides and a top to be seen.
    let document = document(
        "lid-lock",
        &job([180.0, 110.0, 40.0], [80.0, 50.0, 25.0], 0.4),
    );
    // Like steps share a figure.
    let steps: Vec<Step> = alike(&document.steps).filter_map(joined).collect();
    let put_in = steps
        .iter()
        .position(|step| matches!(step.action, Action::Place))
        .expect("a step puts it in");
    assert!(put_in + 1 < steps.len(), "a step follows");
    let figures = sights(&document);
    for (step, figure) in figures.iter().take(steps.len()).enumerate() {
        let surfaces = figure["surfaces"].as_array().expect("surfaces").len();
        let of_item = if step < put_in { 0 } else { 5 };
        assert_eq!(surfaces, document.panels.len() + of_item, "step {step}");
    }
}

#[test]
fn errors_put_in_on_purpose_are_found() {
    let document = document(
        "double-wall",
        &job([182.0, 121.0, 34.0], [96.0, 61.0, 28.0], 0.29),
    );
    // Two figures are enough: one with a wall up, and the tray in its box.
    let mut figures = sights(&document);
    let last = figures.pop().expect("a figure");
    let figures = vec![figures.swap_remove(3), last];
    // The first stretch that is as long as a wall is high is taken away, or an edge is drawn whole.
    let mut missing = figures.clone();
    let seen = missing[0]["seen"].as_array_mut().expect("stretches");
    let longest = seen
        .iter_mut()
        .max_by_key(|edge| edge.to_string().len())
        .expect("edges");
    *longest = json!([]);
    let Some(told) = judged(&missing) else { return };
    assert!(told.is_err_and(|faults| faults.contains("missing though visible")));
    let mut hidden = figures;
    let figure = hidden.last_mut().expect("a figure");
    let edges = figure["edges"].clone();
    let edges = edges.as_array().expect("edges");
    let seen = figure["seen"].as_array_mut().expect("stretches");
    for (edge, seen) in edges.iter().zip(seen) {
        let flat = |end: &Value| json!([end[0], end[1]]);
        *seen = json!([[flat(&edge[0]), flat(&edge[1])]]);
    }
    let told = judged(&hidden).expect("it was there before");
    assert!(told.is_err_and(|faults| faults.contains("drawn though hidden")));
}

/// The tray of a shipped style for a job that it can be made for.
fn document(name: &str, job: &Job) -> Document {
    let style = style(&format!("designs/styles/{name}.ron"));
    make(&style, job).expect("it fits").finish().document()
}

/// Random trays of a style, those with several openings too.
fn random(name: &str) -> impl Iterator<Item = Document> {
    let style = style(&format!("designs/styles/{name}.ron"));
    drawn_for(name, 7)
        .take(4000)
        .filter_map(move |job| Some(make(&style, &job).ok()?.finish().document()))
}
