//! The figures of the report against those worked out.

use traywright_tests::jobs::job;

use super::{document, point, tray};

#[test]
fn the_blank_and_the_figures_are_those_that_were_worked_out() {
    let barometer = job([182.0, 121.0, 34.0], [96.0, 61.0, 28.0], 0.29);
    let (document, tray) = (document("single-slot", &barometer), tray("single-slot"));
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
