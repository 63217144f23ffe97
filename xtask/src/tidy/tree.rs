//! What may lie where: nothing new at the top, no drawers, and links that lead somewhere.
//!
//! Reads the names of all files and the links of all documents. It never asks whether a file is good, only whether
//! it belongs.

use std::path::{Component, Path};

use super::{House, TextFile};
use crate::repository::top;

/// Everything that may lie at the top.
// Source: the house's plan: the top of the tree is its table of contents.
const TOP: [&str; 13] = [
    ".cargo",
    ".ci",
    ".gitignore",
    "Cargo.lock",
    "Cargo.toml",
    "DEVELOPERS.md",
    "LICENSE",
    "README.md",
    "core",
    "designs",
    "exporters",
    "tests",
    "xtask",
];

/// Names of files and folders that are drawers without a label, or say that code runs.
const DRAWERS: [&str; 14] = [
    "common",
    "context",
    "handler",
    "helper",
    "helpers",
    "kit",
    "manager",
    "misc",
    "mod",
    "model",
    "processor",
    "types",
    "util",
    "utils",
];

/// Judges names of files and the links of documents.
pub(super) fn judge(house: &House, faults: &mut Vec<String>) {
    for path in &house.paths {
        let first = path.components().next();
        let allowed = |name: &str| first == Some(Component::Normal(name.as_ref()));
        if !TOP.iter().any(|name| allowed(name)) {
            faults.push(format!("{}: does not belong at the top", path.display()));
        }
        for part in path.iter().filter_map(|part| part.to_str()) {
            let stem = part.split('.').next().unwrap_or_default();
            if DRAWERS.contains(&stem) {
                faults.push(format!(
                    "{}: `{stem}` is a drawer without a label",
                    path.display()
                ));
            }
        }
    }
    let documents = house
        .texts
        .iter()
        .filter(|file| file.path.extension().is_some_and(|ending| ending == "md"));
    for document in documents {
        judge_links(document, faults);
    }
}

fn judge_links(document: &TextFile, faults: &mut Vec<String>) {
    let folder = top().join(document.path.parent().unwrap_or(Path::new("")));
    for (index, line) in document.text.lines().enumerate() {
        for after in line.split("](").skip(1) {
            let link = after.split([')', '#', ' ']).next().unwrap_or_default();
            let leads_out = link.is_empty() || link.contains("://") || link.starts_with("mailto:");
            if !leads_out && !folder.join(link).exists() {
                faults.push(document.fault(index + 1, &format!("the link `{link}` leads nowhere")));
            }
        }
    }
}
