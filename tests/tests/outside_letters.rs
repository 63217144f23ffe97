//! The letters of the parts on the blank, judged by a reader that knows nothing of traywright.
//!
//! Outsider: shapely (Python, `outside/letters.py`). Sources: core/CONTRACT.md, "Job file", on `letters`; the shipped styles.

use std::fs;

use serde_json::{Value, json};
use traywright_document::{Chords, Contour, Document, Label, Point};
use traywright_engine::job::DrawnFace;
use traywright_engine::make;
use traywright_tests::jobs::{drawn_for, job, level, style};
use traywright_tests::thorough::part_of;
use traywright_tests::trying::draw;
use traywright_tests::{every_style, measured};

/// Random trays of each style.
const TRAYS: usize = 60;
const CHORDS: Chords = Chords::Spanning(4.0);

fn place(point: Point) -> Value {
    json!([point.x, point.y])
}

fn ring(contour: &Contour) -> Value {
    let corners = contour.corners(CHORDS).into_iter();
    corners.map(place).collect()
}

fn closed(contour: &Contour) -> Value {
    let corners = contour.corners(CHORDS);
    let again = corners.first().filter(|_| contour.closed).copied();
    corners.iter().copied().chain(again).map(place).collect()
}

fn word(label: &Label) -> Value {
    json!({"text": label.text, "at": place(label.at), "height": label.height})
}

/// What the reader counted, or complained of; none if it cannot be asked.
fn judged(document: &Document) -> Option<Result<Value, String>> {
    let flat = &document.flat;
    let panels = document.panels.iter().map(|panel| {
        let rings: Vec<Value> = panel.contours().map(ring).collect();
        json!({"name": panel.name, "part": panel.part, "rings": rings})
    });
    let figures = flat.dimensions.iter().map(|dimension| {
        json!({"text": dimension.text, "at": place(dimension.text_at), "height": dimension.text_height})
    });
    let cuts = std::iter::once(&flat.outline)
        .chain(&flat.holes)
        .chain(&flat.open_cuts);
    let creases = flat
        .creases
        .iter()
        .map(|crease| json!([place(crease.from), place(crease.to)]));
    let measures = flat
        .dimensions
        .iter()
        .flat_map(|one| std::iter::once(&one.line).chain(&one.extensions));
    let measures = measures.map(|[from, to]| json!([place(*from), place(*to)]));
    let told = json!({
        "panels": panels.collect::<Vec<_>>(),
        "letters": flat.letters.iter().map(word).collect::<Vec<_>>(),
        "words": flat.labels.iter().map(word).chain(figures).collect::<Vec<_>>(),
        "lines": cuts.map(closed).chain(creases).chain(measures).collect::<Vec<_>>(),
    });
    let file = tempfile::NamedTempFile::new().expect("a file can be made");
    fs::write(file.path(), told.to_string()).expect("it can be written");
    measured("letters.py", &[file.path().to_str().expect("a plain name")])
}

#[test]
fn letters_stand_within_their_panels_and_on_nothing_else() {
    for name in every_style::styles() {
        let style = style(&format!("designs/styles/{name}.ron"));
        let trays = drawn_for(&name, 23)
            .take(4000)
            .filter(|job| job.output.drawn_face == DrawnFace::Inside)
            .filter_map(|job| make(&style, &job).ok());
        let (mut count, mut letters) = (0, 0);
        for tray in trays.take(part_of(TRAYS)) {
            let Some(told) = judged(&tray.finish().document()) else {
                return;
            };
            let told = told.unwrap_or_else(|faults| panic!("{name}: {faults}"));
            letters += told["letters"].as_u64().expect("a count");
            count += 1;
        }
        assert_eq!(count, part_of(TRAYS), "{name}");
        // Source: reasoning: root, walls and tabs alone are more than four panels with room for a letter.
        assert!(letters > 4 * count as u64, "{name}: {letters}");
    }
}

#[test]
fn a_letter_on_a_crease_or_beside_its_panel_is_found() {
    let style = style("designs/styles/single-slot.ron");
    let tray = make(
        &style,
        &level(job([182.0, 121.0, 34.0], [96.0, 61.0, 28.0], 0.29)),
    )
    .expect("it fits");
    let right = tray.finish().document();
    // Source: by hand: a crease runs along the edge of the deck; far below the blank there is no panel.
    let crease = right.flat.creases[0];
    for (at, complaint) in [
        (crease.from.middle(crease.to), "a line runs through"),
        (Point::new(0.0, -900.0), "lies within []"),
    ] {
        let mut wrong = right.clone();
        wrong.flat.letters[0].at = at;
        let Some(told) = judged(&wrong) else { return };
        assert!(
            told.is_err_and(|faults| faults.contains(complaint)),
            "{complaint}"
        );
    }
}

#[test]
fn parts_have_letters_in_the_order_of_their_folds() {
    // Source: by hand, from the steps of the style: side walls, tabs, then end wall, bridge and inner end, flaps last; the
    // bridge is too narrow for a letter.
    let style = style("designs/styles/single-slot.ron");
    let tray = make(
        &style,
        &level(job([182.0, 121.0, 34.0], [96.0, 61.0, 28.0], 0.29)),
    )
    .expect("it fits");
    let Some(told) = judged(&tray.finish().document()) else {
        return;
    };
    let told = told.unwrap_or_else(|faults| panic!("{faults}"));
    let expected =
        json!({"deck": "A", "side": "B", "tab": "C", "end": "D", "inner-end": "F", "flap": "G"});
    assert_eq!(told["parts"], expected);
    // Derived: a deck, 2 side walls, 4 tabs, 2 end walls, 2 inner ends, 4 flaps.
    assert_eq!(told["letters"], 15);
}

#[test]
fn a_face_that_shows_has_no_letters_and_a_job_can_do_without() {
    let job = "tray style=\"single-slot\"\nbox length=(mm)182 width=(mm)121 depth=(mm)34\n\
        item \"barometer\" length=(mm)96 width=(mm)61 depth=(mm)28 pad=(mm)4\nboard caliper=(mm)0.29\n";
    for (line, has_letters) in [
        ("", true),
        ("draw letters=#true", true),
        ("draw letters=#false", false),
        ("draw face=\"outside\"", false),
    ] {
        let svg = draw(&format!("{job}{line}\n"));
        assert_eq!(svg.contains("id=\"letters\""), has_letters, "{line}");
        assert_eq!(svg.contains("Parts: A deck"), has_letters, "{line}");
    }
}
