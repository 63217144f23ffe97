//! Names of edges, and the edges that a word refers to.
//!
//! **Input:** an entry or a member; a word. **Output:** the names of its edges; the edges of the word, or an error.

use super::super::text::{PanelEntry, StyleFile};
use super::super::written::Name;
use super::Member;
use crate::finding::SourceError;
use crate::wording::nearest;

pub(super) fn root_edges(entry: &PanelEntry) -> Vec<String> {
    match entry {
        PanelEntry::Regular { edges, .. } => edges.iter().map(|edge| edge.word.clone()).collect(),
        PanelEntry::Polygon { corners, .. } => corners
            .iter()
            .map(|(edge, _, _)| edge.word.clone())
            .collect(),
        _ => ["south", "east", "north", "west"]
            .map(str::to_owned)
            .to_vec(),
    }
}

/// The edges of an opening, named after the panel's sides that they face.
pub(super) fn opening_edges(panel: &Member) -> [String; 4] {
    match &panel.hangs {
        None => ["south", "east", "north", "west"].map(str::to_owned),
        Some(hang) => [
            "near".into(),
            hang.right.clone(),
            "far".into(),
            hang.left.clone(),
        ],
    }
}

/// The edges that a word refers to: one edge, or a group; west and east before south and north.
pub(super) fn group(word: &str, edges: &[String], creased: bool) -> Vec<String> {
    let hung = creased && edges[0] == "near";
    let mut named: Vec<&str> = match word {
        "ends" => vec!["west", "east"],
        "sides" => vec!["south", "north"],
        "edges" => edges
            .iter()
            .map(String::as_str)
            .filter(|edge| !hung || *edge != "near")
            .collect(),
        "flanks" if hung && edges.len() == 4 => vec![&edges[1], &edges[3]],
        "near" if hung => vec![],
        edge => vec![edge],
    };
    if !named
        .iter()
        .all(|edge| edges.iter().any(|known| known == edge))
    {
        return Vec::new();
    }
    let order = |edge: &&str| {
        ["west", "east", "south", "north"]
            .iter()
            .position(|first| first == edge)
            .unwrap_or(4)
    };
    named.sort_by_key(order);
    named.into_iter().map(str::to_owned).collect()
}

pub(super) fn unknown_panel(sheet: &StyleFile, name: &Name, key: &str) -> SourceError {
    let panels = sheet.panels.iter().map(|(name, _)| name.word.as_str());
    let keys: Vec<&str> = panels
        .chain(sheet.openings.iter().map(|(name, _)| name.word.as_str()))
        .collect();
    let label = match nearest(key, keys.iter().copied()) {
        Some(word) => format!("did you mean `{word}`?"),
        None => format!("there are {}", keys.join(", ")),
    };
    SourceError::new(
        name.place.clone(),
        format!("there is no panel or opening `{key}`"),
        label,
    )
}

pub(super) fn unknown_edge(name: &Name, key: &str, edge: &str, edges: &[String]) -> SourceError {
    if edge == "near" {
        let label = "that is its own crease: hang on another edge";
        return SourceError::new(
            name.place.clone(),
            format!("nothing can hang on the near edge of `{key}`"),
            label,
        );
    }
    let hung = edges.iter().any(|edge| edge == "near");
    let groups: &[&str] = if hung {
        &["flanks", "edges"]
    } else {
        &["ends", "sides", "edges"]
    };
    let known = edges
        .iter()
        .map(String::as_str)
        .filter(|edge| *edge != "near");
    let known: Vec<&str> = known
        .chain(
            groups
                .iter()
                .copied()
                .filter(|word| !group(word, edges, hung).is_empty()),
        )
        .collect();
    let label = match nearest(edge, known.iter().copied()) {
        Some(word) => format!("did you mean `{key}.{word}`?"),
        None => format!("it has {}", known.join(", ")),
    };
    let message = format!("`{key}` has no edge `{edge}`");
    SourceError::new(name.place.clone(), message, label)
}
