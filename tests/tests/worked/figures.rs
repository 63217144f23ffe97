//! The figures of the report against those worked out.

use traywright_engine::Job;
use traywright_tests::jobs::job;

use super::four::of_four_items;
use super::{document, point, tray};

#[test]
fn the_blank_and_the_figures_are_those_that_were_worked_out() {
    let barometer = job([182.0, 121.0, 34.0], [96.0, 61.0, 28.0], 0.29);
    check("single-slot", &barometer);
    check("multi-slot", &of_four_items());
}

fn check(style: &str, job: &Job) {
    let (document, tray) = (document(style, job), tray(style));
    let blank = point(&tray["blank_size"]);
    let worked = |name: &str| tray["measures"][name].as_f64().expect("a figure");
    let mut expected = [
        ("deck_length", worked("a")),
        ("deck_width", worked("b")),
        ("wall_height", worked("Hs")),
        ("end_height", worked("Hw")),
        ("inner_end_height", worked("H2")),
        ("bridge_width", worked("Ps")),
        ("tab_length", worked("T")),
        ("tab_height", worked("vb") - worked("va")),
        ("folded_length", worked("A")),
        ("folded_width", worked("B")),
        ("folded_depth", worked("C")),
        ("blank_length", blank[0]),
        ("blank_width", blank[1]),
    ]
    .map(|(name, figure)| (name.to_owned(), figure))
    .to_vec();
    let openings = tray["measures"]["openings"].as_array().expect("openings");
    assert_eq!(document.items.len(), openings.len());
    for (item, opening) in document.items.iter().zip(openings) {
        let figure = |name: &str| opening[name].as_f64().expect("a figure");
        let figures = [
            ("slot_length", figure("l")),
            ("slot_width", figure("w")),
            ("clear_length", figure("clear_l")),
            ("clear_width", figure("clear_w")),
            (
                "flap_depth",
                figure("depth_long").max(figure("depth_short")),
            ),
            ("flap_limit", figure("emax")),
        ];
        expected.extend(figures.map(|(name, figure)| (format!("{name}.{}", item.name), figure)));
    }
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
