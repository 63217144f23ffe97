//! The position of a crease on its edge: insets, spans, and panels that extend beyond it: LANGUAGE section 4.
//!
//! Source of all figures: worked out by hand on a deck of 60 × 40 with its lower left corner at (0, 0).

use super::{cornered, faults, job, made, measured, panel, pointed, whole};

/// A panel of reach 20 with these fields on the deck's edge.
fn hung(edge: &str, fields: &str) -> String {
    format!(
        r#"panels: {{"deck": Rectangle(length: Flat("60mm"), width: Flat("40mm")),
        "wall": Hinged(on: "deck.{edge}", reach: Flat("20mm"), {fields})}}"#
    )
}

#[test]
fn insets_and_spans_place_the_crease() {
    for (fields, from, to) in [
        ("", 0.0, 60.0),
        (r#"inset: "5mm""#, 5.0, 55.0),
        (r#"inset: {"west": "5mm"}"#, 5.0, 60.0),
        (r#"inset: {"east": "5mm"}"#, 0.0, 55.0),
        (r#"inset: {"east": "5mm", "west": "7mm"}"#, 7.0, 55.0),
        (r#"span: "20mm""#, 20.0, 40.0),
        (r#"span: "20mm", inset: {"west": "5mm"}"#, 5.0, 25.0),
        (r#"span: "20mm", inset: {"east": "5mm"}"#, 35.0, 55.0),
        (r#"span: "edge / 3""#, 20.0, 40.0),
    ] {
        for (edge, crease, far) in [("south", 0.0, -20.0), ("north", 40.0, 60.0)] {
            let document = made(&hung(edge, fields));
            cornered(
                &document,
                "wall",
                &[[from, crease], [to, crease], [to, far], [from, far]],
            );
        }
    }
}

#[test]
fn a_wider_panel_stands_out_beyond_its_crease_at_both_ends() {
    let document = made(&hung("south", r#"span: "20mm", overhang: "3mm""#));
    let body = [[17.0, 0.0], [43.0, 0.0], [43.0, -20.0], [17.0, -20.0]];
    let crease = [[20.0, 0.0], [40.0, 0.0]];
    cornered(&document, "wall", &[&body[..], &crease[..]].concat());
}

#[test]
fn insets_at_both_ends_and_a_span_are_one_too_many() {
    for fields in [
        r#"span: "20mm", inset: "5mm""#,
        r#"span: "20mm", inset: {"west": "5mm", "east": "5mm"}"#,
    ] {
        let sections = hung("south", fields);
        assert!(faults(&sections)[0].message.contains("say one thing twice"));
    }
    let sections = hung("south", r#"inset: {"wset": "5mm"}"#);
    let found = faults(&sections);
    assert_eq!(pointed(&whole(&sections), &found[0]), "wset");
    assert!(found[0].label.contains("`west`"));
}

#[test]
fn sense_and_angle_make_the_fold() {
    for (fields, fold_deg) in [
        ("", 90.0),
        (r#"angle: "35deg""#, 35.0),
        ("sense: Mountain", -90.0),
        (r#"sense: Mountain, angle: "35deg""#, -35.0),
    ] {
        let document = made(&hung("south", fields));
        let hinge = panel(&document, "wall")
            .hinge
            .expect("a wall hangs on a crease");
        assert!(
            (hinge.fold_deg - fold_deg).abs() < 1e-9,
            "{fields} {hinge:?}"
        );
        assert_eq!(hinge.parent, 0);
    }
}

#[test]
fn the_own_names_of_a_panel_are_its_own() {
    let sections = r#"panels: {"deck": Rectangle(length: Flat("60mm"), width: Flat("40mm")),
        "end": Hinged(on: "deck.ends", inset: "edge / 8", reach: Flat("span / 2")),
        "lip": Hinged(on: "end.far", reach: Flat("edge - span + reach-of-a-lip"))},
        values: {"reach-of-a-lip": "4mm"},
        measures: {"wall_height": "end.reach", "span": "end.span", "lip": "lip.reach"}"#;
    // 40 - 2 · 5 = 30, and half of it; the lip's crease is the whole edge.
    measured(
        sections,
        &job(),
        &[("wall_height", 15.0), ("span", 30.0), ("lip", 4.0)],
    );
}

#[test]
fn the_outside_reaches_to_the_corner_of_a_leaning_bend() {
    // Source: by hand: a wall leans out by 45° and a lip comes back by 90°, so the corner of their bend points straight
    // outwards. The outer face lies 1 / 2 + 0.25 off the hinge, and the corner √2 times as far; the hinge stands
    // 20 cos 45° beyond that of the wall.
    let sections = r#"items: 1, stands: RootDown, fills: [],
        panels: {
            "floor": Rectangle(length: Flat("60mm"), width: Flat("40mm")),
            "wall": Hinged(on: "floor.ends", reach: Flat("20mm"), angle: "45deg"),
            "lip": Hinged(on: "wall.far", reach: Flat("10mm")),
        },
        openings: {"place": Slot(on: "floor", cut: Uncut)},
        measures: {"wall_height": "wall.reach"}"#;
    let half = std::f64::consts::FRAC_1_SQRT_2;
    let corner = 20.0 * half + 0.75 * std::f64::consts::SQRT_2;
    measured(sections, &job(), &[("folded_length", 60.0 + 2.0 * corner)]);
}
