//! `cargo xtask tidy`: the rules of the house that a program can judge.
//!
//! Reads every file of the tree and says what breaks a rule, one line each with its place. Never changes a file.

mod clauses;
mod names;
mod printed;
mod rooms;
mod rust_source;
mod sources;
mod style_names;
mod texts;
mod tree;

use std::fs;
use std::path::{Path, PathBuf};

use crate::repository::{Done, files, top};
use rust_source::RustSource;

/// One file of the tree with its text.
struct House {
    /// Every file, from the top.
    paths: Vec<PathBuf>,
    /// The text files among them.
    texts: Vec<TextFile>,
}

/// A file that can be read as text.
struct TextFile {
    path: PathBuf,
    text: String,
    /// The reading of it, if it is Rust.
    rust: Option<RustSource>,
}

/// Judges the tree.
pub(crate) fn tidy() -> Done {
    let house = House::read()?;
    let faults = house.faults();
    if faults.is_empty() {
        println!("tidy: {} files, nothing to say", house.paths.len());
        return Ok(());
    }
    for fault in &faults {
        println!("{fault}");
    }
    Err(format!("tidy: {} things to put right", faults.len()))
}

/// Prints every text that makers and authors of styles read: file, line and text, divided by tabs.
pub(crate) fn list_printed() -> Done {
    for file in &House::read()?.texts {
        for (line, text) in printed::printed(file) {
            let text = text.replace('\n', "\\n");
            println!("{}\t{line}\t{text}", file.path.display());
        }
    }
    Ok(())
}

impl House {
    fn read() -> Done<House> {
        let paths = files()?;
        let texts = paths
            .iter()
            .filter_map(|path| TextFile::read(path))
            .collect();
        Ok(House { paths, texts })
    }

    /// What breaks a rule, by place.
    fn faults(&self) -> Vec<String> {
        let mut faults = Vec::new();
        tree::judge(self, &mut faults);
        texts::judge(self, &mut faults);
        printed::judge(self, &mut faults);
        rooms::judge(self, &mut faults);
        names::judge(self, &mut faults);
        style_names::judge(self, &mut faults);
        sources::judge(self, &mut faults);
        clauses::judge(self, &mut faults);
        faults.sort();
        faults
    }

    /// The Rust files with their readings.
    fn rust(&self) -> impl Iterator<Item = (&TextFile, &RustSource)> {
        self.texts
            .iter()
            .filter_map(|file| Some((file, file.rust.as_ref()?)))
    }
}

impl TextFile {
    fn read(path: &Path) -> Option<TextFile> {
        Some(TextFile::of(
            path,
            fs::read_to_string(top().join(path)).ok()?,
        ))
    }

    fn of(path: &Path, text: String) -> TextFile {
        let is_rust = path.extension().is_some_and(|ending| ending == "rs");
        TextFile {
            path: path.to_path_buf(),
            rust: is_rust.then(|| RustSource::read(&text)),
            text,
        }
    }

    /// A fault in this file; lines count from 1.
    fn fault(&self, line: usize, words: &str) -> String {
        format!("{}:{line}: {words}", self.path.display())
    }
}

#[cfg(test)]
mod tests;
