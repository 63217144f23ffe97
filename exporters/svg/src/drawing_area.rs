//! The drawing area, and where the blank lies on it.
//!
//! Given the document; gives the place on the sheet of any point of the flat frame. The blank stands at the upper left
//! and is moved by whole millimetres only, so that its numbers keep their decimals and neither the words beside it nor
//! the foot below it change a digit of its lines. y is turned round here and nowhere else.

use traywright_document::{Dimension, Document, Extent, Point};

use crate::ticks::TickPoint;
use crate::words;

/// White border around all that is drawn.
// Source: common practice, none published.
pub(crate) const BORDER: f64 = 10.0;

/// The sheet.
pub(crate) struct DrawingArea {
    /// Added to an x of the flat frame.
    right: f64,
    /// A y of the flat frame is taken from this.
    down: f64,
    /// All that is drawn of the blank and its measures, in the flat frame.
    drawn: Extent,
}

impl DrawingArea {
    /// Makes room for the blank and the measures beside it.
    pub(crate) fn new(document: &Document) -> DrawingArea {
        let measures = document.flat.dimensions.iter().map(reach);
        let drawn = measures.fold(document.flat.extent, around);
        DrawingArea {
            right: (BORDER - settled(drawn.least.x)).ceil(),
            down: (BORDER + settled(drawn.most.y)).ceil(),
            drawn,
        }
    }

    /// Makes room for what a machine cuts and for nothing else.
    pub(crate) fn bare(document: &Document) -> DrawingArea {
        let drawn = document.cut_extent();
        DrawingArea {
            right: -drawn.least.x,
            down: drawn.most.y,
            drawn,
        }
    }

    /// Width and height of a sheet without a border and a foot.
    pub(crate) fn bare_size(&self) -> TickPoint {
        let [width, height] = self.drawn.size();
        TickPoint::new(width, height)
    }

    /// A sheet with the flat frame's origin at this place, for tests of lines alone.
    #[cfg(test)]
    pub(crate) fn at(right: f64, down: f64) -> DrawingArea {
        let (least, most) = (Point { x: 0.0, y: 0.0 }, Point { x: 0.0, y: 0.0 });
        DrawingArea {
            right,
            down,
            drawn: Extent { least, most },
        }
    }

    /// A point of the flat frame on the sheet.
    pub(crate) fn place(&self, point: Point) -> TickPoint {
        TickPoint::new(self.right + point.x, self.down - point.y)
    }

    /// Width of the blank with its measures.
    pub(crate) fn drawn_width(&self) -> f64 {
        self.drawn.most.x - self.drawn.least.x
    }

    /// Upper left corner of the room below the blank, on the sheet.
    pub(crate) fn foot_corner(&self) -> Point {
        Point {
            x: BORDER,
            y: (self.down - self.drawn.least.y).ceil() + BORDER,
        }
    }

    /// Width and height of the sheet in whole millimetres, with a foot whose lower right corner is given.
    pub(crate) fn size(&self, foot_end: Point) -> (f64, f64) {
        let right = (self.right + self.drawn.most.x).max(foot_end.x);
        ((right + BORDER).ceil(), (foot_end.y + BORDER).ceil())
    }
}

/// Without the noise of arithmetic, which must not decide over a whole millimetre.
fn settled(length: f64) -> f64 {
    (length * 1e4).round() / 1e4
}

/// The extent of a measure with its words.
fn reach(dimension: &Dimension) -> Extent {
    let half = words::width(&dimension.text, dimension.text_height) / 2.0;
    let at = dimension.text_at;
    let corner = |x: f64, y: f64| Point { x, y };
    let mut extent = Extent {
        least: corner(at.x - half, at.y),
        most: corner(at.x + half, at.y + dimension.text_height),
    };
    for point in dimension
        .line
        .iter()
        .chain(dimension.extensions.iter().flatten())
    {
        let (least, most) = (*point, *point);
        extent = around(extent, Extent { least, most });
    }
    extent
}

/// The extent around two.
fn around(one: Extent, other: Extent) -> Extent {
    Extent {
        least: Point {
            x: one.least.x.min(other.least.x),
            y: one.least.y.min(other.least.y),
        },
        most: Point {
            x: one.most.x.max(other.most.x),
            y: one.most.y.max(other.most.y),
        },
    }
}
