//! The words of reports.
//!
//! **Input:** checked jobs, findings and source errors. **Output:** text for people and JSON for programs. **Does not**
//! print.

pub mod card;
pub mod comparison;
mod cutaway;
pub mod dimensions;
pub mod figures;
pub mod fixes;
mod folding;
pub mod json;
pub mod labels;
pub mod machine;
pub mod pads;
mod paper;
pub mod sentence;
pub mod snippet;
pub mod table;
pub mod text;
