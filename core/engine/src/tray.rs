//! A tray in numbers: every panel and opening that exists in this job, with its shape and its hinge.
//!
//! Shapes are in the panels' own frames. [`drawing`] draws a tray; this module has its parts and their queries.

mod checks;
mod clean;
mod corners;
pub(crate) mod cuts;
mod drawing;
mod drawn;
mod edge_cutouts;
mod moved;
pub(crate) mod poses;
mod tongues;

pub use checks::Limit;
pub(crate) use checks::{clear, engaged, least_web, limit, nearest, place_of_opening, sides};
pub(crate) use clean::oval_in;
pub(crate) use drawn::Drawn;

use std::borrow::Cow;
use traywright_document::Hinge;

use crate::geometry::{Corner, Frame, Outline, Point, TOUCH_MM, Vector};
use crate::ids::{Id, IdVec};
use crate::job::{Item, ItemId, Job};
use crate::style::graph::OpeningMemberId;
use crate::style::text::PanelEntryId;
use crate::values::{Form, PanelShape, Rect};
use cuts::CutPlan;

/// A panel of a tray.
pub(crate) type PanelId = Id<Panel>;

/// An opening of a tray.
pub(crate) type OpeningId = Id<Opening>;

impl PanelId {
    /// The panel that is hinged to no other.
    pub(crate) const ROOT: PanelId = Id::FIRST;
}

/// A tray in numbers.
#[derive(Clone, Debug)]
pub(crate) struct Tray {
    /// Panels, the root first and every parent before its children; the job's flaps come last.
    pub(crate) panels: IdVec<Panel>,
    pub(crate) openings: IdVec<Opening>,
    /// Half-round notches that do not fit their edges.
    pub(crate) astray: Vec<UnplacedNotch>,
    pub(crate) interlocks: Vec<Interlock>,
    /// Every panel's own frame in the flat frame.
    pub(crate) frames: IdVec<Panel, Frame>,
    pub(crate) caliper: f64,
    pub(crate) hinge: f64,
    /// The least width of a slit.
    pub(crate) narrowest: f64,
}

/// One panel.
#[derive(Clone, Debug)]
pub(crate) struct Panel {
    pub(crate) name: String,
    /// The name of the panel's family.
    pub(crate) key: String,
    /// The word for parts of its kind: that of its family, and one for all flaps of the job's cut.
    pub(crate) part: String,
    /// The style's entry; none for a flap of the job's cut.
    pub(crate) entry: Option<PanelEntryId>,
    /// Flat, in its own frame, without tongues and cut-outs.
    pub(crate) shape: PanelShape,
    /// Tongues on its edges.
    pub(crate) tongues: Vec<EdgeDetour>,
    /// Edge cut-outs: notches, and slits that reach an edge.
    pub(crate) edge_cutouts: Vec<EdgeDetour>,
    pub(crate) hanging: Option<Hanging>,
}

/// A run that leaves an edge of a panel and returns to it, in the order of the outline: outwards around a tongue,
/// inwards around a cut-out.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct EdgeDetour {
    /// The corner of the panel's shape at which the edge begins.
    pub(crate) edge: usize,
    /// From the point that leaves the edge to the point that returns, in the panel's frame; the last corner only ends
    /// the run.
    pub(crate) corners: Vec<Corner>,
}

/// A half-round notch that does not lie wholly in its edge.
#[derive(Clone, Debug)]
pub(crate) struct UnplacedNotch {
    pub(crate) panel: PanelId,
    pub(crate) edge: String,
    /// How far it reaches from the middle of the edge.
    pub(crate) reach: f64,
}

/// A tongue, and the slit that it enters when the tray is folded.
#[derive(Clone, Debug)]
pub(crate) struct Interlock {
    /// The tongue's name in the style.
    pub(crate) name: String,
    /// The panel that carries the tongue, and the tongue's index on it.
    pub(crate) panel: PanelId,
    pub(crate) tongue: usize,
    /// The panel that the tongue enters.
    pub(crate) into: PanelId,
    pub(crate) slit: Slit,
}

/// The section of a tongue in another panel.
#[derive(Clone, Debug)]
pub(crate) enum Slit {
    /// Closed all round, in the frame of the panel with the slit; the tongue goes `deep` mm into the card.
    Hole { corners: [Point; 4], deep: f64 },
    /// Open to an edge or a crease; it is also one of the panel's edge cut-outs.
    EdgeCutout { corners: [Point; 4], deep: f64 },
    /// The tongue ends this far before the panel, or beside it.
    Missed { by: f64 },
}

/// How a panel is hinged to its parent.
#[derive(Clone, Debug)]
pub(crate) struct Hanging {
    /// The panel that it is hinged to, or in whose opening it is hinged.
    pub(crate) parent: PanelId,
    /// The edge that carries it: of the parent's outline, or of an opening in the parent.
    pub(crate) on: HangsOn,
    /// The crease in the parent's frame, with the card of the parent on its left.
    pub(crate) crease: (Point, Point),
    /// Angle of the finished fold; positive folds the drawn face inwards.
    pub(crate) fold_deg: f64,
}

