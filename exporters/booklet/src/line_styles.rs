//! How figures look: lines by their pattern and width first, tints second.
//!
//! Given nothing. Colours are Okabe and Ito's or tints of them; all figures can be read in grey.

use traywright_look::{Colour, INK, LineStyle};

/// The edge of the card.
pub(crate) const EDGE: LineStyle = solid(Colour([0, 0, 0]), 0.25);
/// The edge of what moves, or was moved just now.
pub(crate) const MOVING: LineStyle = solid(Colour([0, 0, 0]), 0.5);
/// A folded crease, seen as a line of the card.
pub(crate) const FOLDED: LineStyle = solid(Colour([0x55, 0x55, 0x55]), 0.14);
/// A crease that lies flat still.
pub(crate) const UNFOLDED: LineStyle = LineStyle {
    colour: Colour([0x77, 0x77, 0x77]),
    width: 0.14,
    dashes: &[1.0, 0.7],
};
/// Where the moving panel was before.
pub(crate) const BEFORE: LineStyle = LineStyle {
    colour: Colour([0x00, 0x72, 0xB2]),
    width: 0.2,
    dashes: &[0.7, 0.7],
};
/// An arrow.
pub(crate) const ARROW: LineStyle = solid(Colour([0xD5, 0x5E, 0x00]), 0.7);
/// White beside an arrow, so that it stands off the lines that it crosses.
pub(crate) const HALO: LineStyle = solid(Colour([0xFF, 0xFF, 0xFF]), 1.7);
/// A ring around a small thing, and what leads from it.
pub(crate) const RING: LineStyle = solid(INK, 0.2);
/// A line that leads from words to their thing, or rules a table.
pub(crate) const LEADER: LineStyle = solid(Colour([0x66, 0x66, 0x66]), 0.14);
/// A rule across the page.
pub(crate) const RULE: LineStyle = solid(Colour([0x99, 0x99, 0x99]), 0.18);
/// A box to tick.
pub(crate) const TICK_BOX: LineStyle = solid(INK, 0.25);
/// Squares to draw on.
pub(crate) const GRID: LineStyle = solid(Colour([0xD4, 0xDC, 0xE4]), 0.1);

/// The inner faces of the box in a cut-away.
pub(crate) const BOX_LINE: LineStyle = solid(Colour([0x99, 0x99, 0x99]), 1.0);
/// What lies outside the box, and a pad, in a cut-away.
pub(crate) const HATCH: LineStyle = solid(Colour([0x66, 0x66, 0x66]), 0.1);
/// Card behind the plane of a cut-away.
pub(crate) const BEHIND: LineStyle = solid(Colour([0x77, 0x77, 0x77]), 0.13);
/// The outline of an item in a cut-away.
pub(crate) const ITEM_LINE: LineStyle = solid(INK, 0.25);
/// The lines of measures, and the lines that lead to them.
pub(crate) const MEASURE: LineStyle = solid(INK, 0.18);
pub(crate) const EXTENSION: LineStyle = solid(Colour([0x66, 0x66, 0x66]), 0.1);
/// The measure that says how much holds an item.
pub(crate) const THICK_MEASURE: LineStyle = solid(INK, 0.6);
/// A measure that says why an item is not held.
pub(crate) const FAULT: LineStyle = solid(Colour([0xD5, 0x5E, 0x00]), 0.35);
/// The cross over a picture of what goes wrong, and the tick beside what is right.
pub(crate) const WRONG: LineStyle = solid(Colour([0xD5, 0x5E, 0x00]), 0.7);
pub(crate) const RIGHT: LineStyle = solid(Colour([0x00, 0x9E, 0x73]), 0.7);

/// An item that is cut.
pub(crate) const ITEM_CUT: Colour = Colour([0xEE, 0xEE, 0xEE]);
/// What moves.
// Derived: Okabe and Ito's sky blue, half of it.
pub(crate) const MOVING_TINT: Colour = Colour([0xAB, 0xDA, 0xF4]);
/// The item.
// Derived: Okabe and Ito's orange, a third of it.
pub(crate) const ITEM_TINT: Colour = Colour([0xF7, 0xDF, 0xAA]);
/// The pad under an item.
// Derived: Okabe and Ito's bluish green, half of it.
pub(crate) const PAD_TINT: Colour = Colour([0x80, 0xCE, 0xB9]);
/// The face of the card that is outside on the folded tray.
pub(crate) const SHOW_FACE: Colour = Colour([0xE6, 0xE6, 0xE6]);
/// The box.
pub(crate) const BOX_TINT: Colour = Colour([0xC9, 0xC2, 0xB8]);

const fn solid(colour: Colour, width: f64) -> LineStyle {
    LineStyle {
        colour,
        width,
        dashes: &[],
    }
}
