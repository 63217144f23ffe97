//! One file a command: `run(asked, everywhere, voice)` does what was typed and says how it ended.

pub(crate) mod pages;
