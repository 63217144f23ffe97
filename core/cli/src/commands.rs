//! One file a command.
//!
//! Given what was typed, `run(asked, everywhere, output)` does it and gives its verdict. Never prints but through the
//! output, and never ends the program.

pub(crate) mod boards;
pub(crate) mod check;
pub(crate) mod exporters;
pub(crate) mod fix;
pub(crate) mod lint;
pub(crate) mod make;
pub(crate) mod pages;
pub(crate) mod start;
pub(crate) mod strip;
pub(crate) mod styles;
