//! The seeds of the fuzz targets through the same functions.
//!
//! Source of what is checked: `tests/fuzz/inputs.rs`. `cargo xtask fuzz` begins with the same seeds and looks for more.

use std::fs;
use std::path::Path;

#[path = "../../../tests/fuzz/inputs.rs"]
mod inputs;

/// Every seed, which is read as a whole, and its first part, cut off after each of 50 parts, which need not be.
fn each(folder: &str, take: fn(&[u8]) -> bool) {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("../..")
        .join(folder);
    let mut count = 0;
    for entry in fs::read_dir(folder).expect("the seeds can be listed") {
        let path = entry.expect("an entry").path();
        let bytes = fs::read(&path).expect("a seed can be read");
        assert!(take(&bytes), "{} is not read", path.display());
        for part in 1..50 {
            take(&bytes[..bytes.len() * part / 50]);
        }
        count += 1;
    }
    assert!(count > 0, "there is no seed");
}

#[test]
fn jobs_are_read() {
    each("designs/jobs", inputs::job);
}

#[test]
fn jobs_are_checked() {
    each("designs/jobs", inputs::check);
}

#[test]
fn styles_are_read() {
    each("designs/styles", inputs::style);
}

#[test]
fn formulas_are_read() {
    each("tests/fuzz/seeds/formula", inputs::formula);
}

#[test]
fn documents_are_read() {
    each("tests/fuzz/seeds/wire", inputs::wire);
}
