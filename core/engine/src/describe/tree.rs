//! The tree of a style's panels, as in its graph: whole families, each under its carrier.
//!
//! **Input:** a style. **Output:** the root with all that is hinged to it or cut into it. Needs no job: entries with a
//! condition are included with the condition, and an opening for every item occurs once.

use crate::style::Style;
use crate::style::graph::{Graph, HingeParent, MemberId, OpeningMemberId};
use crate::style::text::{HingedEntry, OpeningEntry, PanelEntry, Sense, StyleFile};
use crate::style::written::{Name, Written};

/// A family of panels, an opening or a tongue, under its carrier.
#[derive(Clone, Debug, PartialEq)]
pub struct Branch<'s> {
    /// The key of its entry.
    pub name: &'s str,
    /// Its kind.
    pub kind: BranchKind<'s>,
    /// Number of its members here.
    pub count: usize,
    /// Names of the edges that panels can be hinged to, of all its members; empty for a tongue or a thumb notch.
    pub edges: Vec<String>,
    /// The condition under which it exists, as the style writes it.
    pub when: Option<&'s str>,
    /// The branches that it carries: hinged to it or cut into it.
    pub branches: Vec<Branch<'s>>,
}

/// The kind of a branch, and its position.
#[derive(Clone, Debug, PartialEq)]
pub enum BranchKind<'s> {
    /// The panel that stays flat.
    Root,
    /// A panel on a crease.
    Hinged {
        /// The edges it is hinged to, as the style writes them.
        on: Vec<&'s str>,
        /// Whether its crease folds the drawn face outwards.
        outwards: bool,
        /// Its fold, as the style writes it; none for a right angle.
        angle: Option<&'s str>,
    },
    /// An opening for an item.
    Slot {
        /// Whether there is one for every item of the job.
        every_item: bool,
    },
    /// A fixed hole.
    Hole,
    /// A half-round notch in an edge.
    ThumbNotch {
        /// The edge, as the style writes it.
        on: &'s str,
    },
    /// A tongue.
    Tongue {
        /// The edge of the tongue, as the style writes it.
        on: &'s str,
        /// The panel with its slit.
        into: &'s str,
    },
}

impl Style {
    /// Its panels, openings and tongues as a tree, the root first.
    pub fn tree(&self) -> Branch<'_> {
        let (graph, _) = Graph::draw(&self.sheet, self.sheet.items.min);
        let growing = Growing {
            sheet: &self.sheet,
            graph: &graph,
        };
        growing.panels(&[MemberId::ROOT], &[])
    }
}

#[derive(Clone, Copy)]
struct Growing<'s, 'g> {
    sheet: &'s StyleFile,
    graph: &'g Graph,
}

