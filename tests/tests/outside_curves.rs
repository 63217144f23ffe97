//! A reader that knows nothing of traywright measures round and oval openings and finger notches in the SVG.
//!
//! Outsider: svgelements 1.9 (Python, `outside/curves.py`). Expected values come from the circle's and the ellipse's own
//! formulas and from the job's figures, never from the program.

use std::f64::consts::PI;
use std::fs;

use serde_json::Value;
use traywright_tests::jobs::Dice;
use traywright_tests::python;
use traywright_tests::trying::draw;

/// The file is exact to 0.0001 mm: so far may a place be off.
const ROUNDED_MM: f64 = 1e-4;

#[test]
fn a_round_opening_has_the_circumference_and_the_area_of_its_circle() {
    for (face, item, fit) in [
        ("inside", 50.0, 2.0),
        ("outside", 50.0, 2.0),
        ("inside", 33.3, 1.5),
    ] {
        let words = format!(
            "item \"lens\" length=(mm){item} width=(mm){item} depth=(mm)28 shape=\"round\"\n\
             fit item=(mm){fit}\ndraw face=\"{face}\"\nslot cut=\"open\"\n"
        );
        let Some(hole) = only_hole(&words, None) else {
            return;
        };
        // Source: Euclid: circumference pi d, area pi d² / 4, with the diameter of item and fit.
        let across = item + fit;
        near(&hole["length"], PI * across, 1e-3, "circumference");
        near(
            &hole["area"],
            PI * across * across / 4.0,
            PI * across * ROUNDED_MM,
            "area",
        );
        // Source: reasoning: a circle has no chord, and the file's arcs sweep a quarter at most.
        assert_eq!(
            (&hole["arcs"], &hole["lines"]),
            (&4.into(), &0.into()),
            "{hole}"
        );
    }
}

#[test]
fn an_oval_opening_hugs_its_ellipse_from_outside_without_a_kink() {
    let mut dice = Dice(7);
    let mut drawn = vec![
        [50.0, 40.0],
        [40.0, 50.0],
        [96.0, 61.0],
        [96.0, 15.0],
        [20.0, 19.9],
    ];
    drawn.extend((0..25).map(|_| [dice.between(3.0, 98.0), dice.between(3.0, 66.0)]));
    let (mut widest, mut most_arcs, mut sharpest) = (0.0_f64, 0, 0.0_f64);
    for [item_length, item_width] in drawn {
        // A size as a maker writes it, so that the job says exactly what is checked.
        let [length, width] =
            [item_length, item_width].map(|side: f64| (side * 10.0).round() / 10.0);
        let words = format!(
            "item \"stone\" length=(mm){length} width=(mm){width} depth=(mm)28 shape=\"oval\"\nslot cut=\"open\"\n"
        );
        let slot = [length + 2.0, width + 2.0];
        let Some(hole) = only_hole(&words, Some(slot)) else {
            return;
        };
        let far = [0, 1].map(|end| number(&hole["outside"][end]));
        // Source: core/CONTRACT.md, "Job file": outside the ellipse by at most 0.05 mm.
        assert!(far[0] > -ROUNDED_MM && far[1] < 0.05, "{slot:?}: {hole}");
        // Source: core/CONTRACT.md, "Job file": joined tangentially. An end that is 0.0001 off turns a short arc by so
        // much.
        assert!(number(&hole["kink"]) < 0.05, "{slot:?}: {hole}");
        assert_eq!(hole["lines"], 0, "{slot:?}: {hole}");
        for axis in [0, 1] {
            near(
                &hole["size"][axis],
                slot[axis],
                2.0 * ROUNDED_MM,
                "a vertex",
            );
        }
        widest = widest.max(far[1]);
        sharpest = sharpest.max(number(&hole["kink"]));
        most_arcs = most_arcs.max(hole["arcs"].as_u64().unwrap_or(0));
    }
    println!(
        "30 ovals: {widest} mm outside at most, {most_arcs} arcs at most, joints turn by {sharpest} degrees at most"
    );
}

#[test]
fn finger_notches_add_two_half_discs_to_a_rectangle() {
    for (item, finger) in [
        ([50.0, 40.0], 18.0),
        ([30.0, 60.0], 20.0),
        ([40.0, 40.0], 39.5),
    ] {
        let [length, width] = item;
        let words = format!(
            "item \"case\" length=(mm){length} width=(mm){width} depth=(mm)28\nslot cut=\"open\" finger=(mm){finger}\n"
        );
        let Some(hole) = only_hole(&words, None) else {
            return;
        };
        let slot = [length + 2.0, width + 2.0];
        // Source: reasoning: two half circles are one, in the middle of the long edges; those of a square lie along x.
        near(
            &hole["area"],
            slot[0] * slot[1] + PI * finger * finger / 4.0,
            0.03,
            "area",
        );
        let across = if slot[0] >= slot[1] {
            [0.0, finger]
        } else {
            [finger, 0.0]
        };
        for axis in [0, 1] {
            near(
                &hole["size"][axis],
                slot[axis] + across[axis],
                2.0 * ROUNDED_MM,
                "size",
            );
        }
    }
}

