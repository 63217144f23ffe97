//! The small corpora of the fuzz targets, and inputs that a fuzzer once found, through the same functions.
//!
//! Source of what is checked: `tests/fuzz/inputs.rs`. `cargo xtask fuzz` looks for more inputs.

use std::fs;
use std::path::Path;

#[path = "../../../tests/fuzz/inputs.rs"]
mod inputs;

/// Every input of a corpus, whole and cut off after each of 50 parts.
fn each(corpus: &str, take: fn(&[u8])) {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/fuzz/corpus");
    let entries = fs::read_dir(folder.join(corpus)).expect("the corpus can be listed");
    let mut count = 0;
    for entry in entries {
        let bytes = fs::read(entry.expect("an entry").path()).expect("an input can be read");
        for part in 1..=50 {
            take(&bytes[..bytes.len() * part / 50]);
        }
        count += 1;
    }
    assert!(count > 0, "the corpus is empty");
}

#[test]
fn jobs_are_read() {
    each("job", inputs::job);
}

#[test]
fn jobs_are_checked() {
    each("check", inputs::check);
}

#[test]
fn styles_are_read() {
    each("style", inputs::style);
}

#[test]
fn formulas_are_read() {
    each("formula", inputs::formula);
}

#[test]
fn documents_are_read() {
    each("wire", inputs::wire);
}
