//! Blanks drawn on the marks of a ruler: where a step was found good enough, the rounded panels still make one blank.
//!
//! Outsider: i_overlay's union of the panels, over lines that were rounded here.

use traywright_engine::make;
use traywright_tests::jobs::{drawn_for, style};
use traywright_tests::rounding::rounded;
use traywright_tests::union;

/// Trays of each style.
const TRAYS: usize = 40;

#[test]
fn a_rounded_blank_is_one_piece_of_card_with_the_same_panels() {
    for name in ["single-slot", "double-wall", "lid-lock", "multi-slot"] {
        let style = style(&format!("designs/styles/{name}.ron"));
        let trays = drawn_for(name, 29)
            .filter_map(|job| make(&style, &job).ok())
            .take(TRAYS);
        let mut counts = [0; 3];
        for tray in trays {
            let document = tray.finish().document();
            let steps = document.unit.ruler_steps();
            let Some(step) = document.hand_step else {
                counts[2] += 1;
                continue;
            };
            counts[usize::from(step < steps[0])] += 1;
            assert!(steps.contains(&step), "{name}: a step of {step}");
            union::check(&rounded(document, step));
        }
        println!("{name}: coarse, fine, none: {counts:?}");
        assert_eq!(counts.iter().sum::<usize>(), TRAYS, "{name}");
        // Where one answer never came, the question was none.
        assert!(counts.iter().all(|&count| count > 0), "{name}: {counts:?}");
    }
}
