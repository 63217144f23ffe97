//! The properties that a reader of the drawing relies on, on random blanks; with geometry independent of the engine's.

mod made;

use proptest::prelude::*;
use traywright_document::steady::Steady;
use traywright_document::{Dimension, Extent, Point, Unit};

use super::{Axis, DimensionInput, lay_out};
use made::Made;

type Line = [Point; 2];
type Verdict = Result<(), TestCaseError>;

fn point(x: f64, y: f64) -> Point {
    Point { x, y }
}

/// Lower left and upper right corner of the words in DejaVu Sans.
// Source: DejaVu Sans, glyph table: a figure is 1303 units wide, a capital 1493 high; no other glyph here is wider.
fn words(dimension: &Dimension) -> Line {
    let width = dimension.text.chars().count() as f64 * dimension.text_height * 1303.0 / 1493.0;
    let foot = dimension.text_at;
    [
        point(foot.x - width / 2.0, foot.y),
        point(foot.x + width / 2.0, foot.y + dimension.text_height),
    ]
}

/// The dimension line with its leads and tails.
fn strokes(dimension: &Dimension) -> Vec<Line> {
    let further = dimension.extensions.iter().copied();
    std::iter::once(dimension.line).chain(further).collect()
}

/// The parts that extend the dimension line in its direction.
fn tails(dimension: &Dimension) -> Vec<Line> {
    let [from, to] = dimension.line;
    let on = |line: &&Line| (line[0].x == line[1].x) == (from.x == to.x);
    dimension.extensions.iter().filter(on).copied().collect()
}

/// A line shortened at both ends.
fn within([from, to]: Line, away: f64) -> Line {
    let (run, rise) = (to.x - from.x, to.y - from.y);
    let share = (away / run.steady_hypot(rise)).min(0.5);
    let at = |share: f64| point(from.x + run * share, from.y + rise * share);
    [at(share), at(1.0 - share)]
}

/// The side of a line on which a point is.
fn side([from, to]: Line, at: Point) -> f64 {
    (to.x - from.x) * (at.y - from.y) - (to.y - from.y) * (at.x - from.x)
}

fn cross(one: Line, other: Line) -> bool {
    side(one, other[0]) * side(one, other[1]) < 0.0
        && side(other, one[0]) * side(other, one[1]) < 0.0
}

/// Whether a line enters the rectangle between two corners.
fn meets([least, most]: Line, line: Line) -> bool {
    let inside = |at: &Point| least.x < at.x && at.x < most.x && least.y < at.y && at.y < most.y;
    let (left_top, right_low) = (point(least.x, most.y), point(most.x, least.y));
    let rim = [
        [least, right_low],
        [right_low, most],
        [most, left_top],
        [left_top, least],
    ];
    line.iter().any(inside) || rim.iter().any(|edge| cross(*edge, line))
}

fn overlap(one: Line, other: Line) -> bool {
    let along_x = one[0].x < other[1].x && other[0].x < one[1].x;
    along_x && one[0].y < other[1].y && other[0].y < one[1].y
}

/// No part of a dimension covers the blank's lines.
fn is_off_the_lines(one: &Dimension, blank: &[Line]) -> Verdict {
    for line in blank {
        prop_assert!(!meets(words(one), *line), "words of {one:?} on {line:?}");
        // A length ends on the lines that it measures, so a slanting line may touch its ends.
        let crossed = cross(within(one.line, 1.0), *line);
        prop_assert!(!crossed, "{one:?} lies across {line:?}");
        for tail in tails(one) {
            let crossed = cross(within(tail, 0.31), *line);
            prop_assert!(!crossed, "{one:?} goes on across {line:?}");
        }
    }
    for stroke in strokes(one) {
        prop_assert!(!meets(words(one), stroke), "words of {one:?} on its line");
    }
    Ok(())
}

