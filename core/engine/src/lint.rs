//! Checks a style over its whole range: every job that it accepts should give a tray.
//!
//! **Input:** a style. [`Range`] numbers the trial jobs 0, 1, 2 … and makes each from its number; they cover every
//! size of box, card, item and setting that the style takes. [`try_out`] runs one and decides who is to blame if it fails. A [`Tally`] counts the outcomes and
//! records which parts of the style never occurred. [`shrink`] simplifies a failing job. The trial job of a number is the same on
//! every machine. The caller decides how many to try and what to report.

mod parameters;
mod random;
mod range;
mod shrink;
mod tally;
mod trial_job;
mod unread;

pub use range::Range;
pub use shrink::shrink;
pub use tally::Tally;
pub use trial_job::{Made, Outcome, StyleError, try_out};

use crate::finding::SourceError;
use crate::style::Style;

/// Reads a style as [`Style::read`] does, and checks the promises of every style.
///
/// # Refuses
/// All errors of [`Style::read`], and a style without the measure `wall_height`.
pub fn read(name: &str, text: &str) -> Result<Style, Vec<SourceError>> {
    Style::read_strictly(name, text)
}

/// Unused parts of a style's text: settings, values and fallbacks that no formula needs.
pub fn unread(style: &Style) -> Vec<SourceError> {
    unread::unread(&style.sheet)
}
