//! Drawing a tray: everything that exists in this job, computed from the values.
//!
//! **Input:** the [`Values`] of a style and a job. **Output:** panels and openings, with the flaps that the job's cut
//! makes in the openings. **Does not** check: a tray that cannot be made is drawn all the same, and refused later.

use super::clean;
use super::cuts::CutPlan;
use super::edge_cutouts::{half_round, reaching};
use super::{
    Hanging, HangsOn, Opening, OpeningCut, OpeningId, Panel, PanelId, Tray, UnplacedNotch,
};
use crate::finding::SourceError;
use crate::geometry::{Frame, Point};
use crate::ids::{Id, IdVec};
use crate::job::Cut;
use crate::style::graph::{
    HingeParent, HingeRef, Member, MemberId, OpeningMember, OpeningMemberId,
};
use crate::style::names::{JobFigure, Scope};
use crate::style::text::{OpeningEntry, SlotEntry, SlotPlace};
use crate::values::{CreaseSpan, EvalError, PanelShape, Rect, ShapeCorner, Values};

/// The ids in the tray of the graph's panels and openings; none for those that do not exist in this job.
pub(super) struct TrayIds {
    panels: IdVec<Member, Option<PanelId>>,
    openings: IdVec<OpeningMember, Option<OpeningId>>,
}

impl TrayIds {
    /// Numbers all that exists, in the order of the graph. An entry that cannot be evaluated gets no id: drawing it
    /// gives the error.
    fn of(values: &Values) -> TrayIds {
        let panels = values.graph.members.ids();
        let openings = values.graph.openings.ids();
        TrayIds {
            panels: numbered(panels.map(|panel| values.panel_exists(panel))),
            openings: numbered(openings.map(|opening| values.opening_exists(opening))),
        }
    }

    /// The panels of the tray that a name refers to.
    pub(super) fn called(&self, values: &Values, name: &str) -> Vec<PanelId> {
        let members = values.graph.called(values.sheet(), name).into_iter();
        members.filter_map(|member| self.panels[member]).collect()
    }

    /// The panel that carries an existing member.
    fn carrier(&self, member: MemberId) -> PanelId {
        self.panels[member].expect("a panel or an opening exists only where its panel does")
    }

    /// The opening that carries an existing panel.
    fn carrying_opening(&self, member: OpeningMemberId) -> OpeningId {
        self.openings[member].expect("a panel exists only where its opening does")
    }
}

/// An id for each member that exists.
fn numbered<M, T>(
    exists: impl Iterator<Item = Result<bool, EvalError>>,
) -> IdVec<M, Option<Id<T>>> {
    let mut next = (0..).map(Id::at);
    let mut numbered = IdVec::default();
    for exists in exists {
        let exists = exists.unwrap_or(false);
        numbered.push(if exists { next.next() } else { None });
    }
    numbered
}

impl Tray {
    /// Draws all that exists in this job.
    pub(crate) fn draw(values: &Values) -> Result<Tray, EvalError> {
        let board = &values.job.board;
        let mut tray = Tray {
            panels: IdVec::default(),
            openings: IdVec::default(),
            astray: Vec::new(),
            interlocks: Vec::new(),
            frames: IdVec::default(),
            caliper: board.caliper.mm(),
            hinge: board.hinge(),
            narrowest: values.job.narrowest_cutout(),
        };
        refuse_items_on_one_another(values)?;
        let ids = TrayIds::of(values);
        for member in values.graph.members.ids() {
            if values.panel_exists(member)? {
                let panel = tray.draw_panel(values, member, &ids)?;
                tray.panels.push(panel);
            }
        }
        tray.lay_frames();
        let tongues = tray.draw_tongues(values, &ids)?;
        for member in values.graph.openings.ids() {
            if values.opening_exists(member)? {
                let opening = tray.draw_opening(values, member, &ids)?;
                tray.openings.push(opening);
            }
        }
        tray.thumb_notch(values, &ids)?;
        tray.hang_flaps();
        tray.lay_frames();
        tray.cut_slits(tongues);
        Ok(tray)
    }

