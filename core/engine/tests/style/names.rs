//! Names and order of panels, flanks inwards and outwards, edges of openings: LANGUAGE section 4.
//!
//! Source of all names: section 4, `Edges of a hung panel` and `Names of members`; of all figures: worked out by hand
//! on a deck of 60 × 40 with its lower left corner at (0, 0).

use traywright_engine::job::Job;
use traywright_engine::{Refusal, SourceError, make};

use super::{cornered, faults, job, made, measured, names, pointed, style, whole};

const DECK: &str = r#""deck": Rectangle(length: Flat("60mm"), width: Flat("40mm"))"#;

#[test]
fn members_are_named_after_their_edges_and_listed_west_east_south_north() {
    let document = made(&format!(
        r#"panels: {{"wall": Hinged(on: "deck.edges", inset: "8mm", reach: Flat("9mm")), {DECK},
        "tab": Hinged(on: "side.flanks", inset: "2mm", reach: Flat("3mm"), angle: "20deg"), "side": Hinged(on: "wall-south.far", reach: Flat("9mm"), angle: "20deg")}}"#
    )
    .replace("wall-south.far", "wall.far"));
    let walls = ["wall-west", "wall-east", "wall-south", "wall-north"];
    let sides = ["side-west", "side-east", "side-south", "side-north"];
    assert_eq!(
        names(&document)[..9],
        [&["deck"], &walls[..], &sides[..]].concat()
    );
    // A side has the flanks of its wall, which have the names of the deck's edges next to them: north and south at the
    // ends.
    let tabs = [
        "tab-west-south",
        "tab-west-north",
        "tab-east-south",
        "tab-east-north",
        "tab-south-west",
        "tab-south-east",
        "tab-north-west",
        "tab-north-east",
    ];
    assert_eq!(names(&document)[9..], tabs);
}

#[test]
fn a_family_on_several_panels_has_their_keys_in_its_names() {
    let document = made(&format!(
        r#"panels: {{{DECK}, "front": Hinged(on: "deck.south", inset: "6mm", reach: Flat("9mm")), "back": Hinged(on: "deck.north", inset: "6mm", reach: Flat("9mm")),
        "tab": Hinged(on: ["front.flanks", "back.flanks"], inset: "2mm", reach: Flat("3mm"), angle: "20deg"),
        "lip": Hinged(on: ["front.far", "back.far"], inset: "2mm", reach: Flat("3mm"), angle: "20deg")}}"#
    ));
    let expected = [
        "deck",
        "front",
        "back",
        "tab-front-west",
        "tab-front-east",
        "tab-back-west",
        "tab-back-east",
        "lip-front",
        "lip-back",
    ];
    assert_eq!(names(&document), expected);
}

#[test]
fn inward_is_towards_the_deck_on_all_four_tabs() {
    let document = made(&format!(
        r#"panels: {{{DECK}, "side": Hinged(on: "deck.sides", inset: "5mm", reach: Flat("20mm")),
        "tab": Hinged(on: "side.flanks", inset: {{"inward": "6mm", "outward": "1mm"}}, reach: Flat("4mm"), trim: {{"inward": Taper("2mm")}})}}"#
    ));
    // The crease runs from 6 to 19 away from the deck; the far edge begins 2 further out.
    for (name, crease, far, deck, out) in [
        ("tab-south-west", 5.0, 1.0, 0.0, -1.0),
        ("tab-south-east", 55.0, 59.0, 0.0, -1.0),
        ("tab-north-west", 5.0, 1.0, 40.0, 1.0),
        ("tab-north-east", 55.0, 59.0, 40.0, 1.0),
    ] {
        let at = |x: f64, away: f64| [x, deck + out * away];
        cornered(
            &document,
            name,
            &[
                at(crease, 6.0),
                at(crease, 19.0),
                at(far, 8.0),
                at(far, 19.0),
            ],
        );
    }
}

/// A slot of 32 × 22 in the deck's middle, from (14, 9) to (46, 31), with a panel on one of its edges.
fn in_a_slot(edge: &str) -> String {
    format!(
        r#"panels: {{{DECK}, "flap": Hinged(on: "slot.{edge}", reach: Flat("across / 4"))}},
        openings: {{"slot": Slot(on: "deck", cut: Open)}}, measures: {{"wall_height": "flap.reach", "flap": "flap.span"}}"#
    )
}

