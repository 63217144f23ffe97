//! What is too small to be seen: a ring around it, and beside the figure the same enlarged.
//!
//! Given a place and a radius on the card; the lines and tints of the figure are cut off at the ring. Nothing is drawn in
//! the enlarged figure that the small one has not.

use i_overlay::core::fill_rule::FillRule;
use i_overlay::core::overlay_rule::OverlayRule;
use i_overlay::float::single::SingleFloatOverlay;
use traywright_document::steady::Steady;
use traywright_look::Colour;
use traywright_paper::{Block, PointMm};

use crate::free::Free;
use crate::line_styles;
use crate::picture::{Picture, Scale, run};
use crate::visible::{Region, Seen};

/// A place to enlarge.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Detail {
    /// Its middle, as seen.
    pub(crate) at: Seen,
    /// How much of the card it shows to every side.
    pub(crate) radius: f64,
    /// Whether the enlarged one stands at the left of the figure.
    pub(crate) at_left: bool,
}

/// The largest ring beside a figure.
const LARGEST: f64 = 13.0;
/// White between a figure and the ring beside it.
const BETWEEN: f64 = 2.0;
/// Corners of a ring drawn as a polygon.
const CORNERS: usize = 60;

impl Detail {
    /// Width that the ring beside a figure takes.
    pub(crate) fn room(size: [f64; 2]) -> f64 {
        2.0 * ring_radius(size) + BETWEEN
    }

    /// Draws both rings, the large one beside the figure.
    pub(crate) fn draw(&self, picture: &Picture, scale: Scale, block: &mut Block, free: &mut Free) {
        let large = ring_radius(block.size);
        let across = if self.at_left {
            large + 0.5
        } else {
            block.size[0] - large - 0.5
        };
        let centre = [across, block.size[1] / 2.0];
        let enlarged = Scale {
            factor: large / self.radius,
            shift: [0, 1].map(|axis| centre[axis] - large / self.radius * self.at[axis]),
        };
        let small_centre = scale.on_paper(self.at);
        let small = (self.radius * scale.factor).max(1.2);
        let [x, y] = [centre[0] - small_centre[0], centre[1] - small_centre[1]];
        let apart = x.steady_hypot(y).max(1e-9);
        let on_ring = |centre: PointMm, radius: f64, sign: f64| {
            [
                centre[0] + sign * radius * x / apart,
                centre[1] + sign * radius * y / apart,
            ]
        };
        let leader = [
            on_ring(small_centre, small, 1.0),
            on_ring(centre, large, -1.0),
        ];
        block.run(line_styles::RING, closed(&circle(small_centre, small)));
        block.line(line_styles::RING, leader[0], leader[1]);
        block.fill(Colour([0xFF; 3]), circle(centre, large));
        self.enlarge(picture, enlarged, block);
        block.run(line_styles::RING, closed(&circle(centre, large)));
        free.take_line(&leader);
        free.take_words([centre[0] - large, centre[1] - large], [2.0 * large; 2]);
        free.take_line(&circle(small_centre, small));
    }

    /// Draws the part of a picture that lies within the ring.
    fn enlarge(&self, picture: &Picture, enlarged: Scale, block: &mut Block) {
        let lens: Region = vec![circle(self.at, self.radius)];
        let beside = |axis: usize, ring: &[Seen]| {
            let sides = ring.iter().map(|place| place[axis] - self.at[axis]);
            sides.clone().all(|side| side > self.radius)
                || sides.clone().all(|side| side < -self.radius)
        };
        let near = |region: &Region| !(0..2).any(|axis| beside(axis, &region[0]));
        for (colour, region) in picture.fills.iter().filter(|(_, region)| near(region)) {
            for part in region.overlay(&lens, OverlayRule::Intersect, FillRule::NonZero) {
                let ring =
                    |ring: &Vec<Seen>| ring.iter().map(|&at| enlarged.on_paper(at)).collect();
                block.area(*colour, part.iter().map(ring).collect());
            }
        }
        for (look, line) in &picture.lines {
            for ends in line.windows(2) {
                if let Some(ends) = within((self.at, self.radius), ends[0], ends[1]) {
                    block.run(*look, run(&ends.map(|end| enlarged.on_paper(end))));
                }
            }
        }
    }
}

/// The part of a line within a circle.
// Derived: the places on the line at the radius from the middle solve a quadratic equation.
pub(crate) fn within((at, radius): (Seen, f64), from: Seen, to: Seen) -> Option<[Seen; 2]> {
    let way = [to[0] - from[0], to[1] - from[1]];
    let start = [from[0] - at[0], from[1] - at[1]];
    let square = way[0] * way[0] + way[1] * way[1];
    let half = start[0] * way[0] + start[1] * way[1];
    let rest = start[0] * start[0] + start[1] * start[1] - radius * radius;
    let root = half * half - square * rest;
    if square == 0.0 || root <= 0.0 {
        return None;
    }
    let parts = [-1.0, 1.0].map(|sign| ((sign * root.sqrt() - half) / square).clamp(0.0, 1.0));
    let place = |part: f64| [0, 1].map(|axis| from[axis] + way[axis] * part);
    (parts[1] > parts[0]).then(|| parts.map(place))
}

fn ring_radius(size: [f64; 2]) -> f64 {
    LARGEST.min(size[0] / 6.0).min(size[1] / 2.5)
}

fn circle(centre: PointMm, radius: f64) -> Vec<PointMm> {
    let corner = |step: usize| {
        let angle = std::f64::consts::TAU * step as f64 / CORNERS as f64;
        let (sin, cos) = angle.steady_sin_cos();
        [centre[0] + radius * cos, centre[1] + radius * sin]
    };
    (0..CORNERS).map(corner).collect()
}

fn closed(ring: &[PointMm]) -> traywright_paper::StrokePath {
    traywright_paper::StrokePath::ring(ring)
}
