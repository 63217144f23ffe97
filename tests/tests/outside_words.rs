//! Printed texts are easy to read and spelled right, by measures and dictionaries that are not ours.
//!
//! Sources: the grade of R. Flesch and J. P. Kincaid as textstat counts it, and the dictionaries of pyspellchecker. Words
//! that these do not have stand in `tests/outside/words-LANGUAGE.txt`.

use std::fs;

use serde_json::Value;
use tempfile::NamedTempFile;

use traywright_tests::{cargo, measured, repository};

/// The grade that half of the texts do not pass, and the one that no text passes.
// Source: a choice of this project: texts for people of 13 years, and none harder than the last year of school.
const MEDIAN: f64 = 8.0;
const HARDEST: f64 = 12.0;

#[test]
fn printed_english_is_easy_to_read_and_spelled_right() {
    let output = cargo()
        .args(["run", "--quiet", "--package", "xtask", "--", "printed"])
        .output()
        .expect("cargo can be started");
    let printed = String::from_utf8(output.stdout).expect("texts are UTF-8");
    let Some(found) = judged(&printed, "en") else {
        return;
    };
    let grades: Vec<(f64, &Value)> = found["grades"]
        .as_array()
        .expect("a list")
        .iter()
        .map(|text| (text[0].as_f64().expect("a number"), text))
        .collect();
    assert!(grades.len() > 800, "only {} texts were read", grades.len());
    let median = grades[grades.len() / 2].0;
    assert!(
        median <= MEDIAN,
        "half of the texts are over grade {median}"
    );
    let hard: Vec<&Value> = grades
        .iter()
        .filter(|(grade, _)| *grade > HARDEST)
        .map(|(_, text)| *text)
        .collect();
    assert!(hard.is_empty(), "too hard to read: {hard:#?}");
    assert_known(&found);
}

#[test]
fn printed_german_is_spelled_right() {
    let path = "designs/words/de.ron";
    let text = fs::read_to_string(repository().join(path)).expect("the language ships");
    let lines = (1..).zip(text.lines());
    let printed: String = lines
        .map(|(number, line)| format!("{path}\t{number}\t{line}\n"))
        .collect();
    let Some(found) = judged(&printed, "de") else {
        return;
    };
    assert_known(&found);
}

/// What the script says of texts with their places.
fn judged(printed: &str, language: &str) -> Option<Value> {
    let file = NamedTempFile::new().expect("a file can be made");
    fs::write(file.path(), printed).expect("it can be written");
    let path = file.path().to_str().expect("plain");
    Some(measured("words.py", &[path, language])?.unwrap_or_else(|fault| panic!("{fault}")))
}

fn assert_known(found: &Value) {
    let unknown = found["unknown"].as_object().expect("a map");
    assert!(
        unknown.is_empty(),
        "no dictionary has these words: {unknown:#?}"
    );
}
