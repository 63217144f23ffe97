//! How hands make the creases of a card, from its kind of board and its kind of crease.
//!
//! **Does not** hold the words for it.

use traywright_document::{Board, CreaseKind};

/// A way of making creases.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum CreaseWay {
    /// Pressed on the side that is outside the fold: a groove there, a bead on the other side.
    Pressed,
    /// Cut half through on the side that is outside the fold.
    HalfCut,
    /// The flutes of corrugated board crushed on the side that is inside the fold.
    // Source: from memory: corrugated is scored on the inside, so that the liner outside the fold stays whole and smooth.
    Crushed,
}

impl CreaseWay {
    /// The way for a card.
    pub(crate) fn of(board: &Board) -> CreaseWay {
        match board.crease {
            CreaseKind::HalfCut => CreaseWay::HalfCut,
            CreaseKind::Pressed if board.is_crushed() => CreaseWay::Crushed,
            CreaseKind::Pressed => CreaseWay::Pressed,
        }
    }
}

/// How deep a half-cut goes, in mm.
// Source: core/CONTRACT.md, "Job file": the inner half of the card stays.
pub(crate) fn half_cut_depth(board: &Board) -> f64 {
    board.caliper / 2.0
}

/// From this caliper on a half-cut wants tape.
// Source: common practice, none published: greyboard of boxes is 1.5 to 3 mm thick and its joints are covered.
const TAPED: f64 = 1.5;

/// Whether every fold of a board wants tape.
pub(crate) fn is_taped(board: &Board) -> bool {
    CreaseWay::of(board) == CreaseWay::HalfCut && board.caliper >= TAPED
}
