//! Tapers, chamfers, notches and free outlines: LANGUAGE section 4, `trim` and `outline`.
//!
//! Source of all figures: worked out by hand on a deck of 60 × 40 with its lower left corner at (0, 0); the panel hangs
//! on the south edge from x = 10 to x = 50 and reaches 20 down.

use super::{cornered, faults, job, made, measured, pointed, whole};

fn trimmed(trim: &str) -> String {
    format!(
        r#"panels: {{"deck": Rectangle(length: Flat("60mm"), width: Flat("40mm")),
        "wall": Hinged(on: "deck.south", span: "40mm", reach: Flat("20mm"), trim: {{{trim}}})}}"#
    )
}

#[test]
fn a_taper_draws_one_flank_in_and_a_negative_one_out() {
    let crease = [[10.0, 0.0], [50.0, 0.0]];
    for (trim, far) in [
        (r#""west": Taper("4mm")"#, [14.0, 50.0]),
        (r#""east": Taper("4mm")"#, [10.0, 46.0]),
        (
            r#""west": Taper("4mm"), "east": Taper("1mm")"#,
            [14.0, 49.0],
        ),
        (r#""west": Taper("-4mm")"#, [6.0, 50.0]),
    ] {
        let far = far.map(|x| [x, -20.0]);
        cornered(
            &made(&trimmed(trim)),
            "wall",
            &[&crease[..], &far[..]].concat(),
        );
    }
}

#[test]
fn a_bevel_cuts_far_corners_at_half_a_right_angle() {
    let (west, east) = (
        [[10.0, -15.0], [15.0, -20.0]],
        [[45.0, -20.0], [50.0, -15.0]],
    );
    let crease = [[10.0, 0.0], [50.0, 0.0]];
    let both = [&crease[..], &west[..], &east[..]].concat();
    cornered(&made(&trimmed(r#""far": Chamfer("5mm")"#)), "wall", &both);
    let one = [&crease[..], &west[..], &[[50.0, -20.0]]].concat();
    cornered(
        &made(&trimmed(r#""far west": Chamfer("5mm")"#)),
        "wall",
        &one,
    );
    let other = [&crease[..], &[[10.0, -20.0]], &east[..]].concat();
    cornered(
        &made(&trimmed(r#""far east": Chamfer("5mm")"#)),
        "wall",
        &other,
    );
}

#[test]
fn a_notch_takes_a_rectangle_out_of_a_corner() {
    let document = made(&trimmed(r#""far west": Notch("6mm", "3mm")"#));
    let notch = [[10.0, -17.0], [16.0, -17.0], [16.0, -20.0]];
    let others = [[10.0, 0.0], [50.0, 0.0], [50.0, -20.0]];
    cornered(&document, "wall", &[&notch[..], &others[..]].concat());
}

#[test]
fn what_hangs_on_a_trimmed_edge_gets_the_straight_piece_that_is_left() {
    let sections = trimmed(r#""far": Chamfer("5mm"), "west": Taper("4mm")"#).replacen(
        "panels: {",
        r#"measures: {"wall_height": "wall.reach", "lip": "lip.span"}, panels: {
        "lip": Hinged(on: "wall.far", reach: Flat("3mm")),"#,
        1,
    );
    // 40 less 4 for the taper and 5 for each chamfer.
    measured(&sections, &job(), &[("lip", 26.0)]);
}

#[test]
fn a_trim_of_the_wrong_place_is_refused_there() {
    for (trim, place) in [
        (r#""far": Taper("4mm")"#, "far"),
        (r#""west": Chamfer("4mm")"#, "west"),
        (r#""near": Chamfer("4mm")"#, "near"),
        (r#""far wset": Chamfer("4mm")"#, "far wset"),
    ] {
        let sections = trimmed(trim);
        let found = faults(&sections);
        assert_eq!(found.len(), 1, "{found:?}");
        assert_eq!(pointed(&whole(&sections), &found[0]), place);
    }
}

#[test]
fn an_outline_runs_from_the_left_end_of_the_crease_to_its_right_end() {
    let panels = |edge: &str| {
        format!(
            r#"panels: {{"deck": Rectangle(length: Flat("60mm"), width: Flat("40mm")),
            "gable": Hinged(on: "deck.{edge}", span: "30mm",
                outline: [("eaves", "-10mm", "20mm"), ("ridge", "10mm", "15mm")]),
            "tip": Hinged(on: "gable.ridge", reach: Flat("2mm"), angle: "10deg")}},
            measures: {{"wall_height": "gable.reach", "tip": "tip.span"}}"#
        )
    };
    let document = made(&panels("north"));
    let crease = [[15.0, 40.0], [45.0, 40.0]];
    cornered(
        &document,
        "gable",
        &[&crease[..], &[[20.0, 60.0], [40.0, 55.0]]].concat(),
    );
    // Seen with the south crease at the bottom, the sheet is turned by half a turn.
    let document = made(&panels("south"));
    let crease = [[15.0, 0.0], [45.0, 0.0]];
    cornered(
        &document,
        "gable",
        &[&crease[..], &[[40.0, -20.0], [20.0, -15.0]]].concat(),
    );
    // The ridge ends at the second corner: from (-10, 20) to (10, 15), the root of 425 long.
    measured(
        &panels("north"),
        &job(),
        &[("wall_height", 20.0), ("tip", 20.615528128)],
    );
}
