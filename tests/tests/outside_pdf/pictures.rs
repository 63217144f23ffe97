//! True to size on the pictures of two renderers, measured in pixels at 300 dots an inch.

use serde_json::Value;
use traywright_tests::python;

use crate::{chest, list, number, pictures, sheets};

#[test]
fn both_bars_are_as_long_on_the_pictures_of_two_renderers() {
    // Derived: 100 mm at 300 dots an inch are 100 / 25.4 * 300 = 1181.1 dots.
    let expected = 100.0 / 25.4 * 300.0;
    for page in ["\"A4\"", "\"Letter\""] {
        let made = sheets(&chest(page));
        for renderer in ["pdftoppm", "mutool"] {
            let Some(pictures) = pictures(&made, renderer) else {
                return;
            };
            let folder = pictures
                .path()
                .to_str()
                .expect("a temporary folder has a plain name");
            let Some(measured) = python("pdf.py", &["bars", made.path(), folder]) else {
                return;
            };
            let measured: Value =
                serde_json::from_str(&measured.unwrap_or_else(|fault| panic!("{fault}")))
                    .expect("JSON");
            let runs = list(&measured["runs"]);
            assert!(!runs.is_empty());
            for axis in [0, 1] {
                for run in runs {
                    assert!(
                        (number(&run[axis]) - expected).abs() <= 1.0,
                        "{renderer} {page}: {run}"
                    );
                }
            }
        }
    }
}

#[test]
fn outline_and_opening_are_as_large_on_the_pictures_of_two_renderers() {
    // Source: the trade's figures as the card grows thin (common practice, none published;
    // core/CONTRACT.md, "Trade figures"): for a box of 100×80×30 and an item of 50×40×20 a blank of 210×134 and a slot
    // of 52×42; it lies on one A4, turned.
    let job = "tray style=\"single-slot\"\nbox length=(mm)100 width=(mm)80 depth=(mm)30\n\
        item \"lens\" length=(mm)50 width=(mm)40 depth=(mm)20 pad=(mm)8\nboard caliper=(mm)0.01\nfit play=(mm)0\nslot cut=\"open\"\n";
    let made = sheets(job);
    let dot = 25.4 / 300.0;
    for renderer in ["pdftoppm", "mutool"] {
        let Some(pictures) = pictures(&made, renderer) else {
            return;
        };
        let folder = pictures
            .path()
            .to_str()
            .expect("a temporary folder has a plain name");
        let Some(measured) = python("pdf.py", &["cuts", made.path(), folder]) else {
            return;
        };
        let measured: Value =
            serde_json::from_str(&measured.unwrap_or_else(|fault| panic!("{fault}")))
                .expect("JSON");
        for (sizes, expected) in list(&measured["sizes"])
            .iter()
            .zip([[210.0, 134.0], [52.0, 42.0]])
        {
            for axis in [0, 1] {
                // Card of 0.01 makes the blank up to five of its thicknesses smaller.
                let off = (number(&sizes[axis]) - expected[axis]).abs();
                assert!(off <= dot + 0.05, "{renderer}: {measured}");
            }
        }
    }
}
