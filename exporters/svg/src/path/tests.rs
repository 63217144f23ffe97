//! Arcs of path data. What an arc command means is worked out here from the SVG text, not from the code
//! that wrote it.

use std::f64::consts::{FRAC_1_SQRT_2, TAU};
use traywright_document::steady::Steady;

use traywright_document::{Contour, Point, Segment};

use super::{closed, open, strokes, unseen};
use crate::drawing_area::DrawingArea;

fn point(x: f64, y: f64) -> Point {
    Point { x, y }
}

fn arc(from: Point, to: Point, bulge: f64) -> Contour {
    Contour {
        start: from,
        segments: vec![Segment::Arc { to, bulge }],
        closed: false,
    }
}

fn lines(points: &[[f64; 2]], closed: bool) -> Contour {
    let mut places = points.iter().map(|[x, y]| point(*x, *y));
    let start = places.next().expect("a contour has a start");
    Contour {
        start,
        segments: places.map(|to| Segment::Line { to }).collect(),
        closed,
    }
}

/// A sheet on which x stays and y changes its sign.
fn plain() -> DrawingArea {
    DrawingArea::at(0.0, 0.0)
}

/// The numbers of the arc commands of path data, with the place where each starts.
fn arcs(data: &str) -> Vec<([f64; 2], [f64; 7])> {
    let mut at = [0.0; 2];
    let mut arcs = Vec::new();
    for command in data.split(['M', 'L', 'A']).skip(1) {
        let numbers: Vec<f64> = command
            .split_whitespace()
            .filter(|word| *word != "Z")
            .map(|word| word.parse().expect("path data holds numbers"))
            .collect();
        if let Ok(arc) = <[f64; 7]>::try_from(numbers.as_slice()) {
            arcs.push((at, arc));
        } else {
            assert_eq!(
                numbers.len(),
                2,
                "a line or a move has one place: {command}"
            );
        }
        at = [numbers[numbers.len() - 2], numbers[numbers.len() - 1]];
    }
    arcs
}

/// The middle of an arc command.
// Source: SVG 1.1, appendix F.6.5, conversion from end point to centre parameterization, for circles.
fn middle([x1, y1]: [f64; 2], [radius, _, _, large, sweep, x2, y2]: [f64; 7]) -> [f64; 2] {
    let (half_x, half_y) = ((x1 - x2) / 2.0, (y1 - y2) / 2.0);
    let square = half_x * half_x + half_y * half_y;
    let sign = if large == sweep { -1.0 } else { 1.0 };
    let share = sign * ((radius * radius - square).max(0.0) / square).sqrt();
    let centre = [
        share * half_y + (x1 + x2) / 2.0,
        -share * half_x + (y1 + y2) / 2.0,
    ];
    let start = (y1 - centre[1]).steady_atan2(x1 - centre[0]);
    let end = (y2 - centre[1]).steady_atan2(x2 - centre[0]);
    let turn = match (sweep == 1.0, end - start) {
        (true, turn) if turn < 0.0 => turn + TAU,
        (false, turn) if turn > 0.0 => turn - TAU,
        (_, turn) => turn,
    };
    let angle = start + turn / 2.0;
    [
        centre[0] + radius * angle.steady_cos(),
        centre[1] + radius * angle.steady_sin(),
    ]
}

fn distance(one: [f64; 2], other: [f64; 2]) -> f64 {
    (one[0] - other[0]).steady_hypot(one[1] - other[1])
}

/// Source: tests/facts/drawing.md dxf-01 and dxf-04: a quarter arc of R 5 has bulge 0.41421356, chord 7.07107, sagitta
/// 1.46447.
#[test]
fn a_quarter_arc_has_its_sagitta_on_its_outer_side() {
    let quarter = arc(point(5.0, 0.0), point(0.0, 5.0), 0.414_213_562_373_095);
    let data = open(&strokes(&quarter, &plain()));
    assert_eq!(data, "M 5 0 A 5 5 0 0 0 0 -5");
    let (from, numbers) = arcs(&data)[0];
    assert!((distance(from, [numbers[5], numbers[6]]) - 7.071_07).abs() < 1e-5);
    let middle = middle(from, numbers);
    assert!(
        (distance(middle, [2.5, -2.5]) - 1.464_47).abs() < 1e-5,
        "{middle:?}"
    );
    assert!(distance(middle, [5.0 * FRAC_1_SQRT_2, -5.0 * FRAC_1_SQRT_2]) < 1e-9);
}

