//! The graph of names: the panels, what each is hinged to, and the names of its edges.
//!
//! **Input:** a style's entries and the number of openings of each slot. **Output:** every member of every family with
//! its name. Needs no number and knows no size. Edges run counter-clockwise around a panel:
//!
//! ```text
//!            far                 A hinged panel, drawn with its crease `near` at the bottom. Its right flank is next
//!        +--------+              to the parent's edge before the one with the crease, its left flank to the one after.
//!   left |        | right        Each flank has the name of that edge, but `inward` next to the parent's near edge and
//!        +--near--+              `outward` next to its far edge.
//! ```

mod cycles;
mod drawing;
mod edges;
mod openings;

use super::text::{OpeningEntryId, PanelEntryId, StyleFile};
use crate::finding::SourceError;
use crate::ids::{Id, IdVec};
use crate::job::ItemId;

/// A panel of the graph.
pub(crate) type MemberId = Id<Member>;

/// An opening of the graph.
pub(crate) type OpeningMemberId = Id<OpeningMember>;

impl MemberId {
    /// The panel that is hinged to no other.
    pub(crate) const ROOT: MemberId = Id::FIRST;
}

/// All panels and openings by name.
#[derive(Clone, Debug, Default)]
pub(crate) struct Graph {
    /// Panels, the root first and every parent before its children.
    pub(crate) members: IdVec<Member>,
    /// Openings, each after its panel.
    pub(crate) openings: IdVec<OpeningMember>,
}

/// One panel of a family.
#[derive(Clone, Debug)]
pub(crate) struct Member {
    /// The entry of the style that it was drawn from.
    pub(crate) entry: PanelEntryId,
    /// Its full name, such as `tab-south-west`.
    pub(crate) name: String,
    /// The part of its name after the entry's key.
    pub(crate) suffix: String,
    /// Its hinge; none for the root.
    pub(crate) hangs: Option<HingeRef>,
    /// Names of its edges, counter-clockwise; `near` first on a hinged panel.
    pub(crate) edges: Vec<String>,
}

/// The hinge of a panel.
#[derive(Clone, Debug)]
pub(crate) struct HingeRef {
    /// The panel or opening that carries it.
    pub(crate) on: HingeParent,
    /// The carrier's edge.
    pub(crate) edge: String,
    /// Name of the flank on the right, with the crease at the bottom.
    pub(crate) right: String,
    /// Name of the flank on the left.
    pub(crate) left: String,
}

/// A panel or an opening that carries a panel, by its id in the graph.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum HingeParent {
    Panel(MemberId),
    Opening(OpeningMemberId),
}

/// One opening.
#[derive(Clone, Debug)]
pub(crate) struct OpeningMember {
    /// The entry of the style that it was drawn from.
    pub(crate) entry: OpeningEntryId,
    /// Its full name, such as `slot-2`.
    pub(crate) name: String,
    suffix: String,
    /// The panel with the opening.
    pub(crate) on: MemberId,
    /// The item of the opening.
    pub(crate) item: Option<ItemId>,
    /// Names of its lower, right, upper and left edge in the frame of its panel.
    pub(crate) edges: [String; 4],
    /// Whether panels on its edges lie in the hole and not around it.
    pub(crate) hollow: bool,
}

impl Graph {
    /// Draws the graph for a job with this number of items, as far as it can be drawn, and returns it with its errors.
    ///
    /// Errors are: no root or two, an unknown panel or edge, a panel on a crease, a cycle of panels, too many panels.
    /// Without a root the graph is empty.
    pub(crate) fn draw(sheet: &StyleFile, items: usize) -> (Graph, Vec<SourceError>) {
        drawing::draw(sheet, items)
    }

    /// The panel that is hinged to no other; a graph without one is never queried.
    pub(crate) fn root(&self) -> &Member {
        &self.members[MemberId::ROOT]
    }

    /// The members drawn from one entry.
    pub(crate) fn family(&self, entry: PanelEntryId) -> impl Iterator<Item = MemberId> {
        self.members.ids_where(move |member| member.entry == entry)
    }

    /// The panels that a name refers to: all panels of an entry, or the one with that name.
    pub(crate) fn called(&self, sheet: &StyleFile, name: &str) -> Vec<MemberId> {
        match sheet.panels.id(name) {
            Some(entry) => self.family(entry).collect(),
            None => self
                .members
                .ids_where(|member| member.name == name)
                .collect(),
        }
    }

    /// The openings drawn from one entry.
    pub(crate) fn openings_of(
        &self,
        entry: OpeningEntryId,
    ) -> impl Iterator<Item = OpeningMemberId> {
        self.openings
            .ids_where(move |opening| opening.entry == entry)
    }

    /// The panels that are hinged to an edge of a carrier.
    pub(crate) fn hung_on(
        &self,
        carrier: HingeParent,
        edge: &str,
    ) -> impl Iterator<Item = MemberId> {
        self.members.ids_where(move |member| {
            member
                .hangs
                .as_ref()
                .is_some_and(|hang| hang.on == carrier && hang.edge == edge)
        })
    }
}

impl HingeRef {
    /// The panel that a hinged panel is hinged to, or that has the hinged panel's opening.
    pub(crate) fn parent(&self, graph: &Graph) -> MemberId {
        match self.on {
            HingeParent::Panel(panel) => panel,
            HingeParent::Opening(opening) => graph.openings[opening].on,
        }
    }
}
