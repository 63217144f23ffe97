//! Finds the style files to embed and the available languages, so that a new style or language is a new file and needs
//! no change of the program.
//!
//! **Input:** the folders `designs/styles` and `designs/trials`. **Output:** lists of (name, path, text) for
//! `library/styles.rs` to include; and from `designs/words` a list of codes for `library.rs`. Never reads a file: an
//! invalid one is refused when it is used.

use std::fmt::Write as _;
use std::path::{Path, PathBuf};
use std::{env, fs};

fn main() {
    for (folder, list) in [
        ("styles", "shipped_styles.rs"),
        ("trials", "trial_styles.rs"),
    ] {
        let mut styles = String::new();
        for (name, path) in designs(folder) {
            let shown = format!("{name}.ron (built in)");
            writeln!(styles, "    ({name:?}, {shown:?}, include_str!({path:?})),")
                .expect("a string takes any text");
        }
        write_list(list, &styles);
    }
    let mut languages = String::new();
    for (code, _) in designs("words") {
        writeln!(languages, "    {code:?},").expect("a string takes any text");
    }
    write_list("languages.rs", &languages);
}

/// Stem and path of every RON file in a folder of `designs`, in the order of their names.
fn designs(folder: &str) -> Vec<(String, String)> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("../../designs")
        .join(folder);
    println!("cargo::rerun-if-changed={}", folder.display());
    let mut files: Vec<PathBuf> = fs::read_dir(&folder)
        .expect("a folder of designs can be read")
        .map(|entry| entry.expect("a folder of designs can be listed").path())
        .filter(|path| path.extension().is_some_and(|extension| extension == "ron"))
        .collect();
    files.sort();
    let named = |file: &PathBuf| {
        let stem = file.file_stem().and_then(|stem| stem.to_str());
        let path = file.to_str();
        (
            stem.expect("a shipped file has a plain name").to_owned(),
            path.expect("the repository's path is UTF-8").to_owned(),
        )
    };
    files.iter().map(named).collect()
}

/// Writes a list for the program to include.
fn write_list(file: &str, entries: &str) {
    let out = env::var_os("OUT_DIR").expect("cargo says where to write");
    fs::write(Path::new(&out).join(file), format!("[\n{entries}]"))
        .expect("the list can be written");
}