/// Source: tests/facts/drawing.md dxf-03: turning the drawing round changes the sign of the bulge.
#[test]
fn the_other_sign_bends_the_other_way() {
    let inwards = arc(point(5.0, 0.0), point(0.0, 5.0), -0.414_213_562_373_095);
    let data = open(&strokes(&inwards, &plain()));
    assert_eq!(data, "M 5 0 A 5 5 0 0 1 0 -5");
    let (from, numbers) = arcs(&data)[0];
    let hollow = 5.0 - 5.0 * FRAC_1_SQRT_2;
    assert!(distance(middle(from, numbers), [hollow, -hollow]) < 1e-9);
}

/// Source: tests/facts/drawing.md dxf-02: a half circle has bulge 1. Three quarters: bulge tan(270/4 degrees) =
/// 2.41421356.
#[test]
fn large_arcs_stay_on_their_circle_however_they_round() {
    let radius = 50.123_456_789;
    for (to, bulge, pieces) in [
        (point(-radius, 0.0), 1.0, 2),
        (point(0.0, -radius), 2.414_213_562_373_095, 3),
    ] {
        let whole = arc(point(radius, 0.0), to, bulge);
        let arcs = arcs(&open(&strokes(&whole, &plain())));
        assert_eq!(arcs.len(), pieces);
        for (from, numbers) in arcs {
            assert_eq!(numbers[3], 0.0, "no piece is a large arc");
            let middle = middle(from, numbers);
            assert!(
                (middle[0].steady_hypot(middle[1]) - radius).abs() < 1e-4,
                "{middle:?}"
            );
        }
    }
}

/// Source: reasoning: an arc whose height is below the last decimal is its chord.
#[test]
fn an_arc_too_flat_to_see_is_a_line() {
    let flat = arc(point(0.0, 0.0), point(10.0, 0.0), 1e-6);
    assert_eq!(open(&strokes(&flat, &plain())), "M 0 0 L 10 0");
}

/// Source: core/CONTRACT.md, "Files: SVG": an outline is one closed sub-path; Z draws its last line.
#[test]
fn a_ring_is_closed_once() {
    let ring = lines(&[[0.0, 0.0], [4.0, 0.0], [4.0, 3.0], [0.0, 0.0]], true);
    assert_eq!(closed(&strokes(&ring, &plain())), "M 0 0 L 4 0 L 4 -3 Z");
    let mut round = arc(point(5.0, 0.0), point(-5.0, 0.0), -1.0);
    round.segments.push(Segment::Arc {
        to: point(5.0, 0.0),
        bulge: -1.0,
    });
    let data = closed(&strokes(&round, &plain()));
    assert!(data.ends_with(" 5 0 Z"), "{data}");
    assert_eq!(arcs(&data).len(), 4);
}

/// Source: core/CONTRACT.md, "Files: SVG": no segment twice; what rounds to nothing is no segment.
#[test]
fn nothing_is_drawn_twice_and_nothing_without_length() {
    let mut seen = std::collections::BTreeSet::new();
    let there = strokes(
        &lines(&[[0.0, 0.0], [4.0, 0.0], [4.000_01, 0.0]], false),
        &plain(),
    );
    assert_eq!(open(&unseen(there, &mut seen)), "M 0 0 L 4 0");
    let back = lines(
        &[[9.0, 0.0], [4.0, 0.0], [0.0, 0.000_04], [0.0, 7.0]],
        false,
    );
    let back = unseen(strokes(&back, &plain()), &mut seen);
    assert_eq!(open(&back), "M 9 0 L 4 0 M 0 0 L 0 -7");
    let turned = arc(point(0.0, 5.0), point(5.0, 0.0), -0.414_213_562_373_095);
    let quarter = arc(point(5.0, 0.0), point(0.0, 5.0), 0.414_213_562_373_095);
    let mirrored = arc(point(5.0, 0.0), point(0.0, 5.0), -0.414_213_562_373_095);
    assert_eq!(unseen(strokes(&quarter, &plain()), &mut seen).len(), 1);
    assert_eq!(unseen(strokes(&turned, &plain()), &mut seen).len(), 0);
    assert_eq!(unseen(strokes(&mirrored, &plain()), &mut seen).len(), 1);
}
