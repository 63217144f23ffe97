//! The style of each kind of line, the words of the chosen language, and the format of lengths, for all files.
//!
//! Every exporter whose file a person reads uses this crate, so that a line, a sentence or a number is the same in all
//! files. It knows no format, and it draws nothing.

mod drawing;
mod language;
mod lengths;
mod line;
mod pads;
mod pixels;

pub use drawing::{Drawing, DrawingFile, DxfWords, shortened};
pub use language::{languages, words};
pub use lengths::Lengths;
pub use line::{
    CREASING, CUTTING, Colour, DIMENSIONS, INK, Layer, LineStyle, PERFORATING, REVERSE_CREASING,
    REVERSE_PERFORATING,
};
pub use pads::PadWords;
pub use pixels::{Pixels, pixels};
pub use traywright_document::filled;