impl<'s> Growing<'s, '_> {
    /// Members of one family that are hinged to one parent with one of these names, with all that they carry.
    fn panels(self, members: &[MemberId], parent: &[&str]) -> Branch<'s> {
        let (name, panel) = &self.sheet.panels[self.graph.members[members[0]].entry];
        let (kind, when) = match panel {
            PanelEntry::Hinged(hinged) => (hinged_on(hinged, parent), hinged.when.as_ref()),
            _ => (BranchKind::Root, None),
        };
        // A style refers to a family by its entry's name, or to one member by its own.
        let mut called = vec![name.word.as_str()];
        called.extend(
            members
                .iter()
                .map(|&member| self.graph.members[member].name.as_str()),
        );
        let edges = members
            .iter()
            .map(|&member| self.graph.members[member].edges.as_slice());
        let mut branches = self.hung(
            &called,
            |on| matches!(on, HingeParent::Panel(panel) if members.contains(&panel)),
        );
        branches.extend(self.openings(&called, members));
        branches.extend(self.tongues(&called));
        Branch {
            name: &name.word,
            kind,
            count: members.len(),
            edges: named_once(edges),
            when: when.map(text),
            branches,
        }
    }

    /// The families on a carrier with one of these names, in the order of the file.
    fn hung(self, called: &[&str], carries: impl Fn(HingeParent) -> bool) -> Vec<Branch<'s>> {
        let hangs_here = |&member: &MemberId| {
            let hangs = self.graph.members[member].hangs.as_ref();
            hangs.is_some_and(|hang| carries(hang.on))
        };
        let families = self.sheet.panels.ids().map(|entry| {
            let family = self.graph.family(entry);
            family.filter(hangs_here).collect::<Vec<_>>()
        });
        families
            .filter(|members| !members.is_empty())
            .map(|members| self.panels(&members, called))
            .collect()
    }

    /// The openings in panels with these names.
    fn openings(self, called: &[&str], members: &[MemberId]) -> Vec<Branch<'s>> {
        let mut branches = Vec::new();
        for (entry, name, opening) in self.sheet.openings.enumerated() {
            let on_them =
                |&opening: &OpeningMemberId| members.contains(&self.graph.openings[opening].on);
            let openings: Vec<_> = self.graph.openings_of(entry).filter(on_them).collect();
            let mut count = openings.len();
            let (kind, when) = match opening {
                OpeningEntry::Slot(slot) => {
                    let every_item = slot.item.is_none() && self.sheet.items.max > 1;
                    (BranchKind::Slot { every_item }, slot.when.as_ref())
                }
                OpeningEntry::Hole(hole) => (BranchKind::Hole, hole.when.as_ref()),
                OpeningEntry::ThumbNotch(notch) if called.contains(&key_of(&notch.on)) => {
                    let on = &notch.on.word;
                    count = spoken_of(called, &notch.on);
                    (BranchKind::ThumbNotch { on }, notch.when.as_ref())
                }
                OpeningEntry::ThumbNotch(_) => continue,
            };
            if count == 0 {
                continue;
            }
            let edges = openings
                .iter()
                .map(|&opening| self.graph.openings[opening].edges.as_slice());
            branches.push(Branch {
                name: &name.word,
                count,
                kind,
                edges: named_once(edges),
                when: when.map(text),
                branches: self.hung(
                    &[name.word.as_str()],
                    |on| matches!(on, HingeParent::Opening(opening) if openings.contains(&opening)),
                ),
            });
        }
        branches
    }

    /// The tongues on panels with these names.
    fn tongues(self, called: &[&str]) -> Vec<Branch<'s>> {
        let tongues = self.sheet.tongues.iter();
        tongues
            .filter(|(_, tongue)| called.contains(&key_of(&tongue.on)))
            .map(|(name, tongue)| Branch {
                name: &name.word,
                kind: BranchKind::Tongue {
                    on: &tongue.on.word,
                    into: &tongue.into.word,
                },
                count: tongue.count * spoken_of(called, &tongue.on),
                edges: Vec::new(),
                when: tongue.when.as_ref().map(text),
                branches: Vec::new(),
            })
            .collect()
    }
}

/// Number of members that `panel.edge` refers to: all of the family, whose entry comes first in `called`, or one.
fn spoken_of(called: &[&str], on: &Name) -> usize {
    if called[0] == key_of(on) {
        called.len() - 1
    } else {
        1
    }
}

fn hinged_on<'s>(hinged: &'s HingedEntry, parent: &[&str]) -> BranchKind<'s> {
    let here = hinged.on.0.iter().filter(|on| parent.contains(&key_of(on)));
    BranchKind::Hinged {
        on: here.map(|on| on.word.as_str()).collect(),
        outwards: hinged.sense == Sense::Mountain,
        angle: hinged.angle.as_ref().map(text),
    }
}

/// The panel or opening of `panel.edge`.
fn key_of(on: &Name) -> &str {
    on.word.split('.').next().unwrap_or_default()
}

fn text(written: &Written) -> &str {
    written.formula().text()
}

/// Every edge that panels can be hinged to, without duplicates, `far` after the flanks.
fn named_once<'e>(members: impl Iterator<Item = &'e [String]>) -> Vec<String> {
    let mut edges: Vec<String> = Vec::new();
    for edge in members.flatten() {
        if edge != "near" && !edges.contains(edge) {
            edges.push(edge.clone());
        }
    }
    edges.sort_by_key(|edge| edge == "far");
    edges
}
