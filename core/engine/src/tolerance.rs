//! How far lengths that people make may be off, and the uncertainty of a length made of several of them.
//!
//! **Input:** a job, and the chain of a length: all that was measured, creased, cut and folded between its two ends.
//! **Output:** the limits as a [`Sum`]. Lengths in mm. Independent errors add up by squares. One hand makes all creases
//! and one sheet gives all layers, so fold depth and thickness are each one shared error: the contributions of all
//! folds are summed first and enter the root-sum-square as one term, and those of all layers as another.
// Source: tests/facts/folding.md T3 for limits with nothing else known; a shared cause adds up: common practice, none
// published.

mod sum;

pub(crate) use sum::Sum;

use crate::job::Job;
use traywright_document::{BoardKind, CreaseKind};

/// Error of measuring a box or an item with a ruler, either way.
// Source: common practice, none published.
pub(crate) const MEASURED_MM: f64 = 0.5;

/// How far a pressed crease of carton folds from its nominal place in the card, as a part of the thickness, either way;
/// also for a `hinge` that the job states.
// Source: a choice of this project: the bead gathers on one side of the middle, and a job that states a hinge has looked.
const PRESSED_CARTON: f64 = 0.1;

/// The same limit if the inside crushes, as in solid or corrugated board, or if a blade sets the depth: a cut through
/// half of the card folds a quarter of the thickness from its middle, and a deeper cut up to half.
// Derived: from t/4 to t/2 for the deeper cut, and as far the other way for the shallower. Taking crushed board for as
// uncertain is a choice of this project.
const CRUSHED_OR_CUT: f64 = 0.25;

/// Error limits of each kind of length of a job, either way.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Limits {
    /// A measured box or item.
    pub(crate) measured: f64,
    /// Distance of a crease or a cut from its line.
    pub(crate) line: f64,
    /// Distance of the fold from its nominal place in the thickness of the card.
    pub(crate) hinge: f64,
    /// The thickness of one sheet.
    pub(crate) caliper: f64,
}

impl Limits {
    /// The limits for the job's tool and card.
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

/// The error contributions to one length.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct Chain {
    /// Number of measured lengths in it.
    pub(crate) measured: usize,
    /// Sensitivity to each crease or cut: change in length per mm that it is off its line.
    pub(crate) lines: Vec<f64>,
    /// Summed sensitivity to fold depth: change in length per mm that all folds lie farther in.
    pub(crate) hinges: f64,
    /// Summed sensitivity to thickness: change in length per mm of thicker card.
    pub(crate) calipers: f64,
}

impl Chain {
    /// A chain of measured lengths only.
    pub(crate) fn measured(count: usize) -> Chain {
        Chain {
            measured: count,
            ..Chain::default()
        }
    }

    /// This chain followed by another.
    pub(crate) fn and(mut self, other: Chain) -> Chain {
        self.measured += other.measured;
        self.lines.extend(other.lines);
        self.hinges += other.hinges;
        self.calipers += other.calipers;
        self
    }

    /// The chain's error limits as a sum.
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
