//! Citations: a file that a text names must be in the tree, and so must the section or the id behind it.
//!
//! Given the tree, reads every line for paths from the top that end in `.md` or lie in `tests/facts`. A title in quotes
//! behind a page of `core` must be one of its headings; an id behind a file of `tests/facts` must stand in its tables.
//! Paths without a folder and paths of other trees are not read.

use std::path::Path;

use super::House;

/// Texts that hold no citations of ours, and the trials of these rules.
const NOT_READ: [&str; 4] = [
    "tests/goldens",
    "Cargo.lock",
    "LICENSE",
    "xtask/src/tidy/tests.rs",
];

/// Reports every citation that leads nowhere.
pub(super) fn judge(house: &House, faults: &mut Vec<String>) {
    for file in &house.texts {
        if NOT_READ.iter().any(|path| file.path.starts_with(path)) {
            continue;
        }
        for (index, line) in file.text.lines().enumerate() {
            for (path, behind) in citations(line) {
                if let Some(fault) = fault(house, &file.path, path, behind) {
                    faults.push(file.fault(index + 1, &fault));
                }
            }
        }
    }
}

/// The paths in a line, each with what stands behind it.
fn citations(line: &str) -> Vec<(&str, &str)> {
    let in_path = |letter: char| letter.is_ascii_alphanumeric() || "._-/".contains(letter);
    let mut found = Vec::new();
    let mut rest = line;
    while let Some(start) = rest.find(in_path) {
        let end = rest[start..].find(|letter| !in_path(letter));
        let end = end.map_or(rest.len(), |end| start + end);
        let path = rest[start..end].trim_end_matches('.');
        let behind = &rest[start + path.len()..];
        rest = &rest[end..];
        let is_fact = path
            .strip_prefix("tests/facts/")
            .is_some_and(|name| !name.is_empty());
        let cited = path.contains('/') && path.ends_with(".md") || is_fact;
        if cited && !behind.starts_with("/*") {
            found.push((path, behind));
        }
    }
    found
}

fn fault(house: &House, from: &Path, path: &str, behind: &str) -> Option<String> {
    let folder = from.parent().unwrap_or(Path::new(""));
    let is_there = |known: &Path| known == Path::new(path) || known == normal(&folder.join(path));
    if !house.paths.iter().any(|known| is_there(known)) {
        return Some(format!("`{path}` is not in the tree"));
    }
    let page = house
        .texts
        .iter()
        .find(|file| file.path == Path::new(path))?;
    let missing = |what: &str| Some(format!("`{path}` has no {what}"));
    if let Some(title) = behind.strip_prefix(", \"") {
        let title = title.split_once('"').map_or(title, |(title, _)| title);
        let mut headings = page.text.lines().filter_map(|line| line.strip_prefix('#'));
        let is_title = |line: &str| line.trim_start_matches('#').trim() == title;
        return (!headings.any(is_title)).then(|| missing(&format!("section \"{title}\"")))?;
    }
    let id = behind
        .strip_prefix(' ')
        .filter(|_| path.starts_with("tests/facts/"))?;
    let id = id
        .split(|letter: char| !letter.is_ascii_alphanumeric() && letter != '-')
        .next()?;
    let is_id = id.len() > 1 && id.ends_with(|letter: char| letter.is_ascii_digit());
    (is_id && !page.text.contains(&format!("| {id} |"))).then(|| missing(&format!("line {id}")))?
}

/// A path without its steps upwards.
fn normal(path: &Path) -> std::path::PathBuf {
    let mut plain = std::path::PathBuf::new();
    for part in path {
        if part == ".." {
            plain.pop();
        } else {
            plain.push(part);
        }
    }
    plain
}
