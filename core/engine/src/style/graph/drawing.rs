//! The graph drawn from a style's entries: each family or opening is added as soon as its carrier exists.
//!
//! **Input:** a style's entries. **Output:** the graph as far as it can be drawn, and errors about the rest.

use super::super::text::{
    HingedEntry, OpeningEntry, OpeningEntryId, PanelEntry, PanelEntryId, StyleFile,
};
use super::super::written::Name;
use super::cycles::Waiting;
use super::edges::{group, root_edges, unknown_edge, unknown_panel};
use super::openings::MOST_OPENINGS;
use super::{Graph, HingeParent, HingeRef, Member, MemberId, OpeningMemberId};
use crate::finding::SourceError;

/// Maximum number of panels of a tray.
// Source: common practice, none published: the shipped styles have 25 at most, and 500 are judged in less than 1 s.
const MOST_PANELS: usize = 500;

/// Maximum length of a chain of panels that are hinged to one another.
// Source: common practice, none published: the shipped styles have 4.
const MOST_IN_A_ROW: usize = 32;

/// Draws as much of the graph as can be drawn, and returns it with all errors.
pub(super) fn draw(sheet: &StyleFile, items: usize) -> (Graph, Vec<SourceError>) {
    let mut drawing = Drawing {
        sheet,
        items,
        graph: Graph::default(),
        faults: Vec::new(),
        faulty: Vec::new(),
    };
    if drawing.too_many() {
        return (drawing.graph, drawing.faults);
    }
    drawing.root();
    if !drawing.graph.members.is_empty() {
        drawing.grow();
    }
    (drawing.graph, drawing.faults)
}

pub(super) struct Drawing<'s> {
    pub(super) sheet: &'s StyleFile,
    pub(super) items: usize,
    pub(super) graph: Graph,
    faults: Vec<SourceError>,
    /// Keys of panels and openings that cannot be drawn.
    faulty: Vec<&'s str>,
}

impl<'s> Drawing<'s> {
    /// Whether there are more entries than allowed members, so that drawing them would only waste time.
    fn too_many(&mut self) -> bool {
        let panels = self.sheet.panels.names().nth(MOST_PANELS);
        let openings = self.sheet.openings.names().nth(MOST_OPENINGS);
        for (name, what, max) in [
            (panels, "panels", MOST_PANELS),
            (openings, "openings", MOST_OPENINGS),
        ] {
            if let Some(name) = name {
                let message = format!("the style has too many {what}");
                let label = format!("with this one there are more than {max}");
                self.faults
                    .push(SourceError::new(name.place.clone(), message, label));
            }
        }
        !self.faults.is_empty()
    }

    /// The first panel without a hinge is the root, even if there are more.
    fn root(&mut self) {
        let mut roots = self
            .sheet
            .panels
            .enumerated()
            .filter(|(_, _, entry)| !matches!(entry, PanelEntry::Hinged(_)));
        let Some((entry, name, root)) = roots.next() else {
            let label = "one panel must be a Rectangle, Regular or Polygon; all others hang on it";
            let first = self.sheet.panels.iter().next();
            let place = first.map_or(0..0, |(name, _)| name.place.clone());
            self.faults.push(SourceError::new(
                place,
                "no panel is the root of this style",
                label,
            ));
            return;
        };
        self.graph.members.push(Member {
            entry,
            name: name.word.clone(),
            suffix: String::new(),
            hangs: None,
            edges: root_edges(root),
        });
        for (_, second, _) in roots {
            let label = "make this panel Hinged(on: …)";
            let fault = SourceError::new(second.place.clone(), "a style has one root", label);
            self.faults
                .push(fault.with_context(name.place.clone(), "the root"));
            self.faulty.push(&second.word);
        }
    }

    /// Adds families and openings whose carrier exists, until no more can be added.
    fn grow(&mut self) {
        let hinged =
            |&entry: &PanelEntryId| matches!(self.sheet.panels[entry].1, PanelEntry::Hinged(_));
        let mut panels: Vec<PanelEntryId> = self.sheet.panels.ids().filter(hinged).collect();
        let mut openings: Vec<OpeningEntryId> = self.sheet.openings.ids().collect();
        loop {
            let before = panels.len() + openings.len();
            panels.retain(|&entry| !self.add_family(entry));
            openings.retain(|&entry| !self.add_openings(entry));
            if panels.len() + openings.len() == before {
                break;
            }
        }
        let waiting = Waiting {
            sheet: self.sheet,
            faulty: &self.faulty,
        };
        self.faults.extend(waiting.cycles(&panels));
        // No other check detects a cycle that runs through single members of families.
        if let (Some(&entry), true) = (panels.first(), self.faults.is_empty()) {
            let name = &self.sheet.panels[entry].0;
            let message = format!("`{}` hangs on what hangs on itself", name.word);
            let label = "hang it on a panel that leads to the root";
            self.faults
                .push(SourceError::new(name.place.clone(), message, label));
        }
    }

    /// Records an error, and that its entry cannot be drawn.
    pub(super) fn refuse(&mut self, entry: &'s Name, fault: SourceError) {
        self.faults.push(fault);
        self.faulty.push(&entry.word);
    }

