//! The nodes of a job, sorted by their names.
//!
//! **Input:** the nodes of a file. **Output:** each under its keyword, with its argument and its properties, all known
//! and unique. **Errors:** all other nodes and entries. Never looks at a value.

use kdl::{KdlDocument, KdlIdentifier, KdlNode};
use traywright_engine::SourceError;
use traywright_engine::finding::SourceSpan;

use super::keys::{LINES, Line};
use super::syntax::SkippedSpan;
use super::{WHOLE, limits};
use crate::nearest::unknown_in_job;

mod entries;

pub(super) use entries::Entry;

/// The nodes of a job.
pub(super) struct Nodes<'a> {
    sorted: Vec<Node<'a>>,
    /// Whether a line with an unknown first word was skipped.
    line_lost: bool,
}

/// One node.
pub(super) struct Node<'a> {
    /// Its row in the table of keys.
    pub(super) line: &'static Line,
    /// Its first word.
    pub(super) place: SourceSpan,
    /// The value directly after its first word.
    pub(super) argument: Option<Entry<'a>>,
    properties: Vec<Entry<'a>>,
    /// Its keys whose values are missing or invalid, once it has been read.
    pub(super) unread: Vec<&'static str>,
    /// Whether a part of it was skipped because of an error.
    spoiled: bool,
}

impl<'a> Nodes<'a> {
    /// Sorts the nodes of a file.
    pub(super) fn sort(
        document: &'a KdlDocument,
        spoiled: &[SkippedSpan],
        faults: &mut Vec<SourceError>,
    ) -> Self {
        let written = document.nodes();
        if written.is_empty() && spoiled.is_empty() {
            faults.push(limits::empty());
        }
        let mut nodes = Nodes {
            sorted: Vec::new(),
            line_lost: written.is_empty() || spoiled.iter().any(|part| part.whole_line),
        };
        for (index, node) in written.iter().enumerate() {
            let start = start_of(node);
            let end = written.get(index + 1).map_or(usize::MAX, start_of);
            let hurt = spoiled
                .iter()
                .any(|part| (start..end).contains(&part.place.start));
            nodes.add(node, hurt, faults);
        }
        nodes
    }

    fn add(&mut self, written: &'a KdlNode, spoiled: bool, faults: &mut Vec<SourceError>) {
        let name = written.name().value();
        let place = place_of_name(written.name());
        let Some(line) = Line::named(name) else {
            // A misspelt line is not reported as missing as well.
            self.line_lost = true;
            let known: Vec<&str> = LINES.iter().map(|line| line.name).collect();
            let unknown = format!("a job has no `{name}`");
            let (message, label) = unknown_in_job(name, unknown, &known);
            faults.push(SourceError::new(place, message, label));
            return;
        };
        if let Some(annotation) = written.ty() {
            faults.push(SourceError::new(
                place_of_name(annotation),
                format!("`({})` has no place before `{name}`", annotation.value()),
                "a unit stands before a number",
            ));
        }
        let first = self.sorted.iter().find(|node| node.line.name == name);
        if let Some(first) = first.filter(|_| !line.repeats) {
            let fault = SourceError::new(
                place,
                format!("a second `{name}`"),
                "a job has one: take one of the two away",
            );
            faults.push(fault.with_context(first.place.clone(), "the first stands here"));
            return;
        }
        let mut node = Node {
            line,
            place,
            argument: None,
            properties: Vec::new(),
            unread: Vec::new(),
            spoiled: spoiled || written.children().is_some(),
        };
        if written.children().is_some() {
            let label =
                format!("what belongs to `{name}` stands behind it on its line, without braces");
            faults.push(SourceError::new(
                node.place.clone(),
                format!("`{name}` has no inner part"),
                label,
            ));
        }
        entries::sort_into(&mut node, written.entries(), faults);
        self.sorted.push(node);
    }

    /// All nodes of a line in the order of the file.
    pub(super) fn every(&mut self, line: &Line) -> impl Iterator<Item = &mut Node<'a>> {
        let nodes = self.sorted.iter_mut();
        nodes.filter(move |node| node.line.name == line.name)
    }

    /// All nodes with a name in the order of the file.
    pub(super) fn named(&self, name: &str) -> impl Iterator<Item = &Node<'a>> {
        let nodes = self.sorted.iter();
        nodes.filter(move |node| node.line.name == name)
    }

    /// Reports a missing line that a job requires.
    pub(super) fn require(&self, line: &Line, faults: &mut Vec<SourceError>) {
        let is_there = self.sorted.iter().any(|node| node.line.name == line.name);
        if let (false, false, Some(example)) = (is_there, self.line_lost, line.required) {
            faults.push(SourceError::new(
                WHOLE,
                format!("this job has no `{}`", line.name),
                format!("add {example}"),
            ));
        }
    }
}

impl<'a> Node<'a> {
    /// The argument or property with that name, if there is one.
    pub(super) fn entry(&self, name: &str) -> Option<&Entry<'a>> {
        let mut entries = self.argument.iter().chain(&self.properties);
        entries.find(|entry| entry.name == name)
    }

    /// Whether the value of a key is known: as written, or its default.
    pub(super) fn has_read(&self, name: &str) -> bool {
        !self.unread.contains(&name)
    }

    /// Reports a missing key, unless it may have been skipped because of an error.
    pub(super) fn lacks(&self, name: &str, example: &str, faults: &mut Vec<SourceError>) {
        if !self.spoiled {
            let title = format!("`{}` has no {name}", self.line.name);
            faults.push(SourceError::new(
                self.place.clone(),
                title,
                format!("add {example}"),
            ));
        }
    }

    /// All its properties in the order of the file.
    pub(super) fn properties(&self) -> &[Entry<'a>] {
        &self.properties
    }
}

/// Byte range of a name.
fn place_of_name(name: &KdlIdentifier) -> SourceSpan {
    let span = name.span();
    span.offset()..span.offset() + span.len()
}

/// The first byte of a node.
fn start_of(node: &KdlNode) -> usize {
    node.span().offset()
}
