//! Roots that are not rectangles: LANGUAGE section 4, `Regular` and `Polygon`.
//!
//! Source of all figures: worked out by hand; a right angle takes 0.75 outside and 0.25 inside.

use super::{cornered, faults, job, made, measured, pointed, whole};

/// A six-sided deck of 60 across flats, with walls on these edges.
fn hexagon(size: &str, on: &str) -> String {
    format!(
        r#"panels: {{"deck": Regular(sides: 6, across: {size}("60mm"), edges: ["south", "south-east", "north-east", "north", "north-west", "south-west"]),
        "wall": Hinged(on: {on}, reach: Flat("9mm"))}},
        measures: {{"wall_height": "wall.reach", "side": "wall-side"}}, values: {{"wall-side": "if(otherwise, wall.span, 0mm)"}}"#
    )
}

#[test]
fn a_regular_root_is_measured_from_flat_to_flat() {
    // The corners are 60 / √3 = 34.641016151 from the middle, and the sides have the same length.
    let expected = [
        ("deck_length", 69.282032303),
        ("deck_width", 60.0),
        ("side", 34.641016151),
    ];
    measured(&hexagon("Flat", r#""deck.edges""#), &job(), &expected);
    // 58.5 / 60 and 60.5 / 60 of that.
    let expected = [
        ("deck_length", 67.549981495),
        ("deck_width", 58.5),
        ("side", 33.774990748),
    ];
    measured(&hexagon("Outside", r#""deck.edges""#), &job(), &expected);
    let expected = [
        ("deck_length", 69.859382572),
        ("deck_width", 60.5),
        ("side", 34.929691286),
    ];
    measured(&hexagon("Inside", r#""deck.edges""#), &job(), &expected);
}

#[test]
fn only_creased_edges_of_a_regular_root_move() {
    // The south edge moves up by 0.75; its ends run along their neighbours, 0.75 / tan 60° longer each.
    let expected = [("deck_width", 59.25), ("side", 35.507041555)];
    measured(&hexagon("Outside", r#""deck.south""#), &job(), &expected);
}

#[test]
fn the_first_edge_of_a_regular_root_is_the_south_one_and_the_others_follow_counter_clockwise() {
    let document = made(&hexagon("Flat", r#"["deck.south", "deck.north-west"]"#));
    let [left, right] = [17.320508076, 51.961524227];
    cornered(
        &document,
        "wall-south",
        &[[left, 0.0], [right, 0.0], [right, -9.0], [left, -9.0]],
    );
    // From the upper left corner to the left one, and outwards by 9 at 150°: (-7.794228634, 4.5).
    let north_west = [
        [left, 60.0],
        [0.0, 30.0],
        [left - 7.794228634, 64.5],
        [-7.794228634, 34.5],
    ];
    cornered(&document, "wall-north-west", &north_west);
}

/// A deck in the shape of an L, walls on all edges.
fn angle(measured: &str) -> String {
    format!(
        r#"panels: {{"deck": Polygon(measured: {measured}, corners: [("south", "10mm", "5mm"), ("east", "70mm", "5mm"),
            ("step", "70mm", "25mm"), ("riser", "40mm", "25mm"), ("north", "40mm", "55mm"), ("west", "10mm", "55mm")]),
        "wall": Hinged(on: "deck.edges", reach: Flat("edge / 10"))}},
        measures: {{"wall_height": "wall-south.reach", "step": "wall-step.reach", "riser": "wall-riser.reach", "north": "wall-north.reach"}}"#
    )
}

#[test]
fn every_creased_edge_of_a_polygon_moves_by_its_allowance() {
    let figures = |length, width, south, north| {
        [
            ("deck_length", length),
            ("deck_width", width),
            ("wall_height", south),
            ("north", north),
            ("step", 3.0),
            ("riser", 3.0),
        ]
    };
    // The two edges of the inner corner move with their neighbours and stay 30 long.
    measured(&angle("Flat"), &job(), &figures(60.0, 50.0, 6.0, 3.0));
    measured(&angle("Outside"), &job(), &figures(58.5, 48.5, 5.85, 2.85));
    measured(&angle("Inside"), &job(), &figures(60.5, 50.5, 6.05, 3.05));
}

#[test]
fn a_root_that_is_no_polygon_is_refused() {
    for (root, words) in [
        (
            r#"Regular(sides: 5, across: Flat("60mm"), edges: ["a", "b", "c", "d", "e"])"#,
            "even number",
        ),
        (
            r#"Regular(sides: 4, across: Flat("60mm"), edges: ["a", "b", "c"])"#,
            "a name for each edge",
        ),
        (
            r#"Polygon(corners: [("a", "0mm", "0mm"), ("b", "9mm", "0mm")])"#,
            "3 to 60 corners",
        ),
        (
            r#"Polygon(corners: [("a", "0mm", "0mm"), ("a", "9mm", "0mm"), ("b", "9mm", "9mm")])"#,
            "is taken",
        ),
        (
            r#"Polygon(corners: [("near", "0mm", "0mm"), ("a", "9mm", "0mm"), ("b", "9mm", "9mm")])"#,
            "every panel",
        ),
    ] {
        let sections = format!(r#"panels: {{"deck": {root}}}"#);
        let found = faults(&sections);
        assert_eq!(found.len(), 1, "{found:?}");
        assert!(found[0].message.contains(words), "{found:?}");
        assert!(!pointed(&whole(&sections), &found[0]).is_empty());
    }
}
