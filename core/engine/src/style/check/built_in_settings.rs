//! The built-in settings, which every style with a slot has in addition to its own.
//!
//! **Input:** the style's own settings and the built-in ones. **Output:** both as one list. **Errors:** a style that
//! defines a built-in setting in a way that the engine cannot use.

use super::super::names::setting_kind;
use super::super::text::SettingEntry;
use super::super::written::Entries;
use crate::finding::SourceError;

/// Adds the built-in settings that the style does not define itself.
///
/// # Refuses
/// A built-in setting of another kind, or with words that the engine does not know.
pub(in crate::style) fn add_built_in_settings(
    settings: &mut Entries<SettingEntry>,
    built_in: Entries<SettingEntry>,
) -> Vec<SourceError> {
    let mut faults = Vec::new();
    for (name, setting) in built_in {
        let Some((own, answers)) = settings.iter().find(|(own, _)| own.word == name.word) else {
            settings.push(name, setting);
            continue;
        };
        if setting_kind(answers) != setting_kind(&setting) {
            let message = format!("`{}` is a built-in setting", own.word);
            let label = format!(
                "make it {}, like the built-in one",
                setting_kind(&setting).with_article()
            );
            faults.push(SourceError::new(own.place.clone(), message, label));
        }
        if let (SettingEntry::Choice { of, .. }, SettingEntry::Choice { of: known, .. }) =
            (answers, &setting)
        {
            let known: Vec<&str> = known.iter().map(|word| word.word.as_str()).collect();
            for word in of
                .iter()
                .filter(|word| !known.contains(&word.word.as_str()))
            {
                let message = format!("the built-in setting has no `{}`", word.word);
                let label = format!("its words: {}", known.join(", "));
                faults.push(SourceError::new(word.place.clone(), message, label));
            }
        }
    }
    faults
}
