//! Where the reader's eye is, and where a point in space lies on paper.
//!
//! Given an azimuth and an elevation; gives places across, up and towards the eye. The eye is so far away that parallels
//! stay parallel. Nothing is scaled.

use traywright_document::space::{Vec3, cross, dot};
use traywright_document::steady::Steady;

/// A direction from which the tray is seen.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct View {
    /// Where the eye stands, counter-clockwise from x as seen from above.
    pub(crate) azimuth_deg: f64,
    /// How high it stands over the table.
    pub(crate) elevation_deg: f64,
}

impl View {
    /// The first view of a tray: from its south, a little from the west.
    pub(crate) const FIRST: View = View::new(-63.0, 38.0);

    /// All views, the first one first. Odd angles, so that edges of square trays do not fall onto one another.
    pub(crate) const ALL: [View; 8] = [
        View::FIRST,
        View::new(-117.0, 38.0),
        View::new(63.0, 38.0),
        View::new(117.0, 38.0),
        View::new(-63.0, 61.0),
        View::new(-117.0, 61.0),
        View::new(63.0, 61.0),
        View::new(117.0, 61.0),
    ];

    const fn new(azimuth_deg: f64, elevation_deg: f64) -> View {
        View {
            azimuth_deg,
            elevation_deg,
        }
    }

    /// By how much the tray turns on the table, counter-clockwise from above, when it is seen from here and then from
    /// there; at most half round.
    // Derived: the eye goes round the tray by the difference; seen by the eye, the tray goes round the other way.
    pub(crate) fn turn_to(self, other: View) -> f64 {
        let turn = (self.azimuth_deg - other.azimuth_deg).rem_euclid(360.0);
        if turn > 180.0 { turn - 360.0 } else { turn }
    }

    /// The ways across the paper, up the paper, and towards the eye.
    pub(crate) fn axes(self) -> [Vec3; 3] {
        let (sin_a, cos_a) = self.azimuth_deg.to_radians().steady_sin_cos();
        let (sin_e, cos_e) = self.elevation_deg.to_radians().steady_sin_cos();
        let towards = [cos_e * cos_a, cos_e * sin_a, sin_e];
        let across = [-sin_a, cos_a, 0.0];
        [across, cross(towards, across), towards]
    }

    /// A place as seen: across, up, and towards the eye.
    pub(crate) fn seen(self, place: Vec3) -> Vec3 {
        self.axes().map(|axis| dot(axis, place))
    }

    /// The same without how near it is.
    pub(crate) fn on_plane(self, place: Vec3) -> [f64; 2] {
        let [across, up, _] = self.seen(place);
        [across, up]
    }
}
