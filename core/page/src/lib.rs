//! The program as one module for a page in a browser.
//!
//! **Input:** the text of a job. **Output:** verdict, words, fixes, what a form and a picture need as JSON, and the files of
//! every exporter. **Errors:** those of the text, with their places. **Does not** open files or connections, read the clock,
//! or keep anything but the job that was checked last.
//!
//! [`door`] is what a page calls; it and the exporters are there for WebAssembly alone. All else is [`Program`].

#[cfg(target_family = "wasm")]
pub mod door;
mod drawing;
#[cfg(target_family = "wasm")]
mod exporting;
mod library;
mod program;
mod settings;
#[cfg(target_family = "wasm")]
mod words;

pub use program::{Answer, Outcome, Program};
