//! The panels of the tray: flat, hinged, interlocked, and posed in the folded tray.
//!
//! The root is first and every parent before its children. A panel's pose moves its flat outline to its position in the
//! folded tray. The folding order is not here.

use serde::{Deserialize, Serialize};

use crate::Document;
use crate::edge::Chords;
use crate::flat::Contour;
use crate::plane::{Point, Vector};

/// A flat piece of the blank between creases.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Panel {
    /// The style's name for it.
    pub name: String,
    /// The style's word for parts of its kind, which mirrored panels share: `side` of `side-south`. Empty where the document
    /// does not say; [`Panel::part`] then gives the name.
    #[serde(default)]
    pub part: String,
    /// Its edge in the flat frame, counter-clockwise.
    pub outline: Contour,
    /// Holes in it, clockwise; a flap in a hole is a panel of its own.
    pub holes: Vec<Contour>,
    /// Its crease; none for the root.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub hinge: Option<Hinge>,
    /// Its position in the folded tray.
    pub pose: Pose,
}

/// A crease as an axis of rotation.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Hinge {
    /// Index of the panel that it is hinged to.
    pub parent: usize,
    /// The ends of the crease in the flat frame: the panel is on the right of the line from the first to the second and
    /// its parent on the left, whichever face is drawn.
    pub line: [Point; 2],
    /// Angle of the finished fold; positive folds the drawn face inwards.
    pub fold_deg: f64,
    /// Height of the axis above the middle of the card, towards the inside of the fold.
    pub height: f64,
}

/// A tongue of one panel and the slit of another that it enters when both are folded.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Interlock {
    /// The style's name for the tongue.
    pub name: String,
    /// Index of the panel that carries the tongue.
    pub panel: usize,
    /// The tongue in the flat frame: an open contour from one end of its base around its tip to the other.
    pub tongue: Contour,
    /// Index of the panel that it enters.
    pub into: usize,
    /// Corners of the slit in the flat frame.
    pub slit: [Point; 4],
}

/// A rigid motion from the flat frame (z = 0 in the middle of the card) into the folded frame.
///
/// The folded frame is the flat frame of the root panel: a point `p` of the panel moves to `rows * p + shift`.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Pose {
    /// Rows of the rotation.
    pub rows: [[f64; 3]; 3],
    /// The translation.
    pub shift: [f64; 3],
}

/// A crease that is nearer to an edge than this runs along it.
// Derived: the chords of an arc and the pieces of a crease come from different sums; a thousandth of a millimetre is far
// more than their rounding, and far less than any panel is wide.
const ALONG_MM: f64 = 1e-3;

impl Document {
    /// The parts of a panel's edges that are cut, arcs as chords; the others are creases, its own or those of panels
    /// hinged to it.
    pub fn cut_edges(&self, panel: usize, chords: Chords) -> Vec<[Point; 2]> {
        let own = self.panels[panel].hinge.iter();
        let others = self.panels.iter().filter_map(|other| other.hinge.as_ref());
        let creases: Vec<&Hinge> = own
            .chain(others.filter(|hinge| hinge.parent == panel))
            .collect();
        let mut cuts = Vec::new();
        for contour in self.panels[panel].contours() {
            let corners = contour.corners(chords);
            let ends = corners.iter().zip(corners.iter().cycle().skip(1));
            cuts.extend(ends.flat_map(|(from, to)| cut_stretches([*from, *to], &creases)));
        }
        cuts
    }
}

impl Panel {
    /// The style's word for parts of its kind; its name where no word is given.
    pub fn part(&self) -> &str {
        if self.part.is_empty() {
            &self.name
        } else {
            &self.part
        }
    }

    /// Its outline, then its holes.
    pub fn contours(&self) -> impl Iterator<Item = &Contour> {
        std::iter::once(&self.outline).chain(&self.holes)
    }
}

/// The parts of an edge without a crease.
fn cut_stretches([from, to]: [Point; 2], creases: &[&Hinge]) -> Vec<[Point; 2]> {
    let (way, length) = (to - from, (to - from).length());
    if length < ALONG_MM {
        return Vec::new();
    }
    let shared = creases.iter().filter_map(|hinge| shared(from, way, hinge));
    let mut taken: Vec<[f64; 2]> = shared.collect();
    taken.sort_by(|one, other| one[0].total_cmp(&other[0]));
    let place = |part: f64| from + way * part;
    let mut cuts = Vec::new();
    let mut reached = 0.0;
    for [start, end] in taken.into_iter().chain([[1.0, 1.0]]) {
        if (start - reached) * length > ALONG_MM {
            cuts.push([place(reached), place(start)]);
        }
        reached = end.max(reached);
    }
    cuts
}

/// The part of an edge with a crease along it, as fractions of its length.
fn shared(from: Point, way: Vector, hinge: &Hinge) -> Option<[f64; 2]> {
    let length = way.length();
    let parts = hinge.line.map(|end| {
        let aside = (end - from).cross(way) / length;
        let part = (end - from).dot(way) / (length * length);
        (aside.abs() < ALONG_MM).then_some(part)
    });
    let [one, other] = [parts[0]?, parts[1]?];
    let (start, end) = (one.min(other).max(0.0), one.max(other).min(1.0));
    (end > start).then_some([start, end])
}
