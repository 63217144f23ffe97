//! The blank: lines on a flat card, by what is done along them.
//!
//! Given in the flat frame (mm, y up, x along the box's length, seen from the drawn face). Nothing here is rounded
//! and nothing is drawn twice: a line that two contours would share is an open cut of its own.

use serde::{Deserialize, Serialize};

use crate::plane::{Extent, Point};

/// What is done along a line. The names are the processing steps of ISO 19593-1.
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
    /// Not made at all: measures for the reader.
    Dimensions,
    /// A step of a later release: an exporter that does not know it lets no machine work along the line.
    #[serde(other)]
    Other,
}

/// The way from one point of a contour to the next.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Segment {
    /// Straight.
    Line {
        /// Where it ends.
        to: Point,
    },
    /// A circular arc.
    Arc {
        /// Where it ends.
        to: Point,
        /// Tangent of a quarter of the angle swept; positive turns counter-clockwise.
        // Source: DXF reference, LWPOLYLINE, group 42.
        bulge: f64,
    },
}

/// A run of segments.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Contour {
    /// Where it begins.
    pub start: Point,
    /// Its segments. Those of a closed contour end at `start`.
    pub segments: Vec<Segment>,
    /// Whether it comes back to where it began.
    pub closed: bool,
}

/// A straight line to crease.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct CreaseLine {
    /// One end.
    pub from: Point,
    /// The other end.
    pub to: Point,
    /// How far it is folded in the finished tray; positive folds the drawn face inwards.
    pub fold_deg: f64,
    /// Index of the panel that it moves.
    pub panel: usize,
}

/// A measure written beside the blank, already placed so that it meets no other.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Dimension {
    /// The words: a number in the maker's unit.
    pub text: String,
    /// Middle of the foot of the text, which reads along x.
    pub text_at: Point,
    /// Height of a capital letter.
    pub text_height: f64,
    /// The dimension line; [`Dimension::heads`] stand at both ends.
    pub line: [Point; 2],
    /// Lines that lead from the measured points past the dimension line, and those that carry heads and words outside it.
    pub extensions: Vec<[Point; 2]>,
}

/// A name written on the blank, already placed so that it meets no line.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Label {
    /// The words.
    pub text: String,
    /// Middle of the foot of the text, which reads along x.
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
    /// Names of the items in their openings, where there are several.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub labels: Vec<Label>,
    /// The letters of the parts on their panels, as [`Document::parts`](crate::Document::parts) gives them, where the job wants
    /// them. They are for readers: no machine works along them.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub letters: Vec<Label>,
    /// Measures for the reader.
    pub dimensions: Vec<Dimension>,
}

impl ProcessingStep {
    /// All steps that this release knows, in the order in which a legend lists them.
    pub const ALL: [ProcessingStep; 4] = [
        ProcessingStep::Cutting,
        ProcessingStep::Creasing,
        ProcessingStep::ReverseCreasing,
        ProcessingStep::Dimensions,
    ];
}

impl CreaseLine {
    /// The processing step that the sense of the fold asks for.
    pub fn step(&self) -> ProcessingStep {
        if self.fold_deg < 0.0 {
            ProcessingStep::ReverseCreasing
        } else {
            ProcessingStep::Creasing
        }
    }
}

impl Dimension {
    /// Both arrow heads as triangles, the tip first: pointing outwards, or from outside inwards where the line is shorter
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
    /// Where the segment ends.
    pub fn to(&self) -> Point {
        match *self {
            Segment::Line { to } | Segment::Arc { to, .. } => to,
        }
    }

    /// Tangent of a quarter of the angle of an arc; 0 where the segment is straight.
    pub fn bulge(&self) -> f64 {
        match *self {
            Segment::Line { .. } => 0.0,
            Segment::Arc { bulge, .. } => bulge,
        }
    }
}
