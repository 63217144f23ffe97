//! Where styles and boards are found: those that ship with the program, and the folders that the maker adds.
//!
//! Given folders, gives style texts by name; given nothing, gives the list of boards. Never reads what a style says:
//! its text is handed on with its name and the path to show.

mod boards;
mod styles;

pub use boards::{Basis, Boards, Stock, kind_words};
pub(crate) use styles::STRIP;
pub use styles::{StyleText, Styles};

/// Codes of the languages in which words on paper are at hand; written by `build.rs`.
pub const LANGUAGES: &[&str] = &include!(concat!(env!("OUT_DIR"), "/languages.rs"));
