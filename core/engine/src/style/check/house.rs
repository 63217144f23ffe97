//! The questions that every style with a slot has, beside those that it asks itself.
//!
//! Given the style's own asks and the house's; gives both as one list, and refuses a style that asks a question of the
//! house in a way that the engine cannot use.

use super::super::names::ask_kind;
use super::super::text::SettingEntry;
use super::super::written::Entries;
use crate::finding::SourceError;

/// Adds what the house asks and the style does not ask itself.
///
/// # Refuses
/// A house question for another kind of answer, or with words that the house does not know.
pub(in crate::style) fn add_house_asks(
    asks: &mut Entries<SettingEntry>,
    house: Entries<SettingEntry>,
) -> Vec<SourceError> {
    let mut faults = Vec::new();
    for (name, ask) in house.0 {
        let Some((own, answers)) = asks.iter().find(|(own, _)| own.word == name.word) else {
            asks.0.push((name, ask));
            continue;
        };
        if ask_kind(answers) != ask_kind(&ask) {
            let message = format!("`{}` is a question of the house", own.word);
            let label = format!(
                "it asks for {}, as the house does",
                ask_kind(&ask).with_article()
            );
            faults.push(SourceError::new(own.place.clone(), message, label));
        }
        if let (SettingEntry::Choice { of, .. }, SettingEntry::Choice { of: known, .. }) =
            (answers, &ask)
        {
            let known: Vec<&str> = known.iter().map(|word| word.word.as_str()).collect();
            for word in of
                .iter()
                .filter(|word| !known.contains(&word.word.as_str()))
            {
                let message = format!("the house knows no `{}`", word.word);
                let label = format!("it knows {}", known.join(", "));
                faults.push(SourceError::new(word.place.clone(), message, label));
            }
        }
    }
    faults
}
