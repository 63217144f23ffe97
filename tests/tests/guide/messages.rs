//! Each message of the guide's page about style files is one that the program gives, and each that a small mistake
//! brings about stands on the page.
//!
//! The mistakes stand in `mistakes.txt`; those that take hundreds of entries are built next door.

mod large;

use std::fs;

use traywright_engine::job::Unit;
use traywright_engine::{Refusal, SourceError, Style, make};
use traywright_tests::jobs::job;
use traywright_tests::repository;

use crate::blocks::Guide;

/// Mistakes, each with the message that it should bring.
const MISTAKES: &str = include_str!("mistakes.txt");

#[test]
fn every_message_on_the_page_comes_from_a_mistake_and_no_other_comes() {
    let page = page();
    assert!(page.len() > 100, "the page has few messages");
    let guide = Guide::read();
    let nest = guide.style("nest");
    let mut met: Vec<&str> = Vec::new();
    let mut wrong: Vec<String> = Vec::new();
    for (message, text) in mistaken(nest) {
        let said = said(&text);
        if !said.iter().any(|said| is_like(message, said)) {
            let text: String = text.chars().take(1000).collect();
            wrong.push(format!("no `{message}`, but {said:?} in\n{text}"));
        }
        for said in &said {
            if !page.iter().any(|known| is_like(known, said)) {
                wrong.push(format!("the page does not tell of: {said}"));
            }
        }
        met.push(message);
    }
    for known in &page {
        if !met.contains(&known.as_str()) {
            wrong.push(format!("no mistake gives: {known}"));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// Every mistake made in the style: the message that is expected, and the text.
fn mistaken(nest: &str) -> Vec<(&'static str, String)> {
    // Steps name every panel: a mistake elsewhere is made without them.
    let (before, steps) = nest
        .split_once("    steps: [")
        .expect("the style has steps");
    assert!(steps.ends_with("    ],\n)\n"), "the steps come last");
    let free = format!("{before})\n");
    let choice =
        "fallbacks: {\"hold\": {\"tongues\": \"caliper > 0mm\", \"friction\": \"otherwise\"}},";
    let choosing = free.replacen("    panels: {", &format!("    {choice}\n    panels: {{"), 1);
    let written = MISTAKES.split("\n# ").skip(1).map(|case| {
        let (message, lines) = case.split_once('\n').expect("a mistake has lines");
        if let Some(formula) = lines.strip_prefix('=') {
            let formula = format!("\"height\": \"{}\",", formula.trim());
            let right = "\"height\": \"tray.depth - sink\",";
            return (message, choosing.replacen(right, &formula, 1));
        }
        let (right, wrong) = (marked(lines, '<'), marked(lines, '>'));
        let whole = if free.contains(&right) { &free } else { nest };
        assert!(whole.contains(&right), "not in the style: {right}");
        (message, whole.replacen(&right, &wrong, 1))
    });
    written.chain(large::mistakes(&free)).collect()
}

/// The lines with a mark, without it.
fn marked(lines: &str, mark: char) -> String {
    let lines = lines.lines().filter_map(|line| line.strip_prefix(mark));
    let lines: Vec<&str> = lines
        .map(|line| line.strip_prefix(' ').unwrap_or(line))
        .collect();
    lines.join("\n")
}

/// The messages on the page, with `…` for what differs.
fn page() -> Vec<String> {
    let path = repository().join("designs/STYLE-MESSAGES.md");
    let text = fs::read_to_string(path).expect("the page can be read");
    let messages = text.lines().filter_map(|line| {
        let (message, meaning) = line.strip_prefix("- **")?.split_once("** — ")?;
        assert!(!meaning.is_empty(), "{message} has no meaning");
        Some(message.to_owned())
    });
    messages.collect()
}

/// What the program says of a style, or of a tray that it makes of it.
fn said(text: &str) -> Vec<String> {
    let titles = |faults: Vec<SourceError>| faults.into_iter().map(|fault| fault.message).collect();
    let style = match Style::read("tried", text) {
        Ok(style) => style,
        Err(faults) => return titles(faults),
    };
    let mut job = job([120.0, 80.0, 30.0], [60.0, 34.0, 24.0], 0.5);
    job.items.resize(style.items().0, job.items[0].clone());
    match make(&style, &job) {
        Err(Refusal::Style(faults)) => titles(faults),
        Err(Refusal::Tray(report)) => {
            let choices = report
                .findings
                .into_iter()
                .filter(|finding| finding.code().starts_with("no-"));
            choices
                .map(|finding| finding.message(Unit::default()))
                .collect()
        }
        _ => Vec::new(),
    }
}

/// Whether a message is the one on the page, whatever stands for `…`.
fn is_like(known: &str, said: &str) -> bool {
    let mut parts = known.split('…');
    let first = parts.next().unwrap_or_default();
    let Some(mut rest) = said.strip_prefix(first) else {
        return false;
    };
    let parts: Vec<&str> = parts.collect();
    let Some((last, between)) = parts.split_last() else {
        return rest.is_empty();
    };
    for part in between {
        match rest.find(part) {
            Some(at) => rest = &rest[at + part.len()..],
            None => return false,
        }
    }
    rest.ends_with(last)
}

#[test]
fn likeness_is_of_all_but_the_dots() {
    assert!(is_like("a comma is missing", "a comma is missing"));
    assert!(!is_like("a comma is missing", "a comma is missing here"));
    assert!(is_like("`…` has no edge `…`", "`deck` has no edge `end`"));
    assert!(!is_like("`…` has no edge `…`", "`deck` has no field `end`"));
}
