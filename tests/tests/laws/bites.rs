//! What is taken out of edges and creases: notches, half-round notches, slits that reach a crease.

use std::f64::consts::PI;

use traywright_document::{Contour, Document, Segment};
use traywright_engine::{Refusal, Style, make};
use traywright_tests::jobs::job;
use traywright_tests::union;

/// A tray of a deck and two walls, with openings as the test says: deck 100 by 60 crease to crease, walls 20 high. In the
/// middle an item of 20 by 20 that stands proud looks out of a hole of 22 by 22.
fn tray(openings: &str) -> Result<Document, Refusal> {
    let text = format!(
        r#"Style(
            language: 1,
            about: "A deck with two walls.",
            panels: {{
                "deck": Rectangle(length: Flat("100mm"), width: Flat("60mm")),
                "wall": Hinged(on: "deck.sides", inset: "10mm", reach: Flat("20mm")),
            }},
            openings: {{ "seat": Slot(on: "deck", cut: Open), {openings} }},
            measures: {{ "wall_height": "wall.reach" }},
        )"#
    );
    let style = Style::read("deck", &text).unwrap_or_else(|faults| panic!("{faults:#?}"));
    let made = make(&style, &job([110.0, 70.0, 30.0], [20.0, 20.0, 28.0], 0.4))?;
    Ok(made.finish().document())
}

fn made(openings: &str) -> Document {
    let document = tray(openings).unwrap_or_else(|refusal| panic!("{refusal:#?}"));
    union::check(&document);
    document
}

/// Source: reasoning: a deck of 100 by 60 less the seat, and two walls of 80 by 20.
const WHOLE_MM2: f64 = 6000.0 - 22.0 * 22.0 + 2.0 * 1600.0;

/// Area of the card: the outline less the holes, arcs by the area of their segments.
// Source: the area of a polygon by its corners, and of a circular segment: r² (angle - sin angle) / 2.
fn card(document: &Document) -> f64 {
    let holes = document.flat.holes.iter();
    std::iter::once(&document.flat.outline)
        .chain(holes)
        .map(area)
        .sum()
}

fn area(run: &Contour) -> f64 {
    let mut from = run.start;
    let mut doubled = 0.0;
    for segment in &run.segments {
        let to = segment.to();
        doubled += from.x * to.y - from.y * to.x;
        if let Segment::Arc { bulge, .. } = segment {
            let angle = 4.0 * bulge.atan();
            let radius = (to.x - from.x).hypot(to.y - from.y) / (2.0 * (angle / 2.0).sin());
            doubled += radius * radius * (angle - angle.sin());
        }
        from = to;
    }
    doubled / 2.0
}

/// Lengths of the creases on one side of the deck, from west to east.
fn creases(document: &Document, y: f64) -> Vec<f64> {
    let on_it = document
        .flat
        .creases
        .iter()
        .filter(|crease| (crease.from.y - y).abs() < 1e-9);
    let mut creases: Vec<(f64, f64)> = on_it
        .map(|crease| {
            (
                crease.from.x.min(crease.to.x),
                (crease.to.x - crease.from.x).abs(),
            )
        })
        .collect();
    creases.sort_by(|one, other| one.0.total_cmp(&other.0));
    creases.into_iter().map(|(_, length)| length).collect()
}

fn assert_near(found: &[f64], expected: &[f64]) {
    let near = found
        .iter()
        .zip(expected)
        .all(|(one, other)| (one - other).abs() < 1e-9);
    assert!(
        near && found.len() == expected.len(),
        "{found:?} instead of {expected:?}"
    );
}

