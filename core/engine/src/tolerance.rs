//! How far lengths that people make may be off, and what a length made of several of them leaves unsure.
//!
//! **Input:** a job, and the chain of a length: what was measured, creased, cut and folded on the way from one of its ends
//! to the other. **Output:** its limits as a [`Sum`]. Lengths in mm. Errors with causes of their own add up by squares; the
//! place of the folds in the card and the caliper have one cause each, since one hand makes all creases and one sheet all
//! layers, so each counts once with all its parts added.
// Source: tests/facts/folding.md T3 for limits with nothing else known; a shared cause adds up: common practice, none
// published.

mod sum;

pub(crate) use sum::Sum;

use crate::job::Job;
use traywright_document::{BoardKind, CreaseKind};

/// How well a box or an item is measured with a ruler, either way.
// Source: common practice, none published.
pub(crate) const MEASURED_MM: f64 = 0.5;

/// How far from its place in the card a pressed crease of carton folds, as a part of the caliper, either way; the same for
/// a `hinge` that the job states.
// Source: a choice of this project: the bead gathers on one side of the middle, and a job that states a hinge has looked.
const PRESSED_CARTON: f64 = 0.1;

/// The same where the inside crushes, as in solid or corrugated board, or a blade sets the depth: a cut through half of the
/// card folds a quarter of the caliper from its middle, and one that goes deeper up to half of it.
// Derived: from t/4 to t/2 for the deeper cut, and as far the other way for the shallower. Taking crushed board for as
// uncertain is a choice of this project.
const CRUSHED_OR_CUT: f64 = 0.25;

/// How far each kind of length of a job may be off, either way.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Limits {
    /// The box or an item, measured.
    pub(crate) measured: f64,
    /// A crease or a cut beside its line.
    pub(crate) line: f64,
    /// The fold beside its place in the thickness of the card.
    pub(crate) hinge: f64,
    /// The thickness of one sheet.
    pub(crate) caliper: f64,
}

impl Limits {
    /// What the job's tool and card give.
    pub(crate) fn of(job: &Job) -> Limits {
        let board = &job.board;
        let caliper = board.caliper.mm();
        let part = match (board.hinge, board.crease(), board.kind()) {
            (Some(_), ..) | (None, CreaseKind::Pressed, BoardKind::Carton) => PRESSED_CARTON,
            _ => CRUSHED_OR_CUT,
        };
        Limits {
            measured: MEASURED_MM,
            line: job.tool.accuracy(),
            hinge: board.hinge_uncertainty().unwrap_or(part * caliper),
            caliper: board.caliper_spread(),
        }
    }
}

/// What a length is made of, as far as it may be off.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct Chain {
    /// How many lengths were measured.
    pub(crate) measured: usize,
    /// Each crease or cut on the way: how much longer a millimetre beside its line makes the length.
    pub(crate) lines: Vec<f64>,
    /// The same of all folds together, for a fold that lies a millimetre farther in.
    pub(crate) hinges: f64,
    /// The same of a card that is a millimetre thicker.
    pub(crate) calipers: f64,
}

impl Chain {
    /// Lengths that were measured, and nothing made.
    pub(crate) fn measured(count: usize) -> Chain {
        Chain {
            measured: count,
            ..Chain::default()
        }
    }

    /// The same with more on the way.
    pub(crate) fn and(mut self, other: Chain) -> Chain {
        self.measured += other.measured;
        self.lines.extend(other.lines);
        self.hinges += other.hinges;
        self.calipers += other.calipers;
        self
    }

    /// What it leaves unsure.
    pub(crate) fn sum(&self, limits: &Limits) -> Sum {
        let lines = self.lines.iter().map(|times| times * limits.line);
        let shared = [self.hinges * limits.hinge, self.calipers * limits.caliper];
        let measured = std::iter::repeat_n(limits.measured, self.measured);
        Sum::of(measured.chain(lines).chain(shared))
    }
}

#[cfg(test)]
mod tests {
    use super::{Chain, Limits};
    use crate::job::{Board, BoxSize, Job, Length};
    use traywright_document::{BoardKind, CreaseKind};

    fn hinge(board: Board) -> f64 {
        let [length, width, depth] = [200.0, 100.0, 40.0].map(Length::known);
        let size = BoxSize {
            length,
            width,
            depth,
        };
        let mut job = Job::plain("single-slot", size, board.caliper, Vec::new());
        job.board = board;
        Limits::of(&job).hinge
    }

    #[test]
    fn the_fold_of_carton_is_surer_than_that_of_board() {
        // Derived: a tenth of 0.3 and of 0.5, a quarter of 2 and of 1.6.
        let board = |caliper| Board::plain(Length::known(caliper));
        assert!((hinge(board(0.3)) - 0.03).abs() < 1e-12);
        assert!((hinge(board(2.0)) - 0.5).abs() < 1e-12);
        let flute = Board {
            kind: Some(BoardKind::Corrugated),
            crease: Some(CreaseKind::Pressed),
            ..board(1.6)
        };
        assert!((hinge(flute) - 0.4).abs() < 1e-12);
        let half_cut = Board {
            crease: Some(CreaseKind::HalfCut),
            ..board(0.4)
        };
        assert!((hinge(half_cut) - 0.1).abs() < 1e-12);
        let stated = Board {
            hinge: Some(0.5),
            ..board(2.0)
        };
        assert!((hinge(stated) - 0.2).abs() < 1e-12);
    }

    #[test]
    fn folds_share_a_cause_and_lines_do_not() {
        // Derived: 2 lines of 0.5 by squares, 2 folds of 0.25 added: worst 1.5, √(0.25 + 0.25 + 0.25) = 0.8660.
        let limits = Limits {
            measured: 0.5,
            line: 0.5,
            hinge: 0.25,
            caliper: 0.0,
        };
        let chain = Chain {
            lines: vec![1.0, -1.0],
            hinges: -2.0,
            ..Chain::default()
        };
        let sum = chain.sum(&limits);
        assert!((sum.worst() - 1.5).abs() < 1e-12);
        assert!((sum.root_sum_square() - 0.75_f64.sqrt()).abs() < 1e-12);
    }
}
