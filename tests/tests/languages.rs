//! Every language that ships says all that the shipped styles say of their steps, and nothing that none of them says.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;

use serde::Deserialize;
use traywright_document::{BoxSize, Document};
use traywright_engine::job::{Job, Length};
use traywright_engine::make;
use traywright_tests::every_style::styles;
use traywright_tests::jobs::{job, style};
use traywright_tests::repository;

/// The language in which the styles are written.
const OF_THE_STYLES: &str = "en";

/// What is asked of a file of words here.
#[derive(Deserialize)]
struct Words {
    booklet: Booklet,
    drawing: Drawing,
}

#[derive(Deserialize)]
struct Drawing {
    part: BTreeMap<String, String>,
}

#[derive(Deserialize)]
struct Booklet {
    styles: BTreeMap<String, String>,
}

#[test]
fn every_sentence_of_a_shipped_style_is_known_in_every_language() {
    let said = said_of_steps();
    assert!(said.len() > 20, "{said:#?}");
    let folder = repository().join("designs/words");
    let files = fs::read_dir(folder).expect("words ship").flatten();
    let mut languages = 0;
    for path in files.map(|file| file.path()) {
        if path.file_stem().is_some_and(|code| code == OF_THE_STYLES) {
            continue;
        }
        languages += 1;
        let text = fs::read_to_string(&path).expect("words can be read");
        let words: Words = ron::from_str(&text).expect("words are RON");
        let styles = words.booklet.styles;
        let known: BTreeSet<_> = styles.keys().cloned().collect();
        let lacking: Vec<_> = said.difference(&known).collect();
        let stale: Vec<_> = known.difference(&said).collect();
        let mut told = styles.iter();
        let same = told.find(|(style, word)| word.trim().is_empty() || style == word);
        assert!(
            lacking.is_empty() && stale.is_empty() && same.is_none(),
            "{}: lacks {lacking:#?}; no style says {stale:#?}; in no other language: {same:?}",
            path.display()
        );
    }
    assert!(languages > 0);
}

#[test]
fn every_part_of_a_shipped_style_has_a_name_in_every_language() {
    let parts: BTreeSet<String> = shipped()
        .iter()
        .flat_map(|document| document.panels.iter().map(|panel| panel.part.clone()))
        .collect();
    assert!(parts.len() > 15, "{parts:#?}");
    let folder = repository().join("designs/words");
    for path in fs::read_dir(folder).expect("words ship").flatten() {
        let text = fs::read_to_string(path.path()).expect("words can be read");
        let words: Words = ron::from_str(&text).expect("words are RON");
        let known: BTreeSet<String> = words.drawing.part.keys().cloned().collect();
        assert_eq!(known, parts, "{}", path.path().display());
        let names: BTreeSet<&String> = words.drawing.part.values().collect();
        let empty = names.iter().any(|name| name.trim().is_empty());
        assert!(!empty, "{}", path.path().display());
    }
}

/// What the steps of every shipped style say.
fn said_of_steps() -> BTreeSet<String> {
    let steps = shipped().into_iter().flat_map(|document| document.steps);
    let mut said: BTreeSet<String> = steps.flat_map(|step| [step.words, step.why]).collect();
    said.remove("");
    said
}

/// A tray of every shipped style, and the strip. No step or part depends on the job but the flaps, which this job has.
fn shipped() -> Vec<Document> {
    let mut shipped = Vec::new();
    for name in styles() {
        let style = style(&format!("designs/styles/{name}.ron"));
        let job = job([160.0, 110.0, 34.0], [60.0, 40.0, 27.0], 0.3);
        let made = make(&style, &job).unwrap_or_else(|refusal| panic!("{name}: {refusal:#?}"));
        shipped.push(made.finish().document());
    }
    let strip = style("designs/trials/strip.ron");
    let job = Job::plain(strip.name(), BoxSize::NONE, Length::known(0.3), Vec::new());
    let made = make(&strip, &job).expect("the strip of a plain card");
    shipped.push(made.finish().document());
    shipped
}
