//! The graph drawn from a style's entries: families and openings are added as soon as what they hang on is there.

use super::super::text::{HingedEntry, OpeningEntry, PanelEntry, Sheet, SlotCut};
use super::super::written::Name;
use super::edges::{group, opening_edges, root_edges, unknown_edge, unknown_panel};
use super::{Carrier, Graph, Hang, Member, OpeningMember};
use crate::finding::Fault;

/// Panels that a tray may have.
// Source: common practice, none published: the shipped styles have 25 at most.
const MOST_PANELS: usize = 400;

/// Panels that may hang on one another in a row.
// Source: common practice, none published: the shipped styles have 4.
const MOST_IN_A_ROW: usize = 32;

/// Draws the graph, or gives all that is wrong with it.
pub(super) fn draw(sheet: &Sheet, items: usize) -> Result<Graph, Vec<Fault>> {
    let mut drawing = Drawing {
        sheet,
        items,
        graph: Graph::default(),
        faults: Vec::new(),
    };
    drawing.root();
    if drawing.faults.is_empty() {
        drawing.grow();
    }
    if drawing.faults.is_empty() {
        Ok(drawing.graph)
    } else {
        Err(drawing.faults)
    }
}

struct Drawing<'s> {
    sheet: &'s Sheet,
    items: usize,
    graph: Graph,
    faults: Vec<Fault>,
}

