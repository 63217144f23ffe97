//! A unit of a page: a few lines of words, a bar, a map, a figure.
//!
//! **Input:** words or marks. **Output:** a rectangle with marks relative to its lower left corner, to be put anywhere.
//! It does not know its position.

use crate::font::Font;
use crate::page::{LaidPicture, LaidWords, Mark, Page, PointMm, Step, StrokePath, Words};
use crate::print::POINTS;
use traywright_look::{Colour, INK, LineStyle};

/// Distance of lines of words, as a multiple of the height of their capitals.
pub const LEADING: f64 = 1.75;

/// A rectangle with marks in it.
#[derive(Clone, Debug, Default)]
pub struct Block {
    /// Width and height.
    pub size: [f64; 2],
    marks: Vec<Mark>,
}

/// One line of words for a block.
#[derive(Clone, Debug)]
pub struct Line {
    /// The text; it is wrapped if it is too wide.
    pub text: String,
    /// Height of a capital.
    pub capital: f64,
    /// A sample of a kind of line in front of the text.
    pub sample: Option<LineStyle>,
}

/// Length of a sample, including the white space after it, as a multiple of the height of its capitals.
const SAMPLE: f64 = 6.8;
const BEHIND: f64 = 1.1;

impl Block {
    /// An empty block of a size.
    pub fn new(size: [f64; 2]) -> Block {
        Block {
            size,
            marks: Vec::new(),
        }
    }

    /// Lines of words below each other, at most `widest` wide.
    pub fn of_lines(font: &Font, lines: &[Line], widest: f64) -> Block {
        let mut rows: Vec<(String, f64, f64, Option<LineStyle>)> = Vec::new();
        for line in lines {
            let indent = if line.sample.is_some() {
                (SAMPLE + BEHIND) * line.capital
            } else {
                0.0
            };
            let broken = font.lines(&line.text, line.capital, widest - indent);
            for (index, text) in broken.into_iter().enumerate() {
                rows.push((
                    text,
                    line.capital,
                    indent,
                    line.sample.filter(|_| index == 0),
                ));
            }
        }
        let height: f64 = rows.iter().map(|(_, capital, ..)| capital * LEADING).sum();
        let width = rows
            .iter()
            .map(|(text, capital, indent, _)| indent + font.width(text, *capital))
            .fold(0.0, f64::max);
        let mut block = Block::new([width, height]);
        let mut y = height;
        for (text, capital, indent, sample) in rows {
            y -= capital * LEADING;
            // Descenders of a line need a third of a capital (common practice, none published).
            let foot = y + 0.35 * capital;
            if let Some(look) = sample {
                let middle = foot + capital / 2.0;
                block.line(look, [0.0, middle], [SAMPLE * capital, middle]);
            }
            block.words(&text, [indent, foot], capital);
        }
        block
    }

    /// Draws a straight line.
    pub fn line(&mut self, look: LineStyle, from: PointMm, to: PointMm) {
        self.run(look, StrokePath::straight(from, to));
    }

    /// Draws a line.
    pub fn run(&mut self, look: LineStyle, run: StrokePath) {
        self.marks.push(Mark::Stroke {
            look,
            phase: 0.0,
            run,
        });
    }

    /// Fills an area.
    pub fn fill(&mut self, colour: Colour, corners: Vec<PointMm>) {
        self.area(colour, vec![corners]);
    }

    /// Fills an area with holes, whose corners run in the opposite direction.
    pub fn area(&mut self, colour: Colour, rings: Vec<Vec<PointMm>>) {
        self.marks.push(Mark::Fill(colour, rings));
    }

    /// Writes words.
    pub fn words(&mut self, text: &str, at: PointMm, capital: f64) {
        self.marks.push(Mark::Words(Words {
            text: text.to_owned(),
            at,
            capital,
            colour: INK,
            climbing: false,
        }));
    }

    /// Writes words that lie on something.
    pub fn laid(&mut self, words: LaidWords) {
        self.marks.push(Mark::Laid(words));
    }

    /// Lays a picture onto something.
    pub fn picture(&mut self, picture: LaidPicture) {
        self.marks.push(Mark::Picture(picture));
    }

    /// Puts another block into this one, with its lower left corner at `at`.
    pub fn hold(&mut self, block: Block, at: PointMm) {
        let marks = block.marks.into_iter();
        let shifted = |[x, y]: PointMm| [at[0] + x, at[1] + y];
        self.marks
            .extend(marks.map(|mark| moved(mark, &shifted, false)));
    }

    /// The block rotated by 90°, so that text runs upwards.
    pub fn climbing(self) -> Block {
        let [width, height] = self.size;
        let marks = self
            .marks
            .into_iter()
            .map(|mark| moved(mark, &|[x, y]: PointMm| [height - y, x], true));
        Block {
            size: [height, width],
            marks: marks.collect(),
        }
    }

    /// The block with every point at the nearest tenth of a point: finer than the dots of a printer, with few digits.
    // Derived: 1/10 pt = 0.035 mm; a dot of a printer of 600 dpi is 0.042 mm wide.
    pub fn rounded(self) -> Block {
        let grain = 10.0 * POINTS;
        let to = |place: PointMm| place.map(|side| (side * grain).round() / grain);
        Block {
            size: self.size,
            marks: self
                .marks
                .into_iter()
                .map(|mark| moved(mark, &to, false))
                .collect(),
        }
    }

    /// Puts it onto a page.
    pub fn put(self, page: &mut Page, at: PointMm) {
        for mark in self.marks {
            let mark = moved(mark, &|[x, y]: PointMm| [at[0] + x, at[1] + y], false);
            page.marks.push((None, mark));
        }
    }
}

fn moved(mark: Mark, to: &dyn Fn(PointMm) -> PointMm, climbs: bool) -> Mark {
    match mark {
        Mark::Stroke { look, phase, run } => {
            let step = |step: &Step| match *step {
                Step::To(place) => Step::To(to(place)),
                Step::Curve(places) => Step::Curve(places.map(to)),
            };
            let run = StrokePath {
                start: to(run.start),
                steps: run.steps.iter().map(step).collect(),
                closed: run.closed,
            };
            Mark::Stroke { look, phase, run }
        }
        Mark::Fill(colour, rings) => {
            let ring = |ring: Vec<PointMm>| ring.into_iter().map(to).collect();
            Mark::Fill(colour, rings.into_iter().map(ring).collect())
        }
        Mark::Laid(words) => Mark::Laid(words.moved(to)),
        Mark::Picture(picture) => Mark::Picture(picture.moved(to)),
        Mark::Words(words) => Mark::Words(Words {
            at: to(words.at),
            climbing: words.climbing || climbs,
            ..words
        }),
    }
}
