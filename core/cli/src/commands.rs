//! One file per command.
//!
//! `run(asked, everywhere, output)` takes the arguments, runs the command and returns its verdict. Prints only through
//! `output`, and never ends the program.

pub(crate) mod boards;
pub(crate) mod check;
pub(crate) mod exporters;
pub(crate) mod fix;
pub(crate) mod lint;
pub(crate) mod make;
pub(crate) mod nest;
pub(crate) mod pages;
pub(crate) mod start;
pub(crate) mod strip;
pub(crate) mod styles;
