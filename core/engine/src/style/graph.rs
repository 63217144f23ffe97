//! The graph of names: which panels there are, what each hangs on, and what its edges are called.
//!
//! Given a style's entries and how many openings each slot makes; gives every member of every family with its name.
//! Needs no number and knows no size. Edges run counter-clockwise around a panel:
//!
//! ```text
//!            far                 A hung panel has its crease, `near`, at the bottom. Seen so, its right flank lies
//!        +--------+              beside the parent's edge before the one it hangs on, its left flank beside the next;
//!   left |        | right        each is called after that edge, or `inward` beside the parent's near and `outward`
//!        +--near--+              beside its far.
//! ```

use super::text::{HingedEntry, OpeningEntry, PanelEntry, Sheet, SlotCut};
use super::written::Name;
use crate::finding::Fault;
use crate::wording::nearest;

/// Panels that a tray may have.
// Source: common practice, none published: the shipped styles have 25 at most.
const MOST_PANELS: usize = 400;

/// Panels that may hang on one another in a row.
// Source: common practice, none published: the shipped styles have 4.
const MOST_IN_A_ROW: usize = 32;

/// All panels and openings by name.
#[derive(Clone, Debug, Default)]
pub(crate) struct Graph {
    /// Panels, the root first and every parent before its children.
    pub(crate) members: Vec<Member>,
    /// Openings, each after its panel.
    pub(crate) openings: Vec<OpeningMember>,
}

/// One panel of a family.
#[derive(Clone, Debug)]
pub(crate) struct Member {
    /// Which entry of the style it was drawn from.
    pub(crate) entry: usize,
    /// Its full name, such as `tab-south-west`.
    pub(crate) name: String,
    /// What its name adds to the entry's key.
    pub(crate) suffix: String,
    /// What it hangs on; none for the root.
    pub(crate) hangs: Option<Hang>,
    /// Names of its edges, counter-clockwise; `near` first on a hung panel.
    pub(crate) edges: Vec<String>,
}

/// Where a panel hangs.
#[derive(Clone, Debug)]
pub(crate) struct Hang {
    /// What carries it.
    pub(crate) on: Carrier,
    /// The carrier's edge.
    pub(crate) edge: String,
    /// Name of the flank on the right, seen with the crease at the bottom.
    pub(crate) right: String,
    /// Name of the flank on the left.
    pub(crate) left: String,
}

/// A panel or an opening that carries a panel, by its place in the graph.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Carrier {
    Panel(usize),
    Opening(usize),
}

/// One opening.
#[derive(Clone, Debug)]
pub(crate) struct OpeningMember {
    /// Which entry of the style it was drawn from.
    pub(crate) entry: usize,
    /// Its full name, such as `slot-2`.
    pub(crate) name: String,
    suffix: String,
    /// The panel it lies in.
    pub(crate) on: usize,
    /// The item it is for, counted from 0.
    pub(crate) item: Option<usize>,
    /// Names of its lower, right, upper and left edge in the frame of its panel.
    pub(crate) edges: [String; 4],
    /// Whether panels on its edges lie in the hole rather than around it.
    pub(crate) hollow: bool,
}

impl Graph {
    /// Draws the graph for a job of so many items.
    ///
    /// # Refuses
    /// No root or two, an unknown panel or edge, a panel on a crease, a ring of panels: all of them at once.
    pub(crate) fn draw(sheet: &Sheet, items: usize) -> Result<Graph, Vec<Fault>> {
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

    /// The members drawn from one entry.
    pub(crate) fn family(&self, entry: usize) -> Vec<usize> {
        (0..self.members.len())
            .filter(|&member| self.members[member].entry == entry)
            .collect()
    }

    /// The openings drawn from one entry.
    pub(crate) fn openings_of(&self, entry: usize) -> Vec<usize> {
        (0..self.openings.len())
            .filter(|&opening| self.openings[opening].entry == entry)
            .collect()
    }

    /// The panels that hang on an edge of a carrier.
    pub(crate) fn hung_on(&self, carrier: Carrier, edge: &str) -> impl Iterator<Item = usize> {
        let hangs = move |member: &Member| {
            member
                .hangs
                .as_ref()
                .is_some_and(|hang| hang.on == carrier && hang.edge == edge)
        };
        self.members
            .iter()
            .enumerate()
            .filter(move |(_, member)| hangs(member))
            .map(|(index, _)| index)
    }
}

impl Hang {
    /// The panel or the opening's panel that a hung panel is cut from or beside.
    pub(crate) fn parent(&self, graph: &Graph) -> usize {
        match self.on {
            Carrier::Panel(panel) => panel,
            Carrier::Opening(opening) => graph.openings[opening].on,
        }
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
            OpeningEntry::Scoop { .. } => return true,
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

fn root_edges(entry: &PanelEntry) -> Vec<String> {
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

/// The edges of an opening, called after the sides of its panel that they look at.
fn opening_edges(panel: &Member) -> [String; 4] {
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

/// The edges that a word means: itself, or a group; west and east before south and north.
fn group(word: &str, edges: &[String], creased: bool) -> Vec<String> {
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

fn unknown_panel(sheet: &Sheet, name: &Name, key: &str) -> Fault {
    let panels = sheet.panels.iter().map(|(name, _)| name.word.as_str());
    let keys: Vec<&str> = panels
        .chain(sheet.openings.iter().map(|(name, _)| name.word.as_str()))
        .collect();
    let label = match nearest(key, keys.iter().copied()) {
        Some(word) => format!("did you mean `{word}`?"),
        None => format!("there are {}", keys.join(", ")),
    };
    Fault::new(
        name.place.clone(),
        format!("there is no panel or opening `{key}`"),
        label,
    )
}

fn unknown_edge(name: &Name, key: &str, edge: &str, edges: &[String]) -> Fault {
    if edge == "near" {
        let label = "that is its own crease: hang on another edge";
        return Fault::new(
            name.place.clone(),
            format!("nothing can hang on the near edge of `{key}`"),
            label,
        );
    }
    Fault::new(
        name.place.clone(),
        format!("`{key}` has no edge `{edge}`"),
        format!("its edges are {}", edges.join(", ")),
    )
}
