//! A solid library that knows no tray holds the folded panels against one another, and folds them step by step.
//!
//! Outsider: manifold3d 3.5 (Python, `outside/solids.py` and `outside/solids_turning.py`), which is given documents alone:
//! flat outlines, creases and steps. It folds them by itself.

mod blocked;
mod by_hand;
mod damages;
mod mistakes;
mod orders;
mod standing;
mod strip;
mod turning;

use std::fs;

use serde_json::Value;
use traywright_document::{Document, Point, Segment, wire};
use traywright_engine::job::{Job, Length};
use traywright_engine::{CheckedTray, Style, make};
use traywright_tests::jobs::{drawn_for, drawn_with_items, job, style};
use traywright_tests::python;

const SINGLE_SLOT: &str = "designs/styles/single-slot.ron";

/// Runs a script over documents and gives what it measured, one entry a document; none if it cannot be asked.
fn measured(script: &str, documents: &[Document]) -> Option<Vec<Value>> {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let name = |index: usize| format!("{index:04}");
    for (index, document) in documents.iter().enumerate() {
        let path = folder.path().join(name(index)).with_extension("json");
        fs::write(path, wire::encode(document)).expect("a document can be written");
    }
    let path = folder.path().to_str().expect("a plain name");
    let text = python(script, &[path])?.unwrap_or_else(|fault| panic!("{script}: {fault}"));
    let mut seen: Value = serde_json::from_str(&text).expect("the script prints JSON");
    let entries = (0..documents.len()).map(|index| seen[name(index)].take());
    Some(entries.collect())
}

/// So many random trays of a shipped style that can be made.
fn random_trays(name: &str, seed: u64, count: usize) -> Vec<(Job, CheckedTray)> {
    let style = style(&format!("designs/styles/{name}.ron"));
    let of_style = |job: Job| Job {
        style: name.to_owned(),
        ..job
    };
    let made = drawn_for(name, seed).filter_map(|job| {
        let job = for_style(name, of_style(job));
        Some((job.clone(), make(&style, &job).ok()?))
    });
    made.take(count).collect()
}

/// Most random items are too flat for a lid right above them: the box is made as low as they need.
fn for_style(name: &str, mut job: Job) -> Job {
    if name == "lid-lock" {
        let layers = 3.0 * job.board.caliper.mm() + job.fit.play.mm() + job.fit.around_tray.mm();
        job.box_size.depth = Length::known(job.items[0].depth.mm() + layers + 2.0);
    }
    job
}

/// The document without its tongues: hands bow them into their slits, and stiff solids would not go in.
fn without_tongues(mut document: Document) -> Document {
    let tongues = std::mem::take(&mut document.interlocks);
    for interlock in &tongues {
        let run = &interlock.tongue.segments;
        let tip: Vec<Point> = run[..run.len() - 1].iter().map(Segment::to).collect();
        let outline = &mut document.panels[interlock.panel].outline;
        outline
            .segments
            .retain(|segment| !tip.contains(&segment.to()));
    }
    document
}

/// So many random multi-slot trays with several openings that can be made.
fn random_trays_of_several(seed: u64, count: usize) -> Vec<CheckedTray> {
    let multi_slot = style("designs/styles/multi-slot.ron");
    let several = drawn_with_items(seed).filter(|job| job.items.len() > 1);
    let made = several.filter_map(|job| make(&multi_slot, &job).ok());
    made.take(count).collect()
}

/// Trays of the styles that only the tests know, in thin card and in thick card with its fold lines off the middle.
fn other_trays() -> Vec<CheckedTray> {
    let cases = [
        ("seed-vials", [160.0, 130.0, 34.0], [40.0, 30.0, 26.0]),
        ("lens-case", [182.0, 101.0, 34.0], [60.0, 40.0, 28.0]),
        ("clinometer", [182.0, 121.0, 34.0], [50.0, 50.0, 28.0]),
        ("watch-rest", [182.0, 121.0, 34.0], [60.0, 60.0, 28.0]),
        ("lens-cradle", [182.0, 121.0, 34.0], [70.0, 50.0, 32.0]),
    ];
    let mut trays = Vec::new();
    for (name, box_size, item) in cases {
        let style = style(&format!("tests/styles/{name}.ron"));
        for (caliper, hinge) in [(0.29, 0.0), (0.45, 0.1), (1.2, 0.6)] {
            let mut job = job(box_size, item, caliper);
            job.board.hinge = Some(hinge);
            job.fit.around_item = Length::known(4.0);
            trays.push(made(&style, &job));
        }
    }
    trays
}

fn made(style: &Style, job: &Job) -> CheckedTray {
    make(style, job).unwrap_or_else(|refusal| panic!("{}: {refusal:#?}", style.name()))
}

fn number(value: &Value) -> f64 {
    value
        .as_f64()
        .unwrap_or_else(|| panic!("no number: {value}"))
}

fn list(value: &Value) -> &[Value] {
    value
        .as_array()
        .unwrap_or_else(|| panic!("no list: {value}"))
}

fn word(value: &Value) -> &str {
    value.as_str().unwrap_or_else(|| panic!("no word: {value}"))
}
