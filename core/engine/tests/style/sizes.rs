//! Outside, Inside and Flat at every combination of ends: LANGUAGE section 3.
//!
//! Source of all figures: worked out by hand from section 1, `outer` and `inner`: at 90° 0.75 and 0.25, at 60° these
//! times tan 30°, at 120° times tan 60°.

use super::{faults, job, measured, style, whole};
use traywright_engine::{Refusal, make};

const DECK: &str = r#""deck": Rectangle(length: Flat("60mm"), width: Flat("40mm"))"#;

/// A wall of this size and angle, and another panel on its far edge.
fn wall(size: &str, angle: &str, beyond: &str) -> String {
    format!(
        r#"panels: {{{DECK}, "wall": Hinged(on: "deck.south", angle: "{angle}", reach: {size}("20mm")), {beyond}}},
        measures: {{"wall_height": "wall.reach"}}"#
    )
}

#[test]
fn a_reach_with_a_free_edge_has_one_allowance() {
    for (size, reach) in [("Outside", 19.25), ("Inside", 20.25), ("Flat", 20.0)] {
        measured(&wall(size, "90deg", ""), &job(), &[("wall_height", reach)]);
    }
}

#[test]
fn a_reach_between_two_creases_has_two_allowances_each_of_its_angle() {
    let beyond = |angle: &str| {
        format!(r#""lip": Hinged(on: "wall.far", angle: "{angle}", reach: Flat("9mm"))"#)
    };
    for (size, own, other, reach) in [
        ("Outside", "90deg", "90deg", 18.5),
        ("Inside", "90deg", "90deg", 20.5),
        ("Flat", "90deg", "90deg", 20.0),
        // 0.75 tan 30° = 0.433012702, 0.75 tan 60° = 1.299038106.
        ("Outside", "60deg", "120deg", 18.267949192),
        ("Outside", "120deg", "60deg", 18.267949192),
        // 0.25 tan 30° = 0.144337567, 0.25 tan 60° = 0.433012702.
        ("Inside", "60deg", "120deg", 20.577350269),
        ("Inside", "60deg", "90deg", 20.394337567),
    ] {
        measured(
            &wall(size, own, &beyond(other)),
            &job(),
            &[("wall_height", reach)],
        );
    }
}

#[test]
fn a_panel_that_does_not_exist_leaves_the_edge_free() {
    let beyond = r#""lip": Hinged(on: "wall.far", when: "box.depth > 50mm", reach: Flat("9mm"))"#;
    measured(
        &wall("Outside", "90deg", beyond),
        &job(),
        &[("wall_height", 19.25)],
    );
}

#[test]
fn a_root_loses_and_gains_only_at_its_creased_edges() {
    let root = |length: &str, width: &str| {
        format!(
            r#"panels: {{"deck": Rectangle(length: {length}("60mm"), width: {width}("40mm")),
            "end": Hinged(on: "deck.ends", reach: Flat("9mm")), "side": Hinged(on: "deck.south", reach: Flat("9mm"))}}"#
        )
    };
    for (length, width, expected) in [
        ("Outside", "Outside", [58.5, 39.25]),
        ("Inside", "Inside", [60.5, 40.25]),
        ("Flat", "Outside", [60.0, 39.25]),
    ] {
        let figures = [("deck_length", expected[0]), ("deck_width", expected[1])];
        measured(&root(length, width), &job(), &figures);
    }
}

#[test]
fn a_size_with_no_one_outside_is_refused_where_it_stands() {
    let lip = r#""lip": Hinged(on: "wall.far", sense: Mountain, reach: Flat("9mm"))"#;
    let two = r#""lip": Hinged(on: "wall.far", span: "9mm", inset: {"west": "1mm"}, reach: Flat("9mm")),
        "tip": Hinged(on: "wall.far", span: "9mm", inset: {"east": "1mm"}, angle: "45deg", reach: Flat("9mm"))"#;
    let sharp = r#""lip": Hinged(on: "wall.far", angle: "179.5deg", reach: Flat("9mm"))"#;
    for (beyond, words) in [
        (lip, "unlike folds"),
        (two, "no one outside"),
        (sharp, "no outside"),
    ] {
        let sections = wall("Outside", "90deg", beyond);
        let Err(Refusal::Style(faults)) = make(&style(&sections), &job()) else {
            panic!("made in spite of {beyond}")
        };
        assert!(faults[0].message.contains(words), "{faults:?}");
        assert_eq!(&whole(&sections)[faults[0].place.clone()], "20mm");
        let flat = wall("Flat", "90deg", beyond);
        measured(&flat, &job(), &[("wall_height", 20.0)]);
    }
}

#[test]
fn a_size_must_be_a_length() {
    let text = wall("Outside", "90deg", "").replace("\"20mm\"", "\"20\"");
    assert!(faults(&text)[0].message.contains("number"));
}
