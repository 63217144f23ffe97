//! The words that a job knows, and its nodes sorted by them.
//!
//! Given the nodes of a file, gives each under its keyword with its argument and its properties, every one known and
//! standing once. Everything else becomes a fault here. Never looks at a value.

use kdl::{KdlDocument, KdlIdentifier, KdlNode};
use traywright_engine::SourceError;
use traywright_engine::job::SourceSpan;

use super::syntax::SkippedSpan;
use super::{WHOLE, limits};
use crate::nearest::unknown_in_job;

mod entries;

pub(super) use entries::Entry;

/// A word that begins a line of a job.
struct Keyword {
    name: &'static str,
    /// What the value right behind it is, if it takes one.
    argument: Option<&'static str>,
    /// Its properties; none given means that any name will do.
    properties: &'static [&'static str],
    repeats: bool,
    /// How a missing one is written.
    example: &'static str,
}

// Source: the contract, "Job file"; for `page`, `kerf`, `nicks` and `dxf` also the issues on paper and on machines.
const KEYWORDS: [Keyword; 13] = [
    Keyword {
        name: "tray",
        argument: None,
        properties: &["style", "name"],
        repeats: false,
        example: "tray style=\"NAME\"; `traywright styles` lists the names",
    },
    Keyword {
        name: "box",
        argument: None,
        properties: &["length", "width", "depth", "corner", "floor-corner"],
        repeats: false,
        example: "its inside, as in box length=(mm)182 width=(mm)121 depth=(mm)34",
    },
    Keyword {
        name: "item",
        argument: Some("name"),
        properties: &["length", "width", "depth", "count", "shape", "turn"],
        repeats: true,
        example: "",
    },
    Keyword {
        name: "board",
        argument: Some("name"),
        properties: &["caliper", "hinge", "tolerance", "sheet", "grain"],
        repeats: false,
        example: "board caliper=(mm)0.3, the thickness of your card, or board \"NAME\"; `traywright boards` lists the names",
    },
    Keyword {
        name: "fit",
        argument: None,
        properties: &["box", "item", "play"],
        repeats: false,
        example: "",
    },
    Keyword {
        name: "slot",
        argument: None,
        properties: &["cut", "finger"],
        repeats: false,
        example: "",
    },
    Keyword {
        name: "page",
        argument: Some("name or size"),
        properties: &["margin", "font", "overlap", "bar-across", "bar-down"],
        repeats: false,
        example: "",
    },
    Keyword {
        name: "draw",
        argument: None,
        properties: &["face"],
        repeats: false,
        example: "",
    },
    Keyword {
        name: "words",
        argument: Some("language"),
        properties: &[],
        repeats: false,
        example: "",
    },
    Keyword {
        name: "kerf",
        argument: None,
        properties: &["width"],
        repeats: false,
        example: "",
    },
    Keyword {
        name: "nicks",
        argument: None,
        properties: &["length", "every"],
        repeats: false,
        example: "",
    },
    Keyword {
        name: "dxf",
        argument: None,
        properties: &["version"],
        repeats: false,
        example: "",
    },
    Keyword {
        name: "set",
        argument: None,
        properties: &[],
        repeats: true,
        example: "",
    },
];

/// The nodes of a job.
pub(super) struct Nodes<'a> {
    sorted: Vec<Node<'a>>,
    /// A line was passed over whose first word nobody knows.
    line_lost: bool,
}

/// One node.
pub(super) struct Node<'a> {
    keyword: &'static Keyword,
    /// Its first word.
    pub(super) place: SourceSpan,
    /// The value right behind its first word.
    pub(super) argument: Option<Entry<'a>>,
    properties: Vec<Entry<'a>>,
    /// A part of it was passed over because of a slip.
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
        let Some(keyword) = KEYWORDS.iter().find(|keyword| keyword.name == name) else {
            // What was meant for a known word is not missing besides.
            self.line_lost = true;
            let known = KEYWORDS.map(|keyword| keyword.name);
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
        let first = self.sorted.iter().find(|node| node.keyword.name == name);
        if let Some(first) = first.filter(|_| !keyword.repeats) {
            let fault = SourceError::new(
                place,
                format!("a second `{name}`"),
                "a job has one: take one of the two away",
            );
            faults.push(fault.with_context(first.place.clone(), "the first stands here"));
            return;
        }
        let mut node = Node {
            keyword,
            place,
            argument: None,
            properties: Vec::new(),
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

    /// The node of that name, if the job has it.
    pub(super) fn one(&self, name: &str) -> Option<&Node<'a>> {
        self.every(name).next()
    }

    /// The node of that name, which a job cannot do without.
    pub(super) fn required(&self, name: &str, faults: &mut Vec<SourceError>) -> Option<&Node<'a>> {
        let found = self.one(name);
        if found.is_none() && !self.line_lost {
            let example = KEYWORDS
                .iter()
                .find(|keyword| keyword.name == name)
                .map_or("", |keyword| keyword.example);
            faults.push(SourceError::new(
                WHOLE,
                format!("this job has no `{name}`"),
                format!("add {example}"),
            ));
        }
        found
    }

    /// All nodes of that name in the order of the file.
    pub(super) fn every(&self, name: &str) -> impl Iterator<Item = &Node<'a>> {
        self.sorted
            .iter()
            .filter(move |node| node.keyword.name == name)
    }
}

impl<'a> Node<'a> {
    /// The property of that name, if it stands there.
    pub(super) fn property(&self, name: &str) -> Option<&Entry<'a>> {
        self.properties.iter().find(|entry| entry.name == name)
    }

    /// The property of that name, which the node cannot do without; `example` shows how it is written.
    pub(super) fn required(
        &self,
        name: &str,
        example: &str,
        faults: &mut Vec<SourceError>,
    ) -> Option<&Entry<'a>> {
        let found = self.property(name);
        if found.is_none() {
            self.lacks(name, example, faults);
        }
        found
    }

    /// Says that something is missing, unless it may have been lost in a slip.
    pub(super) fn lacks(&self, name: &str, example: &str, faults: &mut Vec<SourceError>) {
        if !self.spoiled {
            let title = format!("`{}` has no {name}", self.keyword.name);
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

/// Bytes of a name.
fn place_of_name(name: &KdlIdentifier) -> SourceSpan {
    let span = name.span();
    span.offset()..span.offset() + span.len()
}

/// The first byte of a node.
fn start_of(node: &KdlNode) -> usize {
    node.span().offset()
}
