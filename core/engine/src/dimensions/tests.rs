//! What a reader of the drawing relies on, on random blanks; the geometry here is written anew, not the engine's own.

use proptest::prelude::*;
use traywright_document::{Contour, CreaseLine, Dimension, Extent, Flat, Point, Segment, Unit};

use super::{Axis, Measured, lay_out};

type Line = [Point; 2];

fn point(x: f64, y: f64) -> Point {
    Point { x, y }
}

fn contour(points: &[Point], closed: bool) -> Contour {
    let mut segments: Vec<Segment> = points[1..].iter().map(|&to| Segment::Line { to }).collect();
    if closed {
        segments.push(Segment::Line { to: points[0] });
    }
    Contour {
        start: points[0],
        segments,
        closed,
    }
}

/// A deck with four tapered walls, a slot cut crosswise and a round hole, turned by an angle.
#[derive(Clone, Debug)]
struct Made {
    deck: [f64; 2],
    wall: [f64; 2],
    taper: f64,
    slot: [f64; 2],
    hole: f64,
    turn_deg: f64,
}

impl Made {
    fn turned(&self, x: f64, y: f64) -> Point {
        let (sin, cos) = self.turn_deg.to_radians().sin_cos();
        point(x * cos - y * sin, x * sin + y * cos)
    }

    fn flat(&self) -> Flat {
        let [a, b] = self.deck.map(|side| side / 2.0);
        let [wall_x, wall_y] = self.wall;
        let t = self.taper;
        let [l, w] = [self.slot[0] * a, self.slot[1] * b];
        let at = |x, y| self.turned(x, y);
        let outline = [
            at(a, -b),
            at(a + wall_x, -b + t),
            at(a + wall_x, b - t),
            at(a, b),
            at(a - t, b + wall_y),
            at(t - a, b + wall_y),
            at(-a, b),
            at(-a - wall_x, b - t),
            at(-a - wall_x, t - b),
            at(-a, -b),
            at(t - a, -b - wall_y),
            at(a - t, -b - wall_y),
        ];
        let crease = |from, to| CreaseLine {
            from,
            to,
            fold_deg: 90.0,
            panel: 1,
        };
        let deck = [at(a, -b), at(a, b), at(-a, b), at(-a, -b)];
        let slot = [at(l, -w), at(l, w), at(-l, w), at(-l, -w)];
        let round = |radius: f64| Contour {
            start: at(radius, 0.0),
            segments: vec![
                Segment::Arc {
                    to: at(-radius, 0.0),
                    bulge: -1.0,
                },
                Segment::Arc {
                    to: at(radius, 0.0),
                    bulge: -1.0,
                },
            ],
            closed: true,
        };
        let mut creases = Vec::new();
        for ring in [deck, slot] {
            creases.extend((0..4).map(|side| crease(ring[side], ring[(side + 1) % 4])));
        }
        let fold = |get: fn(&Point) -> f64, pick: fn(f64, f64) -> f64| {
            outline
                .iter()
                .map(get)
                .reduce(pick)
                .expect("an outline has corners")
        };
        Flat {
            extent: Extent {
                least: point(fold(|p| p.x, f64::min), fold(|p| p.y, f64::min)),
                most: point(fold(|p| p.x, f64::max), fold(|p| p.y, f64::max)),
            },
            outline: contour(&outline, true),
            holes: vec![round(self.hole * l.min(w))],
            open_cuts: vec![contour(&[slot[0], slot[2]], false)],
            creases,
            dimensions: Vec::new(),
        }
    }

    /// Sizes of the whole, then of everything that lies upright, then of what is askew.
    fn measured(&self, flat: &Flat) -> Vec<Measured> {
        let Extent { least, most } = flat.extent;
        let mut pairs = vec![(Axis::AlongX, least, most), (Axis::AlongY, least, most)];
        for crease in &flat.creases {
            pairs.push((Axis::AlongX, crease.from, crease.to));
            pairs.push((Axis::AlongY, crease.from, crease.to));
        }
        let corners = &flat.outline.segments;
        for (one, other) in corners.iter().zip(corners.iter().skip(1)) {
            pairs.push((Axis::AlongX, one.to(), other.to()));
        }
        pairs.push((Axis::AlongY, flat.creases[0].from, flat.creases[4].from));
        let measured = |(axis, from, to): (Axis, Point, Point)| {
            let length = (axis.along(to) - axis.along(from)).abs();
            Measured {
                from,
                to,
                axis,
                length,
            }
        };
        pairs.into_iter().map(measured).collect()
    }
}

