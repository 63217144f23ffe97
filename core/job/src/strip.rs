//! The job of a strip for measuring the card of another job.

use traywright_engine::Job;
use traywright_engine::job::BoxSize;

use crate::library::STRIP;

/// The strip for the card of a job: with the same paper, tool and language. `title` is its name.
///
/// Nothing of the tray is copied, so a job whose tray does not fit can still have its strip.
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
