//! The forms of what stands beside the lines, of which each sheet takes the one that has the best room.
//!
//! Given sentences and widths; gives blocks, each made when it is asked for first and never again: sheets are tried in many
//! ways, and most of their words are the same in all of them. It places nothing.

use std::cell::OnceCell;
use std::rc::Rc;

use traywright_look::LineStyle;
use traywright_paper::{Block, Font, Line};

/// Capitals of words, and of words where room is short.
// Source: common practice, none published: 2 mm capitals, about 8 points, are read at arm's length.
pub(crate) const WORDS: f64 = 2.2;
pub(crate) const SMALL: f64 = 1.8;
/// How much worse smaller words are, and words in another shape, in millimetres away from where they are wanted.
pub(crate) const SMALLER: f64 = 300.0;
const ANOTHER_SHAPE: f64 = 15.0;

/// Forms of one thing.
pub(crate) type Forms = Rc<[Form]>;

/// One form.
pub(crate) struct Form {
    /// How much worse it is than the first.
    pub(crate) worse: f64,
    lines: Rc<[Line]>,
    widest: f64,
    block: OnceCell<Rc<Block>>,
}

impl Form {
    /// Lines of words that are at most so wide.
    pub(crate) fn of_lines(worse: f64, lines: Rc<[Line]>, widest: f64) -> Form {
        Form {
            worse,
            lines,
            widest,
            block: OnceCell::new(),
        }
    }

    /// A block that is made.
    pub(crate) fn of_block(worse: f64, block: Block) -> Form {
        Form {
            worse,
            lines: Rc::new([]),
            widest: 0.0,
            block: OnceCell::from(Rc::new(block)),
        }
    }

    /// The block.
    pub(crate) fn block(&self, font: &Font) -> &Rc<Block> {
        let made = || Rc::new(Block::of_lines(font, &self.lines, self.widest));
        self.block.get_or_init(made)
    }
}

/// Sentences in several widths, each beginning a line, and in smaller words in several others.
pub(crate) fn sentences(sentences: &[String], widths: &[f64], small: &[f64]) -> Forms {
    let lines = |capital| sentences.iter().map(|text| line(text, capital)).collect();
    let usual = shapes(lines, widths, WORDS);
    usual.chain(shapes(lines, small, SMALL)).collect()
}

/// Sentences after samples of lines in several widths, and in smaller words in several others.
pub(crate) fn samples(samples: &[(LineStyle, &str)], widths: &[f64], small: &[f64]) -> Forms {
    let lines = |capital| {
        let entry = |(look, text): &(LineStyle, &str)| Line {
            sample: Some(*look),
            ..line(text, capital)
        };
        samples.iter().map(entry).collect()
    };
    let usual = shapes(lines, widths, WORDS);
    usual.chain(shapes(lines, small, SMALL)).collect()
}

/// Lines of words in several widths, each a little worse than the one before.
pub(crate) fn shapes(
    lines: impl Fn(f64) -> Rc<[Line]>,
    widths: &[f64],
    capital: f64,
) -> impl Iterator<Item = Form> {
    let smaller = if capital < WORDS { SMALLER } else { 0.0 };
    let lines = lines(capital);
    let shape = move |(index, widest): (usize, &f64)| {
        let worse = smaller + ANOTHER_SHAPE * index as f64;
        Form::of_lines(worse, Rc::clone(&lines), *widest)
    };
    widths.iter().enumerate().map(shape)
}

/// One line of words.
pub(crate) fn line(text: &str, capital: f64) -> Line {
    Line {
        text: text.to_owned(),
        capital,
        sample: None,
    }
}