/// An uncut opening at the same position, with fences around it on a floor, 1 from each of its corners.
fn around_a_slot() -> String {
    format!(
        r#"stands: RootDown, panels: {{{DECK}, "fence": Hinged(on: "slot.edges", inset: "1mm", reach: Flat("across / 4"))}},
        openings: {{"slot": Slot(on: "deck", cut: Uncut)}}, measures: {{"wall_height": "fence-south.reach"}}"#
    )
}

#[test]
fn a_panel_on_an_openings_edge_lies_in_a_hole_and_around_an_uncut_one() {
    let inside = made(&in_a_slot("south"));
    cornered(
        &inside,
        "flap",
        &[[14.0, 9.0], [46.0, 9.0], [46.0, 14.5], [14.0, 14.5]],
    );
    let around = made(&around_a_slot());
    cornered(
        &around,
        "fence-south",
        &[[15.0, 9.0], [45.0, 9.0], [45.0, 3.5], [15.0, 3.5]],
    );
    let inside = made(&in_a_slot("east"));
    cornered(
        &inside,
        "flap",
        &[[46.0, 9.0], [46.0, 31.0], [38.0, 31.0], [38.0, 9.0]],
    );
    cornered(
        &around,
        "fence-west",
        &[[14.0, 10.0], [14.0, 30.0], [6.0, 30.0], [6.0, 10.0]],
    );
}

#[test]
fn across_is_the_openings_size_square_to_the_edge() {
    measured(
        &in_a_slot("sides"),
        &job(),
        &[("wall_height", 5.5), ("flap", 32.0)],
    );
    measured(
        &in_a_slot("ends"),
        &job(),
        &[("wall_height", 8.0), ("flap", 22.0)],
    );
    let sections =
        format!(r#"panels: {{{DECK}, "wall": Hinged(on: "deck.south", reach: Flat("across"))}}"#);
    assert_eq!(pointed(&whole(&sections), &faults(&sections)[0]), "across");
}

#[test]
fn figures_of_an_opening_are_its_size_its_place_and_its_web() {
    let sections = format!(
        r#"panels: {{{DECK}}}, openings: {{"slot": Slot(on: "deck", cut: Open, at: ("3mm", "-2mm"), size: ("length-of-it", "width-of-it"))}},
        values: {{"length-of-it": "item.length + fit.item", "width-of-it": "item.width"}},
        measures: {{"wall_height": "deck.width", "l": "slot.length", "w": "slot.width", "x": "slot.x", "y": "slot.y", "web": "slot.web"}}"#
    );
    // 32 × 20 with its middle at (33, 18): 17 to 49 and 8 to 28, so 8 from the south edge.
    let expected = [
        ("l", 32.0),
        ("w", 20.0),
        ("x", 3.0),
        ("y", -2.0),
        ("web", 8.0),
    ];
    measured(&sections, &job(), &expected);
}

#[test]
fn a_family_whose_members_differ_is_named_by_one_of_them() {
    let walls = |figure: &str| {
        format!(
            r#"panels: {{{DECK}, "wall": Hinged(on: "deck.edges", reach: Flat("edge / 10"))}}, measures: {{"wall_height": "{figure}"}}"#
        )
    };
    measured(&walls("wall-west.reach"), &job(), &[("wall_height", 4.0)]);
    measured(&walls("wall-south.reach"), &job(), &[("wall_height", 6.0)]);
    let found = refused(&walls("wall.reach"), &job());
    assert!(
        found
            .message
            .contains("4.0000 mm at one and 6.0000 mm at another"),
        "{found:?}"
    );
    assert_eq!(pointed(&whole(&walls("wall.reach")), &found), "wall.reach");
}

#[test]
fn two_panels_cannot_have_one_name() {
    for on in [
        r#"["deck.ends", "deck.west"]"#,
        r#"["deck.west", "deck.west"]"#,
    ] {
        let found = faults(&format!(
            r#"panels: {{{DECK}, "wall": Hinged(on: {on}, reach: Flat("2mm"))}}"#
        ));
        assert!(!found.is_empty());
    }
    let sections = format!(
        r#"panels: {{{DECK}, "wall": Hinged(on: "deck.ends", reach: Flat("9mm")), "wall-west": Hinged(on: "deck.south", reach: Flat("9mm"))}}"#
    );
    let found = faults(&sections);
    assert!(
        found[0]
            .message
            .contains("two things would be called `wall-west`"),
        "{found:?}"
    );
}

/// The error of the style for this job.
fn refused(sections: &str, job: &Job) -> SourceError {
    match make(&style(sections), job) {
        Err(Refusal::Style(found)) => found[0].clone(),
        other => panic!("not the style's fault: {other:?}"),
    }
}
