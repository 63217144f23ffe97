//! Words that are printed on a panel, so that they read upright in the finished tray.
//!
//! A label lies on one face of the card. Its place is that of the flat frame, seen from the drawn face, whichever face
//! carries it; words on the far face would be read mirrored from there, so no drawing of the drawn face has them.

use serde::{Deserialize, Serialize};

use crate::plane::{Extent, Point, Vector};
use crate::steady::Steady;

/// A face of the card, as the drawing sees it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum PrintedFace {
    /// The face that carries the lines.
    Drawn,
    /// The other face.
    Far,
}

/// Words on a panel.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct PanelLabel {
    /// The words.
    pub text: String,
    /// Index of the panel; on a sheet of stock, which has no panels, it is none of them.
    pub panel: usize,
    /// Middle of the words: half a capital above the middle of their baseline.
    pub at: Point,
    /// From the foot of the words to their top, one long.
    pub up: Vector,
    /// Height of a capital letter.
    pub height: f64,
    /// Width that is kept free for them.
    pub width: f64,
    /// The face that carries them.
    pub printed_on: PrintedFace,
}

impl PanelLabel {
    /// Whether a drawing of the drawn face has it.
    pub fn is_drawn(&self) -> bool {
        self.printed_on == PrintedFace::Drawn
    }

    /// The way in which the words run, one long, seen from the drawn face.
    // Derived: whoever looks onto the far face sees left and right swapped.
    pub fn along(&self) -> Vector {
        match self.printed_on {
            PrintedFace::Drawn => self.up.right(),
            PrintedFace::Far => self.up.left(),
        }
    }

    /// Middle of the baseline.
    pub fn foot(&self) -> Point {
        self.at + self.up * (-self.height / 2.0)
    }

    /// How far the words are turned counter-clockwise, in degrees, from words that run along x; exact at quarter turns.
    pub fn turned_deg(&self) -> f64 {
        let along = self.along();
        match (along.x, along.y) {
            (x, 0.0) if x > 0.0 => 0.0,
            (0.0, y) if y > 0.0 => 90.0,
            (_, 0.0) => 180.0,
            (0.0, _) => 270.0,
            (x, y) => y.steady_atan2(x).to_degrees(),
        }
    }

    /// Corners of the room of the words, letters below the baseline included: the lower left one as they are read, then
    /// on along the baseline.
    // Source: common practice, none published: g and p reach a third of a capital below the baseline.
    pub fn corners(&self) -> [Point; 4] {
        let half = self.along() * (self.width / 2.0);
        let (low, high) = (
            self.up * (-self.height * (0.5 + 1.0 / 3.0)),
            self.up * (self.height / 2.0),
        );
        [
            self.at + -half + low,
            self.at + half + low,
            self.at + half + high,
            self.at + -half + high,
        ]
    }

    /// The upright rectangle around them.
    pub fn extent(&self) -> Extent {
        Extent::around(self.corners())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn label(up: Vector, printed_on: PrintedFace) -> PanelLabel {
        PanelLabel {
            text: "Lens".to_owned(),
            panel: 0,
            at: Point::new(10.0, 20.0),
            up,
            height: 3.0,
            width: 8.0,
            printed_on,
        }
    }

    // Source: by hand: with its top to the left a text reads upwards; through the card left and right are swapped.
    #[test]
    fn words_run_to_the_right_of_their_top_and_to_its_left_on_the_far_face() {
        let left = Vector::new(-1.0, 0.0);
        let drawn = label(left, PrintedFace::Drawn);
        assert_eq!(drawn.along(), Vector::new(0.0, 1.0));
        assert_eq!(drawn.turned_deg(), 90.0);
        assert_eq!(drawn.foot(), Point::new(11.5, 20.0));
        assert_eq!(drawn.corners()[0], Point::new(12.5, 16.0));
        let far = label(left, PrintedFace::Far);
        assert_eq!(far.along(), Vector::new(0.0, -1.0));
        assert_eq!(far.corners()[0], Point::new(12.5, 24.0));
    }
}
