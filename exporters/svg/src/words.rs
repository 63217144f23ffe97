//! Words on the sheet: their letters, their size, and lengths as the maker reads them.
//!
//! Given any words of the document; gives text that every reader of XML accepts and that has its size in millimetres.
//! It draws nothing but text.

use svg::node::element::{Element, Text};

use traywright_look::Colour;

use crate::ticks::{Tick, TickPoint};

/// Height of a capital letter over the size of the type.
// Source: DejaVu Sans, glyph table: 1493 of 2048 units.
const CAPITAL: f64 = 0.729;
/// Width of a character over the height of a capital, on the safe side: a figure has 0.87, lower case 0.76 on average.
// Source: DejaVu Sans, horizontal metrics; the average is computed over a to z.
const CHARACTER: f64 = 0.9;

/// Text that starts at a place, with capitals of this height.
pub(crate) fn text(words: &str, at: TickPoint, capital: f64, colour: Colour) -> Element {
    let text = Text::new(printable(words))
        .set("x", at.x.to_string())
        .set("y", at.y.to_string())
        .set("font-family", "DejaVu Sans, sans-serif")
        .set("font-size", Tick::new(capital / CAPITAL).to_string())
        .set("fill", colour.hex());
    // Written as a text the words would get line breaks around them, which some programs draw as blanks.
    text.into()
}

/// About how wide words run; never less than they do in DejaVu Sans, long runs of capitals aside.
pub(crate) fn width(words: &str, capital: f64) -> f64 {
    let units = |letter: char| if letter.is_ascii() { CHARACTER } else { 1.4 };
    printable(words).chars().map(units).sum::<f64>() * capital
}

/// The words with every character that a drawing may not carry written as U+XXXX.
// Source: XML 1.0, production 2 (Char); the other control characters are allowed there but draw nothing.
pub(crate) fn printable(words: &str) -> String {
    let mut printed = String::with_capacity(words.len());
    for letter in words.chars() {
        if letter.is_control() || matches!(letter, '\u{FFFE}' | '\u{FFFF}') {
            printed.push_str(&format!("U+{:04X}", u32::from(letter)));
        } else {
            printed.push(letter);
        }
    }
    printed
}

/// A line of its own begins with a capital.
pub(crate) fn begun(line: &str) -> String {
    let mut letters = line.chars();
    let first = letters.next().into_iter().flat_map(char::to_uppercase);
    first.chain(letters).collect()
}