    /// Computes the position in the flat frame of panels' own frames that have none yet.
    fn lay_frames(&mut self) {
        for panel in self.panels.iter().skip(self.frames.len()) {
            let frame = match &panel.hanging {
                None => Frame::SAME,
                Some(hanging) => self.frames[hanging.parent].then(&hanging.frame()),
            };
            self.frames.push(frame);
        }
    }

    /// Cuts the half-round notches of a style out of their edges.
    fn thumb_notch(&mut self, values: &Values, ids: &TrayIds) -> Result<(), EvalError> {
        for entry in values.sheet().openings.ids() {
            let (_, OpeningEntry::ThumbNotch(notch)) = &values.sheet().openings[entry] else {
                continue;
            };
            let Some((radius, at)) = values.thumb_notch(entry)? else {
                continue;
            };
            let (key, edge) = notch.on.word.rsplit_once('.').unwrap_or_default();
            for panel in ids.called(values, key) {
                let shape = &self.panels[panel].shape;
                let cutout = shape
                    .edge_index(edge)
                    .and_then(|edge| half_round(shape, edge, at, radius));
                match cutout {
                    Some(cutout) => self.panels[panel].edge_cutouts.push(cutout),
                    None => self.astray.push(UnplacedNotch {
                        panel,
                        edge: edge.to_owned(),
                        reach: at.abs() + radius,
                    }),
                }
            }
        }
        Ok(())
    }

    fn draw_panel(
        &self,
        values: &Values,
        member: MemberId,
        ids: &TrayIds,
    ) -> Result<Panel, EvalError> {
        let shape = (*values.shape(member)?).clone();
        let hang = values.graph.members[member].hangs.as_ref();
        let hanging = hang
            .map(|hang| hang_up(values, member, hang, ids))
            .transpose()?;
        let named = &values.graph.members[member];
        Ok(Panel {
            name: named.name.clone(),
            key: values.sheet().panels[named.entry].0.word.clone(),
            part: values.sheet().panels[named.entry].0.word.clone(),
            entry: Some(named.entry),
            shape,
            tongues: Vec::new(),
            edge_cutouts: Vec::new(),
            hanging,
        })
    }

    fn draw_opening(
        &mut self,
        values: &Values,
        member: OpeningMemberId,
        ids: &TrayIds,
    ) -> Result<Opening, EvalError> {
        let rect = values.rect(member)?;
        let panel = ids.carrier(values.graph.openings[member].on);
        let turned = values.is_turned(member)?;
        let form = values.form(member);
        let cutout = match values.opening_entry(member) {
            OpeningEntry::Hole(_) if !form.curved => {
                reaching(&self.panels[panel].shape, &rect.corners())
            }
            _ => None,
        };
        let cut = match (values.opening_entry(member), cutout) {
            (OpeningEntry::Slot(slot), _) => {
                let lower = self.lower_than_root(panel, rect.centre);
                slot_cut(values, member, slot, &rect, lower)?
            }
            (_, Some(cutout)) => {
                self.panels[panel].edge_cutouts.push(cutout);
                OpeningCut::EdgeCutout
            }
            (_, None) => OpeningCut::Clean(clean::outline(&rect, form)),
        };
        let named = &values.graph.openings[member];
        Ok(Opening {
            name: named.name.clone(),
            member,
            panel,
            item: named.item,
            turned,
            rect,
            form,
            cut,
            edges: named.edges.clone(),
        })
    }

    /// How much lower than the root a point of a panel is in the folded tray, if the root is on top; 0 on the root.
    fn lower_than_root(&self, panel: PanelId, place: Point) -> f64 {
        if panel == PanelId::ROOT {
            return 0.0;
        }
        let fold = |panel: PanelId| {
            let hanging = self.panels[panel].hanging.as_ref();
            hanging.map_or(0.0, |hanging| hanging.fold_deg)
        };
        let flat = self.frames[panel].place(place);
        self.poses(fold)[panel].apply([flat.x, flat.y, 0.0])[2]
    }

