//! Tests of the arcs of a quarter against the ellipse's own equation.
//!
//! **Input:** half axes from a hundredth of a millimetre to metres. The tests follow the arcs by their centres and
//! radii and compute from the equation how far each point is from the ellipse. Nothing here uses the way the arcs were
//! found.

use std::f64::consts::FRAC_PI_2;
use traywright_document::steady::Steady;

use proptest::prelude::*;

use super::{Arc, quarter};
use crate::geometry::{Point, Vector};

/// Maximum distance of an oval from its ellipse: core/CONTRACT.md, "Job file".
const LIMIT_MM: f64 = 0.05;

/// Half axes: of objects in boxes, and of anything that a job may ask for; sometimes nearly a circle.
#[expect(
    clippy::disallowed_methods,
    reason = "the trial values need not be the same on every system"
)]
fn half_axes() -> impl Strategy<Value = (f64, f64)> {
    let thing = (2.0..250.0_f64, 0.02..1.0_f64).prop_map(|(long, ratio)| (long, long * ratio));
    let any = (-2.3..3.4_f64, -2.3..3.4_f64).prop_map(|(one, other)| {
        let (one, other) = (10_f64.powf(one), 10_f64.powf(other));
        (one.max(other), one.min(other))
    });
    let near = (0.1..2500.0_f64, 0.0..8.0_f64)
        .prop_map(|(long, power)| (long, long - long * 0.1_f64.powf(power)));
    prop_oneof![4 => thing, 2 => any, 1 => near].prop_filter("an oval", |(_, short)| *short > 0.002)
}

/// The start and end of each arc, as angles of its normal.
fn spans(arcs: &[Arc]) -> Vec<(f64, f64)> {
    let mut from = 0.0;
    let mut spans = Vec::new();
    for (index, arc) in arcs.iter().enumerate() {
        let to = arcs.get(index + 1).map_or(FRAC_PI_2, |next| {
            let way = arc.meets(next) - arc.centre;
            way.y.steady_atan2(way.x)
        });
        spans.push((from, to));
        from = to;
    }
    spans
}

/// Distance of a point outside the ellipse from the nearest point of the curve, whose normal goes through it. By
/// Newton's method, starting where the line to the middle meets the curve.
// Source: x = a cos t, y = b sin t; the way to the place is square to (-a sin t, b cos t).
fn outside((long, short): (f64, f64), place: Point) -> f64 {
    let mut angle = (place.y / short).steady_atan2(place.x / long);
    for _ in 0..50 {
        let (sin, cos) = angle.steady_sin_cos();
        let off = Vector::new(place.x - long * cos, place.y - short * sin);
        let along = Vector::new(-long * sin, short * cos);
        let bend = Vector::new(-long * cos, -short * sin);
        let step = off.dot(along) / (along.dot(along) - off.dot(bend));
        angle += step;
        if step.abs() < 1e-15 {
            break;
        }
    }
    let (sin, cos) = angle.steady_sin_cos();
    let off = Vector::new(place.x - long * cos, place.y - short * sin);
    let outwards = Vector::new(short * cos, long * sin).unit();
    off.dot(outwards)
}

/// The least and the greatest distance over the quarter.
fn distances(axes: (f64, f64), arcs: &[Arc]) -> (f64, f64) {
    let mut range = (f64::INFINITY, f64::NEG_INFINITY);
    for (arc, (from, to)) in arcs.iter().zip(spans(arcs)) {
        for step in 0..=100 {
            let normal = from + (to - from) * f64::from(step) / 100.0;
            let place =
                arc.centre + Vector::new(normal.steady_cos(), normal.steady_sin()) * arc.radius;
            let distance = outside(axes, place);
            range = (range.0.min(distance), range.1.max(distance));
        }
    }
    range
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 300, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn arcs_stay_outside_the_ellipse_and_near_it(axes in half_axes()) {
        let arcs = quarter(axes.0, axes.1);
        let (least, most) = distances(axes, &arcs);
        // Derived: an arc is placed to the sixteenth digit of its radius.
        let rounding = 1e-9 + 1e-14 * arcs.iter().map(|arc| arc.radius).fold(0.0, f64::max);
        prop_assert!(least > -rounding, "{least} inside {axes:?}");
        prop_assert!(most < LIMIT_MM, "{most} outside {axes:?}");
    }

    #[test]
    fn arcs_join_tangentially_from_vertex_to_vertex(axes in half_axes()) {
        let arcs = quarter(axes.0, axes.1);
        let (first, last) = (arcs[0], arcs[arcs.len() - 1]);
        // Derived: an arc is placed to the sixteenth digit of its radius.
        let rounding = 1e-9 + 1e-14 * last.radius;
        prop_assert!((first.centre.x + first.radius - axes.0).abs() < rounding && first.centre.y == 0.0);
        prop_assert!((last.centre.y + last.radius - axes.1).abs() < rounding);
        prop_assert!(last.centre.x.abs() < rounding);
        for pair in arcs.windows(2) {
            // Two circles touch at a point in line with their centres.
            let apart = (pair[1].centre - pair[0].centre).length();
            prop_assert!(pair[1].radius > pair[0].radius);
            prop_assert!((apart - (pair[1].radius - pair[0].radius)).abs() < rounding, "{pair:?}");
        }
        let ends = spans(&arcs);
        prop_assert!(ends.iter().all(|(from, to)| from < to), "{ends:?}");
    }
}

#[test]
fn a_circle_is_one_arc_and_a_near_circle_two() {
    let circle = quarter(26.0, 26.0);
    assert_eq!(
        circle,
        [Arc {
            centre: Point::ORIGIN,
            radius: 26.0
        }]
    );
    assert_eq!(quarter(26.0, 25.9).len(), 2);
}

#[test]
fn as_few_arcs_as_will_do() {
    // Source: tests/facts/oval_arcs.py, which finds them from how far the ellipse reaches in each direction.
    for ((long, short), count) in [
        ((2.5, 2.0), 2),
        ((26.0, 21.0), 3),
        ((49.0, 31.5), 5),
        ((49.0, 8.5), 5),
        ((200.0, 10.0), 6),
        ((2500.0, 500.0), 16),
    ] {
        assert_eq!(quarter(long, short).len(), count, "{long} {short}");
    }
}
