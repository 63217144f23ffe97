//! Styles that the engine has never seen: decks that are no rectangles, fences, ramps, round holes.
//!
//! Every style of `tests/styles` makes a blank over a range of boxes, items and card, and each of those is proved again
//! from the document alone.

use std::f64::consts::PI;
use std::fs;

use traywright_document::{Contour, Document, Segment};
use traywright_engine::job::{Cut, Job, Length, Setting, SettingInput};
use traywright_engine::{Refusal, Style, make};
use traywright_tests::jobs::{job, level, style};
use traywright_tests::{repository, union};

/// How well a tray fills its box.
// Source: core/CONTRACT.md, "Trade figures".
const FILLS_MM: f64 = 0.01;

/// Makes every job in a style, proves the blanks and their outside, and gives the documents.
fn made(name: &str, fills: [bool; 3], jobs: impl IntoIterator<Item = Job>) -> Vec<Document> {
    let style = style(&format!("tests/styles/{name}.ron"));
    let make_one = |job: Job| {
        let tray = make(&style, &job).unwrap_or_else(|refusal| panic!("{refusal:#?} {job:#?}"));
        let document = tray.finish().document();
        union::check(&document);
        let outside = ["folded_length", "folded_width", "folded_depth"];
        let inside = [
            job.box_size.length.mm(),
            job.box_size.width.mm(),
            job.box_size.depth.mm(),
        ];
        for axis in 0..3 {
            let spare = inside[axis] - job.fit.around_tray.mm() - figure(&document, outside[axis]);
            assert!(spare > -FILLS_MM, "{name}: {} {spare}", outside[axis]);
            assert!(
                !fills[axis] || spare < FILLS_MM,
                "{name}: {} {spare}",
                outside[axis]
            );
        }
        document
    };
    jobs.into_iter().map(make_one).collect()
}

fn figure(document: &Document, name: &str) -> f64 {
    let measure = document.measures.iter().find(|found| found.name == name);
    measure.unwrap_or_else(|| panic!("no {name}")).value
}

/// Boxes of several sizes and card of several calipers, fold lines in the middle and on the face.
fn boxes(lengths: [f64; 3], across: f64, depths: [f64; 2], item: [f64; 3]) -> Vec<Job> {
    let mut jobs = Vec::new();
    for length in lengths {
        for depth in depths {
            for (caliper, hinge) in [(0.1, 0.0), (0.45, 0.225), (1.5, 0.5)] {
                let size = [length, (length * across).round(), depth];
                let item = [length * item[0], size[1] * item[1], depth * item[2]];
                let mut job = job(size, item.map(f64::round), caliper);
                job.board.hinge = Some(hinge);
                job.fit.around_item = Length::known(4.0);
                job.fit.play = Length::known(if length == lengths[1] { 0.0 } else { 0.5 });
                jobs.push(job);
            }
        }
    }
    jobs
}

fn set(mut job: Job, name: &str, answer: SettingInput) -> Job {
    job.settings.push(Setting {
        name: name.to_owned(),
        answer,
        place: 0..0,
    });
    job
}

fn panel_names(document: &Document) -> Vec<&str> {
    document
        .panels
        .iter()
        .map(|panel| panel.name.as_str())
        .collect()
}

fn has_panel(document: &Document, start: &str) -> bool {
    panel_names(document)
        .iter()
        .any(|name| name.starts_with(start))
}

/// Round runs: every segment an arc.
fn round(holes: &[Contour]) -> Vec<&Contour> {
    let is_arc = |segment: &Segment| matches!(segment, Segment::Arc { .. });
    let is_round = |hole: &&Contour| hole.segments.iter().all(is_arc);
    holes.iter().filter(is_round).collect()
}

