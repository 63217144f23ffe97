//! One file a command: `run(asked, everywhere, voice)` does what was typed and says how it ended.

pub(crate) mod boards;
pub(crate) mod check;
pub(crate) mod exporters;
pub(crate) mod make;
pub(crate) mod pages;
pub(crate) mod start;
pub(crate) mod styles;