    /// Adds the flaps of the job's cut as panels.
    fn hang_flaps(&mut self) {
        let with_flaps = |opening: &Opening| matches!(opening.cut, OpeningCut::Flaps(_));
        let cut: Vec<OpeningId> = self.openings.ids_where(with_flaps).collect();
        for (number, &opening) in cut.iter().enumerate() {
            let OpeningCut::Flaps(plan) = &self.openings[opening].cut else {
                continue;
            };
            let number = if cut.len() > 1 {
                (number + 1).to_string()
            } else {
                String::new()
            };
            for flap in plan.flaps.clone() {
                let edge = self.openings[opening].edges[flap.side].clone();
                let hanging = Hanging {
                    parent: self.openings[opening].panel,
                    on: HangsOn::Opening {
                        opening,
                        edge: edge.clone(),
                    },
                    crease: flap.crease,
                    fold_deg: 90.0,
                };
                let frame = hanging.frame();
                let own = |point: Point| {
                    let way = point - frame.origin;
                    Point::new(way.dot(frame.x_axis), way.dot(frame.x_axis.left()))
                };
                let corners = flap.points.iter().map(|&point| ShapeCorner {
                    at: own(point),
                    edge: None,
                });
                let shape = PanelShape {
                    corners: corners.collect(),
                };
                self.panels.push(Panel {
                    name: format!("flap{number}-{edge}"),
                    key: format!("flap{number}"),
                    part: "flap".to_owned(),
                    entry: None,
                    shape,
                    tongues: Vec::new(),
                    edge_cutouts: Vec::new(),
                    hanging: Some(hanging),
                });
            }
        }
    }
}

/// How a panel is hinged in the tray.
fn hang_up(
    values: &Values,
    member: MemberId,
    hang: &HingeRef,
    ids: &TrayIds,
) -> Result<Hanging, EvalError> {
    let (from, to) = values.carrying_edge(member)?;
    let CreaseSpan { start, span } = values.crease(member)?;
    let along = (to - from).unit();
    let edge = hang.edge.clone();
    Ok(Hanging {
        parent: ids.carrier(hang.parent(&values.graph)),
        on: match hang.on {
            HingeParent::Panel(_) => HangsOn::Edge(edge),
            HingeParent::Opening(opening) => {
                let opening = ids.carrying_opening(opening);
                HangsOn::Opening { opening, edge }
            }
        },
        crease: (from + along * start, from + along * (start + span)),
        fold_deg: values.fold_deg(member)?,
    })
}

/// How a slot is cut: as the job says, clean, or not at all.
fn slot_cut<'a>(
    values: &Values<'a>,
    member: OpeningMemberId,
    slot: &'a SlotEntry,
    rect: &Rect,
    lower: f64,
) -> Result<OpeningCut, EvalError> {
    match values.slot_cut(member, slot) {
        None => Ok(OpeningCut::Uncut),
        Some(Cut::Open) => Ok(OpeningCut::Clean(clean::outline(rect, values.form(member)))),
        Some(cut) => {
            let hang = match &slot.max_flap_depth {
                Some(hang) => values.flat_with_crease(hang, Scope::Opening(member), 90.0)?,
                None => {
                    values.job_figure(JobFigure::TrayDepth)
                        - lower
                        - values.built_in_length("floor-air")?
                        - values.outer(90.0)
                }
            };
            let doors_on_long = values.built_in_setting("doors-on")?.word() == Some("long");
            // Derived: the show face of a folded flap stands that far inside its crease; with a gap more, four flaps do not
            // run into one another at the corners.
            let notch = values.outer(90.0) + values.job_figure(JobFigure::Gap);
            let narrowest = values.job.narrowest_cutout();
            Ok(OpeningCut::Flaps(CutPlan::draw(
                rect,
                cut,
                doors_on_long,
                notch.max(narrowest),
                [hang, narrowest],
            )))
        }
    }
}

/// Every item's slot is at one position unless it is arranged in rows.
fn refuse_items_on_one_another(values: &Values) -> Result<(), EvalError> {
    for (_, opening) in values.sheet().openings.iter() {
        let OpeningEntry::Slot(slot) = opening else {
            continue;
        };
        let in_rows = slot.place == Some(SlotPlace::Rows);
        if slot.item.is_none() && !in_rows && values.job.items.len() > 1 {
            let message = "the openings of all items would lie on one another";
            let label = "write `place: Rows`, or a slot for each `item`";
            let place = slot.on.place.clone();
            return Err(EvalError::fault(SourceError::new(place, message, label)));
        }
    }
    Ok(())
}