#[test]
fn a_six_sided_deck_folds_with_tabs_inside_its_walls() {
    // Reasoning: a regular hexagon has six equal edges that turn by 60°, and as wide as the box less its fit it fills it.
    let jobs = boxes([130.0, 170.0, 240.0], 0.85, [24.0, 50.0], [0.25, 0.2, 0.7]);
    let documents = made("seed-vials", [false, true, true], jobs);
    for document in &documents {
        let edges = lengths(&document.panels[0].outline);
        assert_eq!(edges.len(), 6);
        // Source: the width across the flats of a regular hexagon is √3 edges.
        let expected = figure(document, "deck_width") / 3.0_f64.sqrt();
        for edge in edges {
            assert!(
                (edge - expected).abs() < 1e-9,
                "{edge} instead of {expected}"
            );
        }
        let tab = |panel: &&traywright_document::Panel| panel.name.starts_with("tab");
        let tabs: Vec<_> = document.panels.iter().filter(tab).collect();
        assert_eq!(tabs.len(), 6);
        for tab in tabs {
            let hinge = tab.hinge.as_ref().expect("a tab hangs");
            assert!((hinge.fold_deg - 60.0).abs() < 1e-9, "{}", hinge.fold_deg);
        }
    }
}

#[test]
fn a_round_hole_is_two_arcs_of_its_width() {
    // Reasoning: a circle of width d holds π d² / 4 of card.
    let jobs = boxes([170.0, 200.0, 240.0], 0.85, [24.0, 50.0], [0.2, 0.2, 0.7]);
    let jobs = jobs
        .into_iter()
        .map(|job| set(job, "thumb", SettingInput::Length(18.0)));
    for document in made("seed-vials", [false, true, true], jobs) {
        let holes = round(&document.flat.holes);
        assert_eq!(holes.len(), 1);
        assert_eq!(holes[0].segments.len(), 2);
        let area = -union::enclosed(holes[0]);
        assert!((area - PI * 81.0).abs() < 1e-9, "{area}");
    }
}

#[test]
fn a_slanting_deck_folds_and_traps_its_tabs() {
    // Reasoning: an end that leans in by an angle meets the front at 90° less that angle.
    let mut jobs = Vec::new();
    for lean in [1.0, 8.0, 15.0] {
        let plain = boxes([150.0, 190.0, 260.0], 0.5, [22.0, 36.0], [0.2, 0.4, 0.6]);
        jobs.extend(
            plain
                .into_iter()
                .map(|job| set(job, "lean", SettingInput::Angle(lean))),
        );
    }
    for document in made("lens-case", [false, true, true], jobs) {
        assert_eq!(document.panels[0].outline.segments.len(), 4);
        assert_eq!(panel_names(&document).len(), 13 + 4);
    }
}

#[test]
fn a_deck_with_an_inner_corner_folds() {
    // Reasoning: six edges, of which one corner turns inwards; the box is filled all the same.
    let mut jobs = Vec::new();
    for part in [0.25, 0.35] {
        let plain = boxes([150.0, 190.0, 260.0], 0.7, [20.0, 36.0], [0.3, 0.3, 0.7]);
        jobs.extend(plain.into_iter().map(|job| {
            let (length, width) = (
                job.box_size.length.mm() * part,
                job.box_size.width.mm() * part,
            );
            let job = set(job, "free-length", SettingInput::Length(length));
            set(job, "free-width", SettingInput::Length(width))
        }));
    }
    for document in made("clinometer", [true; 3], jobs) {
        assert_eq!(document.panels[0].outline.segments.len(), 6);
    }
}

#[test]
fn an_opening_near_an_inner_corner_is_held_against_what_stands_there() {
    // Reasoning: the tray is 178 by 118 outside and its free corner 60 by 40, so the walls there stand from 118 and from
    // 78 outwards, 0.3 thick inwards; an opening stays 3 away from where they stand, also from their meeting edge.
    let at = |x: f64, y: f64, length: f64, width: f64| {
        let file = repository().join("tests/styles/clinometer.ron");
        let text = fs::read_to_string(file).expect("the style can be read");
        let place = format!("at: (\"{}mm\", \"{}mm\")", x - 89.0, y - 59.0);
        let moved = text.replace("at: (\"-free-length / 2\", \"0mm\")", &place);
        assert_ne!(moved, text);
        let style = Style::read("moved", &moved).expect("a style");
        let mut job = job([180.0, 120.0, 30.0], [length - 2.0, width - 2.0, 20.0], 0.3);
        job.slot.cut = Cut::Open;
        make(&style, &level(job))
    };
    // Before the ledge: the opening may end 3.3 below 78.
    let upper = 2.0 * (78.0 - 3.3 - 40.0);
    // Beside both walls: the way to the crease's end at 117.85, 77.85 counts, less the inner half of the card.
    let aside = (3.0 + 0.15) / 2.0_f64.sqrt();
    let cases = [
        (89.0, 40.0, 100.0, upper),
        (69.0, 41.0, 2.0 * (48.85 - aside), 2.0 * (36.85 - aside)),
    ];
    for (x, y, length, width) in cases {
        let fits = at(x, y, length - 0.01, width - 0.01);
        assert!(fits.is_ok(), "{:#?}", fits.err());
        match at(x, y, length + 0.01, width + 0.01) {
            Err(Refusal::Tray(report)) => {
                assert_eq!(report.findings[0].code(), "opening-too-near-edge");
                let value = report.findings[0].value.expect("a value");
                assert!((value - 3.0).abs() < 0.02, "{report:#?}");
            }
            other => panic!("{:?}", other.map(|tray| tray.finish().document().measures)),
        }
    }
}

