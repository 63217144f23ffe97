//! The blank: lines on a flat card, by processing step.
//!
//! In the flat frame (mm, y up, x along the box's length, seen from the drawn face). Nothing is rounded and nothing is
//! drawn twice: a line that two contours would share is an open cut of its own.

use serde::{Deserialize, Serialize};

use crate::panel_label::PanelLabel;
use crate::picture::PanelPicture;
use crate::plane::{Extent, Point};

/// The processing step of a line. The names are those of ISO 19593-1.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub enum ProcessingStep {
    /// Cut through.
    Cutting,
    /// Creased; the drawn face folds inwards.
    Creasing,
    /// Creased; the drawn face folds outwards.
    ReverseCreasing,
    /// Cut in short pieces along a crease; the drawn face folds inwards.
    Perforating,
    /// Cut in short pieces along a crease; the drawn face folds outwards.
    ReversePerforating,
    /// Not made at all: dimensions for the reader.
    Dimensions,
    /// A step of a later release: an exporter that does not know it must not let a machine work along the line.
    #[serde(other)]
    Other,
}

/// The line from one point of a contour to the next.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Segment {
    /// Straight.
    Line {
        /// Its end.
        to: Point,
    },
    /// A circular arc.
    Arc {
        /// Its end.
        to: Point,
        /// Tangent of a quarter of the angle of the arc; positive turns counter-clockwise.
        // Source: DXF reference, LWPOLYLINE, group 42.
        bulge: f64,
    },
}

/// A run of segments.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Contour {
    /// Its start.
    pub start: Point,
    /// Its segments. Those of a closed contour end at `start`.
    pub segments: Vec<Segment>,
    /// Whether it returns to its start.
    pub closed: bool,
}

/// A straight line to crease.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct CreaseLine {
    /// One end.
    pub from: Point,
    /// The other end.
    pub to: Point,
    /// Fold angle in the finished tray; positive folds the drawn face inwards.
    pub fold_deg: f64,
    /// Index of the panel that moves at it.
    pub panel: usize,
}

/// A dimension beside the blank, already placed so that it touches no other.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Dimension {
    /// The words: a number in the maker's unit.
    pub text: String,
    /// Middle of the text's baseline, which runs along x.
    pub text_at: Point,
    /// Height of a capital letter.
    pub text_height: f64,
    /// The dimension line; [`Dimension::heads`] are at both ends.
    pub line: [Point; 2],
    /// Lines from the measured points past the dimension line, and tails for heads and words outside it.
    pub extensions: Vec<[Point; 2]>,
}

/// A name written on the blank, already placed so that it touches no line.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Label {
    /// The words.
    pub text: String,
    /// Middle of the text's baseline, which runs along x.
    pub at: Point,
    /// Height of a capital letter.
    pub height: f64,
}

/// All lines of the blank.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Flat {
    /// Extent of the outline.
    pub extent: Extent,
    /// The outer edge: one closed contour, counter-clockwise.
    pub outline: Contour,
    /// Closed cuts inside it, clockwise.
    pub holes: Vec<Contour>,
    /// Cuts that do not close.
    pub open_cuts: Vec<Contour>,
    /// Lines to crease.
    pub creases: Vec<CreaseLine>,
    /// Names of the items in their openings, if there are several.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub labels: Vec<Label>,
    /// The letters of the parts on their panels, as [`Document::parts`](crate::Document::parts) gives them, where the job wants
    /// them. They are for readers: no machine works along them.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub letters: Vec<Label>,
    /// The pictures that the job prints on panels, on either face; labels lie over them.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub panel_pictures: Vec<PanelPicture>,
    /// The words that the job prints on panels, on either face.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub panel_labels: Vec<PanelLabel>,
    /// Dimensions for the reader.
    pub dimensions: Vec<Dimension>,
}

impl ProcessingStep {
    /// All steps that this release knows, in the order in which a legend lists them.
    pub const ALL: [ProcessingStep; 6] = [
        ProcessingStep::Cutting,
        ProcessingStep::Creasing,
        ProcessingStep::ReverseCreasing,
        ProcessingStep::Perforating,
        ProcessingStep::ReversePerforating,
        ProcessingStep::Dimensions,
    ];
}

impl CreaseLine {
    /// The processing step for the direction of the fold.
    pub fn step(&self) -> ProcessingStep {
        if self.fold_deg < 0.0 {
            ProcessingStep::ReverseCreasing
        } else {
            ProcessingStep::Creasing
        }
    }
}

impl Dimension {
    /// Both arrow heads as triangles, the tip first: pointing outwards, or inwards from outside if the line is shorter
    /// than three of them.
    // Source: common practice, none published: as long as the words are high, a third as wide, filled.
    pub fn heads(&self) -> [[Point; 3]; 2] {
        let [from, to] = self.line;
        let length = (to - from).length();
        let size = self.text_height;
        if length == 0.0 {
            return [[from; 3]; 2];
        }
        let inwards = if length < 3.0 * size { -size } else { size };
        let along = (to - from).unit();
        [(from, 1.0), (to, -1.0)].map(|(tip, way)| {
            let corner = |across: f64| tip + along * (way * inwards) + along.left() * across;
            [tip, corner(size / 6.0), corner(-size / 6.0)]
        })
    }
}

impl Segment {
    /// The end of the segment.
    pub fn to(&self) -> Point {
        match *self {
            Segment::Line { to } | Segment::Arc { to, .. } => to,
        }
    }

    /// Tangent of a quarter of the angle of an arc; 0 for a straight segment.
    pub fn bulge(&self) -> f64 {
        match *self {
            Segment::Line { .. } => 0.0,
            Segment::Arc { bulge, .. } => bulge,
        }
    }
}
