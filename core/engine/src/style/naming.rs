//! Whether the names of a style are valid and unique, and the style's own numbers possible.
//!
//! **Input:** a style file and the tokens of its text. **Output:** errors with source spans. Needs no graph and no
//! formula.

use std::collections::HashMap;

use super::MOST_ITEMS;
use super::either::Inset;
use super::names::RESERVED;
use super::text::{
    HingedEntry, LANGUAGE, OpeningEntry, PanelEntry, RuleEntry, RuleText, SettingEntry, StepEntry,
    StyleFile,
};
use super::tokens::Tokens;
use super::written::Name;
use crate::finding::SourceError;

/// Names of the built-in settings: a style may redefine them as settings, but use the names for nothing else.
pub(crate) const BUILT_IN_NAMES: [&str; 4] = ["edge-web", "web", "floor-air", "doors-on"];

/// Words that mean edges of any panel, so no edge can have them as its name.
const EDGE_WORDS: [&str; 7] = [
    "near", "flanks", "edges", "ends", "sides", "inward", "outward",
];

/// Errors that can be found without a graph.
pub(super) fn check(sheet: &StyleFile, tokens: &Tokens) -> Vec<SourceError> {
    let mut faults = Vec::new();
    if sheet.language != LANGUAGE {
        let label = format!(
            "this program reads language {LANGUAGE}; a newer one may be needed for this style"
        );
        let message = format!("the style is written in language {}", sheet.language);
        let place = tokens.value_of("language").unwrap_or(0..0);
        faults.push(SourceError::new(place, message, label));
    }
    items(sheet, tokens, &mut faults);
    entries(sheet, &mut faults);
    faults
}

/// The measure that every report must have.
// Source: the outside contract of the project, `check --format json`.
const PROMISED_MEASURE: &str = "wall_height";

/// The error of a style that breaks a promise of every style.
pub(super) fn promised(sheet: &StyleFile, tokens: &Tokens) -> Vec<SourceError> {
    let is_tray = sheet.items.max > 0;
    if !is_tray || sheet.measures.get(PROMISED_MEASURE).is_some() {
        return Vec::new();
    }
    let place = tokens.value_of("measures").unwrap_or(0..0);
    let message = format!("the style has no measure `{PROMISED_MEASURE}`");
    let label = format!("name its side wall: measures: {{\"{PROMISED_MEASURE}\": \"side.reach\"}}");
    vec![SourceError::new(place, message, label)]
}

fn items(sheet: &StyleFile, tokens: &Tokens, faults: &mut Vec<SourceError>) {
    let (min, max) = (sheet.items.min, sheet.items.max);
    let message = if min == 0 && max > 0 {
        "a style takes no item at all, or one at least"
    } else if max < min {
        "the least number of items stands first"
    } else if max > MOST_ITEMS {
        "a job has 64 items at most"
    } else {
        return;
    };
    let label = "write `items: 1`, `items: (1, 64)` for one to 64, or `items: 0` for a piece that only shows how card folds";
    let place = tokens.value_of("items").unwrap_or(0..0);
    faults.push(SourceError::new(place, message, label));
}

/// Names of entries, and names inside entries that must differ from each other.
fn entries(sheet: &StyleFile, faults: &mut Vec<SourceError>) {
    let reckoned = sheet.values.names().chain(sheet.fallbacks.names());
    let card = sheet.panels.names().chain(sheet.openings.names());
    let others = reckoned.chain(card).chain(sheet.tongues.names());
    once(sheet.settings.names().chain(others.clone()), faults);
    free(sheet.settings.names(), &[], faults);
    free(others, &BUILT_IN_NAMES, faults);
    for names in [
        sheet.rules.names().collect::<Vec<_>>(),
        sheet.measures.names().collect(),
    ] {
        once(names.iter().copied(), faults);
        well_named(names.into_iter(), faults);
    }
    within_settings_and_fallbacks(sheet, faults);
    within_card(sheet, faults);
    within_words(sheet, faults);
}

fn within_settings_and_fallbacks(sheet: &StyleFile, faults: &mut Vec<SourceError>) {
    for (_, options) in sheet.fallbacks.iter() {
        once(options.names(), faults);
    }
    for (_, setting) in sheet.settings.iter() {
        if let SettingEntry::Choice { of, .. } = setting {
            once(of.iter(), faults);
        }
    }
}

