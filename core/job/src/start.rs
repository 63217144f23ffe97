//! The text of a new job.
//!
//! **Input:** the shipped example, the answers of the maker, the lines of an older job. **Output:** a commented job.

pub mod draft;
pub mod pad;
pub mod template;
