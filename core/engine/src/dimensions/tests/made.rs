//! Blanks for tests of the dimensions. **Input:** a few random sizes. **Output:** the lines of a blank, and lengths on
//! it.
//!
//! The blank is a deck with four tapered walls, a slot with a slit across it and a round hole, rotated by any angle. No
//! style would make it, so its lines are where no rule for words expects them. It does not know how dimensions are
//! placed.

use proptest::prelude::*;
use traywright_document::steady::Steady;
use traywright_document::{Contour, CreaseLine, Extent, Flat, Point, Segment};

use super::Line;
use crate::dimensions::{Axis, DimensionInput};

/// The sizes.
#[derive(Clone, Debug)]
pub(super) struct Made {
    pub(super) deck: [f64; 2],
    pub(super) wall: [f64; 2],
    pub(super) taper: f64,
    /// Parts of the deck.
    pub(super) slot: [f64; 2],
    /// Part of the slot.
    pub(super) hole: f64,
    pub(super) turn_deg: f64,
}

impl Made {
    /// Any sizes.
    pub(super) fn any() -> impl Strategy<Value = Made> {
        let turn = prop_oneof![Just(0.0), Just(90.0), -45.0..45.0_f64];
        let walls = prop_oneof![0.3..3.0_f64, 5.0..80.0];
        let sizes = (
            [20.0..400.0_f64, 15.0..300.0],
            [walls.clone(), walls],
            0.0..4.0_f64,
            [0.2..0.95_f64, 0.2..0.95],
            0.1..0.9_f64,
            turn,
        );
        sizes.prop_map(|(deck, wall, taper, slot, hole, turn_deg)| Made {
            deck,
            wall,
            taper,
            slot,
            hole,
            turn_deg,
        })
    }

    /// Its lines.
    pub(super) fn flat(&self) -> Flat {
        let outline = self.outline();
        let [deck, slot] = [[1.0, 1.0], self.slot].map(|share| self.rectangle(share));
        let mut creases = Vec::new();
        for ring in [deck, slot] {
            creases.extend((0..4).map(|side| crease(ring[side], ring[(side + 1) % 4])));
        }
        let rim = self.radius();
        let half = |x: f64| Segment::Arc {
            to: self.turned(x, 0.0),
            bulge: -1.0,
        };
        Flat {
            extent: extent(&outline),
            outline: contour(&outline, true),
            holes: vec![Contour {
                start: self.turned(rim, 0.0),
                segments: vec![half(-rim), half(rim)],
                closed: true,
            }],
            open_cuts: vec![contour(&[slot[0], slot[2]], false)],
            creases,
            labels: Vec::new(),
            letters: Vec::new(),
            panel_pictures: Vec::new(),
            panel_labels: Vec::new(),
            dimensions: Vec::new(),
        }
    }

    /// Its lines again, with the hole as a ring of 360 chords computed from its radius alone.
    pub(super) fn lines(&self) -> Vec<Line> {
        let flat = self.flat();
        let creases = flat.creases.iter();
        let mut lines: Vec<Line> = creases.map(|crease| [crease.from, crease.to]).collect();
        for contour in flat.open_cuts.iter().chain([&flat.outline]) {
            let ends = contour.segments.iter().map(Segment::to);
            let points: Vec<Point> = std::iter::once(contour.start).chain(ends).collect();
            lines.extend(points.windows(2).map(|pair| [pair[0], pair[1]]));
        }
        let rim = |deg: i32| {
            let (sin, cos) = f64::from(deg).to_radians().steady_sin_cos();
            let (x, y) = (self.radius() * cos, self.radius() * sin);
            Point { x, y }
        };
        lines.extend((0..360).map(|deg| [rim(deg), rim(deg + 1)]));
        lines
    }

    /// Both sizes of the whole, then of every crease, then lengths of the outline; many are zero or oblique.
    pub(super) fn measured(&self) -> Vec<DimensionInput> {
        let flat = self.flat();
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
        let measured = |(axis, from, to): (Axis, Point, Point)| DimensionInput {
            from,
            to,
            axis,
            length: (axis.along(to) - axis.along(from)).abs(),
            diameter: false,
        };
        pairs.into_iter().map(measured).collect()
    }

    fn outline(&self) -> [Point; 12] {
        let [a, b] = self.deck.map(|side| side / 2.0);
        let [x, y] = [a + self.wall[0], b + self.wall[1]];
        let [short_a, short_b] = [a - self.taper, b - self.taper];
        let corners = [
            [a, -b],
            [x, -short_b],
            [x, short_b],
            [a, b],
            [short_a, y],
            [-short_a, y],
            [-a, b],
            [-x, short_b],
            [-x, -short_b],
            [-a, -b],
            [-short_a, -y],
            [short_a, -y],
        ];
        corners.map(|[x, y]| self.turned(x, y))
    }

    fn rectangle(&self, share: [f64; 2]) -> [Point; 4] {
        let [x, y] = [0, 1].map(|side| share[side] * self.deck[side] / 2.0);
        [[x, -y], [x, y], [-x, y], [-x, -y]].map(|[x, y]| self.turned(x, y))
    }

    fn radius(&self) -> f64 {
        let [length, width] = [0, 1].map(|side| self.slot[side] * self.deck[side]);
        self.hole * length.min(width) / 2.0
    }

    fn turned(&self, x: f64, y: f64) -> Point {
        let (sin, cos) = self.turn_deg.to_radians().steady_sin_cos();
        Point {
            x: x * cos - y * sin,
            y: x * sin + y * cos,
        }
    }
}

fn crease(from: Point, to: Point) -> CreaseLine {
    CreaseLine {
        from,
        to,
        fold_deg: 90.0,
        panel: 1,
    }
}

fn contour(points: &[Point], closed: bool) -> Contour {
    let back = closed.then_some(points[0]);
    let ends = points[1..].iter().copied().chain(back);
    Contour {
        start: points[0],
        segments: ends.map(|to| Segment::Line { to }).collect(),
        closed,
    }
}

fn extent(points: &[Point]) -> Extent {
    let mut extent = Extent {
        least: points[0],
        most: points[0],
    };
    for point in points {
        extent.least.x = extent.least.x.min(point.x);
        extent.least.y = extent.least.y.min(point.y);
        extent.most.x = extent.most.x.max(point.x);
        extent.most.y = extent.most.y.max(point.y);
    }
    extent
}