    /// Returns whether the entry is done, drawn or rejected.
    fn add_family(&mut self, entry: PanelEntryId) -> bool {
        let (name, PanelEntry::Hinged(hinged)) = &self.sheet.panels[entry] else {
            return true;
        };
        let perches = match self.perches(hinged) {
            Ok(Some(perches)) => perches,
            Ok(None) => return false,
            Err(fault) => {
                self.refuse(name, *fault);
                return true;
            }
        };
        let several_parents = perches.iter().any(|perch| perch.key != perches[0].key);
        let several_edges = perches.iter().any(|perch| perch.edge != perches[0].edge);
        if self.graph.members.len() + perches.len() > MOST_PANELS {
            let label = format!("with this family there are more than {MOST_PANELS}");
            let fault =
                SourceError::new(name.place.clone(), "the style has too many panels", label);
            self.refuse(name, fault);
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
                let fault =
                    SourceError::new(name.place.clone(), "the tree of panels is too deep", label);
                self.refuse(name, fault);
                return true;
            }
            let edges = edges_of(hinged, &hang);
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

    /// Number of panels from a panel to the root, the panel included.
    fn row(&self, panel: MemberId) -> usize {
        let parent = |&panel: &MemberId| {
            self.graph.members[panel]
                .hangs
                .as_ref()
                .map(|hang| hang.parent(&self.graph))
        };
        std::iter::successors(Some(panel), parent).count()
    }

    /// All edges that a family is hinged to; none while some of them are not drawn yet.
    fn perches(&self, hinged: &HingedEntry) -> Result<Option<Vec<Perch>>, Box<SourceError>> {
        let mut perches = Vec::new();
        for name in &hinged.on.0 {
            let Some((key, edge)) = name.word.rsplit_once('.') else {
                let message = format!("`{}` names no edge", name.word);
                let label = "write the panel and its edge, as in \"deck.sides\"";
                return Err(Box::new(SourceError::new(
                    name.place.clone(),
                    message,
                    label,
                )));
            };
            let carriers = self.carriers(name, key)?;
            if carriers.is_empty() {
                return Ok(None);
            }
            for (carrier, suffix, edges) in carriers {
                let creased = matches!(carrier, HingeParent::Panel(_));
                let named = group(edge, &edges, creased);
                if named.is_empty() {
                    return Err(Box::new(unknown_edge(name, key, edge, &edges)));
                }
                perches.extend(named.into_iter().map(|edge| Perch {
                    key: key.to_owned(),
                    carrier,
                    suffix: suffix.clone(),
                    edge,
                }));
            }
        }
        Ok(Some(perches).filter(|perches| !perches.is_empty()))
    }

    /// The drawn panels or openings of one key.
    fn carriers(&self, name: &Name, key: &str) -> Result<Vec<Carrying>, Box<SourceError>> {
        if let Some(entry) = self.sheet.panels.id(key) {
            let carry = |member: MemberId| {
                let panel = &self.graph.members[member];
                let carrier = HingeParent::Panel(member);
                (carrier, panel.suffix.clone(), panel.edges.clone())
            };
            return Ok(self.graph.family(entry).map(carry).collect());
        }
        if let Some(entry) = self.sheet.openings.id(key) {
            if matches!(self.sheet.openings[entry].1, OpeningEntry::ThumbNotch(_)) {
                let label = "hang on an edge of a panel, a Slot or a Hole";
                let message = format!("nothing can hang on the thumb notch `{key}`");
                return Err(Box::new(SourceError::new(
                    name.place.clone(),
                    message,
                    label,
                )));
            }
            let carry = |opening: OpeningMemberId| {
                let hole = &self.graph.openings[opening];
                let carrier = HingeParent::Opening(opening);
                (carrier, hole.suffix.clone(), hole.edges.to_vec())
            };
            return Ok(self.graph.openings_of(entry).map(carry).collect());
        }
        let member = self
            .graph
            .members
            .ids_where(|member| member.name == key)
            .next();
        match member {
            Some(member) => {
                let panel = &self.graph.members[member];
                let carrier = HingeParent::Panel(member);
                Ok(vec![(carrier, panel.suffix.clone(), panel.edges.clone())])
            }
            None if self.may_still_come(key) => Ok(Vec::new()),
            None => Err(Box::new(unknown_panel(self.sheet, name, key))),
        }
    }

    /// Whether a name may be that of a member whose family is not drawn yet.
    pub(super) fn may_still_come(&self, name: &str) -> bool {
        let mut panels = self.sheet.panels.enumerated();
        panels.any(|(entry, key, _)| {
            let behind = name.strip_prefix(key.word.as_str());
            behind.is_some_and(|rest| rest.starts_with('-'))
                && self.graph.family(entry).next().is_none()
                && !self.faulty.contains(&key.word.as_str())
        })
    }

    fn hang(&self, perch: &Perch) -> HingeRef {
        let (edges, from_outside): (Vec<String>, bool) = match perch.carrier {
            HingeParent::Panel(panel) => (self.graph.members[panel].edges.clone(), true),
            HingeParent::Opening(opening) => {
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
        // Around a hole the card is on the other side, so the order of its edges is reversed.
        let (right, left) = if from_outside {
            (before, after)
        } else {
            (after, before)
        };
        HingeRef {
            on: perch.carrier,
            edge: perch.edge.clone(),
            right,
            left,
        }
    }
}

/// A carrier, with its suffix and the edges that panels can be hinged to.
type Carrying = (HingeParent, String, Vec<String>);

/// One edge that a family is hinged to.
struct Perch {
    key: String,
    carrier: HingeParent,
    suffix: String,
    edge: String,
}

/// Names of a hinged panel's edges, counter-clockwise from its crease.
fn edges_of(hinged: &HingedEntry, hang: &HingeRef) -> Vec<String> {
    match &hinged.outline {
        None => vec![
            "near".into(),
            hang.right.clone(),
            "far".into(),
            hang.left.clone(),
        ],
        // The corners are listed from the left end of the crease round to the right: clockwise.
        Some(corners) => {
            let mut edges = vec!["near".to_owned()];
            edges.extend(corners.iter().rev().map(|(edge, _, _)| edge.word.clone()));
            edges
        }
    }
}