#[test]
fn a_finger_notch_in_a_circle_is_the_circle_about_its_edge() {
    let (diameter, finger) = (52.0_f64, 18.0_f64);
    let words = "item \"lens\" length=(mm)50 width=(mm)50 depth=(mm)28 shape=\"round\"\nslot cut=\"open\" finger=(mm)18\n";
    let Some(hole) = only_hole(words, None) else {
        return;
    };
    // Source: the area that two circles share (any table of geometry): with d the way between the middles,
    // r² acos((d² + r² - R²) / 2dr) + R² acos((d² + R² - r²) / 2dR) - sqrt((r+R-d)(d+r-R)(d-r+R)(d+r+R)) / 2; here d = R.
    let (large, small) = (diameter / 2.0, finger / 2.0);
    let lens = small * small * (small / (2.0 * large)).acos()
        + large * large * (1.0 - small * small / (2.0 * large * large)).acos()
        - 0.5 * (small * small * (2.0 * large - small) * (2.0 * large + small)).sqrt();
    let expected = PI * large * large + 2.0 * (PI * small * small - lens);
    near(&hole["area"], expected, 0.03, "area");
    near(&hole["size"][0], diameter, 2.0 * ROUNDED_MM, "length");
    near(
        &hole["size"][1],
        diameter + finger,
        2.0 * ROUNDED_MM,
        "width with notches",
    );
    assert_eq!(hole["lines"], 0, "{hole}");
}

#[test]
fn the_reader_measures_a_ring_it_was_given_by_hand() {
    // Source: counted by hand: a stadium of 20 by 10 has the area 100 + 25 pi and the length 20 + 10 pi; chords in place
    // of its ends would be seen by both, and a corner by its turn of 45 degrees.
    let stadium = |ends: &str| {
        format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\"><g id=\"cutting\"><path d=\"M 0 0 L 90 0 L 90 90 L 0 90 Z\"/>\
         <path d=\"M 30 20 L 40 20 {ends} L 30 30 A 5 5 0 0 1 30 20 Z\"/></g></svg>"
        )
    };
    let Some(round) = holes(&stadium("A 5 5 0 0 1 40 30"), None) else {
        return;
    };
    near(&round[0]["area"], 100.0 + 25.0 * PI, 1e-9, "area");
    near(&round[0]["length"], 20.0 + 10.0 * PI, 1e-9, "length");
    near(&round[0]["size"][0], 20.0, 1e-9, "size");
    near(&round[0]["kink"], 0.0, 1e-6, "kink");
    let Some(pointed) = holes(&stadium("L 45 25 L 40 30"), None) else {
        return;
    };
    near(&pointed[0]["kink"], 90.0, 1e-6, "kink");
    assert_eq!(pointed[0]["lines"], 4);
}

/// What the reader finds of the one hole in the tray of a job: the box is 140 by 110 by 30, the card 0.4 mm thick.
/// Items are level with the deck, 28 above the floor.
fn only_hole(words: &str, ellipse: Option<[f64; 2]>) -> Option<Value> {
    let job = format!(
        "tray style=\"single-slot\" name=\"Curves\"\nbox length=(mm)140 width=(mm)110 depth=(mm)30\n{words}board caliper=(mm)0.4\n"
    );
    let found = holes(&draw(&job), ellipse)?;
    assert_eq!(found.len(), 1, "{found:?}");
    found.into_iter().next()
}

fn holes(svg: &str, ellipse: Option<[f64; 2]>) -> Option<Vec<Value>> {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let file = folder.path().join("tray.svg");
    fs::write(&file, svg).expect("a file can be written");
    let file = file.to_string_lossy();
    let size = ellipse.map(|sides| sides.map(|side| side.to_string()));
    let mut arguments = vec![&*file];
    arguments.extend(size.iter().flatten().map(String::as_str));
    let said = python("curves.py", &arguments)?.unwrap_or_else(|fault| panic!("{fault}"));
    Some(serde_json::from_str(&said).expect("the reader prints JSON"))
}

fn number(value: &Value) -> f64 {
    value.as_f64().unwrap_or(f64::NAN)
}

fn near(value: &Value, expected: f64, allowed: f64, what: &str) {
    let found = number(value);
    assert!(
        (found - expected).abs() <= allowed,
        "{what}: {found} instead of {expected}"
    );
}
