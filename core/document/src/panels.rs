//! The panels of the tray: flat, hinged, interlocked, and as they stand when the tray is folded.
//!
//! Given with the root first and every parent before its children. A panel's pose moves its flat outline to where it
//! stands in the folded tray. Nothing here says in which order the hands fold.

use serde::{Deserialize, Serialize};

use crate::flat::Contour;
use crate::plane::Point;

/// A flat piece of the blank between creases.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Panel {
    /// The style's name for it.
    pub name: String,
    /// Its edge in the flat frame, counter-clockwise.
    pub outline: Contour,
    /// Holes in it, clockwise; a flap that hangs in a hole is a panel of its own.
    pub holes: Vec<Contour>,
    /// The crease on which it hangs; none for the root.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub hinge: Option<Hinge>,
    /// Where it stands in the folded tray.
    pub pose: Pose,
}

/// A crease as an axis of rotation.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Hinge {
    /// Index of the panel on which it hangs.
    pub parent: usize,
    /// The ends of the crease in the flat frame.
    pub line: [Point; 2],
    /// Angle of the finished fold; positive folds the drawn face inwards.
    pub fold_deg: f64,
    /// Height of the axis over the middle of the card, towards the inside of the fold.
    pub height: f64,
}

/// A tongue of one panel and the slit of another that it goes through when both are folded.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Interlock {
    /// The style's name for the tongue.
    pub name: String,
    /// Index of the panel that carries the tongue.
    pub panel: usize,
    /// The tongue in the flat frame: an open run from one end of its foot around its tip to the other.
    pub tongue: Contour,
    /// Index of the panel that it goes into.
    pub into: usize,
    /// Corners of the slit in the flat frame.
    pub slit: [Point; 4],
}

/// A rigid motion from the flat frame (z = 0 in the middle of the card) into the folded frame.
///
/// The folded frame is the flat frame of the root panel: a point `p` of the panel stands at `rows * p + shift`.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Pose {
    /// Rows of the rotation.
    pub rows: [[f64; 3]; 3],
    /// The translation.
    pub shift: [f64; 3],
}
