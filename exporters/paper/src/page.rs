//! One page and what is on it, in millimetres.
//!
//! Given a size and marks; gives them back in order. A page may be enlarged by a factor in each of its own directions, to
//! make up for a printer that shrinks it: then places and lengths of all its marks grow, widths of lines do not.
//! Nothing here leaves the page or is cut off: whoever draws must see to that.

use traywright_look::{Colour, Layer, LineStyle};

/// A place on the page, from the lower left corner of its own frame, y up.
pub type PointMm = [f64; 2];

/// A page.
#[derive(Clone, Debug, PartialEq)]
pub struct Page {
    /// Width and height of the paper.
    pub size: [f64; 2],
    /// Where on the paper the frame of the marks begins.
    pub origin: PointMm,
    /// How many millimetres on paper a millimetre of the marks takes, along x and y.
    pub enlarged: [f64; 2],
    /// What is kept of the paper; all of it, where that is not said.
    pub kept: Option<Kept>,
    /// What is on it, in the order of painting.
    pub marks: Vec<(Option<Layer>, Mark)>,
}

/// What is kept of a page that is cut down, in the frame of its marks.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Kept {
    /// Its lower left corner.
    pub least: PointMm,
    /// Its upper right corner.
    pub most: PointMm,
    /// How far print reaches beyond it, on paper.
    pub bleed: f64,
}

/// One thing on a page.
#[derive(Clone, Debug, PartialEq)]
pub enum Mark {
    /// A line.
    Stroke {
        /// Its pen.
        look: LineStyle,
        /// How far into its pattern of dashes it begins.
        phase: f64,
        /// Where it runs.
        run: StrokePath,
    },
    /// An area: its outline, and holes whose corners run the other way round.
    Fill(Colour, Vec<Vec<PointMm>>),
    /// A line of words.
    Words(Words),
}

/// Where a line runs.
#[derive(Clone, Debug, PartialEq)]
pub struct StrokePath {
    /// Where it begins.
    pub start: PointMm,
    /// Its steps.
    pub steps: Vec<Step>,
    /// Whether the last place is joined with the first one.
    pub closed: bool,
}

/// The way to the next place of a run.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Step {
    /// Straight.
    To(PointMm),
    /// A cubic curve: two places that draw it to themselves, and its end.
    Curve([PointMm; 3]),
}

/// Words in one line.
#[derive(Clone, Debug, PartialEq)]
pub struct Words {
    /// What they say.
    pub text: String,
    /// Where the foot of the first letter begins.
    pub at: PointMm,
    /// Height of a capital letter.
    pub capital: f64,
    /// Their colour.
    pub colour: Colour,
    /// Whether they climb: read with the page turned clockwise.
    pub climbing: bool,
}

impl Page {
    /// An empty page whose marks are counted from its lower left corner.
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

    /// A line from place to place, joined with its beginning.
    pub fn ring(places: &[PointMm]) -> StrokePath {
        let (first, rest) = places.split_first().expect("a ring has places");
        StrokePath {
            start: *first,
            steps: rest.iter().map(|place| Step::To(*place)).collect(),
            closed: true,
        }
    }
}
