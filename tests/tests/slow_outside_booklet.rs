//! What takes long of the booklet: every figure of many random trays held against a depth buffer, and a tray of 64 openings.
//!
//! Sources as in `outside_booklet`: a depth buffer in numpy that knows nothing of ours; boxes of words told by poppler and
//! strokes told by pypdf. Derived: 64 openings with four flaps each are 64 steps that push four flaps down.

use traywright_engine::make;
use traywright_tests::jobs::{drawn_for, style};
use traywright_tests::made::Made;
use traywright_tests::sights::{judged, sights};

#[test]
fn every_figure_of_random_trays_hides_what_is_hidden_and_nothing_else() {
    for name in ["single-slot", "multi-slot", "double-wall", "lid-lock"] {
        let style = style(&format!("designs/styles/{name}.ron"));
        let trays = drawn_for(name, 11)
            .take(4000)
            .filter_map(|job| make(&style, &job).ok());
        let mut count = 0;
        for tray in trays.take(4) {
            let Some(told) = judged(&sights(&tray.finish().document())) else {
                return;
            };
            told.unwrap_or_else(|faults| panic!("{name}: {faults}"));
            count += 1;
        }
        assert_eq!(count, 4, "{name}");
    }
}

#[test]
fn sixty_four_openings_are_readable() {
    let made = Made::new(
        "tray style=\"multi-slot\" name=\"Many\"\nbox length=(mm)290 width=(mm)190 depth=(mm)40\n\
         item \"vial\" length=(mm)16 width=(mm)12 depth=(mm)30 pad=(mm)8 count=64\nboard caliper=(mm)0.3\nslot cut=\"cross\"\npage \"A4\"\n",
        "booklet",
    );
    let Some(text) = made.words() else { return };
    let pushed = "Push all the flaps of one opening down together";
    // Like steps are one, with the number of times.
    assert_eq!(text.matches(pushed).count(), 1);
    assert!(text.replace('\u{a0}', " ").contains("× 64"), "{text}");
    let Some(told) = made.apart() else { return };
    told.unwrap_or_else(|faults| panic!("{faults}"));
}