/// The kinds of edge that a panel can be hinged to.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum HangsOn {
    /// An edge of its parent's outline.
    Edge(String),
    /// An edge of an opening: the panel lies in the hole, or is cut out of the card around the hole.
    Opening { opening: OpeningId, edge: String },
}

/// One opening.
#[derive(Clone, Debug)]
pub(crate) struct Opening {
    pub(crate) name: String,
    /// The opening in the graph of names.
    pub(crate) member: OpeningMemberId,
    /// The panel with the opening.
    pub(crate) panel: PanelId,
    /// The item of the opening.
    pub(crate) item: Option<ItemId>,
    /// Whether that item is rotated by 90° from how the job writes it.
    pub(crate) turned: bool,
    /// Its position, in the panel's frame.
    pub(crate) rect: Rect,
    /// Its form if it is cut out clean.
    pub(crate) form: Form,
    pub(crate) cut: OpeningCut,
    /// Names of its lower, right, upper and left edge.
    pub(crate) edges: [String; 4],
}

/// The ways to cut an opening.
#[derive(Clone, Debug)]
pub(crate) enum OpeningCut {
    /// The job's cut, with its flaps.
    Flaps(CutPlan),
    /// Clean, along this outline.
    Clean(Outline),
    /// Not cut: panels are cut out of the card around it.
    Uncut,
    /// It reaches an edge of its panel, and is one of the panel's edge cut-outs.
    EdgeCutout,
}

impl EdgeDetour {
    /// The point that leaves the edge.
    pub(crate) fn first(&self) -> &Corner {
        &self.corners[0]
    }

    /// The point that returns to the edge.
    pub(crate) fn last(&self) -> &Corner {
        &self.corners[self.corners.len() - 1]
    }
}

impl Panel {
    /// The panel's outline in its own frame, without edge cut-outs, and with or without its tongues.
    pub(crate) fn outline(&self, with_tongues: bool) -> Outline {
        let mut round: Vec<Corner> = Vec::new();
        for (index, corner) in self.shape.corners.iter().enumerate() {
            round.push(Corner::sharp(corner.at));
            let tongues = self.tongues.iter().filter(|_| with_tongues);
            let mut runs: Vec<&EdgeDetour> = tongues
                .chain(&self.edge_cutouts)
                .filter(|run| run.edge == index)
                .collect();
            let away = |run: &&EdgeDetour| (run.first().at - corner.at).length();
            runs.sort_by(|one, other| away(one).total_cmp(&away(other)));
            round.extend(runs.into_iter().flat_map(|run| run.corners.iter().copied()));
        }
        Outline::new(without_repeats(round))
    }

    /// The cut-outs in a named edge.
    fn cutouts_of_edge<'p>(&'p self, edge: &'p str) -> impl Iterator<Item = &'p EdgeDetour> {
        self.edge_cutouts
            .iter()
            .filter(move |cutout| self.shape.corners[cutout.edge].edge.as_deref() == Some(edge))
    }
}

/// Corners of a closed run without those that repeat the previous one.
fn without_repeats(corners: Vec<Corner>) -> Vec<Corner> {
    let mut kept: Vec<Corner> = Vec::new();
    for corner in corners {
        match kept.last_mut() {
            Some(last) if last.at.touches(corner.at) => last.bulge = corner.bulge,
            _ => kept.push(corner),
        }
    }
    if kept.len() > 1 && kept[kept.len() - 1].at.touches(kept[0].at) {
        kept.pop();
    }
    kept
}

impl Opening {
    /// The item of the opening as it lies: length along the panel's x.
    pub(crate) fn item_as_it_lies(&self, job: &Job) -> Option<Item> {
        let item = job.item(self.item?)?.clone();
        Some(if self.turned {
            Item {
                length: item.width,
                width: item.length,
                ..item
            }
        } else {
            item
        })
    }

    /// The line around all that is cut out, finger notches included; if there are flaps, the line of their creases.
    pub(crate) fn line(&self) -> Cow<'_, Outline> {
        match &self.cut {
            OpeningCut::Clean(outline) => Cow::Borrowed(outline),
            _ => Cow::Owned(Outline::straight(self.rect.corners())),
        }
    }

    /// The upright rectangle around that line.
    pub(crate) fn extent(&self) -> Rect {
        let line = self.line();
        let reach = |x: f64, y: f64| {
            let way = Vector::new(x, y);
            (line.farthest(way) - self.rect.centre).dot(way)
        };
        Rect {
            length: reach(1.0, 0.0) + reach(-1.0, 0.0),
            width: reach(0.0, 1.0) + reach(0.0, -1.0),
            ..self.rect
        }
    }
}