fn made() -> impl Strategy<Value = Made> {
    let turn = prop_oneof![Just(0.0), Just(90.0), -45.0..45.0_f64];
    let walls = prop_oneof![0.3..3.0_f64, 5.0..80.0];
    (
        [20.0..400.0_f64, 15.0..300.0],
        [walls.clone(), walls],
        0.0..4.0_f64,
        [0.2..0.95_f64, 0.2..0.95],
        0.1..0.9_f64,
        turn,
    )
        .prop_map(|(deck, wall, taper, slot, hole, turn_deg)| Made {
            deck,
            wall,
            taper,
            slot,
            hole,
            turn_deg,
        })
}

/// Lower left and upper right corner of the words in DejaVu Sans.
// Source: DejaVu Sans, glyph table: a figure is 1303 units wide, a capital 1493 high; no other glyph here is wider.
fn words(dimension: &Dimension) -> Line {
    let half =
        dimension.text.chars().count() as f64 * dimension.text_height * 1303.0 / 1493.0 / 2.0;
    let foot = dimension.text_at;
    [
        point(foot.x - half, foot.y),
        point(foot.x + half, foot.y + dimension.text_height),
    ]
}

/// The dimension line and all that leads to it or on from it.
fn strokes(dimension: &Dimension) -> Vec<Line> {
    std::iter::once(dimension.line)
        .chain(dimension.extensions.iter().copied())
        .collect()
}

/// A line without so much of its ends.
fn within([from, to]: Line, away: f64) -> Line {
    let length = (to.x - from.x).hypot(to.y - from.y);
    let share = (away / length).min(0.5);
    let at = |share: f64| {
        point(
            from.x + (to.x - from.x) * share,
            from.y + (to.y - from.y) * share,
        )
    };
    [at(share), at(1.0 - share)]
}

/// The parts that go on from the dimension line, in its direction.
fn tails(dimension: &Dimension) -> Vec<Line> {
    let [from, to] = dimension.line;
    let on = |line: &&Line| (line[0].x == line[1].x) == (from.x == to.x);
    dimension.extensions.iter().filter(on).copied().collect()
}

fn blank_lines(flat: &Flat, made: &Made) -> Vec<Line> {
    let mut lines: Vec<Line> = flat
        .creases
        .iter()
        .map(|crease| [crease.from, crease.to])
        .collect();
    for contour in flat.open_cuts.iter().chain([&flat.outline]) {
        let ends = contour.segments.iter().map(Segment::to);
        let points: Vec<Point> = std::iter::once(contour.start).chain(ends).collect();
        lines.extend(points.windows(2).map(|pair| [pair[0], pair[1]]));
    }
    // The hole as a ring of 360 points, from its radius alone.
    let radius = made.hole * (made.slot[0] * made.deck[0]).min(made.slot[1] * made.deck[1]) / 2.0;
    let rim = |deg: i32| {
        let (sin, cos) = f64::from(deg).to_radians().sin_cos();
        point(radius * cos, radius * sin)
    };
    lines.extend((0..360).map(|deg| [rim(deg), rim(deg + 1)]));
    lines
}

/// Which side of a line a point lies on.
fn side([from, to]: Line, at: Point) -> f64 {
    (to.x - from.x) * (at.y - from.y) - (to.y - from.y) * (at.x - from.x)
}

fn cross(one: Line, other: Line) -> bool {
    side(one, other[0]) * side(one, other[1]) < 0.0
        && side(other, one[0]) * side(other, one[1]) < 0.0
}

fn meets([least, most]: Line, line: Line) -> bool {
    let inside = |at: Point| least.x < at.x && at.x < most.x && least.y < at.y && at.y < most.y;
    let (left_top, right_low) = (point(least.x, most.y), point(most.x, least.y));
    let rim = [
        [least, right_low],
        [right_low, most],
        [most, left_top],
        [left_top, least],
    ];
    line.iter().any(|end| inside(*end)) || rim.iter().any(|edge| cross(*edge, line))
}

fn overlap(one: Line, other: Line) -> bool {
    one[0].x < other[1].x && other[0].x < one[1].x && one[0].y < other[1].y && other[0].y < one[1].y
}

