//! Boxes around the solids of a panel, which quickly show that two panels cannot meet.
//!
//! **Input:** solids and a pose. **Output:** a box along the axes of the frame that the pose leads into. **Does not**
//! tell that two panels do meet.

use traywright_document::Pose;

use crate::space::{ConvexSolid, Vec3};

/// How far apart boxes must lie to count as apart; more than all rounding errors.
// Derived: the same as the distance within which two solids count as being in contact.
const APART_MM: f64 = 1e-6;

/// A box along the axes of its frame.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Bounds {
    middle: Vec3,
    /// Half of its size; below 0 around nothing.
    half: Vec3,
}

impl Bounds {
    /// The smallest box around all corners of these solids.
    pub(crate) fn around<'s>(solids: impl Iterator<Item = &'s ConvexSolid>) -> Bounds {
        let (mut least, mut most) = ([f64::INFINITY; 3], [f64::NEG_INFINITY; 3]);
        for corner in solids.flat_map(|solid| &solid.corners) {
            for axis in 0..3 {
                least[axis] = least[axis].min(corner[axis]);
                most[axis] = most[axis].max(corner[axis]);
            }
        }
        if least[0] > most[0] {
            return Bounds {
                middle: [0.0; 3],
                half: [f64::NEG_INFINITY; 3],
            };
        }
        Bounds {
            middle: std::array::from_fn(|axis| (least[axis] + most[axis]) / 2.0),
            half: std::array::from_fn(|axis| (most[axis] - least[axis]) / 2.0),
        }
    }

    /// The smallest box along the axes of another frame around this box.
    pub(crate) fn placed(&self, pose: &Pose) -> Bounds {
        let half = |axis: usize| {
            let row = pose.rows[axis];
            row[0].abs() * self.half[0] + row[1].abs() * self.half[1] + row[2].abs() * self.half[2]
        };
        Bounds {
            middle: pose.apply(self.middle),
            half: if self.is_empty() {
                self.half
            } else {
                std::array::from_fn(half)
            },
        }
    }

    /// Whether two boxes of one frame have no point in common.
    pub(crate) fn apart(&self, other: &Bounds) -> bool {
        (0..3).any(|axis| self.apart_along(other, axis))
    }

    /// Whether two boxes stay apart while one of them turns about the third axis: they lie beside each other along the
    /// axis, or one is nearer to it than the other all around.
    pub(crate) fn pass_by(&self, other: &Bounds) -> bool {
        if self.apart_along(other, 2) {
            return true;
        }
        let ([near, far], [other_near, other_far]) =
            (self.distances_from_axis(), other.distances_from_axis());
        far + APART_MM < other_near || other_far + APART_MM < near
    }

    /// The greatest distance of a point of the box from a place.
    pub(crate) fn farthest(&self, from: Vec3) -> f64 {
        if self.is_empty() {
            return 0.0;
        }
        let away = |axis: usize| (self.middle[axis] - from[axis]).abs() + self.half[axis];
        (0..3)
            .map(|axis| away(axis) * away(axis))
            .sum::<f64>()
            .sqrt()
    }

    fn is_empty(&self) -> bool {
        self.half[0] < 0.0
    }

    fn apart_along(&self, other: &Bounds, axis: usize) -> bool {
        let away = (self.middle[axis] - other.middle[axis]).abs();
        away > self.half[axis] + other.half[axis] + APART_MM
    }

    /// The least and the greatest distance from the third axis.
    fn distances_from_axis(&self) -> [f64; 2] {
        let [x, y] = [0, 1].map(|axis| self.middle[axis].abs());
        let (nearest_x, nearest_y) = ((x - self.half[0]).max(0.0), (y - self.half[1]).max(0.0));
        let (farthest_x, farthest_y) = (x + self.half[0], y + self.half[1]);
        [
            (nearest_x * nearest_x + nearest_y * nearest_y).sqrt(),
            (farthest_x * farthest_x + farthest_y * farthest_y).sqrt(),
        ]
    }
}