impl Hanging {
    /// The panel's own frame in the frame of its parent: origin in the middle of the crease, y away from it.
    pub(crate) fn frame(&self) -> Frame {
        let (from, to) = self.crease;
        Frame {
            origin: from.middle(to),
            x_axis: -(to - from).unit(),
        }
    }
}

impl Tray {
    /// The hinge of a panel in the flat frame; the panel is on the right of its line, and its parent on the left.
    pub(crate) fn hinge_of(&self, hanging: &Hanging) -> Hinge {
        let frame = self.frames[hanging.parent];
        let (from, to) = hanging.crease;
        Hinge {
            parent: hanging.parent.index(),
            line: [from, to].map(|end| frame.place(end)),
            fold_deg: hanging.fold_deg,
            height: self.hinge,
        }
    }

    /// The pieces of a panel's crease; gaps in the card on either side interrupt it.
    pub(crate) fn crease_pieces(&self, panel: PanelId) -> Vec<(Point, Point)> {
        let Some(hanging) = &self.panels[panel].hanging else {
            return Vec::new();
        };
        let [from, to] = self.hinge_of(hanging).line;
        let parent = hanging.parent;
        let along = (to - from).unit();
        let taken = |bearer: PanelId, cutout: &EdgeDetour| {
            let at = |corner: &Corner| (self.frames[bearer].place(corner.at) - from).dot(along);
            let (one, other) = (at(cutout.first()), at(cutout.last()));
            (one.min(other), one.max(other))
        };
        let own = self.panels[panel]
            .cutouts_of_edge("near")
            .map(|cutout| taken(panel, cutout));
        let beside: Vec<(f64, f64)> = match &hanging.on {
            HangsOn::Edge(edge) => {
                let edge_cutouts = self.panels[parent].cutouts_of_edge(edge);
                edge_cutouts.map(|cutout| taken(parent, cutout)).collect()
            }
            HangsOn::Opening { .. } => Vec::new(),
        };
        let mut taken: Vec<(f64, f64)> = own.chain(beside).collect();
        taken.sort_by(|one, other| one.0.total_cmp(&other.0));
        let (mut pieces, mut reached) = (Vec::new(), 0.0);
        for (least, most) in taken
            .into_iter()
            .chain([((to - from).length(), f64::INFINITY)])
        {
            if least > reached + TOUCH_MM {
                pieces.push((
                    from + along * reached,
                    from + along * least.min((to - from).length()),
                ));
            }
            reached = f64::max(reached, most);
        }
        pieces
    }

    /// Whether a cut-out lies entirely in a panel's crease, so that it is a hole in the blank and not a detour of the
    /// edge.
    pub(crate) fn lies_in_a_crease(&self, bearer: PanelId, cutout: &EdgeDetour) -> bool {
        let shape = &self.panels[bearer].shape;
        let Some(edge) = &shape.corners[cutout.edge].edge else {
            return false;
        };
        let (ends, start) = (
            [cutout.first().at, cutout.last().at],
            shape.corners[cutout.edge].at,
        );
        if bearer != PanelId::ROOT && edge == "near" {
            return true;
        }
        let hung = self
            .panels
            .iter()
            .filter_map(|panel| panel.hanging.as_ref());
        hung.filter(|hanging| hanging.parent == bearer && hanging.on == HangsOn::Edge(edge.clone()))
            .any(|hanging| {
                let (from, to) = hanging.crease;
                let (least, most) = ((from - start).length(), (to - start).length());
                let (least, most) = (least.min(most), least.max(most));
                ends.iter().all(|&end| {
                    let at = (end - start).length();
                    at > least - TOUCH_MM && at < most + TOUCH_MM
                })
            })
    }

    /// The same tray with the job's flaps neither cut nor hinged.
    pub(crate) fn without_flaps(&self) -> Tray {
        let mut tray = self.clone();
        // The flaps come last, so the other panels keep their ids.
        let panels = tray.panels.into_iter();
        tray.panels = panels.filter(|panel| panel.entry.is_some()).collect();
        for opening in &mut tray.openings {
            if matches!(opening.cut, OpeningCut::Flaps(_)) {
                opening.cut = OpeningCut::Uncut;
            }
        }
        tray
    }

    /// The opening of a panel that is one of the job's flaps; none for other panels.
    pub(crate) fn flap_of(&self, panel: PanelId) -> Option<OpeningId> {
        let panel = &self.panels[panel];
        match panel.hanging.as_ref()?.on {
            HangsOn::Opening { opening, .. } if panel.entry.is_none() => Some(opening),
            _ => None,
        }
    }

    /// The panels that are hinged to an edge of an opening.
    pub(crate) fn hung_on_opening<'t>(
        &'t self,
        opening: OpeningId,
        edge: &'t str,
    ) -> impl Iterator<Item = PanelId> + 't {
        self.panels.ids_where(move |panel| {
            panel.hanging.as_ref().is_some_and(|hanging| {
                matches!(&hanging.on, HangsOn::Opening { opening: other, edge: there } if *other == opening && there == edge)
            })
        })
    }
}