impl Drawing<'_> {
    fn root(&mut self) {
        let roots: Vec<_> = (0..self.sheet.panels.0.len())
            .filter(|&entry| !matches!(self.sheet.panels.0[entry].1, PanelEntry::Hinged(_)))
            .collect();
        match roots[..] {
            [root] => {
                let (name, entry) = &self.sheet.panels.0[root];
                let edges = root_edges(entry);
                let member = Member {
                    entry: root,
                    name: name.word.clone(),
                    suffix: String::new(),
                    hangs: None,
                    edges,
                };
                self.graph.members.push(member);
            }
            [] => self.faults.push(Fault::new(
                0..0,
                "no panel is the root of this style",
                "one panel must be a Rectangle, Regular or Polygon; all others hang on it",
            )),
            [first, second, ..] => {
                let first = &self.sheet.panels.0[first].0;
                let second = &self.sheet.panels.0[second].0;
                self.faults.push(
                    Fault::new(
                        second.place.clone(),
                        "a style has one root",
                        "make this panel Hinged(on: …)",
                    )
                    .with_context(first.place.clone(), "the root"),
                );
            }
        }
    }

    /// Adds families and openings as soon as what they hang on is there, until nothing more can be added.
    fn grow(&mut self) {
        let mut panels: Vec<usize> = (0..self.sheet.panels.0.len())
            .filter(|&entry| entry != self.graph.members[0].entry)
            .collect();
        let mut openings: Vec<usize> = (0..self.sheet.openings.0.len()).collect();
        loop {
            let before = panels.len() + openings.len();
            panels.retain(|&entry| !self.add_family(entry));
            openings.retain(|&entry| !self.add_openings(entry));
            if !self.faults.is_empty() || panels.len() + openings.len() == before {
                break;
            }
        }
        if self.faults.is_empty() {
            for entry in panels {
                let (name, _) = &self.sheet.panels.0[entry];
                let label = "following what it hangs on never comes to the root";
                self.faults.push(Fault::new(
                    name.place.clone(),
                    format!("the panel `{}` hangs in a ring", name.word),
                    label,
                ));
            }
        }
    }

    /// Whether the entry is dealt with.
    fn add_family(&mut self, entry: usize) -> bool {
        let (name, PanelEntry::Hinged(hinged)) = &self.sheet.panels.0[entry] else {
            return true;
        };
        let Some(perches) = self.perches(hinged) else {
            return !self.faults.is_empty();
        };
        let several_parents = perches.iter().any(|perch| perch.key != perches[0].key);
        let several_edges = perches.iter().any(|perch| perch.edge != perches[0].edge);
        if self.graph.members.len() + perches.len() > MOST_PANELS {
            let label = format!("with this family there are more than {MOST_PANELS}");
            self.faults.push(Fault::new(
                name.place.clone(),
                "the style has too many panels",
                label,
            ));
            return true;
        }
        for perch in perches {
            let mut suffix = perch.suffix.clone();
            if several_parents {
                suffix = format!("{suffix}-{}", perch.key);
            }
            if several_edges {
                suffix = format!("{suffix}-{}", perch.edge);
            }
            let hang = self.hang(&perch);
            let row = self.row(hang.parent(&self.graph));
            if row >= MOST_IN_A_ROW {
                let label = format!("more than {MOST_IN_A_ROW} panels hang on one another here");
                self.faults.push(Fault::new(
                    name.place.clone(),
                    "the tree of panels is too deep",
                    label,
                ));
                return true;
            }
            let edges = match &hinged.outline {
                None => vec![
                    "near".into(),
                    hang.right.clone(),
                    "far".into(),
                    hang.left.clone(),
                ],
                // The corners are written from the left end of the crease round to the right: clockwise.
                Some(corners) => {
                    let mut edges = vec!["near".to_owned()];
                    edges.extend(corners.iter().rev().map(|(edge, _, _)| edge.word.clone()));
                    edges
                }
            };
            self.graph.members.push(Member {
                entry,
                name: format!("{}{suffix}", name.word),
                suffix,
                hangs: Some(hang),
                edges,
            });
        }
        true
    }

    /// How many panels lie between a panel and the root, itself included.
    fn row(&self, panel: usize) -> usize {
        let parent = |&panel: &usize| {
            self.graph.members[panel]
                .hangs
                .as_ref()
                .map(|hang| hang.parent(&self.graph))
        };
        std::iter::successors(Some(panel), parent).count()
    }

    /// All edges that a family hangs on; none while some of them are not drawn yet, or when one is at fault.
    fn perches(&mut self, hinged: &HingedEntry) -> Option<Vec<Perch>> {
        let mut perches = Vec::new();
        for name in &hinged.on.0 {
            let Some((key, edge)) = name.word.rsplit_once('.') else {
                let label = "write the panel and its edge, as in \"deck.sides\"";
                self.faults.push(Fault::new(
                    name.place.clone(),
                    format!("`{}` names no edge", name.word),
                    label,
                ));
                return None;
            };
            for (carrier, suffix, edges) in self.carriers(name, key)? {
                let creased = matches!(carrier, Carrier::Panel(_));
                let named = group(edge, &edges, creased);
                if named.is_empty() {
                    self.faults.push(unknown_edge(name, key, edge, &edges));
                    return None;
                }
                perches.extend(named.into_iter().map(|edge| Perch {
                    key: key.to_owned(),
                    carrier,
                    suffix: suffix.clone(),
                    edge,
                }));
            }
        }
        Some(perches)
    }

    /// The panels or openings of one key, with their suffixes and the edges that something can hang on.
    fn carriers(&mut self, name: &Name, key: &str) -> Option<Vec<(Carrier, String, Vec<String>)>> {
        if let Some(entry) = self.sheet.panels.position(key) {
            let carry = |member: usize| {
                let panel = &self.graph.members[member];
                (
                    Carrier::Panel(member),
                    panel.suffix.clone(),
                    panel.edges.clone(),
                )
            };
            let carriers: Vec<_> = self.graph.family(entry).into_iter().map(carry).collect();
            return (!carriers.is_empty()).then_some(carriers);
        }
        if let Some(entry) = self.sheet.openings.position(key) {
            let carry = |opening: usize| {
                let hole = &self.graph.openings[opening];
                (
                    Carrier::Opening(opening),
                    hole.suffix.clone(),
                    hole.edges.to_vec(),
                )
            };
            let carriers: Vec<_> = self
                .graph
                .openings_of(entry)
                .into_iter()
                .map(carry)
                .collect();
            return (!carriers.is_empty()).then_some(carriers);
        }
        self.faults.push(unknown_panel(self.sheet, name, key));
        None
    }

    fn hang(&self, perch: &Perch) -> Hang {
        let (edges, from_outside): (Vec<String>, bool) = match perch.carrier {
            Carrier::Panel(panel) => (self.graph.members[panel].edges.clone(), true),
            Carrier::Opening(opening) => {
                let hole = &self.graph.openings[opening];
                (hole.edges.to_vec(), !hole.hollow)
            }
        };
        let here = edges
            .iter()
            .position(|edge| *edge == perch.edge)
            .unwrap_or_default();
        let beside = |step: usize| match edges[(here + step) % edges.len()].as_str() {
            "near" => "inward".to_owned(),
            "far" => "outward".to_owned(),
            edge => edge.to_owned(),
        };
        let (before, after) = (beside(edges.len() - 1), beside(1));
        // Around a hole the card lies on the other side, so the order of its edges is the other way round.
        let (right, left) = if from_outside {
            (before, after)
        } else {
            (after, before)
        };
        Hang {
            on: perch.carrier,
            edge: perch.edge.clone(),
            right,
            left,
        }
    }

    /// Whether the entry is dealt with.
    fn add_openings(&mut self, entry: usize) -> bool {
        let (name, opening) = &self.sheet.openings.0[entry];
        let (on, hollow) = match opening {
            OpeningEntry::Slot(slot) => (&slot.on, slot.cut != SlotCut::Uncut),
            OpeningEntry::Hole(hole) => (&hole.on, true),
            // A scoop lies on an edge and carries nothing.
            OpeningEntry::Scoop(_) => return true,
        };
        let Some(panel) = self.sheet.panels.position(&on.word) else {
            self.faults.push(unknown_panel(self.sheet, on, &on.word));
            return true;
        };
        let family = self.graph.family(panel);
        for &on in &family {
            let items: Vec<Option<usize>> = match opening {
                OpeningEntry::Slot(slot) => match slot.item {
                    Some(item) => vec![item.checked_sub(1)],
                    None => (0..self.items).map(Some).collect(),
                },
                _ => vec![None],
            };
            for &item in &items {
                let number = item
                    .filter(|_| items.len() > 1)
                    .map(|item| format!("-{}", item + 1))
                    .unwrap_or_default();
                let suffix = format!("{}{number}", self.graph.members[on].suffix);
                let edges = opening_edges(&self.graph.members[on]);
                self.graph.openings.push(OpeningMember {
                    entry,
                    name: format!("{}{suffix}", name.word),
                    suffix,
                    on,
                    item,
                    edges,
                    hollow,
                });
            }
        }
        !family.is_empty()
    }
}

/// One edge that a family hangs on.
struct Perch {
    key: String,
    carrier: Carrier,
    suffix: String,
    edge: String,
}
