//! From the text of a job to a checked job and its words.
//!
//! **Input:** texts: a job, styles, the shipped boards. **Output:** a [`CheckedJob`](checked_job::CheckedJob), and reports,
//! explanations and new jobs as text. **Errors:** [`InputError`](error::InputError). **Does not** open files, start
//! threads, print or read the clock, so that any front end can use it.

pub mod checked_job;
pub mod error;
pub mod example_job;
pub mod explain;
pub mod fixes;
pub mod job_file;
pub mod lengths;
pub mod library;
pub mod nearest;
pub mod refit;
pub mod report;
pub mod start;
pub mod strip;
pub mod vary;
