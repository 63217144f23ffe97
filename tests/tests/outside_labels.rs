//! Labels on panels, judged by programs that know nothing of traywright.
//!
//! Outsiders: shapely (Python, `outside/labels.py`), pdftotext, Node.js for the scripts that fold. Expected values come
//! from core/CONTRACT.md, "Labels on panels", and from the job.

use std::fs;

use serde_json::{Value, json};
use traywright_document::{Chords, Contour, Document, Point};
use traywright_engine::job::Label;
use traywright_engine::{Job, Refusal, Style, make};
use traywright_tests::jobs::{drawn_for, style};
use traywright_tests::made::Made;
use traywright_tests::thorough::part_of;
use traywright_tests::{every_style, measured, page_script, repository, run};

/// Random trays of each style.
const TRAYS: usize = 24;
const CHORDS: Chords = Chords::Spanning(4.0);
/// The corner of the sheet in which an SVG draws, and how far the figures of a reader may be off, in mm.
const READERS_MM: f64 = 0.3;

fn place(point: Point) -> Value {
    json!([point.x, point.y])
}

fn places(contour: &Contour) -> Value {
    let corners = contour.corners(CHORDS);
    let again = corners.first().filter(|_| contour.closed).copied();
    corners.iter().copied().chain(again).map(place).collect()
}

fn judged(document: &Document) -> Option<Result<Value, String>> {
    let flat = &document.flat;
    let panels = document.panels.iter().map(|panel| {
        let rings: Vec<Value> = panel.contours().map(places).collect();
        json!({"name": panel.name, "rings": rings})
    });
    let cuts = std::iter::once(&flat.outline)
        .chain(&flat.holes)
        .chain(&flat.open_cuts);
    let creases = flat.creases.iter();
    let creases = creases.map(|crease| json!([place(crease.from), place(crease.to)]));
    let labels = flat.panel_labels.iter().map(|label| {
        let corners: Vec<Value> = label.corners().map(place).into();
        json!({"text": label.text, "panel": label.panel, "corners": corners})
    });
    let told = json!({
        // Source: core/CONTRACT.md, "Labels on panels": 2 mm and the thickness of the card.
        "margin": 2.0 + document.board.caliper,
        "panels": panels.collect::<Vec<_>>(),
        "labels": labels.collect::<Vec<_>>(),
        "lines": cuts.map(places).chain(creases).collect::<Vec<_>>(),
    });
    let file = tempfile::NamedTempFile::new().expect("a file can be made");
    fs::write(file.path(), told.to_string()).expect("it can be written");
    measured("labels.py", &[file.path().to_str().expect("a plain name")])
}

/// The tray with a label on each panel that takes one.
fn labelled(style: &Style, mut job: Job) -> Option<Document> {
    let plain = make(style, &job).ok()?;
    let panels = plain.unrounded().document().panels;
    for panel in panels {
        let mut with = job.clone();
        with.labels.push(Label::plain("Lens 5", &panel.name));
        match make(style, &with) {
            Ok(_) => job = with,
            Err(Refusal::Job(_)) => {}
            Err(other) => panic!("a label changed the tray: {other:?}"),
        }
    }
    let tray = make(style, &job).ok()?;
    Some(tray.unrounded().document())
}

#[test]
fn labels_stand_within_their_panels_and_off_cuts_and_creases() {
    for name in every_style::styles() {
        let style = style(&format!("designs/styles/{name}.ron"));
        let trays = drawn_for(&name, 31).take(2000);
        let documents = trays.filter_map(|job| labelled(&style, job));
        let (mut labels, mut trays) = (0, 0);
        for document in documents.take(part_of(TRAYS)) {
            let Some(told) = judged(&document) else {
                return;
            };
            let told = told.unwrap_or_else(|faults| panic!("{name}: {faults}"));
            labels += told["labels"].as_u64().expect("a count");
            trays += 1;
        }
        assert_eq!(trays, part_of(TRAYS), "{name}");
        // Source: reasoning: of the root and four walls most have room for a word.
        assert!(labels > 2 * trays as u64, "{name}: {labels}");
    }
}

#[test]
fn a_label_beside_its_panel_or_on_a_crease_is_found() {
    let style = style("designs/styles/single-slot.ron");
    let job = drawn_for("single-slot", 5).find_map(|job| labelled(&style, job));
    let right = job.expect("a tray takes labels");
    let crease = right.flat.creases[0];
    for (at, complaint) in [
        (crease.from.middle(crease.to), "mm from a line"),
        (Point::new(0.0, -900.0), "leaves its panel"),
    ] {
        let mut wrong = right.clone();
        wrong.flat.panel_labels[0].at = at;
        let Some(told) = judged(&wrong) else { return };
        assert!(
            told.is_err_and(|faults| faults.contains(complaint)),
            "{complaint}"
        );
    }
}

