//! The styles and boards that ship with the program, and those that the maker adds.
//!
//! **Input:** style texts by name. **Output:** the styles, and the list of boards. Never reads a style: its text is
//! passed on with its name and its path for messages.

mod boards;
mod styles;

pub use boards::{Basis, Boards, Stock, kind_words};
pub(crate) use styles::STRIP;
pub use styles::{StyleText, Styles};

/// Codes of the languages with files of words; written by `build.rs`.
pub const LANGUAGES: &[&str] = &include!(concat!(env!("OUT_DIR"), "/languages.rs"));
