//! From a style and a job to a tray that is known to fit, fold and hold.
//!
//! No file, clock, environment, print, thread or randomness, and no state between two calls: the same style and job give
//! the same tray.

mod blank;
mod checked;
mod cutting;
mod describe;
pub mod dimensions;
pub mod finding;
mod folded;
pub mod formula;
pub mod geometry;
mod holding;
mod ids;
pub mod job;
mod labelling;
pub mod lint;
pub mod measure;
mod order;
mod oval;
pub mod packing;
mod publish;
pub mod renamed;
mod rounding;
mod space;
mod stage;
mod style;
mod tolerance;
mod tray;
mod values;
pub mod wording;

pub use checked::CheckedTray;
pub use describe::{Branch, BranchKind, SettingInfo, SettingValue};
pub use finding::{Finding, Level, PassedCheck, Place, Refusal, Report, SourceError};
pub use job::Job;
pub use rounding::FinishedTray;
pub use style::Style;
pub use tray::Limit;

/// Makes the tray of a job in a style: the whole pipeline, stage by stage.
///
/// # Refuses
/// A job with settings that the style does not know or with labels that its panels do not take, a style with an error in this job, and a tray that would not fit,
/// fold or hold. The report of a refused tray has the measures computed so far.
pub fn make(style: &Style, job: &Job) -> Result<CheckedTray, Refusal> {
    let tray = checked::check(style, job)?;
    tray.unrounded().check_labels().map_err(Refusal::Job)?;
    Ok(tray)
}
