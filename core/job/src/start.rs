//! The text of a new job.
//!
//! **Input:** the shipped example, the maker's answers, the lines of an older job. **Output:** a job with comments.

pub mod draft;
pub mod pad;
pub mod template;
