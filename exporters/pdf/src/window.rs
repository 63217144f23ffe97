//! What one sheet shows of the blank: an upright rectangle in the blank's own frame.
//!
//! Given a corner and a size; tells what lies in it. It knows no paper.

use traywright_paper::PointMm;

/// Places nearer than this are one place: far below what paper can show, far above the noise of arithmetic.
pub(crate) const TOUCH: f64 = 1e-6;

/// An upright rectangle.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Window {
    /// Lower left corner.
    pub(crate) least: PointMm,
    /// Upper right corner.
    pub(crate) most: PointMm,
}

impl Window {
    /// From its lower left corner and its size.
    pub(crate) fn new(least: PointMm, size: [f64; 2]) -> Window {
        Window {
            least,
            most: [least[0] + size[0], least[1] + size[1]],
        }
    }

    /// One place and nothing around it.
    pub(crate) fn at(place: PointMm) -> Window {
        Window {
            least: place,
            most: place,
        }
    }

    /// The smallest one around places.
    pub(crate) fn around(places: impl IntoIterator<Item = PointMm>) -> Window {
        let none = Window {
            least: [f64::INFINITY; 2],
            most: [f64::NEG_INFINITY; 2],
        };
        places.into_iter().fold(none, |window, place| Window {
            least: [0, 1].map(|axis| window.least[axis].min(place[axis])),
            most: [0, 1].map(|axis| window.most[axis].max(place[axis])),
        })
    }

    /// Width and height.
    pub(crate) fn size(&self) -> [f64; 2] {
        [self.most[0] - self.least[0], self.most[1] - self.least[1]]
    }

    /// The place in its middle.
    pub(crate) fn middle(&self) -> PointMm {
        [0, 1].map(|axis| (self.least[axis] + self.most[axis]) / 2.0)
    }

    /// Whether a place lies in it, edges included.
    pub(crate) fn has(&self, place: PointMm) -> bool {
        (0..2).all(|axis| {
            place[axis] >= self.least[axis] - TOUCH && place[axis] <= self.most[axis] + TOUCH
        })
    }

    /// Whether all of another one lies in it.
    pub(crate) fn covers(&self, other: &Window) -> bool {
        self.has(other.least) && self.has(other.most)
    }

    /// Wider by that much on all sides.
    pub(crate) fn wider(&self, by: f64) -> Window {
        Window {
            least: self.least.map(|side| side - by),
            most: self.most.map(|side| side + by),
        }
    }

    /// What two have in common, if it is an area.
    pub(crate) fn common(&self, other: &Window) -> Option<Window> {
        let least = [0, 1].map(|axis| self.least[axis].max(other.least[axis]));
        let most = [0, 1].map(|axis| self.most[axis].min(other.most[axis]));
        (0..2)
            .all(|axis| most[axis] > least[axis])
            .then_some(Window { least, most })
    }

    /// Its corners, counter-clockwise from the lower left one.
    pub(crate) fn corners(&self) -> [PointMm; 4] {
        let (least, most) = (self.least, self.most);
        [least, [most[0], least[1]], most, [least[0], most[1]]]
    }
}