fn check(made: &Made, unit: Unit) -> Result<(), TestCaseError> {
    let flat = made.flat();
    let measured = made.measured(&flat);
    let drawn = lay_out(&measured, &flat, unit);
    prop_assert_eq!(&drawn, &lay_out(&measured, &flat, unit));
    let blank = blank_lines(&flat, made);
    for (index, one) in drawn.iter().enumerate() {
        let box_of_one = words(one);
        for line in &blank {
            prop_assert!(
                !meets(box_of_one, *line),
                "{one:?} has its words on {line:?}"
            );
            // Where a length ends, its line lies on what it measures: a leaning line may meet it there.
            prop_assert!(
                !cross(within(one.line, 1.0), *line),
                "{one:?} lies across {line:?}"
            );
            for tail in tails(one) {
                prop_assert!(
                    !cross(within(tail, 0.31), *line),
                    "{one:?} goes on across {line:?}"
                );
            }
        }
        prop_assert!(
            box_of_one[0].x >= flat.extent.least.x,
            "{one:?} reaches left of the blank"
        );
        prop_assert!(
            box_of_one[1].y <= flat.extent.most.y,
            "{one:?} reaches above the blank"
        );
        for stroke in strokes(one) {
            prop_assert!(
                !meets(box_of_one, stroke),
                "{one:?} has its words on its own line"
            );
        }
        for other in drawn.iter().skip(index + 1) {
            prop_assert!(
                !overlap(box_of_one, words(other)),
                "{one:?} and {other:?} share a place"
            );
            prop_assert!(!cross(one.line, other.line), "{one:?} crosses {other:?}");
            for stroke in strokes(other) {
                // Nearer to its end than this a lead cannot be told from the tip of the arrow.
                prop_assert!(
                    !cross(within(one.line, 0.31), stroke),
                    "{one:?} crosses {other:?}"
                );
                prop_assert!(
                    !meets(box_of_one, stroke),
                    "{one:?} has its words on {other:?}"
                );
            }
            for stroke in strokes(one) {
                prop_assert!(
                    !cross(within(other.line, 0.31), stroke),
                    "{other:?} crosses {one:?}"
                );
                prop_assert!(
                    !meets(words(other), stroke),
                    "{other:?} has its words on {one:?}"
                );
            }
        }
    }
    // A drawing with nothing on it would pass all of the above.
    let Extent { least, most } = flat.extent;
    for whole in [[least.x, most.x], [least.y, most.y]] {
        let spans_it = |one: &Dimension| {
            let [from, to] = one.line;
            [from.x, to.x] == whole || [from.y, to.y] == whole
        };
        prop_assert!(
            drawn.iter().any(spans_it),
            "the size of the whole blank is missing"
        );
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(64) })]

    #[test]
    fn words_stand_alone(made in made(), inches: bool) {
        check(&made, if inches { Unit::Inch } else { Unit::Millimetre })?;
    }
}

/// Source: STYLES 1.6, the sizes of the single-slot blank of the golden job.
#[test]
fn numbers_read_as_the_maker_writes_them() {
    let made = Made {
        deck: [179.71, 118.71],
        wall: [31.71, 31.855],
        taper: 0.0,
        slot: [98.0 / 179.71, 63.0 / 118.71],
        hole: 0.5,
        turn_deg: 0.0,
    };
    let flat = made.flat();
    let mut measured = made.measured(&flat)[2..4].to_vec();
    measured[0].length = 31.855;
    measured[1].length = 98.000_000_000_01;
    let texts = |unit| {
        lay_out(&measured, &flat, unit)
            .into_iter()
            .map(|drawn| drawn.text)
    };
    assert!(
        measured[0].from.x == measured[0].to.x,
        "the first crease stands upright"
    );
    assert_eq!(texts(Unit::Millimetre).collect::<Vec<_>>(), ["98"]);
    assert_eq!(texts(Unit::Inch).collect::<Vec<_>>(), ["3.858 in"]);
    measured[1].length = 31.855;
    let again = lay_out(&measured, &flat, Unit::Millimetre);
    assert_eq!(again[0].text, "31.86");
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
    let flat = made.flat();
    let strip = Measured {
        from: point(60.0, 0.0),
        to: point(61.08, 0.0),
        axis: Axis::AlongX,
        length: 1.08,
    };
    let drawn = lay_out(&[strip], &flat, Unit::Millimetre);
    let [least, most] = words(&drawn[0]);
    assert!(most.x < 60.0 || least.x > 61.08, "{:?}", drawn[0]);
    let tails = drawn[0]
        .extensions
        .iter()
        .filter(|line| line[0].y == line[1].y);
    assert_eq!(tails.count(), 2, "one tail for each arrow head");
}
