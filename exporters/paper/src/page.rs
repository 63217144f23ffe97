//! One page and its marks, in millimetres.
//!
//! **Input:** a size and marks. **Output:** the marks in order. A page may be enlarged by a factor along each axis, to
//! compensate for a printer that shrinks it: then positions and lengths of all its marks grow, widths of lines do not.
//! The page does not clip: the caller must keep marks inside it.

use std::rc::Rc;

use traywright_document::PngFile;
use traywright_look::{Colour, Layer, LineStyle};

/// A point on the page, from the lower left corner of its own frame, y up.
pub type PointMm = [f64; 2];

/// A page.
#[derive(Clone, Debug, PartialEq)]
pub struct Page {
    /// Width and height of the paper.
    pub size: [f64; 2],
    /// Origin of the marks' frame on the paper.
    pub origin: PointMm,
    /// Millimetres on paper per millimetre of the marks, along x and y.
    pub enlarged: [f64; 2],
    /// The part of the paper that is kept; none for all of it.
    pub kept: Option<Kept>,
    /// What is on it, in the order of painting.
    pub marks: Vec<(Option<Layer>, Mark)>,
}

/// The part of a trimmed page that is kept, in the frame of its marks.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Kept {
    /// Its lower left corner.
    pub least: PointMm,
    /// Its upper right corner.
    pub most: PointMm,
    /// How far print extends beyond it, on paper.
    pub bleed: f64,
}

/// The kinds of mark.
#[derive(Clone, Debug, PartialEq)]
pub enum Mark {
    /// A line.
    Stroke {
        /// Its style.
        look: LineStyle,
        /// Offset into its pattern of dashes at its start.
        phase: f64,
        /// Its path.
        run: StrokePath,
    },
    /// An area: its outline, and holes whose corners run in the opposite direction.
    Fill(Colour, Vec<Vec<PointMm>>),
    /// A line of words.
    Words(Words),
    /// A line of words that lie on something.
    Laid(LaidWords),
    /// A picture that lies on something.
    Picture(LaidPicture),
}

/// The path of a line.
#[derive(Clone, Debug, PartialEq)]
pub struct StrokePath {
    /// Its start.
    pub start: PointMm,
    /// Its steps.
    pub steps: Vec<Step>,
    /// Whether the last point is joined to the first.
    pub closed: bool,
}

/// The line to the next point of a path.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Step {
    /// Straight.
    To(PointMm),
    /// A cubic curve: two control points and its end.
    Curve([PointMm; 3]),
}

/// Words in one line.
#[derive(Clone, Debug, PartialEq)]
pub struct Words {
    /// The text.
    pub text: String,
    /// Start of the baseline.
    pub at: PointMm,
    /// Height of a capital letter.
    pub capital: f64,
    /// Their colour.
    pub colour: Colour,
    /// Whether they run upwards, to be read with the page turned clockwise.
    pub climbing: bool,
}

/// Words in one line that lie on a plane, however that is seen: turned, slanted or drawn out.
#[derive(Clone, Debug, PartialEq)]
pub struct LaidWords {
    /// The text.
    pub text: String,
    /// Middle of the baseline.
    pub at: PointMm,
    /// What a millimetre along the baseline is on the page.
    pub along: PointMm,
    /// What a millimetre from the baseline to the top of the words is on the page.
    pub up: PointMm,
    /// Height of a capital letter on its plane.
    pub capital: f64,
    /// Their colour.
    pub colour: Colour,
    /// The lower left and the upper right corner of what is shown of them; all where there is none.
    pub shown: Option<[PointMm; 2]>,
}

/// A picture that lies on a plane, however that is seen.
#[derive(Clone, Debug, PartialEq)]
pub struct LaidPicture {
    /// Its file.
    pub file: Rc<PngFile>,
    /// Its lower left corner.
    pub at: PointMm,
    /// The way along its foot, all of it, on the page.
    pub across: PointMm,
    /// The way from its foot to its top on the page.
    pub up: PointMm,
    /// What shows of it: rings, of which an odd number lies around every point that shows.
    pub shown: Vec<Vec<PointMm>>,
    /// The lower left and the upper right corner of the part of the page that shows it; all where there is none.
    pub window: Option<[PointMm; 2]>,
}

impl LaidPicture {
    /// The same picture where every point of the page is somewhere else.
    pub fn moved(self, to: &dyn Fn(PointMm) -> PointMm) -> LaidPicture {
        let at = to(self.at);
        let way = |way: PointMm| {
            let end = to([0, 1].map(|axis| self.at[axis] + way[axis]));
            [0, 1].map(|axis| end[axis] - at[axis])
        };
        let ring = |ring: Vec<PointMm>| ring.into_iter().map(to).collect();
        LaidPicture {
            across: way(self.across),
            up: way(self.up),
            shown: self.shown.into_iter().map(ring).collect(),
            window: self.window.map(|corners| corners.map(to)),
            at,
            ..self
        }
    }
}

impl LaidWords {
    /// The same words where every point of the page is somewhere else.
    pub fn moved(self, to: &dyn Fn(PointMm) -> PointMm) -> LaidWords {
        let at = to(self.at);
        let way = |way: PointMm| {
            let end = to([0, 1].map(|axis| self.at[axis] + way[axis]));
            [0, 1].map(|axis| end[axis] - at[axis])
        };
        LaidWords {
            along: way(self.along),
            up: way(self.up),
            shown: self.shown.map(|corners| corners.map(to)),
            at,
            ..self
        }
    }
}

impl Page {
    /// An empty page whose marks are relative to its lower left corner.
    pub fn new(size: [f64; 2]) -> Page {
        Page {
            size,
            origin: [0.0, 0.0],
            enlarged: [1.0, 1.0],
            kept: None,
            marks: Vec::new(),
        }
    }

    /// Draws a straight line outside the layers.
    pub fn line(&mut self, look: LineStyle, from: PointMm, to: PointMm) {
        self.run(look, StrokePath::straight(from, to));
    }

    /// Draws a line outside the layers.
    pub fn run(&mut self, look: LineStyle, run: StrokePath) {
        self.marks.push((
            None,
            Mark::Stroke {
                look,
                phase: 0.0,
                run,
            },
        ));
    }

    /// Fills an area outside the layers.
    pub fn fill(&mut self, colour: Colour, corners: Vec<PointMm>) {
        self.marks.push((None, Mark::Fill(colour, vec![corners])));
    }

    /// Writes a line of words outside the layers.
    pub fn write(&mut self, words: Words) {
        self.marks.push((None, Mark::Words(words)));
    }
}

impl StrokePath {
    /// A straight line.
    pub fn straight(from: PointMm, to: PointMm) -> StrokePath {
        StrokePath {
            start: from,
            steps: vec![Step::To(to)],
            closed: false,
        }
    }

    /// A line through points, closed to the first.
    pub fn ring(places: &[PointMm]) -> StrokePath {
        let (first, rest) = places.split_first().expect("a ring has places");
        StrokePath {
            start: *first,
            steps: rest.iter().map(|place| Step::To(*place)).collect(),
            closed: true,
        }
    }
}
