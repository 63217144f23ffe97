//! What the hands do, in words of the job's language.
//!
//! **Input:** a document. **Output:** a step for each group of like steps, as the booklet counts them, and those that
//! put tray and items into the box, which no document has.

use serde::Serialize;
use traywright_document::{Action, Document, Move, filled, steps};

use crate::words::WordsFile;

/// More panels than this that move at once are not all named.
const MOST_NAMED: usize = 4;
/// More kinds of items than this are not all named.
const MOST_ITEMS: usize = 6;

/// One step.
#[derive(Serialize)]
pub(crate) struct SceneStep {
    /// The panels that move.
    pub(crate) who: String,
    /// What is done.
    pub(crate) words: String,
    /// Why it comes here; empty where the step before has the same reason.
    pub(crate) why: String,
    pub(crate) action: SceneAction,
}

/// What a step does to the picture.
#[derive(Serialize)]
#[serde(rename_all = "kebab-case")]
pub(crate) enum SceneAction {
    /// Index of a panel, and the angle of its crease afterwards.
    Fold(Vec<(usize, f64)>),
    Turn,
    Place,
    Box,
    /// An action of a later release: the picture stays.
    Other,
}

/// All steps of a tray.
pub(crate) fn steps(document: &Document, file: &WordsFile) -> Vec<SceneStep> {
    let joined: Vec<_> = steps::alike(&document.steps)
        .filter_map(steps::joined)
        .collect();
    let mut all = Vec::new();
    for (index, step) in joined.iter().enumerate() {
        let action = action(&step.action);
        let known = index.checked_sub(1).map(|before| &joined[before].why);
        let words = match (&action, step.words.as_str()) {
            (SceneAction::Turn, "") => file.html.turn.clone(),
            (SceneAction::Place, "") => {
                filled(&file.html.place, &[("items", &items(document, file))])
            }
            (_, words) => file.said(words).to_owned(),
        };
        let words = match action {
            SceneAction::Place => on_pads(document, file, words),
            _ => words,
        };
        let tongues = file.drawing.drawing.tongues.of(step.tongues);
        let words: Vec<&str> = std::iter::once(words.as_str()).chain(tongues).collect();
        let words = words.join(" ");
        let why = match known == Some(&step.why) {
            true => String::new(),
            false => file.said(&step.why).to_owned(),
        };
        all.push(SceneStep {
            who: who(document, &step.action, file),
            words,
            why,
            action,
        });
    }
    if document.has_box() {
        all.extend(last(document, file));
    }
    all
}

/// Into the box; and the items into their openings, if they are not in yet.
fn last(document: &Document, file: &WordsFile) -> Vec<SceneStep> {
    let own = |words: String, action| SceneStep {
        who: String::new(),
        words,
        why: String::new(),
        action,
    };
    let mut steps = document.steps.iter();
    let are_in = steps.any(|step| matches!(step.action, Action::Place));
    let words = &file.html;
    let mut last = vec![own(words.into_box.clone(), SceneAction::Box)];
    if !are_in && !document.items.is_empty() {
        let items = items(document, file);
        let words = filled(&words.push_in, &[("items", &items)]);
        last.push(own(on_pads(document, file, words), SceneAction::Place));
    }
    last
}

/// The words for putting items in, after those for the pads that go under them.
fn on_pads(document: &Document, file: &WordsFile, words: String) -> String {
    let pads = file.drawing.pads(document);
    if pads.is_empty() {
        return words;
    }
    let pads = filled(&file.html.pads_first, &[("pads", &pads.join("; "))]);
    format!("{pads} {words}")
}

fn action(action: &Action) -> SceneAction {
    match action {
        Action::Fold(moves) => {
            SceneAction::Fold(moves.iter().map(|one| (one.panel, one.to_deg)).collect())
        }
        Action::Turn => SceneAction::Turn,
        Action::Place => SceneAction::Place,
        _ => SceneAction::Other,
    }
}

fn who(document: &Document, action: &Action, file: &WordsFile) -> String {
    let name = |one: &Move| {
        document
            .panels
            .get(one.panel)
            .map(|panel| panel.name.clone())
    };
    match action {
        Action::Fold(moves) => named(moves.iter().filter_map(name).collect(), MOST_NAMED, file),
        _ => String::new(),
    }
}

/// The items by name, in a row.
pub(crate) fn items(document: &Document, file: &WordsFile) -> String {
    let kinds = document.kinds();
    let names = kinds.map(|(item, count)| counted(&item.name, count, file));
    named(names.collect(), MOST_ITEMS, file)
}

/// The name of a kind of items with how many there are.
pub(crate) fn counted(name: &str, count: usize, file: &WordsFile) -> String {
    match count {
        1 => name.to_owned(),
        count => {
            let count = count.to_string();
            filled(
                &file.html.several,
                &[("count", count.as_str()), ("item", name)],
            )
        }
    }
}

fn named(mut names: Vec<String>, most: usize, file: &WordsFile) -> String {
    if names.len() > most {
        let more = (names.len() - most).to_string();
        names.truncate(most);
        names.push(filled(&file.html.and_more, &[("count", &more)]));
    }
    names.join(", ")
}
