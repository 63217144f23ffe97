//! `styles NAME --tree`: the tree of a style's panels as text, by family.
//!
//! **Input:** the tree of the style's graph. **Output:** one line for each family, opening and tongue: its name, the
//! number of its members, its hinge and fold, and the names of its edges. Needs no values.

use traywright_engine::{Branch, BranchKind};

/// The whole tree.
pub(super) fn lines(root: &Branch) -> String {
    let mut rows = Vec::new();
    grow(root, "", "", &mut rows);
    let width = rows
        .iter()
        .map(|(name, _)| name.chars().count())
        .max()
        .unwrap_or_default();
    rows.iter()
        .map(|(name, words)| format!("{name:width$}  {words}\n"))
        .collect()
}

fn grow(branch: &Branch, mark: &str, below: &str, rows: &mut Vec<(String, String)>) {
    let count = match branch.kind {
        BranchKind::Slot { every_item: true } => " (one an item)".to_owned(),
        _ if branch.count > 1 => format!(" ×{}", branch.count),
        _ => String::new(),
    };
    rows.push((format!("{mark}{}{count}", branch.name), words(branch)));
    let last = branch.branches.len().saturating_sub(1);
    for (index, child) in branch.branches.iter().enumerate() {
        let (mark, deeper) = if index == last {
            ("└─ ", "   ")
        } else {
            ("├─ ", "│  ")
        };
        grow(
            child,
            &format!("{below}{mark}"),
            &format!("{below}{deeper}"),
            rows,
        );
    }
}

fn words(branch: &Branch) -> String {
    let mut words = vec![place(&branch.kind)];
    if let BranchKind::Hinged {
        outwards, angle, ..
    } = &branch.kind
    {
        if *outwards {
            words.push("mountain fold".to_owned());
        }
        words.extend(angle.map(|angle| format!("folds by {angle}")));
    }
    words.extend(branch.when.map(|when| format!("when {when}")));
    if !branch.edges.is_empty() {
        words.push(format!("edges {}", branch.edges.join(" ")));
    }
    words.join("; ")
}

fn place(kind: &BranchKind) -> String {
    match kind {
        BranchKind::Root => "the root".to_owned(),
        BranchKind::Hinged { on, .. } => format!("on {}", on.join(", ")),
        BranchKind::Slot { .. } => "opening for an item".to_owned(),
        BranchKind::Hole => "hole".to_owned(),
        BranchKind::ThumbNotch { on } => format!("half-round notch in {on}"),
        BranchKind::Tongue { on, into } => format!("tongue on {on}, into {into}"),
    }
}
