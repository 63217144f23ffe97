//! Kerfs that are wider than a notch, an opening, or the card between two cuts.

use super::{contour, flat, point, square, wide};
use crate::cutting::{ToolpathError, toolpaths};
use traywright_document::{Flat, Point};

/// A notch from the upper edge down to the middle, with its width at the top and at the bottom.
fn notched(above: f64, below: f64) -> Flat {
    let mut flat = flat(square());
    flat.outline = contour(
        &[
            [0.0, 0.0],
            [100.0, 0.0],
            [100.0, 100.0],
            [50.0 + above / 2.0, 100.0],
            [50.0 + below / 2.0, 50.0],
            [50.0 - below / 2.0, 50.0],
            [50.0 - above / 2.0, 100.0],
            [0.0, 100.0],
        ],
        true,
    );
    flat
}

#[test]
fn a_notch_whose_foot_is_narrower_than_the_cut_is_refused_with_the_width_of_its_foot() {
    // The foot of the notch is 0.1 wide: a cut of 0.5 does not reach it, although both walls lean outwards.
    let why = toolpaths(&notched(2.1, 0.1), &wide(0.5)).expect_err("the foot stays uncut");
    let is_foot =
        |at: Point, width: f64| at.touches(point([50.0, 50.0])) && (width - 0.1).abs() < 1e-9;
    assert!(
        matches!(why, ToolpathError::KerfTooWide { at, width } if is_foot(at, width)),
        "{why:?}"
    );
    assert!(toolpaths(&notched(2.1, 0.1), &wide(0.09)).is_ok());
}

#[test]
fn a_notch_narrower_than_the_cut_is_refused_with_its_place() {
    for outline in [notched(0.3, 0.3), notched(0.2, 0.3)] {
        let why = toolpaths(&outline, &wide(0.5)).expect_err("the cut does not go in");
        let ToolpathError::KerfTooWide { at, width } = why else {
            panic!("{why:?}")
        };
        assert!((at.x - 50.0).abs() < 1.0 && at.y >= 50.0, "{at:?}");
        assert!(width > 0.1 && width < 0.31, "{width}");
    }
    let mut narrow = flat(square());
    narrow.holes.push(contour(
        &[[10.0, 10.0], [10.0, 10.4], [30.0, 10.4], [30.0, 10.0]],
        true,
    ));
    let why = toolpaths(&narrow, &wide(0.5)).expect_err("the cut does not go in");
    assert!(matches!(why, ToolpathError::KerfTooWide { width, .. } if (width - 0.4).abs() < 1e-9));
    assert!(toolpaths(&narrow, &wide(0.3)).is_ok());
}

#[test]
fn card_between_two_cuts_that_the_kerf_takes_whole_is_refused_with_its_width() {
    let mut cuts = flat(square());
    let slit = |x: f64| contour(&[[x, 20.0], [x, 80.0]], false);
    cuts.open_cuts = vec![slit(40.0), slit(40.3)];
    // Derived: each of two open cuts takes half the kerf of the card between them.
    let why = toolpaths(&cuts, &wide(0.3)).expect_err("nothing is left");
    assert!(matches!(why, ToolpathError::KerfTakesWeb { width, .. } if (width - 0.3).abs() < 1e-9));
    assert!(toolpaths(&cuts, &wide(0.29)).is_ok());
    // Beside the outline, which is moved into the waste, the card loses only one half.
    cuts.open_cuts = vec![slit(0.3)];
    assert!(toolpaths(&cuts, &wide(0.59)).is_ok());
    assert!(toolpaths(&cuts, &wide(0.6)).is_err());
}
