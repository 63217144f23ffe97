//! Pages at true size, with words that can be copied and layers that a cutter finds by name.
//!
//! Given strokes, fills and words in millimetres from the lower left corner of a page, y up; gives a PDF whose bytes
//! depend on nothing else. This is the only place that counts in points. It knows neither trays nor documents, the page
//! of a job aside, and it never decides where anything stands.

mod block;
mod font;
mod inks;
mod metadata;
mod page;
mod print;

pub use block::{Block, LEADING, Line};
pub use font::Font;
pub use page::{Kept, Mark, Page, PointMm, Step, StrokePath, Words};
pub use print::{Printed, print};
