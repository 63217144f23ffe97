//! The single-slot tray of the barometer: every line of it.

use serde_json::Value;
use traywright_document::{Action, Document};
use traywright_engine::make;
use traywright_tests::jobs::{job, style};

use super::{check_creases, corners, is_same_polygon, point, points, tray, worked_panel};

/// How far the file draws its open cuts short of the notches, so that a reader keeps them apart.
// Source: the file itself: 41.2501 where the notch ends at 41.25.
const DRAWN_SHORT_MM: f64 = 0.00015;

fn document() -> Document {
    let style = style("designs/styles/single-slot.ron");
    let barometer = job([182.0, 121.0, 34.0], [96.0, 61.0, 28.0], 0.29);
    make(&style, &barometer)
        .unwrap_or_else(|refusal| panic!("{refusal:#?}"))
        .document()
}

#[test]
fn every_panel_lies_where_it_was_worked_out() {
    let (document, tray) = (document(), tray("single-slot"));
    for panel in &document.panels {
        let worked = worked_panel(&tray, &panel.name);
        let polygon = points(&worked["polygon"]);
        let here = corners(&panel.outline);
        assert!(
            is_same_polygon(&here, &polygon),
            "{}: {here:?} instead of {polygon:?}",
            panel.name
        );
        check_holes(&panel.name, &panel.holes, &worked["holes"]);
    }
    let count = tray["panels"].as_array().map(Vec::len);
    assert_eq!(Some(document.panels.len()), count);
}

fn check_holes(name: &str, here: &[traywright_document::Contour], there: &Value) {
    let there: Vec<_> = there
        .as_array()
        .expect("holes")
        .iter()
        .map(points)
        .collect();
    assert_eq!(here.len(), there.len(), "{name}");
    for hole in here.iter().map(corners) {
        let known = there.iter().any(|other| is_same_polygon(&hole, other));
        assert!(known, "{name}: {hole:?} is none of {there:?}");
    }
}

#[test]
fn the_outline_and_the_holes_are_those_that_were_worked_out() {
    let (document, tray) = (document(), tray("single-slot"));
    let (here, there) = (corners(&document.flat.outline), points(&tray["outline"]));
    assert!(is_same_polygon(&here, &there), "{here:?}");
    // Source: the specification of the styles, 1.6: the outline has 44 points.
    assert_eq!(here.len(), 44);
    check_holes("blank", &document.flat.holes, &tray["holes"]);
}

#[test]
fn the_creases_are_those_that_were_worked_out() {
    let (document, tray) = (document(), tray("single-slot"));
    check_creases(&document, &tray, str::to_owned);
    // All panels but the deck hang on a crease.
    assert_eq!(document.flat.creases.len(), document.panels.len() - 1);
}

#[test]
fn the_open_cuts_cover_those_that_were_worked_out() {
    let (document, tray) = (document(), tray("single-slot"));
    let worked = tray["open_cuts"].as_array().expect("open cuts");
    let here: Vec<Vec<[f64; 2]>> = document.flat.open_cuts.iter().map(corners).collect();
    for cut in worked {
        for end in points(cut) {
            let on_one = here.iter().any(|run| lies_on(run, end));
            assert!(on_one, "{end:?} lies on no cut of {here:?}");
        }
    }
    let length = |run: &Vec<[f64; 2]>| -> f64 {
        let pairs = run.windows(2);
        pairs
            .map(|pair| (pair[1][0] - pair[0][0]).hypot(pair[1][1] - pair[0][1]))
            .sum()
    };
    let ours: f64 = here.iter().map(length).sum();
    let theirs: f64 = worked.iter().map(|cut| length(&points(cut))).sum();
    let ends = 2.0 * worked.len() as f64;
    assert!((ours - theirs).abs() < ends * DRAWN_SHORT_MM * std::f64::consts::SQRT_2);
}

fn lies_on(run: &[[f64; 2]], place: [f64; 2]) -> bool {
    run.windows(2).any(|pair| {
        let way = [pair[1][0] - pair[0][0], pair[1][1] - pair[0][1]];
        let from = [place[0] - pair[0][0], place[1] - pair[0][1]];
        let part = (from[0] * way[0] + from[1] * way[1]) / (way[0] * way[0] + way[1] * way[1]);
        let part = part.clamp(0.0, 1.0);
        let off = [from[0] - way[0] * part, from[1] - way[1] * part];
        off[0].hypot(off[1]) < DRAWN_SHORT_MM
    })
}

#[test]
fn the_blank_and_the_figures_are_those_that_were_worked_out() {
    let (document, tray) = (document(), tray("single-slot"));
    let blank = point(&tray["blank_size"]);
    let opening = &tray["measures"]["openings"][0];
    let worked = |name: &str| tray["measures"][name].as_f64().expect("a figure");
    let in_opening = |name: &str| opening[name].as_f64().expect("a figure");
    let expected = [
        ("deck_length", worked("a")),
        ("deck_width", worked("b")),
        ("wall_height", worked("Hs")),
        ("end_height", worked("Hw")),
        ("second_fold", worked("H2")),
        ("spine", worked("Ps")),
        ("tab_length", worked("T")),
        ("tab_height", worked("vb") - worked("va")),
        ("folded_length", worked("A")),
        ("folded_width", worked("B")),
        ("folded_depth", worked("C")),
        ("slot_length.item", in_opening("l")),
        ("slot_width.item", in_opening("w")),
        ("clear_length.item", in_opening("clear_l")),
        ("clear_width.item", in_opening("clear_w")),
        ("flap_depth.item", in_opening("depth_long")),
        ("flap_limit.item", in_opening("emax")),
        ("blank_length", blank[0]),
        ("blank_width", blank[1]),
    ];
    for (name, figure) in expected {
        let found = document
            .measures
            .iter()
            .find(|measure| measure.name == name);
        let found = found.unwrap_or_else(|| panic!("no {name}")).value;
        assert!(
            (found - figure).abs() < 1e-9,
            "{name}: {found} instead of {figure}"
        );
    }
}

#[test]
fn the_panels_are_folded_in_the_order_that_was_worked_out() {
    let (document, tray) = (document(), tray("single-slot"));
    let worked = tray["fold_order"].as_array().expect("an order");
    // Of the four flaps, pushed at once, the order has no meaning.
    let is_flap = |name: &&str| name.starts_with("flap");
    let worked: Vec<&str> = worked.iter().filter_map(Value::as_str).collect();
    let mut folded: Vec<&str> = Vec::new();
    for step in &document.steps {
        if let Action::Fold(moves) = &step.action {
            folded.extend(
                moves
                    .iter()
                    .map(|fold| document.panels[fold.panel].name.as_str()),
            );
        }
    }
    let body = |names: &[&str]| -> Vec<String> {
        let own = names.iter().filter(|name| !is_flap(name));
        own.map(|name| (*name).to_owned()).collect()
    };
    assert_eq!(body(&folded), body(&worked));
    assert_eq!(folded.len(), worked.len());
    assert!(folded[folded.len() - 4..].iter().all(is_flap));
}
