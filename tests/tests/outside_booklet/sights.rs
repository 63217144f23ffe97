//! The lines of figures held against a depth buffer that knows nothing of ours.
//!
//! Source: `outside/visible.py`, numpy. A line that it finds hidden is not drawn, and one that it finds visible is,
//! beyond two of its steps of a quarter of a millimetre; errors that are put in on purpose are found.

use std::fs;
use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::sync::OnceLock;

use serde_json::Value;
use traywright_document::{Document, wire};
use traywright_engine::make;
use traywright_tests::jobs::{drawn, job, style};
use traywright_tests::{cargo, python, target_folder};

#[test]
fn no_hidden_line_is_drawn_and_no_visible_one_is_missing() {
    let mut views = 0;
    for document in documents() {
        let sights = sights(&document);
        views += sights.as_array().map_or(0, Vec::len);
        let Some(told) = judged(&sights) else { return };
        let told = told.unwrap_or_else(|faults| panic!("{}: {faults}", document.style));
        let told: Value = serde_json::from_str(&told).expect("the script prints JSON");
        // Every tray has lines that are hidden in some figure, or the test would see nothing.
        assert!(told["hidden"].as_u64() > Some(100), "{told}");
    }
    assert!(views >= 40, "only {views} views");
}

#[test]
fn errors_put_in_on_purpose_are_found() {
    let document = documents().swap_remove(0);
    // Two figures are enough: one with a wall up, and the tray in its box.
    let mut sights = sights(&document);
    let figures = sights.as_array_mut().expect("a list of figures");
    let last = figures.pop().expect("a figure");
    *figures = vec![figures[3].clone(), last];
    // The first stretch that is as long as a wall is high is taken away, or an edge is drawn whole.
    let mut missing = sights.clone();
    let figures = missing.as_array_mut().expect("a list of figures");
    let seen = figures[0]["seen"].as_array_mut().expect("stretches");
    let longest = seen
        .iter_mut()
        .max_by_key(|edge| edge.to_string().len())
        .expect("edges");
    *longest = serde_json::json!([]);
    let Some(told) = judged(&missing) else { return };
    assert!(told.is_err_and(|faults| faults.contains("missing though visible")));
    let mut hidden = sights;
    let figures = hidden.as_array_mut().expect("a list of figures");
    let figure = figures.last_mut().expect("a figure");
    let edges = figure["edges"].clone();
    for (edge, seen) in edges
        .as_array()
        .expect("edges")
        .iter()
        .zip(figure["seen"].as_array_mut().expect("stretches"))
    {
        let flat = |end: &Value| serde_json::json!([end[0], end[1]]);
        *seen = serde_json::json!([[flat(&edge[0]), flat(&edge[1])]]);
    }
    let told = judged(&hidden).expect("it was there before");
    assert!(told.is_err_and(|faults| faults.contains("drawn though hidden")));
}

/// Trays of the shipped styles, and random ones.
fn documents() -> Vec<Document> {
    let single = style("designs/styles/single-slot.ron");
    let mut documents: Vec<Document> = ["double-wall", "lid-lock"]
        .into_iter()
        .map(|name| {
            let job = job([182.0, 121.0, 34.0], [96.0, 61.0, 28.0], 0.29);
            let style = style(&format!("designs/styles/{name}.ron"));
            make(&style, &job).expect("it fits").document()
        })
        .collect();
    let random = drawn(7).filter_map(|job| make(&single, &job).ok());
    documents.extend(random.take(2).map(|tray| tray.document()));
    documents
}

/// What the figures of a booklet show, told by an example of the exporter's.
fn sights(document: &Document) -> Value {
    let mut child = Command::new(example())
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .expect("the example can be started");
    let mut stdin = child.stdin.take().expect("it listens");
    stdin
        .write_all(&wire::encode(document))
        .expect("it takes the document");
    drop(stdin);
    let output = child.wait_with_output().expect("it ends");
    assert!(output.status.success(), "the example ends well");
    serde_json::from_slice(&output.stdout).expect("it writes JSON")
}

/// The example, built with all that is built for tests, so that nothing is built twice.
fn example() -> &'static Path {
    static EXAMPLE: OnceLock<PathBuf> = OnceLock::new();
    EXAMPLE.get_or_init(|| {
        let built = cargo()
            .args([
                "build",
                "--quiet",
                "--locked",
                "--workspace",
                "--example",
                "sightings",
            ])
            .status()
            .expect("cargo can be started");
        assert!(built.success(), "the example builds");
        target_folder().join("debug/examples/sightings")
    })
}

/// What the depth buffer says; none if it cannot be asked.
fn judged(sights: &Value) -> Option<Result<String, String>> {
    let file = tempfile::NamedTempFile::new().expect("a file can be made");
    fs::write(file.path(), sights.to_string()).expect("a file can be written");
    python("visible.py", &[file.path().to_str().expect("plain")])
}
