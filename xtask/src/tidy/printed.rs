//! Words that no printed text may have: people had to read each of them twice.
//!
//! **Input:** the texts that makers and authors of styles read, and the sentences in the code that prints. **Output:** one
//! fault for each such word. **Does not** read what a test compares, nor German.

use std::path::Path;

use super::{House, TextFile};

/// Words and pairs of words that readers stumbled over.
// Source: what readers of reports, sheets and booklets asked about.
const NOT_PRINTED: [&str; 21] = [
    "told",
    "cure",
    "cures",
    "cured",
    "whoever",
    "beware",
    "reckon",
    "reckons",
    "reckoned",
    "reckoning",
    "in vain",
    "second fold",
    "spine",
    "spines",
    "usual",
    "slab",
    "slabs",
    "proved",
    "judged",
    "whence",
    "by lot",
];

/// Folders and files that are read from the first line to the last.
const READ_WHOLE: [&str; 6] = [
    "README.md",
    "designs/words/en.ron",
    "designs/jobs",
    "designs/styles",
    "designs/trials",
    "core/engine/src/finding/pages",
];

/// Folders whose sentences are printed: of their code, the literals of more than one word.
const PRINTS: [&str; 3] = ["core/engine/src/finding", "core/job/src", "core/cli/src"];

/// The file whose doc comments are the help texts.
const HELP: &str = "core/cli/src/args.rs";

/// Judges every printed text.
pub(super) fn judge(house: &House, faults: &mut Vec<String>) {
    for file in &house.texts {
        for (line, text) in printed(file) {
            for word in NOT_PRINTED.iter().filter(|word| has_word(&text, word)) {
                let words = format!("`{word}` is no word for a printed text: use a plain one");
                faults.push(file.fault(line, &words));
            }
        }
    }
}

/// The printed texts of a file, each with its line.
pub(super) fn printed(file: &TextFile) -> Vec<(usize, String)> {
    let is_help = file.path == Path::new(HELP);
    let mut texts = Vec::new();
    if is_read_whole(&file.path) || is_help {
        let lines = (1..).zip(file.text.lines().map(ToOwned::to_owned));
        texts.extend(lines.filter(|(_, text)| !is_help || text.trim_start().starts_with("///")));
    }
    let Some(rust) = file.rust.as_ref().filter(|_| is_printing_code(&file.path)) else {
        return texts;
    };
    let (code, end) = (&rust.literals, rust.tests_begin());
    let sentences = code
        .iter()
        .filter(|(place, text)| *place < end && text.contains(' '));
    texts.extend(sentences.map(|(place, text)| (rust.line_of(*place), text.clone())));
    texts
}

fn is_read_whole(path: &Path) -> bool {
    let is_guide = path.parent() == Some(Path::new("designs"))
        && path.extension().is_some_and(|ending| ending == "md");
    is_guide || READ_WHOLE.iter().any(|place| path.starts_with(place))
}

fn is_printing_code(path: &Path) -> bool {
    let is_tests = path
        .components()
        .any(|part| part.as_os_str() == "tests" || part.as_os_str() == "tests.rs");
    !is_tests && PRINTS.iter().any(|place| path.starts_with(place))
}

/// Whether a text has a word, with capitals or without.
fn has_word(text: &str, word: &str) -> bool {
    let text = text.to_lowercase();
    text.match_indices(word).any(|(at, _)| {
        let before = text[..at].chars().next_back();
        let after = text[at + word.len()..].chars().next();
        !before.is_some_and(char::is_alphanumeric) && !after.is_some_and(char::is_alphanumeric)
    })
}