/// No part of one dimension covers another.
fn is_off_the_other(one: &Dimension, other: &Dimension) -> Verdict {
    let shared = overlap(words(one), words(other));
    prop_assert!(!shared, "{one:?} and {other:?} share a place");
    let crossed = cross(one.line, other.line);
    prop_assert!(!crossed, "{one:?} crosses {other:?}");
    for stroke in strokes(other) {
        // Nearer to its end than this a lead cannot be distinguished from the tip of the arrow.
        let crossed = cross(within(one.line, 0.31), stroke);
        prop_assert!(!crossed, "{other:?} leads across {one:?}");
        let covered = meets(words(one), stroke);
        prop_assert!(!covered, "words of {one:?} on {other:?}");
    }
    Ok(())
}

fn check(made: &Made, unit: Unit) -> Verdict {
    let (flat, blank) = (made.flat(), made.lines());
    let drawn = lay_out(&made.measured(), &flat, unit);
    prop_assert_eq!(&drawn, &lay_out(&made.measured(), &flat, unit));
    let Extent { least, most } = flat.extent;
    for (index, one) in drawn.iter().enumerate() {
        is_off_the_lines(one, &blank)?;
        let [words_least, words_most] = words(one);
        let beside = words_least.x >= least.x && words_most.y <= most.y;
        prop_assert!(beside, "{one:?} reaches left of the blank or above it");
        for other in &drawn[index + 1..] {
            is_off_the_other(one, other)?;
            is_off_the_other(other, one)?;
        }
    }
    // An empty drawing would pass all of the above.
    for whole in [[least.x, most.x], [least.y, most.y]] {
        let spans_it = |one: &Dimension| {
            let [from, to] = one.line;
            [from.x, to.x] == whole || [from.y, to.y] == whole
        };
        let told = drawn.iter().any(spans_it);
        prop_assert!(told, "the size of the whole blank is missing");
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(64) })]

    #[test]
    fn words_stand_alone(made in Made::any(), inches: bool) {
        check(&made, if inches { Unit::Inch } else { Unit::Millimetre })?;
    }
}

/// Source: STYLES 1.6, lengths of the golden job, rounded by hand; 98 / 25.4 = 3.85827.
#[test]
fn numbers_read_as_the_maker_writes_them() {
    let made = Made {
        deck: [179.71, 118.71],
        wall: [31.71, 31.855],
        taper: 0.0,
        slot: [0.5, 0.5],
        hole: 0.5,
        turn_deg: 0.0,
    };
    let (from, to) = (point(-89.855, 59.355), point(89.855, 59.355));
    for (length, unit, text) in [
        (98.000_000_000_01, Unit::Millimetre, "98"),
        (31.855, Unit::Millimetre, "31.86"),
        (179.71, Unit::Millimetre, "179.71"),
        (98.0, Unit::Inch, "3.858 in"),
        (101.6, Unit::Inch, "4 in"),
    ] {
        let axis = Axis::AlongX;
        let one = DimensionInput {
            from,
            to,
            axis,
            length,
            diameter: false,
        };
        let drawn = lay_out(&[one], &made.flat(), unit);
        assert_eq!(drawn[0].text, text);
    }
}

/// Source: common practice, none published: heads and words of a very short length stand outside it.
#[test]
fn a_narrow_strip_has_its_words_outside() {
    let made = Made {
        deck: [120.0, 80.0],
        wall: [1.08, 20.0],
        taper: 0.0,
        slot: [0.3, 0.3],
        hole: 0.5,
        turn_deg: 0.0,
    };
    let strip = DimensionInput {
        from: point(60.0, 0.0),
        to: point(61.08, 0.0),
        axis: Axis::AlongX,
        length: 1.08,
        diameter: false,
    };
    let drawn = lay_out(&[strip], &made.flat(), Unit::Millimetre);
    let [least, most] = words(&drawn[0]);
    assert!(most.x < 60.0 || least.x > 61.08, "{:?}", drawn[0]);
    assert_eq!(tails(&drawn[0]).len(), 2, "one tail for each arrow head");
}
