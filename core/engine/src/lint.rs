//! A style judged over its whole range: every job that it lets through should give a tray.
//!
//! Given a style, [`Range`] gives jobs of every size of box, card, item and answer that the style takes, each by its
//! number; [`try_out`] makes one and says whose fault it is if it cannot be made; a [`Tally`] counts and remembers what
//! was never seen; [`shrink`] makes a job that shows a fault as plain as it can be. The same number gives the same job
//! anywhere. How many are tried, and what is told of them, is for the caller to say.

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

/// Reads a style as [`Style::read`] does, and holds it to what is promised of every style.
///
/// # Refuses
/// All that [`Style::read`] refuses, and a style without the measure `wall_height`.
pub fn read(name: &str, text: &str) -> Result<Style, Vec<SourceError>> {
    Style::read_strictly(name, text)
}

/// What stands in a style's text and serves nothing: settings, values and fallbacks that no formula needs.
pub fn unread(style: &Style) -> Vec<SourceError> {
    unread::unread(&style.sheet)
}
