//! Finds the style files to embed, so that a new style is a new file and no change to the program.
//!
//! Given the folder `designs/styles`, it writes a list of (name, path, text) for `library/styles.rs` to include.
//! Never reads a style: a faulty one is refused by the program like any other.

use std::fmt::Write as _;
use std::path::{Path, PathBuf};
use std::{env, fs};

fn main() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../designs/styles");
    println!("cargo::rerun-if-changed={}", folder.display());
    let mut files: Vec<PathBuf> = fs::read_dir(&folder)
        .expect("designs/styles can be read")
        .map(|entry| entry.expect("designs/styles can be listed").path())
        .filter(|path| path.extension().is_some_and(|extension| extension == "ron"))
        .collect();
    files.sort();
    let mut list = String::from("[\n");
    for file in files {
        let stem = file.file_stem().expect("a style file has a name");
        let name = stem.to_str().expect("a shipped style has a plain name");
        let path = file.to_str().expect("the repository's path is UTF-8");
        let shown = format!("{name}.ron (built in)");
        writeln!(list, "    ({name:?}, {shown:?}, include_str!({path:?})),")
            .expect("a string takes any text");
    }
    list.push(']');
    let out = env::var_os("OUT_DIR").expect("cargo says where to write");
    fs::write(Path::new(&out).join("shipped_styles.rs"), list).expect("the list can be written");
}
