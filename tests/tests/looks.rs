//! The lines look as core/CONTRACT.md, "Files: looks", says and can be told apart by everybody.
//!
//! Colours are read by usvg 0.49, which resolves whatever way the file writes them.

use traywright_tests::trying::draw;
use usvg::{Color, Group, Node, Options, Paint, Stroke, Tree};

const WHITE: Color = Color {
    red: 255,
    green: 255,
    blue: 255,
};

#[test]
fn the_contrast_formula_gives_the_published_values() {
    // Source: WCAG 2.1, definitions of contrast ratio and relative luminance; black on white is 21 there. The other
    // values are computed from that definition by a separate script.
    let black = Color {
        red: 0,
        green: 0,
        blue: 0,
    };
    assert!((contrast(black, WHITE) - 21.0).abs() < 1e-9);
    for (colour, expected) in [
        (0x00_72B2, 5.185),
        (0xD5_5E00, 3.867),
        (0x00_9E73, 3.421),
        (0xCC_79A7, 3.061),
        (0x56_B4E9, 2.308),
        (0xE6_9F00, 2.252),
        (0xF0_E442, 1.322),
        (0x76_7676, 4.542),
        (0x77_7777, 4.478),
    ] {
        let found = contrast(rgb(colour), WHITE);
        assert!((found - expected).abs() < 0.001, "{colour:06X}: {found}");
    }
}

#[test]
fn meaning_is_in_the_pattern_and_in_a_colour_that_can_be_seen() {
    // Source: core/CONTRACT.md, "Files: looks": cut solid black 0.35 mm; crease with the drawn face inwards dashed
    // #CC79A7; the other sense dash-dot #009E73.
    let drawn = [draw(&job("inside")), draw(&job("outside"))];
    let cut = strokes(&drawn[0], "cutting");
    for stroke in &cut {
        assert_eq!(colour(stroke), rgb(0x00_0000));
        assert!(stroke.dasharray().is_none());
        assert!((stroke.width().get() - 0.35).abs() < 1e-6);
    }
    let inwards = strokes(&drawn[0], "creasing");
    for stroke in &inwards {
        assert_eq!(colour(stroke), rgb(0xCC_79A7));
        assert_eq!(stroke.dasharray().map(<[f32]>::len), Some(2));
    }
    let outwards = strokes(&drawn[1], "reverse-creasing");
    for stroke in &outwards {
        assert_eq!(colour(stroke), rgb(0x00_9E73));
        assert_eq!(stroke.dasharray().map(<[f32]>::len), Some(4));
    }
    assert!(!cut.is_empty() && !inwards.is_empty() && !outwards.is_empty());
}

#[test]
fn every_line_stands_out_from_white_paper() {
    // Source: WCAG 2.1, success criterion 1.4.11: graphics need a contrast of 3 to 1.
    for (face, crease) in [("inside", "creasing"), ("outside", "reverse-creasing")] {
        let svg = draw(&job(face));
        for group in ["cutting", crease, "dimensions"] {
            let strokes = strokes(&svg, group);
            assert!(!strokes.is_empty(), "{face}: nothing is drawn in {group}");
            for stroke in strokes {
                let found = contrast(colour(&stroke), WHITE);
                assert!(found >= 3.0, "{group}: {found}");
            }
        }
    }
}

fn job(face: &str) -> String {
    format!(
        "tray style=\"single-slot\"\nbox length=(mm)160 width=(mm)120 depth=(mm)40\n\
         item \"watch\" length=(mm)50 width=(mm)45 depth=(mm)15\nboard caliper=(mm)0.5\ndraw face=\"{face}\"\n"
    )
}

/// The strokes of everything in a group.
fn strokes(svg: &str, group: &str) -> Vec<Stroke> {
    let options = Options {
        dpi: 25.4,
        ..Options::default()
    };
    let tree = Tree::from_str(svg, &options).expect("usvg reads the file");
    let mut found = Vec::new();
    if let Some(Node::Group(group)) = tree.node_by_id(group) {
        collect(group, &mut found);
    }
    found
}

fn collect(group: &Group, found: &mut Vec<Stroke>) {
    for node in group.children() {
        match node {
            Node::Group(inner) => collect(inner, found),
            Node::Path(path) => found.extend(path.stroke().cloned()),
            _ => {}
        }
    }
}

fn colour(stroke: &Stroke) -> Color {
    match stroke.paint() {
        Paint::Color(colour) => *colour,
        other => panic!("a line is painted with {other:?}"),
    }
}

fn rgb(number: u32) -> Color {
    let [_, red, green, blue] = number.to_be_bytes();
    Color { red, green, blue }
}

fn contrast(one: Color, other: Color) -> f64 {
    let [one, other] = [luminance(one), luminance(other)];
    (one.max(other) + 0.05) / (one.min(other) + 0.05)
}

fn luminance(colour: Color) -> f64 {
    let linear = |channel: u8| {
        let share = f64::from(channel) / 255.0;
        if share <= 0.03928 {
            share / 12.92
        } else {
            ((share + 0.055) / 1.055).powf(2.4)
        }
    };
    0.2126 * linear(colour.red) + 0.7152 * linear(colour.green) + 0.0722 * linear(colour.blue)
}
