//! Tests of the parts of the search, with values worked out by hand, and of what is reported about a sheet.

use traywright_document::{Point, Turn, Vector};

use crate::no_fit::NoFit;
use crate::polygon::Outline;
use crate::{Effort, NestError, Nesting, Piece, Stock, convex, nest};

fn points(corners: &[[f64; 2]]) -> Vec<Point> {
    corners.iter().map(|[x, y]| Point::new(*x, *y)).collect()
}

fn rectangle(length: f64, width: f64) -> Vec<Point> {
    points(&[[0.0, 0.0], [length, 0.0], [length, width], [0.0, width]])
}

/// A cross with arms of 10 on a square of 20.
fn cross() -> Outline {
    let corners = [
        [10.0, 0.0],
        [30.0, 0.0],
        [30.0, 10.0],
        [40.0, 10.0],
        [40.0, 30.0],
        [30.0, 30.0],
        [30.0, 40.0],
        [10.0, 40.0],
        [10.0, 30.0],
        [0.0, 30.0],
        [0.0, 10.0],
        [10.0, 10.0],
    ];
    Outline::new(points(&corners)).expect("a cross has an area")
}

fn piece(outline: Vec<Point>, count: usize) -> Piece {
    Piece {
        outline,
        stand_off: 0.0,
        count,
        turns: Turn::ALL.to_vec(),
    }
}

fn laid(pieces: &[Piece], stock: Stock) -> Result<Nesting, NestError> {
    let effort = Effort {
        seed: 1,
        moves: 300,
    };
    nest(pieces, &stock, effort, &|| true)
}

const STOCK: Stock = Stock {
    sides: [100.0, 50.0],
    margin: 0.0,
    gap: 0.0,
};

#[test]
fn convex_pieces_cover_a_cross_once() {
    let pieces = convex::pieces(&cross());
    let area = |piece: &Vec<Point>| Outline::new(piece.clone()).map_or(0.0, |piece| piece.area());
    // Derived: the square of 40 less four corners of 10: 1600 - 400.
    assert!((pieces.iter().map(area).sum::<f64>() - 1200.0).abs() < 1e-9);
    assert!(pieces.len() <= 5, "{} pieces", pieces.len());
}

// Derived: two squares of 10 with a gap of 2 overlap when their origins are nearer than 12 along both axes; in the middle
// the way out is 12, at (5, 0) it is 7.
#[test]
fn a_no_fit_region_knows_how_deep_a_place_lies() {
    let square = Outline::new(rectangle(10.0, 10.0)).expect("a square has an area");
    let pieces = convex::pieces(&square);
    let region = NoFit::new(&pieces, &pieces, 2.0);
    for (at, depth) in [
        ([0.0, 0.0], 12.0),
        ([5.0, 0.0], 7.0),
        ([12.01, 0.0], 0.0),
        ([0.0, -12.01], 0.0),
    ] {
        let found = region.depth(Vector::new(at[0], at[1]));
        assert!((found - depth).abs() < 0.005, "{at:?}: {found}");
    }
}

// Derived: an arm of 20 does not enter a notch of 10, so two crosses side by side need 40 along x or 40 along y, or 30 and
// 30 corner to corner.
#[test]
fn two_crosses_interlock() {
    let pieces = convex::pieces(&cross());
    let region = NoFit::new(&pieces, &pieces, 0.0);
    assert_eq!(region.depth(Vector::new(30.01, 30.01)), 0.0);
    assert!(region.depth(Vector::new(29.9, 29.9)) > 0.09);
    assert!(region.depth(Vector::new(39.9, 0.0)) > 0.09);
}

// Derived: 100 x 50 holds 10 squares of 19.9 with a gap of 0.1; ten more need a second sheet that is like the first.
#[test]
fn like_sheets_are_one_with_its_copies() {
    let stock = Stock { gap: 0.05, ..STOCK };
    let nesting = laid(&[piece(rectangle(19.9, 19.9), 20)], stock).expect("a square fits");
    assert_eq!(
        (nesting.sheets.len(), nesting.sheet_count()),
        (1, 2),
        "{nesting:?}"
    );
    let sheet = &nesting.sheets[0];
    assert_eq!(sheet.blanks.len(), 10);
    assert!((sheet.use_share - 10.0 * 19.9 * 19.9 / 5000.0).abs() < 1e-9);
}

// Derived: one blank of 30 x 50 leaves 70 x 50, less the gap of 2.
#[test]
fn the_largest_rest_keeps_the_gap() {
    let stock = Stock { gap: 2.0, ..STOCK };
    let nesting = laid(&[piece(rectangle(30.0, 50.0), 1)], stock).expect("it fits");
    let [length, width] = nesting.sheets[0].left_over.size();
    assert!(
        (67.0..=68.0).contains(&length) && (49.4..=50.0).contains(&width),
        "{length} x {width}"
    );
}

#[test]
fn a_blank_larger_than_the_room_is_told_with_both() {
    let stock = Stock {
        margin: 1.0,
        ..STOCK
    };
    let mut long = piece(rectangle(60.0, 49.0), 1);
    let told = laid(&[piece(rectangle(5.0, 5.0), 1), long.clone()], stock);
    let Err(NestError::TooLarge { piece, sides, room }) = told else {
        panic!("{told:?}");
    };
    assert_eq!((piece, sides, room), (1, [60.0, 49.0], [98.0, 48.0]));
    long.outline = rectangle(60.0, 48.0);
    assert!(laid(&[long.clone()], stock).is_ok());
    long.turns = vec![Turn::Quarter];
    assert!(laid(&[long], stock).is_err());
}

#[test]
fn the_same_seed_lays_the_same_sheets() {
    let pieces = [piece(cross().corners, 3), piece(rectangle(30.0, 7.0), 5)];
    let twice = [0, 1].map(|_| laid(&pieces, STOCK).expect("they fit"));
    assert_eq!(twice[0], twice[1]);
    let turned = |nesting: &Nesting| {
        nesting
            .sheets
            .iter()
            .map(|sheet| sheet.blanks.len() * sheet.copies)
            .sum::<usize>()
    };
    assert_eq!(turned(&twice[0]), 8);
}