/// Jobs with labels on panels of every kind, on both faces.
fn jobs() -> Vec<(String, String)> {
    let single = "tray style=\"single-slot\"\nbox length=(mm)182 width=(mm)121 depth=(mm)34\n\
        item \"barometer\" length=(mm)96 width=(mm)61 depth=(mm)28 pad=(mm)4\nboard caliper=(mm)0.29\n\
        label \"Barometer\" on=\"deck\"\nlabel \"North\" on=\"side-north\"\nlabel \"South\" on=\"side-south\"\n\
        label \"West\" on=\"end-west\"\nlabel \"East\" on=\"end-east\"\n";
    let lock = fs::read_to_string(repository().join("designs/jobs/thread-gauge.kdl"));
    let lock = lock.expect("the shipped job can be read");
    let lock: String = lock
        .lines()
        .filter(|line| !line.starts_with("draw "))
        .map(|line| format!("{line}\n"))
        .collect();
    let lock = format!("{lock}label \"Gauge\" on=\"lid\"\nlabel \"Back\" on=\"back\"\n");
    [("single", single.to_owned()), ("lock", lock)]
        .into_iter()
        .flat_map(|(name, text)| {
            ["inside", "outside"].map(|face| {
                (
                    format!("{name}-{face}"),
                    format!("{text}draw face=\"{face}\"\n"),
                )
            })
        })
        .collect()
}

#[test]
fn in_the_folded_tray_labels_are_read_from_above_or_from_outside_and_stand_upright() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let web = repository().join("exporters/html/web");
    let mut words = vec![web.to_str().expect("a plain name").to_owned()];
    for (name, text) in jobs() {
        let job = format!("{name}.kdl");
        fs::write(folder.path().join(&job), text).expect("a job can be written");
        let outcome = run(folder.path(), &["make", "--quiet", "--as", "html", &job]);
        assert_eq!(outcome.code, 0, "{name}: {}", outcome.stderr);
        let page = folder.path().join(format!("{name}.html"));
        words.push(page.to_str().expect("a plain name").to_owned());
    }
    let words: Vec<&str> = words.iter().map(String::as_str).collect();
    let Some(told) = page_script("labels.mjs", &words) else {
        return;
    };
    let told = told.unwrap_or_else(|why| panic!("{why}"));
    for ((name, _), labels) in jobs()
        .iter()
        .zip(told.as_array().expect("one for each page"))
    {
        let labels = labels.as_array().expect("a list");
        // Source: the jobs above: five and two labels.
        assert_eq!(labels.len(), if name.starts_with("single") { 5 } else { 2 });
        for label in labels {
            check_label(name, label);
        }
    }
}

/// Judges a label as it stands in the tray.
// Source: core/CONTRACT.md, "Labels on panels": level panels are read from above, their top to the north; walls from
// outside, their top up.
fn check_label(name: &str, label: &Value) {
    let way = |key: &str| [0, 1, 2].map(|axis| label[key][axis].as_f64().expect("a number"));
    let (top, eye, aside) = (way("top"), way("eye"), way("aside"));
    let panel = label["panel"].as_str().expect("a name");
    if ["deck", "lid"].contains(&panel) {
        assert!(eye[2] > 0.999, "{name}, {panel}: {label}");
        assert!(top[2].abs() < 1e-3, "{name}, {panel}: {label}");
    } else {
        assert!(top[2] > 0.999, "{name}, {panel}: {label}");
        let out = eye[0] * aside[0] + eye[1] * aside[1];
        assert!(out > 0.0, "{name}, {panel}: {label}");
    }
    // Source: by hand: the face that is outside the folded tray carries all of them.
    let is_drawn = label["drawn"].as_bool().expect("yes or no");
    assert_eq!(is_drawn, name.ends_with("outside"), "{name}, {panel}");
}

#[test]
fn a_reader_of_pdf_finds_the_words_where_the_drawing_has_them() {
    let job = "tray style=\"single-slot\"\nbox length=(mm)182 width=(mm)121 depth=(mm)34\n\
        item \"barometer\" length=(mm)96 width=(mm)61 depth=(mm)28 pad=(mm)4\nboard caliper=(mm)0.29\n\
        page \"whole\" margin=(mm)3\ndraw face=\"outside\"\nlabel \"Hygrometer\" on=\"deck\" size=(mm)5\n";
    let made = Made::new(job, "pdf");
    let Some(boxes) = made.ask("pdftotext", &["-bbox"], &["-"]) else {
        return;
    };
    let word = boxes
        .lines()
        .find(|line| line.contains(">Hygrometer<"))
        .unwrap_or_else(|| panic!("{boxes}"));
    let number = |key: &str| -> f64 {
        let from = word.find(key).expect("a box") + key.len() + 2;
        let rest = &word[from..];
        rest[..rest.find('"').expect("an end")]
            .parse()
            .expect("a number")
    };
    let middle = (number("xMin") + number("xMax")) / 2.0 * 25.4 / 72.0;
    let Some(page) = made.ask("pdfinfo", &["-box"], &[]) else {
        return;
    };
    let trim = page.lines().find(|line| line.starts_with("TrimBox"));
    let trim: Vec<f64> = trim
        .expect("a trim box")
        .split_whitespace()
        .filter_map(|word| word.parse().ok())
        .collect();
    // Source: by hand: the blank is symmetrical, and so the free strip of its deck lies over the middle of its trim.
    let expected = (trim[0] + trim[2]) / 2.0 * 25.4 / 72.0;
    assert!(
        (middle - expected).abs() < READERS_MM,
        "{middle} instead of {expected}: {word}"
    );
}
