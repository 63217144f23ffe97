//! Tests of arcs against circles with known measures.

use std::f64::consts::{FRAC_PI_2, PI, SQRT_2};

use super::{Chords, Edge};
use crate::flat::{Contour, Segment};
use crate::plane::{Extent, Point, Vector};

/// The upper half of the circle of radius 10 about (3, 4), from right to left.
// Source: DXF reference, LWPOLYLINE, group 42: half a turn has a bulge of tan 45° = 1.
const HALF: Edge = Edge {
    from: Point::new(13.0, 4.0),
    to: Point::new(-7.0, 4.0),
    bulge: 1.0,
};

fn close(one: Point, other: Point) -> bool {
    (one - other).length() < 1e-12
}

#[test]
fn half_a_circle_has_its_centre_radius_length_and_top() {
    let arc = HALF.arc().expect("it is round");
    assert!(close(arc.centre, Point::new(3.0, 4.0)));
    assert!((arc.radius - 10.0).abs() < 1e-12 && (arc.sweep - PI).abs() < 1e-12);
    assert!((HALF.length() - 10.0 * PI).abs() < 1e-12 && (HALF.rise() - 10.0).abs() < 1e-12);
    assert!(close(HALF.at(0.5), Point::new(3.0, 14.0)));
    // Derived: an eighth of the circle on, cos 45° = sin 45° = 1/√2.
    let eighth = Point::new(3.0 + 10.0 / SQRT_2, 4.0 + 10.0 / SQRT_2);
    assert!(close(HALF.at(0.25), eighth) && close(arc.part([0.25, 1.0]).at(0.0), eighth));
    let [leaves, arrives] = HALF.directions();
    assert!((leaves + Vector::new(0.0, -1.0)).length() < 1e-12);
    assert!((arrives + Vector::new(0.0, 1.0)).length() < 1e-12);
}

#[test]
fn the_other_way_it_turns_clockwise_about_the_same_centre() {
    let arc = HALF.reversed().arc().expect("it is round");
    assert!(close(arc.centre, Point::new(3.0, 4.0)) && (arc.sweep + PI).abs() < 1e-12);
    assert!(close(HALF.reversed().at(0.25), HALF.at(0.75)));
}

#[test]
fn a_stretch_of_an_arc_lies_on_its_circle() {
    // Derived: the second third of 10 π begins at 60° and ends at 120°.
    let part = HALF.part(10.0 * PI / 3.0, 20.0 * PI / 3.0);
    let rise = 10.0 * 3.0_f64.sqrt() / 2.0;
    assert!(close(part.from, Point::new(8.0, 4.0 + rise)));
    assert!(close(part.to, Point::new(-2.0, 4.0 + rise)));
    // Source: tan 15° = 2 - √3.
    assert!((part.bulge - (2.0 - 3.0_f64.sqrt())).abs() < 1e-12);
}

#[test]
fn what_has_no_circle_is_straight() {
    let straight = Edge::straight(HALF.from, HALF.to);
    assert_eq!(straight.arc(), None);
    assert_eq!(straight.between(Chords::Within(0.01)), []);
    assert_eq!(straight.length(), 20.0);
    let nowhere = Edge {
        to: HALF.from,
        ..HALF
    };
    assert_eq!((nowhere.arc(), nowhere.length()), (None, 0.0));
}

#[test]
fn a_contour_of_arcs_has_the_area_and_the_extent_of_its_circle() {
    let circle = Contour {
        start: HALF.from,
        segments: vec![
            HALF.into(),
            Segment::Arc {
                to: HALF.from,
                bulge: 1.0,
            },
        ],
        closed: true,
    };
    assert!((circle.area() - 100.0 * PI).abs() < 1e-9);
    let Extent { least, most } = circle.extent();
    assert!(close(least, Point::new(-7.0, -6.0)) && close(most, Point::new(13.0, 14.0)));
    // Source: tan(90° / 4) = √2 - 1. A quarter of the circle about the origin, closed by its two radii.
    let (right, top) = (Point::new(10.0, 0.0), Point::new(0.0, 10.0));
    let quarter = [
        Edge::straight(Point::ORIGIN, right),
        Edge {
            from: right,
            to: top,
            bulge: SQRT_2 - 1.0,
        },
        Edge::straight(top, Point::ORIGIN),
    ];
    let quarter = Contour::of_edges(quarter, true).expect("there are edges");
    assert!((quarter.area() - 25.0 * PI).abs() < 1e-9);
    assert_eq!(quarter.extent().size(), [10.0, 10.0]);
}

#[test]
fn the_area_of_a_flat_arc_keeps_its_digits() {
    // Source: for small bulges the segment is that of a parabola: two thirds of chord times height, here 2/3 · 100 · 0.05.
    let flat = Edge {
        from: Point::ORIGIN,
        to: Point::new(100.0, 0.0),
        bulge: -0.001,
    };
    assert!((flat.doubled_area() / 2.0 + 10.0 / 3.0).abs() < 1e-5);
    // Derived: where the sum in powers ends, both ways agree.
    let [below, above] = [0.009_999_999, 0.010_000_001].map(|bulge| Edge { bulge, ..flat });
    assert!(
        (above.doubled_area() - below.doubled_area() - 2.0 * 100.0 * 100.0 / 1.5 * 1e-9).abs()
            < 1e-7
    );
}

#[test]
fn chords_keep_to_what_was_stated() {
    // Derived: 180° in chords of 7.5° are 24; in chords of 7° 25.72, so 26.
    let count = |chords| HALF.between(chords).len() + 1;
    assert_eq!(
        [7.5, 7.0, 400.0].map(|degrees| count(Chords::Spanning(degrees))),
        [24, 26, 1]
    );
    for off in [0.2, 0.01, 1e-4] {
        let corners = Contour::of_edges([HALF], false)
            .expect("an edge")
            .corners(Chords::Within(off));
        let farthest = corners.windows(2).map(|ends| {
            let middle = ends[0].middle(ends[1]);
            10.0 - (middle - Point::new(3.0, 4.0)).length()
        });
        let farthest = farthest.fold(0.0, f64::max);
        assert!(
            farthest <= off + 1e-12 && farthest > off / 2.0,
            "{off}: {farthest}"
        );
    }
    // A chord spans at most a quarter of the circle, for any tolerance.
    assert_eq!(count(Chords::Within(100.0)), (PI / FRAC_PI_2) as usize);
}