#[test]
fn a_hole_over_a_free_edge_is_a_notch_in_it() {
    // Reasoning: at the west edge, where nothing hangs, 6 of a hole 10 long and 8 wide lie on the deck.
    let document =
        made(r#""notch": Hole(on: "deck", size: ("10mm", "8mm"), at: ("-49mm", "0mm"))"#);
    assert_eq!(document.flat.holes.len(), 1, "the seat alone");
    assert_near(&[card(&document)], &[WHOLE_MM2 - 6.0 * 8.0]);
    assert_near(&creases(&document, 0.0), &[80.0]);
}

#[test]
fn a_hole_over_a_crease_breaks_it() {
    // Reasoning: the crease at the south runs from 10 to 90; the hole, 12 wide about x = 40, takes 34 to 46 out of it.
    for (on, at) in [
        ("deck", "(\"-10mm\", \"-28mm\")"),
        ("wall-south", "(\"10mm\", \"2mm\")"),
    ] {
        let document = made(&format!(
            r#""notch": Hole(on: "{on}", size: ("12mm", "6mm"), at: {at})"#
        ));
        assert_eq!(document.flat.holes.len(), 2, "{on}");
        assert_near(&creases(&document, 0.0), &[24.0, 44.0]);
        assert_near(&creases(&document, 60.0), &[80.0]);
        assert_near(&[card(&document)], &[WHOLE_MM2 - 12.0 * 5.0]);
    }
}

#[test]
fn a_hole_over_the_end_of_a_crease_shortens_it() {
    // Reasoning: the hole, 12 wide about x = 10, takes 10 to 16 out of the crease and 4 to 10 out of the edge beside it.
    let document =
        made(r#""notch": Hole(on: "deck", size: ("12mm", "6mm"), at: ("-40mm", "-28mm"))"#);
    assert_eq!(document.flat.holes.len(), 1, "the seat alone");
    assert_near(&creases(&document, 0.0), &[74.0]);
    assert_near(&[card(&document)], &[WHOLE_MM2 - 12.0 * 5.0]);
}

#[test]
fn a_hole_over_a_corner_or_wider_than_its_edge_is_refused() {
    // Reasoning: what reaches two edges is no notch in one of them, and the wall would fall off.
    for (size, at) in [
        ("10mm", "(\"-48mm\", \"-28mm\")"),
        ("120mm", "(\"0mm\", \"-28mm\")"),
    ] {
        let refusal = tray(&format!(
            r#""notch": Hole(on: "deck", size: ("{size}", "10mm"), at: {at})"#
        ));
        let Err(Refusal::Tray(report)) = refusal else {
            panic!("{size}: {refusal:#?}");
        };
        assert_eq!(report.findings[0].code(), "openings-overlap", "{report:#?}");
    }
}

#[test]
fn a_scoop_is_half_a_circle_out_of_its_edge() {
    // Source: geometry: half a circle of radius 8 has the area 32 π.
    for on in ["wall.far", "deck.west"] {
        let document = made(&format!(
            r#""scoop": ThumbNotch(on: "{on}", radius: "8mm", at: "5mm")"#
        ));
        let count = if on == "wall.far" { 2.0 } else { 1.0 };
        let arcs = document
            .flat
            .outline
            .segments
            .iter()
            .filter(|segment| matches!(segment, Segment::Arc { .. }));
        assert_eq!(arcs.count() as f64, count);
        assert_near(&[card(&document)], &[WHOLE_MM2 - count * 32.0 * PI]);
    }
}

#[test]
fn a_scoop_lies_to_the_right_of_the_middle_seen_with_the_crease_below() {
    // Reasoning: seen with its crease below, the south wall has its right hand in the west: its far edge runs from x = 10
    // to 90 at y = -20. An upright edge has its right hand above: the west edge of the deck runs from y = 0 to 60.
    let at = |on: &str| {
        let document = made(&format!(
            r#""scoop": ThumbNotch(on: "{on}", radius: "8mm", at: "5mm")"#
        ));
        let outline = &document.flat.outline;
        let ends = outline
            .segments
            .windows(2)
            .filter_map(|pair| match pair[1] {
                Segment::Arc { to, .. } => Some((pair[0].to(), to)),
                Segment::Line { .. } => None,
            });
        ends.map(|(from, to)| [(from.x + to.x) / 2.0, (from.y + to.y) / 2.0])
            .next()
            .expect("an arc")
    };
    assert_near(&at("wall-south.far"), &[45.0, -20.0]);
    assert_near(&at("deck.west"), &[0.0, 35.0]);
}

#[test]
fn a_scoop_wider_than_its_edge_is_refused_with_both_figures() {
    let refusal = tray(r#""scoop": ThumbNotch(on: "deck.west", radius: "31mm")"#);
    let Err(Refusal::Tray(report)) = refusal else {
        panic!("{refusal:#?}");
    };
    let found = &report.findings[0];
    assert_eq!(
        (found.code(), found.value, found.limit),
        ("notch-off-edge", Some(31.0), Some(30.0))
    );
}
