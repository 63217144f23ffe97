//! The bar that shows how far a call with many jobs is.
//!
//! **Input:** the number of jobs, and what is being made. **Output:** a bar at the bottom of a terminal. Prints nothing
//! where standard error is no terminal, with `--quiet`, and for a single job.

use indicatif::{ProgressBar, ProgressDrawTarget, ProgressStyle};

use super::{Output, visible};
use crate::error::CliError;

/// A bar that vanishes at the end.
#[derive(Debug)]
pub(crate) struct Progress {
    bar: ProgressBar,
    output: Output,
}

impl Progress {
    /// A bar for this number of jobs.
    pub(crate) fn new(jobs: usize, output: Output) -> Self {
        let target = match output.quiet || jobs < 2 {
            true => ProgressDrawTarget::hidden(),
            false => ProgressDrawTarget::stderr(),
        };
        let style = ProgressStyle::with_template("{bar:24} {pos} of {len}  {wide_msg}");
        let bar = ProgressBar::with_draw_target(Some(jobs as u64), target);
        bar.set_style(style.expect("the template is sound"));
        Progress { bar, output }
    }

    /// Says what is being made. Threads may say so side by side.
    pub(crate) fn making(&self, what: &str) {
        if !self.bar.is_hidden() {
            self.bar.set_message(visible(what));
        }
    }

    /// One more job is done.
    pub(crate) fn step(&self) {
        self.bar.inc(1);
    }

    /// Prints a finding above the bar.
    pub(crate) fn finding(&self, text: &str) {
        self.bar.suspend(|| self.output.finding(text));
    }

    /// Prints the requested output above the bar, as [`Output::print_result`].
    pub(crate) fn result(&self, text: &str) -> Result<(), CliError> {
        self.bar.suspend(|| self.output.print_result(text))
    }
}

impl Drop for Progress {
    fn drop(&mut self) {
        self.bar.finish_and_clear();
    }
}
