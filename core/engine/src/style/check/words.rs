//! Whether the rules and the steps of a style refer to existing panels, and the steps to all of them.
//!
//! **Input:** a style file and its graph. **Output:** errors with source spans. Never reads the sentences.

use super::super::graph::Graph;
use super::super::text::{PanelEntry, RuleEntry, StepEntry, StyleFile};
use super::super::written::Name;
use super::one_of;
use crate::finding::{BuiltIn, SourceError};
use crate::wording::nearest;

/// A rule has a code of its own and refers to an existing panel or opening.
pub(super) fn rules(sheet: &StyleFile, graph: &Graph, faults: &mut Vec<SourceError>) {
    let built_in = BuiltIn::codes();
    for (code, rule) in sheet.rules.iter() {
        let (RuleEntry::Error(rule) | RuleEntry::Warning(rule) | RuleEntry::Note(rule)) = rule;
        if built_in.contains(&code.word.as_str()) {
            let message = format!(
                "the code `{}` is one that the engine finds by itself",
                code.word
            );
            faults.push(SourceError::new(
                code.place.clone(),
                message,
                "take another code",
            ));
        }
        if let Some(at) = &rule.at {
            let entries = sheet
                .panels
                .iter()
                .map(|(name, _)| name)
                .chain(sheet.openings.iter().map(|(name, _)| name));
            let entries = entries
                .chain(sheet.tongues.iter().map(|(name, _)| name))
                .map(|name| name.word.as_str());
            one_of(
                at,
                entries.chain(graph.members.iter().map(|member| member.name.as_str())),
                "panel",
                faults,
            );
        }
    }
}

/// Every panel but the root is in the steps exactly once.
pub(super) fn steps(sheet: &StyleFile, graph: &Graph, faults: &mut Vec<SourceError>) {
    let mut folded: Vec<&Name> = Vec::new();
    // A panel name that is misspelt in a step is reported once.
    let mut misspelt: Vec<&str> = Vec::new();
    for step in &sheet.steps {
        let StepEntry::Fold { each, panels, .. } = step else {
            continue;
        };
        for name in panels.names().chain(each) {
            let known = sheet.panels.names().map(|name| name.word.as_str());
            misspelt.extend(nearest(&name.word, known.clone()));
            one_of(name, known, "panel", faults);
        }
        folded.extend(panels.names());
    }
    if sheet.steps.is_empty() {
        return;
    }
    for (entry, name, panel) in sheet.panels.enumerated() {
        let steps: Vec<&Name> = folded
            .iter()
            .filter(|step| step.word == name.word)
            .copied()
            .collect();
        let misspelt = misspelt.contains(&name.word.as_str());
        faults.extend(match panel {
            PanelEntry::Hinged(_) if misspelt && steps.is_empty() => None,
            PanelEntry::Hinged(_) => folded_once(name, &steps),
            _ if graph.root().entry == entry => lies_still(name, &steps),
            _ => None,
        });
    }
}

/// The error of a hinged panel that is folded in no step, or in two.
fn folded_once(name: &Name, steps: &[&Name]) -> Option<SourceError> {
    match steps {
        [] => {
            let message = format!("no step folds `{}`", name.word);
            let label = "give it a place in the steps";
            Some(SourceError::new(name.place.clone(), message, label))
        }
        [first, second, ..] => {
            let message = format!("`{}` is folded twice", name.word);
            let error = SourceError::new(second.place.clone(), message, "leave out one");
            Some(error.with_context(first.place.clone(), "folded here"))
        }
        [_] => None,
    }
}

/// The error of a step that folds the root.
fn lies_still(name: &Name, steps: &[&Name]) -> Option<SourceError> {
    let step = steps.first()?;
    let message = format!("`{}` is the root and lies still", name.word);
    Some(SourceError::new(
        step.place.clone(),
        message,
        "leave it out",
    ))
}
