//! The folded tray: every panel a slab of the caliper, posed by turning about the creases.
//!
//! Given a tray and its blank; gives each panel's rigid motion from the flat frame and the outside of the whole.
//! The folded frame is the flat frame of the root with z out of the drawn face; z = 0 is the middle of the root's card.
//! A valley's axis lies `hinge` above the middle of the card, a mountain's as far below: always towards the inside of
//! its own fold. Panels are rigid; whether slabs meet is not asked here.

use crate::blank::Blank;
use crate::geometry::Point;
use crate::space::ConvexSolid;
use crate::tray::Tray;
use traywright_document::steady::Steady;

/// A tray in space.
#[derive(Clone, Debug)]
pub(crate) struct FoldedTray {
    /// Motion of each panel from the flat into the folded frame, in the tray's order.
    pub(crate) motions: Vec<Motion>,
    /// Least and greatest coordinates of all slabs.
    pub(crate) least: [f64; 3],
    pub(crate) most: [f64; 3],
    /// Corners of all slabs, seen from above.
    pub(crate) footprint: Vec<Point>,
}

/// A rigid motion: a rotation, then a shift.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Motion {
    pub(crate) rows: [[f64; 3]; 3],
    pub(crate) shift: [f64; 3],
}

impl Motion {
    /// No motion at all.
    pub(crate) const STILL: Motion = Motion {
        rows: [[1.0, 0.0, 0.0], [0.0, 1.0, 0.0], [0.0, 0.0, 1.0]],
        shift: [0.0; 3],
    };

    /// A turn about an axis in the plane of the card at a height, through `at`, along `way` (one long).
    // Source: Rodrigues' rotation formula.
    pub(crate) fn turn(at: Point, way: [f64; 2], height: f64, angle_deg: f64) -> Motion {
        let (sin, cos) = exact_sin_cos(angle_deg);
        let [x, y] = way;
        let rest = 1.0 - cos;
        let rows = [
            [cos + x * x * rest, x * y * rest, y * sin],
            [x * y * rest, cos + y * y * rest, -x * sin],
            [-y * sin, x * sin, cos],
        ];
        let origin = [at.x, at.y, height];
        let turned = Motion {
            rows,
            shift: [0.0; 3],
        }
        .apply(origin);
        Motion {
            rows,
            shift: std::array::from_fn(|axis| origin[axis] - turned[axis]),
        }
    }

    /// Where a place goes.
    pub(crate) fn apply(&self, place: [f64; 3]) -> [f64; 3] {
        std::array::from_fn(|axis| self.turn_way(place)[axis] + self.shift[axis])
    }

    /// How a way turns.
    pub(crate) fn turn_way(&self, way: [f64; 3]) -> [f64; 3] {
        std::array::from_fn(|axis| {
            (0..3)
                .map(|column| self.rows[axis][column] * way[column])
                .sum()
        })
    }

    /// A solid moved.
    pub(crate) fn place(&self, solid: &ConvexSolid) -> ConvexSolid {
        solid.moved(|corner| self.apply(corner), |way| self.turn_way(way))
    }

    /// The motion that takes everything back.
    pub(crate) fn inverse(&self) -> Motion {
        let rows = std::array::from_fn(|row| std::array::from_fn(|column| self.rows[column][row]));
        let back = Motion {
            rows,
            shift: [0.0; 3],
        };
        Motion {
            rows,
            shift: back.turn_way(self.shift).map(|part| -part),
        }
    }

    /// First `inner`, then this.
    pub(crate) fn after(&self, inner: &Motion) -> Motion {
        let product = |row: usize, column: usize| {
            (0..3)
                .map(|at| self.rows[row][at] * inner.rows[at][column])
                .sum()
        };
        let rows = std::array::from_fn(|row| std::array::from_fn(|column| product(row, column)));
        Motion {
            rows,
            shift: self.apply(inner.shift),
        }
    }
}

/// Sine and cosine, exact at quarter turns so that square trays have square poses.
fn exact_sin_cos(angle_deg: f64) -> (f64, f64) {
    match angle_deg {
        90.0 => (1.0, 0.0),
        -90.0 => (-1.0, 0.0),
        angle => angle.to_radians().steady_sin_cos(),
    }
}

impl FoldedTray {
    /// Folds every crease to its angle.
    pub(crate) fn fold(tray: &Tray, blank: &Blank) -> FoldedTray {
        let fold = |panel: usize| {
            tray.panels[panel]
                .hanging
                .as_ref()
                .map_or(0.0, |hanging| hanging.fold_deg)
        };
        let motions = motions(tray, fold);
        let mut folded = FoldedTray {
            motions,
            least: [f64::INFINITY; 3],
            most: [f64::NEG_INFINITY; 3],
            footprint: Vec::new(),
        };
        for (panel, motion) in folded.motions.clone().iter().enumerate() {
            for corner in slab(tray, blank, panel) {
                let place = motion.apply(corner);
                folded.least = std::array::from_fn(|axis| folded.least[axis].min(place[axis]));
                folded.most = std::array::from_fn(|axis| folded.most[axis].max(place[axis]));
                folded.footprint.push(Point::new(place[0], place[1]));
            }
        }
        folded
    }

    /// Outside of the folded tray along x, y and z.
    pub(crate) fn outside(&self) -> [f64; 3] {
        std::array::from_fn(|axis| self.most[axis] - self.least[axis])
    }
}

/// Corners of a panel's slab in the flat frame, below and above.
pub(crate) fn slab(tray: &Tray, blank: &Blank, panel: usize) -> impl Iterator<Item = [f64; 3]> {
    let half = tray.caliper / 2.0;
    let points: Vec<Point> = blank.panels[panel].outline.points().collect();
    points
        .into_iter()
        .flat_map(move |point| [[point.x, point.y, -half], [point.x, point.y, half]])
}

/// Each panel's motion when every crease is turned to the angle that `fold_deg` gives.
pub(crate) fn motions(tray: &Tray, fold_deg: impl Fn(usize) -> f64) -> Vec<Motion> {
    let mut motions: Vec<Motion> = vec![Motion::STILL; tray.panels.len()];
    for (index, panel) in tray.panels.iter().enumerate() {
        let Some((hanging, (from, to))) = panel.hanging.as_ref().zip(tray.hinge_line(index)) else {
            continue;
        };
        // The parent lies left of the crease; turning about its direction reversed lifts the panel on its right.
        let along = (from - to).unit();
        let height = tray.hinge * hanging.fold_deg.signum();
        let turn = Motion::turn(from, [along.x, along.y], height, fold_deg(index));
        motions[index] = motions[hanging.parent].after(&turn);
    }
    motions
}
