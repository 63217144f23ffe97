//! Finds the words of every language, so that a new language is a new file and needs no change of a page.
//!
//! **Input:** the folder `designs/words`. **Output:** a list of (code, text) for `language.rs` to include. Never reads
//! a file: an invalid one is refused when it is used, and a test uses all.

use std::fmt::Write as _;
use std::path::{Path, PathBuf};
use std::{env, fs};

fn main() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../designs/words");
    println!("cargo::rerun-if-changed={}", folder.display());
    let mut files: Vec<PathBuf> = fs::read_dir(&folder)
        .expect("designs/words can be read")
        .map(|entry| entry.expect("designs/words can be listed").path())
        .filter(|path| path.extension().is_some_and(|extension| extension == "ron"))
        .collect();
    files.sort();
    let mut list = String::from("[\n");
    for file in files {
        let code = file.file_stem().and_then(|stem| stem.to_str());
        let code = code.expect("a file of words is named after its language");
        let path = file.to_str().expect("the repository's path is UTF-8");
        writeln!(list, "    ({code:?}, include_str!({path:?})),").expect("a string takes any text");
    }
    list.push(']');
    let out = env::var_os("OUT_DIR").expect("cargo says where to write");
    fs::write(Path::new(&out).join("words.rs"), list).expect("the list can be written");
}
