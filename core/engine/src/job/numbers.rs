//! The numbers of a job that may be negative: each is finite.
//!
//! **Input:** a job made by any caller. **Output:** an error for each number that is infinite or none, at the place of its
//! line where the job has one. Every other number of a job is a `Length`. The reader of job files refuses such numbers
//! itself, in the words of the file.

use super::{Job, SettingInput};
use crate::finding::{SourceError, SourceSpan};

/// Errors of all numbers that a tray cannot have.
pub(crate) fn errors(job: &Job) -> Vec<SourceError> {
    let hinge = job
        .board
        .hinge
        .map(|hinge| ("board hinge".to_owned(), hinge, 0..0));
    let settings = job.settings.iter().filter_map(|setting| {
        let (SettingInput::Length(value)
        | SettingInput::Angle(value)
        | SettingInput::Number(value)) = setting.answer
        else {
            return None;
        };
        let name = format!("set {}", setting.name);
        Some((name, value, setting.place.clone()))
    });
    hinge
        .into_iter()
        .chain(settings)
        .filter(|(_, value, _)| !value.is_finite())
        .map(|(name, value, place)| error(&name, value, place))
        .collect()
}

fn error(name: &str, value: f64, place: SourceSpan) -> SourceError {
    let message = format!("`{name}` is {value}");
    SourceError::new(place, message, "it is a finite number")
}
