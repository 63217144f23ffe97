//! Pages at true size, with words that can be copied and layers that a cutter finds by name.
//!
//! **Input:** strokes, fills and words in millimetres from the lower left corner of a page, y up. **Output:** a PDF
//! whose bytes depend on nothing else. Only this crate uses points. It knows neither trays nor documents, apart from
//! the page of a job, and never chooses a position.

mod block;
mod font;
mod inks;
mod leftwards;
mod metadata;
mod page;
mod pictures;
mod press;
mod print;

pub use block::{Block, LEADING, Line};
pub use font::Font;
pub use page::{Kept, LaidPicture, LaidWords, Mark, Page, PointMm, Step, StrokePath, Words};
pub use print::{Printed, print};
