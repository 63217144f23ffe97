//! Figures that everybody in the trade gets with pencil and paper: thin card, no play, and the two units.

use traywright_tests::svg_lines::{LINE_GROUPS, Run, group_text, runs};
use traywright_tests::trying::{check, draw, measure};

/// The figures are straight lines in the caliper, so two thin cards give the one of none.
const THIN: f64 = 0.01;

#[test]
fn the_measures_of_a_card_of_no_thickness_are_the_trade_figures() {
    // Source: common practice, no source: deck = box - fit, walls = depth - fit, slot = item + fit.
    // Source: computed, the blank: 98 + 2 (28 + 28) and 78 + 2 * 28.
    let expected = [
        ("deck_length", 98.0),
        ("deck_width", 78.0),
        ("wall_height", 28.0),
        ("inner_end_height", 28.0),
        ("slot_length.vials", 52.0),
        ("slot_width.vials", 42.0),
        ("blank_length", 210.0),
        ("blank_width", 134.0),
    ];
    let (thin, twice) = (check(&job(THIN)), check(&job(2.0 * THIN)));
    for (name, figure) in expected {
        let limit = 2.0 * measure(&thin, name) - measure(&twice, name);
        assert!(
            (limit - figure).abs() < 1e-6,
            "{name}: {limit} instead of {figure}"
        );
    }
}

#[test]
fn the_opening_lies_in_the_middle_of_the_deck() {
    // Source: computed: (98 - 52) / 2 and (78 - 42) / 2 from the deck's corner.
    let (thin, twice) = (borders(&draw(&job(THIN))), borders(&draw(&job(2.0 * THIN))));
    for (side, expected) in [23.0, 18.0, 23.0, 18.0].into_iter().enumerate() {
        let limit = 2.0 * thin[side] - twice[side];
        // The file rounds to 0.0001, and this is the sum of six such figures.
        assert!(
            (limit - expected).abs() < 6e-4,
            "side {side}: {limit} instead of {expected}"
        );
    }
}

#[test]
fn inches_give_the_same_tray_as_their_millimetres() {
    // Source: an inch is 25.4 mm exactly (international yard, 1959).
    let inches = "tray style=\"single-slot\"\n\
        box length=(in)\"7 3/16\" width=(in)4.75 depth=(in)\"1 3/8\"\n\
        item \"lens\" length=(in)\"3 5/8\" width=(in)2.5 depth=(in)1\n\
        board caliper=(in)0.02\nfit box=(in)0.1 item=(in)0.125 play=(in)0.02\n";
    let millimetres = "tray style=\"single-slot\"\n\
        box length=(mm)182.5625 width=(mm)120.65 depth=(mm)34.925\n\
        item \"lens\" length=(mm)92.075 width=(mm)63.5 depth=(mm)25.4\n\
        board caliper=(mm)0.508\nfit box=(mm)2.54 item=(mm)3.175 play=(mm)0.508\n";
    let (of_inches, of_millimetres) = (check(inches), check(millimetres));
    let figures = of_millimetres["measures"]
        .as_object()
        .expect("figures have names");
    assert!(figures.len() > 10, "{figures:?}");
    for name in figures.keys() {
        let (one, other) = (measure(&of_inches, name), measure(&of_millimetres, name));
        assert!((one - other).abs() < 1e-9, "{name}: {one} and {other}");
    }
    let (drawn_of_inches, drawn_of_millimetres) = (draw(inches), draw(millimetres));
    for group in LINE_GROUPS {
        let lines = group_text(&drawn_of_inches, group);
        assert!(!lines.is_empty(), "no group {group}");
        assert_eq!(lines, group_text(&drawn_of_millimetres, group));
    }
}

fn job(caliper: f64) -> String {
    format!(
        "tray style=\"single-slot\"\nbox length=(mm)100 width=(mm)80 depth=(mm)30\n\
         item \"vials\" length=(mm)50 width=(mm)40 depth=(mm)20\n\
         board caliper=(mm){caliper}\nfit box=(mm)2 item=(mm)2 play=(mm)0\n"
    )
}

/// From each crease of the opening outwards to the next crease: along x down and up, along y down and up.
fn borders(svg: &str) -> [f64; 4] {
    let cuts = runs(svg, "cutting");
    // The outline is cut last, and is the widest of all closed cuts.
    let closed = cuts.iter().filter(|run| run.closed);
    let outline = closed
        .max_by(|one, other| width(one).total_cmp(&width(other)))
        .expect("the blank has an outline");
    let creases = runs(svg, "creasing");
    let [left, right] = gaps(&creases, centre(outline), 0);
    let [upper, lower] = gaps(&creases, centre(outline), 1);
    [left, lower, right, upper]
}

fn width(run: &Run) -> f64 {
    let along = || run.places.iter().map(|place| place[0]);
    along().fold(f64::NEG_INFINITY, f64::max) - along().fold(f64::INFINITY, f64::min)
}

fn centre(outline: &Run) -> [f64; 2] {
    [0, 1].map(|axis| {
        let places = || outline.places.iter().map(|place| place[axis]);
        (places().fold(f64::INFINITY, f64::min) + places().fold(f64::NEG_INFINITY, f64::max)) / 2.0
    })
}

/// The distances from the first to the second crease that a walk from the centre meets, either way along an axis.
fn gaps(creases: &[Run], centre: [f64; 2], axis: usize) -> [f64; 2] {
    let across = 1 - axis;
    let met = creases.iter().filter(|crease| {
        let [from, to] = [crease.places[0], crease.places[1]];
        let reaches = (from[across] - centre[across]) * (to[across] - centre[across]) < 0.0;
        reaches && (from[axis] - to[axis]).abs() < 1e-3
    });
    let mut offsets: Vec<f64> = met
        .map(|crease| crease.places[0][axis] - centre[axis])
        .collect();
    offsets.sort_by(f64::total_cmp);
    let after = offsets.partition_point(|offset| *offset < 0.0);
    [
        offsets[after - 1] - offsets[after - 2],
        offsets[after + 1] - offsets[after],
    ]
}
