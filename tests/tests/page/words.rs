//! The words of the page: every language has all that the page says, and nothing else.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;

use serde::Deserialize;
use serde_json::Value;
use traywright_tests::{files, repository};

#[derive(Deserialize)]
struct Words {
    page: BTreeMap<String, String>,
    html: OfTheViewer,
}

#[derive(Deserialize)]
struct OfTheViewer {
    viewer: Value,
}

/// Names that scripts put together from one of these and a value.
const BEGINNINGS: [&str; 3] = ["file_", "own_", "by_"];

/// Every word of the page's HTML and scripts.
fn said() -> BTreeSet<String> {
    let mut said = BTreeSet::new();
    for ending in ["html", "js"] {
        for file in files("core/page/web", ending) {
            let text = fs::read_to_string(file).expect("a script can be read");
            let words = text.split(|letter: char| !letter.is_ascii_alphanumeric() && letter != '_');
            said.extend(words.map(ToOwned::to_owned));
        }
    }
    said
}

/// The sentences that scripts name in their code: `words.NAME`, but no method of a text.
fn named() -> BTreeSet<String> {
    let mut named = BTreeSet::new();
    for folder in ["core/page/web", "exporters/html/web"] {
        for file in files(folder, "js") {
            let text = fs::read_to_string(file).expect("a script can be read");
            for rest in text.split("words.").skip(1) {
                let is_part = |letter: char| letter.is_ascii_alphanumeric() || letter == '_';
                let end = rest.find(|letter| !is_part(letter)).unwrap_or(rest.len());
                let (name, rest) = rest.split_at(end);
                if !name.is_empty() && !rest.starts_with('(') {
                    named.insert(name.to_owned());
                }
            }
        }
    }
    named
}

/// The keys that stand twice in the map of the page, of which a reader keeps the last without a word.
fn twice_in_page(text: &str) -> Vec<&str> {
    let (_, page) = text.split_once("    page: {").expect("words of the page");
    let (page, _) = page.split_once("\n    }").expect("the map ends");
    let mut seen = BTreeSet::new();
    let keys = page.lines().filter_map(|line| {
        let (key, _) = line.trim().strip_prefix('"')?.split_once("\": ")?;
        Some(key)
    });
    keys.filter(|key| !seen.insert(*key)).collect()
}

#[test]
fn every_language_has_the_words_of_the_page() {
    let said = said();
    let mut keys: Option<BTreeSet<String>> = None;
    for path in files("designs/words", "ron") {
        let text = fs::read_to_string(&path).expect("words can be read");
        let words: Words = ron::from_str(&text).expect("words are RON");
        assert_eq!(twice_in_page(&text), [""; 0], "{}", path.display());
        let viewer = words.html.viewer.as_object().expect("words by name");
        let said_by_page = words.page.iter().map(|(key, words)| (key, words.as_str()));
        let said_by_viewer = viewer
            .iter()
            .map(|(key, words)| (key, words.as_str().unwrap_or_default()));
        let all: BTreeMap<&String, &str> = said_by_page.chain(said_by_viewer).collect();
        let known: BTreeSet<String> = all.keys().map(|key| (*key).clone()).collect();
        let idle: Vec<_> = words
            .page
            .keys()
            .filter(|key| {
                !said.contains(*key) && !BEGINNINGS.iter().any(|begin| key.starts_with(begin))
            })
            .collect();
        assert!(
            idle.is_empty(),
            "{}: the page never says {idle:?}",
            path.display()
        );
        assert!(all.values().all(|words| !words.trim().is_empty()));
        let same = keys.get_or_insert_with(|| known.clone());
        assert_eq!(*same, known, "{}", path.display());
    }
    let known = keys.expect("words ship");
    let html = fs::read_to_string(repository().join("core/page/web/page.html")).expect("the page");
    for mark in ["data-say=\"", "data-label=\""] {
        for rest in html.split(mark).skip(1) {
            let name = rest.split('"').next().unwrap_or_default();
            assert!(known.contains(name), "no language has {name}");
        }
    }
    let named = named();
    assert!(named.len() > 60, "{named:?}");
    let missing: Vec<_> = named.difference(&known).collect();
    assert!(missing.is_empty(), "no language has {missing:?}");
}
