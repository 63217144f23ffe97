//! The job of a strip that measures the card of another job.

use traywright_engine::Job;
use traywright_engine::job::BoxSize;

use crate::library::STRIP;

/// The strip for the card of a job: on the same paper, with the same tool, in the same words. `title` is its name.
///
/// Of the tray nothing is left, so that a job whose tray does not fit has its strip all the same.
pub fn job(of: &Job, title: &str) -> Job {
    let plain = Job::plain(STRIP, BoxSize::NONE, of.board.caliper, Vec::new());
    Job {
        title: title.to_owned(),
        board: of.board.clone(),
        tool: of.tool,
        fit: of.fit,
        font_place: of.font_place.clone(),
        unit: of.unit,
        output: of.output.clone(),
        ..plain
    }
}