#[test]
fn fences_rise_around_an_opening_that_is_not_cut() {
    // Reasoning: a fence is cut on three sides and hangs on the fourth: one open cut each, and no hole in the floor.
    let jobs = boxes([150.0, 190.0, 260.0], 0.7, [22.0, 36.0], [0.3, 0.3, 0.6]);
    let middle = jobs.clone().into_iter();
    let middle = middle.map(|job| set(job, "grip", SettingInput::Word("middle".to_owned())));
    for document in made("watch-rest", [true; 3], jobs) {
        assert_eq!(document.flat.open_cuts.len(), 4);
        assert!(document.flat.holes.is_empty());
        assert!(has_panel(&document, "long-fence") && !has_panel(&document, "short-fence"));
    }
    for document in made("watch-rest", [true; 3], middle) {
        assert!(has_panel(&document, "short-fence") && !has_panel(&document, "long-fence"));
    }
}

#[test]
fn a_waist_and_notches_are_cut_as_written() {
    // Reasoning: the waist narrows the bridge by itself at both ends, the inner end is as broad as before; a notch takes
    // two corners of 3 by 4 out of it.
    let tray = set(
        job([182.0, 121.0, 34.0], [60.0, 60.0, 28.0], 0.29),
        "waist",
        SettingInput::Length(5.0),
    );
    let document = made("watch-rest", [true; 3], [tray]).remove(0);
    let panel = |name: &str| document.panels.iter().find(|panel| panel.name == name);
    let area = |name: &str| union::enclosed(&panel(name).expect("it is there").outline);
    // Source: core/GEOMETRY.md, "Single-slot: worked": roll-over 117.92 wide, bridge 1.08, inner end 31.565.
    let (wide, bridge, second) = (118.71 - 2.0 * 0.395, 1.08, 31.565);
    assert!((area("bridge-west") - (wide - 10.0) * bridge).abs() < 1e-9);
    assert!((area("inner-end-west") - (wide * second - 24.0)).abs() < 1e-9);
}

#[test]
fn ramps_hang_in_an_open_slot_and_windows_are_round() {
    // Reasoning: panels on a cut opening lie in its hole, so the slot's outline runs around them.
    let jobs = boxes([150.0, 190.0, 260.0], 0.7, [24.0, 36.0], [0.4, 0.35, 0.7]);
    for document in made("lens-cradle", [true; 3], jobs.into_iter().map(level)) {
        assert!(has_panel(&document, "ramp-south") && has_panel(&document, "stop-west"));
        assert_eq!(round(&document.flat.holes).len(), 2);
        let hole = document
            .flat
            .holes
            .iter()
            .find(|hole| hole.segments.len() > 8);
        assert!(hole.is_some(), "{:#?}", document.flat.holes);
    }
    let square = boxes([150.0, 190.0, 260.0], 0.7, [24.0, 36.0], [0.3, 0.42, 0.7]);
    for document in made("lens-cradle", [true; 3], square.into_iter().map(level)) {
        assert!(has_panel(&document, "ramp-south") && !has_panel(&document, "stop"));
    }
}

fn lengths(run: &Contour) -> Vec<f64> {
    let mut from = run.start;
    let length = |segment: &Segment| {
        let to = segment.to();
        let length = (to.x - from.x).hypot(to.y - from.y);
        from = to;
        length
    };
    run.segments.iter().map(length).collect()
}
