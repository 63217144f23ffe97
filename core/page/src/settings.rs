//! The settings of a style for one job, so that a form can ask for them.

use serde_json::{Value as Json, json};
use traywright_engine::formula::{Kind, Value};
use traywright_engine::{Job, SettingValue, Style};

/// Each setting with its question, its kind, its default and what may be set; lengths in mm.
pub(crate) fn settings(style: &Style, job: &Job) -> Json {
    let settings = style.questions(Some(job)).into_iter().map(|setting| {
        let possible: Vec<Json> = setting.possible.iter().map(value).collect();
        json!({
            "name": setting.name,
            "question": setting.question,
            "kind": match setting.kind {
                Kind::Length => "length",
                Kind::Angle => "angle",
                Kind::Truth => "yes-no",
                Kind::Word => "choice",
                _ => "number",
            },
            "default": value(&setting.default),
            "possible": possible,
        })
    });
    Json::Array(settings.collect())
}

/// A value: null where it has none in this job.
fn value(value: &SettingValue<'_>) -> Json {
    match &value.value {
        None => Json::Null,
        Some(Value::Truth(truth)) => json!(truth),
        Some(Value::Word(word)) => json!(word),
        Some(
            Value::Number(number)
            | Value::Length(number)
            | Value::Area(number)
            | Value::Angle(number),
        ) => json!((number * 1e6).round() / 1e6),
    }
}
