//! Arcs in pieces against the circle that they are part of.

use traywright_document::steady::Steady;
use traywright_document::{Contour, Point, Segment, example};

use super::{Piece, pieces};
use crate::window::Window;

#[test]
fn a_circle_is_cut_at_its_quarters_and_drawn_within_a_micron() {
    // Source: the circle of radius 10 about (3, 4), as two half turns (bulge 1, the tangent of a quarter of 180 degrees).
    let pieces = circle();
    assert_eq!(pieces.len(), 4);
    let length: f64 = pieces.iter().map(Piece::length).sum();
    assert!((length - 20.0 * std::f64::consts::PI).abs() < 1e-9);
    for piece in &pieces {
        assert!((off_circle(piece.at(0.37))).abs() < 1e-9);
        let mut from = piece.from;
        for [one, other, to] in piece.curves() {
            // The middle of a cubic, by its definition: an eighth of the ends and three eighths of the handles.
            let middle =
                [0, 1].map(|axis| (from[axis] + 3.0 * (one[axis] + other[axis]) + to[axis]) / 8.0);
            assert!(off_circle(middle).abs() < 1e-4, "{middle:?}");
            from = to;
        }
        assert_eq!(from, piece.at(1.0));
    }
}

#[test]
fn a_window_shows_the_part_of_an_arc_that_lies_in_it() {
    // Derived: right of x = 8, which is 5 from the centre, lie 60 degrees to either side: a third of the circle.
    let window = Window::new([8.0, -100.0], [200.0, 200.0]);
    let pieces = circle();
    let shown: Vec<Piece> = pieces
        .iter()
        .filter_map(|piece| Some(piece.part(piece.within(&window)?)))
        .collect();
    let length: f64 = shown.iter().map(Piece::length).sum();
    assert!(
        (length - 20.0 * std::f64::consts::PI / 3.0).abs() < 1e-6,
        "{length}"
    );
    for piece in &shown {
        assert!(
            piece.from[0] > 8.0 - 1e-6 && piece.to[0] > 8.0 - 1e-6,
            "{piece:?}"
        );
    }
}

fn off_circle(place: [f64; 2]) -> f64 {
    (place[0] - 3.0).steady_hypot(place[1] - 4.0) - 10.0
}

fn circle() -> Vec<Piece> {
    let point = |x: f64, y: f64| Point { x, y };
    let half = |to| Segment::Arc { to, bulge: 1.0 };
    let outline = Contour {
        start: point(13.0, 4.0),
        segments: vec![half(point(-7.0, 4.0)), half(point(13.0, 4.0))],
        closed: true,
    };
    pieces(&example::plain(example::flat(outline)))
}
