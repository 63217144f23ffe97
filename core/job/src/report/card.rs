//! The card in words: its name and thickness, the kind of its creases, and the resulting fold lines.
//!
//! **Input:** the board of a job. **Output:** a part of a sentence in the maker's unit. **Does not** check.

use traywright_engine::job::{Board, BoardKind, CreaseKind, Grain, Unit};
use traywright_engine::wording::length;

use crate::library::kind_words;

/// A fold line nearer to the middle of the card than this counts as in the middle.
const IN_THE_MIDDLE_MM: f64 = 1e-6;

/// The card: `index-255, 0.29 mm carton, creases pressed`.
pub(super) fn words(board: &Board, unit: Unit) -> String {
    let name = board.name.iter().map(|name| format!("{name}, "));
    let name: String = name.collect();
    let caliper = length(board.caliper.mm(), unit);
    let kind = kind_words(board.kind());
    let flutes = flutes(board);
    let creases = creases(board, unit);
    format!("{name}{caliper} {kind}{flutes}, creases {creases}")
}

/// The direction of the flutes, if the board is corrugated.
// Source: core/CONTRACT.md, "Job file".
fn flutes(board: &Board) -> &'static str {
    match (board.kind(), board.grain) {
        (BoardKind::Corrugated, Some(Grain::Length)) => " with its flutes along the box",
        (BoardKind::Corrugated, Some(Grain::Width)) => " with its flutes across the box",
        _ => "",
    }
}

/// How the creases are made, and the position of the fold lines if it is unusual.
fn creases(board: &Board, unit: Unit) -> String {
    let crease = match board.crease() {
        CreaseKind::Pressed => "pressed",
        CreaseKind::HalfCut => "half-cut",
    };
    let (hinge, asked) = (board.hinge(), board.hinge.is_some());
    let as_asked = if asked { ", as the job says" } else { "" };
    if hinge.abs() > IN_THE_MIDDLE_MM {
        let inwards = length(hinge, unit);
        return format!(
            "{crease}: the card folds {inwards} off the middle of its thickness, towards the inside{as_asked}"
        );
    }
    match board.crease() {
        CreaseKind::Pressed => crease.to_owned(),
        CreaseKind::HalfCut => format!("{crease}: the card folds in its middle{as_asked}"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use traywright_engine::job::Length;

    fn board(caliper: f64) -> Board {
        Board::plain(Length::known(caliper))
    }

    fn said(board: &Board) -> String {
        words(board, Unit::Millimetre)
    }

    #[test]
    fn carton_is_pressed_and_says_no_more() {
        let named = Board {
            name: Some("index-255".to_owned()),
            ..board(0.29)
        };
        assert_eq!(said(&named), "index-255, 0.29 mm carton, creases pressed");
        let hinged = Board {
            hinge: Some(0.1),
            ..board(0.29)
        };
        assert_eq!(
            said(&hinged),
            "0.29 mm carton, creases pressed: the card folds 0.1 mm off the middle of its thickness, towards the inside, as the job says"
        );
    }

    #[test]
    fn solid_board_says_where_its_fold_lines_lie() {
        // Source: core/CONTRACT.md, "Job file": solid above 0.6 mm, then half-cut with a quarter of the caliper.
        assert_eq!(
            said(&board(1.0)),
            "1 mm solid board, creases half-cut: the card folds 0.25 mm off the middle of its thickness, towards the inside"
        );
        let middle = Board {
            hinge: Some(0.0),
            ..board(2.0)
        };
        assert_eq!(
            said(&middle),
            "2 mm solid board, creases half-cut: the card folds in its middle, as the job says"
        );
    }

    #[test]
    fn the_grain_of_corrugated_board_is_its_flutes() {
        let corrugated = Board {
            kind: Some(BoardKind::Corrugated),
            grain: Some(Grain::Width),
            ..board(1.72)
        };
        assert_eq!(
            said(&corrugated),
            "1.72 mm corrugated board with its flutes across the box, creases pressed"
        );
    }
}
