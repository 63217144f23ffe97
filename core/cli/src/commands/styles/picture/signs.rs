//! The characters of a picture: the one for the lines that meet in a cell.
//!
//! **Input:** the lines from a cell to its four sides, a slanting line through it, or a letter. **Output:** one
//! character.

/// A line from a cell to its neighbour.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Line {
    #[default]
    None,
    Crease,
    Cut,
}

/// One character of the picture.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Cell {
    pub(super) above: Line,
    pub(super) right: Line,
    pub(super) below: Line,
    pub(super) left: Line,
    pub(super) slant: Option<char>,
    pub(super) letter: Option<char>,
}

/// From this slope on, in rows per column, a line is drawn as a stroke; below it, in characters of three heights.
// Source: no rule of the trade; how steep a stroke looks.
const STEEP: f64 = 0.6;

/// Distance from the middle of its row beyond which a flat line is drawn high or low.
const OFF_MIDDLE: f64 = 1.0 / 6.0;

impl Line {
    /// The line that covers the other.
    pub(super) fn over(self, other: Line) -> Line {
        self.max(other)
    }
}

impl Cell {
    /// Whether nothing is drawn here.
    pub(super) fn is_free(&self) -> bool {
        self.sides().iter().all(|side| *side == Line::None)
            && self.slant.is_none()
            && self.letter.is_none()
    }

    fn sides(&self) -> [Line; 4] {
        [self.above, self.right, self.below, self.left]
    }

    /// The character.
    pub(super) fn sign(&self) -> char {
        let sides = self.sides();
        if sides.iter().all(|side| *side == Line::None) {
            return self.letter.or(self.slant).unwrap_or(' ');
        }
        let meets = sides.map(|side| side != Line::None);
        if !sides.contains(&Line::Cut) {
            return match meets {
                [true, false, true, false] => '┊',
                [false, true, false, true] => '┈',
                _ => '·',
            };
        }
        match meets {
            [_, false, _, false] => '│',
            [false, _, false, _] => '─',
            [false, true, true, false] => '┌',
            [false, false, true, true] => '┐',
            [true, true, false, false] => '└',
            [true, false, false, true] => '┘',
            [true, true, true, false] => '├',
            [true, false, true, true] => '┤',
            [false, true, true, true] => '┬',
            [true, true, false, true] => '┴',
            [true, true, true, true] => '┼',
        }
    }
}

/// The character of a slanting line that rises by `rise` rows per column, `below` the middle of its cell.
pub(super) fn slanting(rise: f64, below: f64) -> char {
    if rise.abs() >= STEEP {
        return if rise > 0.0 { '/' } else { '\\' };
    }
    if below < -OFF_MIDDLE {
        '\''
    } else if below > OFF_MIDDLE {
        '.'
    } else {
        '-'
    }
}
