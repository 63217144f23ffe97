//! The numbers of a job that may be negative: whether each is finite.
//!
//! **Input:** a job from any caller. **Output:** an error for each number that is infinite or not a number, with its
//! source span if the job has one. Every other number of a job is a `Length`. The reader of job files rejects such
//! numbers itself, with messages about the file.

use super::{Job, SettingInput};
use crate::finding::{SourceError, SourceSpan};

/// Errors of all numbers that are not finite.
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
