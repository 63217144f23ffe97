//! The words of the page itself, from `designs/words`; those of reports are the engine's, and English.

use std::collections::BTreeMap;

use serde::Deserialize;
use serde_json::{Value, json};
use traywright_look::words as words_of;

#[derive(Deserialize)]
struct OfThePage {
    page: BTreeMap<String, String>,
    html: OfTheViewer,
}

#[derive(Deserialize)]
struct OfTheViewer {
    viewer: Value,
}

/// The sentences by name, those of the viewer among them; null where there is no such language.
pub(crate) fn words(language: &str) -> Value {
    let found: Result<OfThePage, _> = words_of(language);
    found.map_or(Value::Null, |file| {
        let mut all = json!(file.page);
        let viewer = file.html.viewer.as_object().into_iter().flatten();
        for (name, words) in viewer {
            all[name] = words.clone();
        }
        all
    })
}
