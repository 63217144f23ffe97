//! The words of reports.
//!
//! **Input:** checked jobs, findings and source errors. **Output:** text for people and JSON for programs. **Does not**
//! print.

pub mod card;
mod cutaway;
pub mod dimensions;
pub mod fixes;
mod folding;
pub mod json;
pub mod pads;
mod paper;
pub mod sentence;
pub mod snippet;
pub mod text;