fn within_card(sheet: &StyleFile, faults: &mut Vec<SourceError>) {
    for (_, panel) in sheet.panels.iter() {
        match panel {
            PanelEntry::Rectangle { .. } => {}
            PanelEntry::Regular { edges, .. } => edge_names(edges.iter(), faults),
            PanelEntry::Polygon { corners, .. } => {
                edge_names(corners.iter().map(|(edge, _, _)| edge), faults);
            }
            PanelEntry::Hinged(hinged) => self::hinged(hinged, faults),
        }
    }
    for (_, opening) in sheet.openings.iter() {
        if let OpeningEntry::Slot(slot) = opening {
            once(slot.stacks.names(), faults);
        }
    }
}

fn within_words(sheet: &StyleFile, faults: &mut Vec<SourceError>) {
    for (code, rule) in sheet.rules.iter() {
        let (RuleEntry::Error(rule) | RuleEntry::Warning(rule) | RuleEntry::Note(rule)) = rule;
        figures(code, rule, faults);
    }
    for step in &sheet.steps {
        if let StepEntry::Fold {
            each: Some(each),
            panels,
            ..
        } = step
            && panels.is_empty()
        {
            let label = "name the panels to fold, with words for the hand";
            faults.push(SourceError::new(
                each.place.clone(),
                "this step folds nothing",
                label,
            ));
        }
    }
}

fn hinged(hinged: &HingedEntry, faults: &mut Vec<SourceError>) {
    once(hinged.on.0.iter(), faults);
    once(hinged.trim.names(), faults);
    if let Inset::ByFlank(insets) = &hinged.inset {
        once(insets.names(), faults);
    }
    if let Some(corners) = &hinged.outline {
        edge_names(corners.iter().map(|(edge, _, _)| edge), faults);
    }
}

/// A sentence that quotes a measured value must have one.
fn figures(code: &Name, rule: &RuleText, faults: &mut Vec<SourceError>) {
    let compares = rule
        .need
        .as_ref()
        .filter(|need| need.fault().is_none())
        .is_some_and(|need| need.formula().comparison().is_some());
    for (figure, given) in [("{value}", &rule.value), ("{limit}", &rule.limit)] {
        if rule.message.contains(figure) && given.is_none() && !compares {
            let message = format!("`{}` quotes {figure}, and there is none", code.word);
            let label = "compare two figures in `need`, or give the figure as `value` or `limit`";
            faults.push(SourceError::new(code.place.clone(), message, label));
        }
    }
}

fn edge_names<'s>(names: impl Iterator<Item = &'s Name> + Clone, faults: &mut Vec<SourceError>) {
    once(names.clone(), faults);
    for name in names.clone() {
        if EDGE_WORDS.contains(&name.word.as_str()) {
            let message = format!("`{}` is a word for edges of every panel", name.word);
            faults.push(SourceError::new(
                name.place.clone(),
                message,
                "give this edge another name",
            ));
        }
    }
    well_named(names, faults);
}

/// Rejects names that already have a meaning.
fn free<'s>(
    names: impl Iterator<Item = &'s Name> + Clone,
    built_in: &[&str],
    faults: &mut Vec<SourceError>,
) {
    for name in names.clone() {
        if reserved(&name.word) || built_in.contains(&name.word.as_str()) {
            let message = format!("`{}` is a word of the language", name.word);
            faults.push(SourceError::new(
                name.place.clone(),
                message,
                "give it another name",
            ));
        }
    }
    well_named(names, faults);
}

fn reserved(word: &str) -> bool {
    let numbered = word.strip_prefix("item").is_some_and(|number| {
        !number.is_empty() && number.chars().all(|letter| letter.is_ascii_digit())
    });
    numbered || RESERVED.contains(&word)
}

fn well_named<'s>(names: impl Iterator<Item = &'s Name>, faults: &mut Vec<SourceError>) {
    for name in names.filter(|name| !well_formed(&name.word)) {
        let label = "small letters, digits, hyphens and underscores, a letter first";
        let message = format!("`{}` cannot be a name", name.word);
        faults.push(SourceError::new(name.place.clone(), message, label));
    }
}

/// Rejects every name that occurs earlier.
fn once<'s>(names: impl Iterator<Item = &'s Name>, faults: &mut Vec<SourceError>) {
    let mut seen: HashMap<&str, &Name> = HashMap::new();
    for name in names {
        if let Some(first) = seen.get(name.word.as_str()) {
            let fault = SourceError::new(
                name.place.clone(),
                format!("the name `{}` is taken", name.word),
                "give it another name, or leave one out",
            );
            faults.push(fault.with_context(first.place.clone(), "taken here"));
        } else {
            seen.insert(&name.word, name);
        }
    }
}

fn well_formed(word: &str) -> bool {
    let fine = |letter: char| {
        letter.is_ascii_lowercase() || letter.is_ascii_digit() || letter == '-' || letter == '_'
    };
    word.starts_with(|first: char| first.is_ascii_lowercase()) && word.chars().all(fine)
}
