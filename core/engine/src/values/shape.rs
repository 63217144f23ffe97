//! The flat shape of one panel in its own frame.
//!
//! ```text
//!            y                    A hinged panel's frame has its origin in the middle of its crease, x along the
//!        +---|----+ far           crease and y away from it. The root's frame has the lower left corner of its
//!   left |   |    | right         extent at the origin, x along the box's length.
//!        +---o----+--> x
//!           near
//! ```

use crate::geometry::{Point, TOUCH_MM, Vector};

/// A panel's outline, counter-clockwise, each corner with the name of the edge that begins there.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct PanelShape {
    pub(crate) corners: Vec<ShapeCorner>,
}

/// A corner and the edge after it; pieces that nothing can be hinged to have no name.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct ShapeCorner {
    pub(crate) at: Point,
    pub(crate) edge: Option<String>,
}

/// Trims of a rectangle's far corner: lengths removed along the far edge and along the flank.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct CornerCut {
    pub(super) along: f64,
    pub(super) down: f64,
    /// Whether a rectangle is removed and not a triangle.
    pub(super) notch: bool,
}

/// A hinged rectangle before and after its trims.
pub(super) struct Trimmed<'n> {
    pub(super) span: f64,
    pub(super) reach: f64,
    pub(super) overhang: f64,
    /// How far each flank is drawn in at the far end: right, left.
    pub(super) tapers: [f64; 2],
    /// Cuts of the far corners: right, left.
    pub(super) cuts: [CornerCut; 2],
    /// Names of the flanks: right, left.
    pub(super) flanks: [&'n str; 2],
}

impl PanelShape {
    /// The shape through these corners; corners that touch the next one are dropped.
    pub(super) fn through(corners: Vec<ShapeCorner>) -> PanelShape {
        let mut kept: Vec<ShapeCorner> = Vec::new();
        let count = corners.len();
        for (index, corner) in corners.iter().enumerate() {
            if !corner.at.touches(corners[(index + 1) % count].at) {
                kept.push(corner.clone());
            }
        }
        PanelShape { corners: kept }
    }

    /// The two ends of a named edge, in the order of the outline.
    pub(crate) fn edge(&self, name: &str) -> Option<(Point, Point)> {
        let count = self.corners.len();
        let start = self.edge_index(name)?;
        Some((self.corners[start].at, self.corners[(start + 1) % count].at))
    }

    /// The corner at which a named edge begins.
    pub(crate) fn edge_index(&self, name: &str) -> Option<usize> {
        self.corners
            .iter()
            .position(|corner| corner.edge.as_deref() == Some(name))
    }

    /// Distance of a point outside the shape; 0 inside it.
    pub(crate) fn distance_outside(&self, place: Point) -> f64 {
        let points: Vec<Point> = self.points().collect();
        let edges = || (0..points.len()).map(|at| (points[at], points[(at + 1) % points.len()]));
        let crossings = edges().filter(|(from, to)| {
            (from.y > place.y) != (to.y > place.y)
                && place.x < from.x + (place.y - from.y) / (to.y - from.y) * (to.x - from.x)
        });
        if crossings.count() % 2 == 1 {
            return 0.0;
        }
        let away = edges().map(|(from, to)| {
            let way = to - from;
            let part = ((place - from).dot(way) / way.dot(way)).clamp(0.0, 1.0);
            (place - from.on_the_way(to, part)).length()
        });
        away.fold(f64::INFINITY, f64::min)
    }

    /// The points of its corners.
    pub(crate) fn points(&self) -> impl Iterator<Item = Point> + '_ {
        self.corners.iter().map(|corner| corner.at)
    }

    /// Both sides of the upright rectangle around it.
    pub(crate) fn extent(&self) -> (f64, f64) {
        let span = |of: fn(Point) -> f64| {
            let most = self.points().map(of).fold(f64::NEG_INFINITY, f64::max);
            most - self.points().map(of).fold(f64::INFINITY, f64::min)
        };
        (span(|point| point.x), span(|point| point.y))
    }
}

impl Trimmed<'_> {
    /// The outline of the rectangle with its trims.
    pub(super) fn shape(&self) -> PanelShape {
        let half = self.span / 2.0;
        let mut corners = vec![corner(-half, 0.0, Some("near")), corner(half, 0.0, None)];
        let [right, left] = self.cuts;
        // Up the right flank, over the far edge, and down the left flank.
        let side = |sign: f64, taper: f64, along: f64| {
            // A panel without reach is refused later; until then the taper must not divide by 0.
            let drawn_in = if self.reach > TOUCH_MM {
                taper * along / self.reach
            } else {
                0.0
            };
            sign * (half + self.overhang - drawn_in)
        };
        corners.push(corner(side(1.0, 0.0, 0.0), 0.0, Some(self.flanks[0])));
        let (bend_right, bend_left) = (self.reach - right.down, self.reach - left.down);
        let foot_right = Point::new(side(1.0, self.tapers[0], bend_right), bend_right);
        let tip_right = Point::new(
            side(1.0, self.tapers[0], self.reach) - right.along,
            self.reach,
        );
        let tip_left = Point::new(
            side(-1.0, self.tapers[1], self.reach) + left.along,
            self.reach,
        );
        let foot_left = Point::new(side(-1.0, self.tapers[1], bend_left), bend_left);
        corners.push(corner(foot_right.x, foot_right.y, None));
        if right.notch {
            corners.push(corner(tip_right.x, foot_right.y, None));
        }
        corners.push(ShapeCorner {
            at: tip_right,
            edge: Some("far".to_owned()),
        });
        corners.push(ShapeCorner {
            at: tip_left,
            edge: None,
        });
        if left.notch {
            corners.push(corner(tip_left.x, foot_left.y, None));
        }
        corners.push(ShapeCorner {
            at: foot_left,
            edge: Some(self.flanks[1].to_owned()),
        });
        corners.push(corner(side(-1.0, 0.0, 0.0), 0.0, None));
        PanelShape::through(corners)
    }
}

fn corner(x: f64, y: f64, edge: Option<&str>) -> ShapeCorner {
    ShapeCorner {
        at: Point::new(x, y),
        edge: edge.map(str::to_owned),
    }
}

/// Moves each edge of a counter-clockwise polygon inwards by its own distance; none if two parallel edges move by
/// different distances, so that they no longer meet.
pub(super) fn edges_moved_in(points: &[Point], inwards: &[f64]) -> Option<Vec<Point>> {
    let count = points.len();
    let direction = |edge: usize| (points[(edge + 1) % count] - points[edge]).unit();
    (0..count)
        .map(|corner| {
            let before = (corner + count - 1) % count;
            let (along_before, along) = (direction(before), direction(corner));
            let turn = along_before.cross(along);
            // Derived: the corner moves by m with m · left(before) = inwards(before), m · left(along) = inwards(along).
            if turn.abs() < TOUCH_MM {
                let like = (inwards[before] - inwards[corner]).abs() < TOUCH_MM;
                return like.then(|| points[corner] + along.left() * inwards[corner]);
            }
            let moved: Vector =
                along * (inwards[before] / turn) + along_before * (-inwards[corner] / turn);
            Some(points[corner] + moved)
        })
        .collect()
}
