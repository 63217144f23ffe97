//! Whether the names of a style can be names, and each is taken once.

use super::names::RESERVED;
use super::text::{LANGUAGE, Sheet};
use super::written::Name;
use crate::finding::Fault;

/// Faults that need no graph: the language's number, and names taken twice.
pub(super) fn check(sheet: &Sheet) -> Vec<Fault> {
    let mut faults = Vec::new();
    if sheet.language != LANGUAGE {
        let label = format!(
            "this program reads language {LANGUAGE}; a newer one may be needed for this style"
        );
        faults.push(Fault::new(
            0..0,
            format!("the style is written in language {}", sheet.language),
            label,
        ));
    }
    let taken = sheet
        .asks
        .iter()
        .map(|(name, _)| name)
        .chain(sheet.values.iter().map(|(name, _)| name));
    let taken = taken
        .chain(sheet.choices.iter().map(|(name, _)| name))
        .chain(sheet.panels.iter().map(|(name, _)| name));
    let taken = taken
        .chain(sheet.openings.iter().map(|(name, _)| name))
        .chain(sheet.tongues.iter().map(|(name, _)| name));
    once(taken, &mut faults);
    once(sheet.rules.iter().map(|(name, _)| name), &mut faults);
    once(sheet.measures.iter().map(|(name, _)| name), &mut faults);
    faults
}

fn once<'s>(names: impl Iterator<Item = &'s Name>, faults: &mut Vec<Fault>) {
    let mut seen: Vec<&Name> = Vec::new();
    for name in names {
        if let Some(first) = seen.iter().find(|first| first.word == name.word) {
            let fault = Fault::new(
                name.place.clone(),
                format!("the name `{}` is taken", name.word),
                "give it another name",
            );
            faults.push(fault.with_context(first.place.clone(), "taken here"));
        } else if RESERVED.contains(&name.word.as_str()) {
            let message = format!("`{}` is a word of the language", name.word);
            faults.push(Fault::new(
                name.place.clone(),
                message,
                "give it another name",
            ));
        } else if !well_formed(&name.word) {
            let label = "small letters, digits, hyphens and underscores, a letter first";
            faults.push(Fault::new(
                name.place.clone(),
                format!("`{}` cannot be a name", name.word),
                label,
            ));
        }
        seen.push(name);
    }
}

fn well_formed(word: &str) -> bool {
    let fine = |letter: char| {
        letter.is_ascii_lowercase() || letter.is_ascii_digit() || letter == '-' || letter == '_'
    };
    word.starts_with(|first: char| first.is_ascii_lowercase()) && word.chars().all(fine)
}
