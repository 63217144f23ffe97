//! The blank: all panels laid flat by following the graph, and the lines to cut and to crease.
//!
//! **Input:** a [`Tray`]. **Output:** one counter-clockwise outline, clockwise holes, open cuts and creases in the flat
//! frame (the root's own). Vertices are the panels' own: nothing is rounded or moved. If the outline would follow one
//! line in both directions, the line becomes an open cut. **Does not** check whether panels overlap.

pub(crate) mod flat_check;
mod followable;
mod laid;
mod run;
mod short;
mod view;

use traywright_document::Extent;

pub(crate) use laid::Laid;
pub(crate) use view::DrawnView;

use crate::geometry::{Corner, Frame, Outline, Point};
use crate::ids::IdVec;
use crate::tray::{EdgeDetour, HangsOn, OpeningCut, OpeningId, Panel, PanelId, Slit, Tray};
use crate::values::Rect;
use run::{cleaned, single_runs};

/// The flat blank.
#[derive(Clone, Debug)]
pub(crate) struct Blank {
    /// The panels laid flat.
    pub(crate) panels: IdVec<Panel, FlatPanel>,
    pub(crate) outline: Outline,
    pub(crate) holes: Vec<Outline>,
    /// Open cuts as runs of corners; the last corner only ends the run.
    pub(crate) open_cuts: Vec<Vec<Corner>>,
    pub(crate) creases: Vec<Crease>,
}

/// One panel laid flat.
#[derive(Clone, Debug)]
pub(crate) struct FlatPanel {
    /// Its own frame in the flat frame.
    pub(crate) frame: Frame,
    pub(crate) outline: Outline,
    /// Areas inside its outline that are not its own card: openings, and panels cut out of it.
    pub(crate) holes: Vec<Outline>,
}

/// A line to crease; an interrupted crease is several of them.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Crease {
    /// The panel that is hinged there.
    pub(crate) panel: PanelId,
    pub(crate) from: Point,
    pub(crate) to: Point,
    pub(crate) fold_deg: f64,
}

impl Blank {
    /// Lays a tray flat.
    pub(crate) fn lay(tray: &Tray) -> Blank {
        let laying = Laying { tray };
        let mut open_cuts = Vec::new();
        let mut round = Vec::new();
        laying.run(PanelId::ROOT, 0, &mut round);
        let outline = single_runs(cleaned(round), &mut open_cuts);
        let mut holes = Vec::new();
        for opening in tray.openings.ids() {
            laying.cut_opening(opening, &mut holes, &mut open_cuts);
        }
        laying.cut_slits(&mut holes, &mut open_cuts);
        laying.cut_creases(&mut holes);
        let panels = tray.panels.ids();
        let panels = panels.map(|panel| laying.flat_panel(panel)).collect();
        Blank {
            panels,
            outline: Outline::new(outline),
            holes,
            open_cuts,
            creases: laying.creases(),
        }
    }
}

impl Blank {
    /// The rectangle around the outline.
    pub(crate) fn extent(&self) -> Extent {
        Extent::around(self.outline.points())
    }
}

/// The parts along an edge of a panel.
enum Along<'t> {
    /// A panel that is hinged there.
    Panel(PanelId),
    /// A tongue or an edge cut-out.
    Run(&'t EdgeDetour),
}

struct Laying<'t> {
    tray: &'t Tray,
}

impl Laying<'_> {
    /// Runs along a panel's edges, from one of its corners to the panel's first corner, and around everything attached
    /// to them.
    fn run(&self, panel: PanelId, first_edge: usize, round: &mut Vec<Corner>) {
        let (frame, bearer) = (self.tray.frames[panel], &self.tray.panels[panel]);
        let corners = &bearer.shape.corners;
        for (index, corner) in corners.iter().enumerate().skip(first_edge) {
            if index > first_edge || first_edge == 0 {
                round.push(Corner::sharp(frame.place(corner.at)));
            }
            let tongues = bearer.tongues.iter();
            let edge_cutouts = bearer
                .edge_cutouts
                .iter()
                .filter(|cutout| !self.tray.lies_in_a_crease(panel, cutout));
            let runs = tongues.chain(edge_cutouts).filter(|run| run.edge == index);
            let mut along: Vec<Along> = runs.map(Along::Run).collect();
            if let Some(edge) = &corner.edge {
                let on = |on: &HangsOn| matches!(on, HangsOn::Edge(there) if there == edge);
                along.extend(self.hung(panel, on).map(Along::Panel));
            }
            self.run_along(panel, corner.at, along, round);
        }
    }

    /// The panels hinged to a panel on an edge or opening that `on` accepts.
    fn hung(
        &self,
        parent: PanelId,
        on: impl Fn(&HangsOn) -> bool,
    ) -> impl Iterator<Item = PanelId> {
        self.tray.panels.ids_where(move |panel| {
            panel
                .hanging
                .as_ref()
                .is_some_and(|hanging| hanging.parent == parent && on(&hanging.on))
        })
    }

    /// Runs around the parts along one edge of a panel, in their order along the edge.
    fn run_along(
        &self,
        panel: PanelId,
        start: Point,
        mut along: Vec<Along>,
        round: &mut Vec<Corner>,
    ) {
        let frame = self.tray.frames[panel];
        let away = |along: &Along| {
            let begins = match along {
                Along::Run(run) => Some(run.first().at),
                Along::Panel(hung) => self.tray.panels[*hung]
                    .hanging
                    .as_ref()
                    .map(|hanging| hanging.crease.0),
            };
            begins.map_or(0.0, |begins| (begins - start).length())
        };
        along.sort_by(|one, other| away(one).total_cmp(&away(other)));
        for along in along {
            match along {
                Along::Panel(hung) => self.run_around(hung, round),
                Along::Run(run) => round.extend(run.corners.iter().map(|corner| Corner {
                    at: frame.place(corner.at),
                    bulge: corner.bulge,
                })),
            }
        }
    }

    /// Runs from one end of a panel's crease around it to the other end. Both ends are the parent's points, so that the
    /// run leaves and rejoins the parent's edge exactly.
    fn run_around(&self, panel: PanelId, round: &mut Vec<Corner>) {
        let Some(hanging) = &self.tray.panels[panel].hanging else {
            return;
        };
        let frame = self.tray.frames[hanging.parent];
        round.push(Corner::sharp(frame.place(hanging.crease.0)));
        self.run(panel, 1, round);
        round.push(Corner::sharp(frame.place(hanging.crease.1)));
    }

    fn cut_opening(
        &self,
        id: OpeningId,
        holes: &mut Vec<Outline>,
        open_cuts: &mut Vec<Vec<Corner>>,
    ) {
        let opening = &self.tray.openings[id];
        let frame = self.tray.frames[opening.panel];
        match &opening.cut {
            OpeningCut::Flaps(plan) => {
                holes.extend(plan.holes.iter().map(|hole| hole.placed(&frame)));
                let place = |&(from, to): &(Point, Point)| {
                    vec![
                        Corner::sharp(frame.place(from)),
                        Corner::sharp(frame.place(to)),
                    ]
                };
                open_cuts.extend(plan.cuts.iter().map(place));
            }
            OpeningCut::Clean(_) if opening.rect.is_slit() => {
                open_cuts.push(slit(&opening.rect, &frame))
            }
            OpeningCut::Clean(hole) if self.hung_on(id).next().is_none() => {
                holes.push(hole.placed(&frame).reversed())
            }
            OpeningCut::Clean(_) => {
                let mut round = Vec::new();
                let corners = opening.rect.corners();
                // Around a hole that is run clockwise, the card is on the left.
                for side in (0..4).rev() {
                    let start = corners[(side + 1) % 4];
                    round.push(Corner::sharp(frame.place(start)));
                    let on = |on: &HangsOn| on_edge(on, id, &opening.edges[side]);
                    let along = self.hung(opening.panel, on).map(Along::Panel).collect();
                    self.run_along(opening.panel, start, along, &mut round);
                }
                holes.push(Outline::new(single_runs(cleaned(round), open_cuts)));
            }
            OpeningCut::Uncut => {
                for panel in self.hung_on(id) {
                    let mut round = Vec::new();
                    self.run_around(panel, &mut round);
                    open_cuts.push(round);
                }
            }
            // It is part of the panel's outline or of a crease.
            OpeningCut::EdgeCutout => {}
        }
    }

    /// Edge cut-outs that lie entirely in a crease, closed by the edge of the panel on the other side of the crease.
    fn cut_creases(&self, holes: &mut Vec<Outline>) {
        for (id, panel) in self.tray.panels.enumerated() {
            let frame = self.tray.frames[id];
            let in_crease = panel
                .edge_cutouts
                .iter()
                .filter(|cutout| self.tray.lies_in_a_crease(id, cutout));
            holes.extend(
                in_crease.map(|cutout| Outline::new(cutout.corners.clone()).placed(&frame)),
            );
        }
    }

    /// The slits of tongues that lie inside their panels.
    fn cut_slits(&self, holes: &mut Vec<Outline>, open_cuts: &mut Vec<Vec<Corner>>) {
        for interlock in &self.tray.interlocks {
            let frame = self.tray.frames[interlock.into];
            let Slit::Hole { corners, .. } = &interlock.slit else {
                continue;
            };
            match closed(corners) {
                Some(slit) => holes.push(slit.placed(&frame).reversed()),
                None => {
                    let ends = [corners[0], corners[2]];
                    open_cuts.push(ends.map(|end| Corner::sharp(frame.place(end))).to_vec());
                }
            }
        }
    }

    fn hung_on(&self, opening: OpeningId) -> impl Iterator<Item = PanelId> {
        let on = move |on: &HangsOn| matches!(on, HangsOn::Opening { opening: other, .. } if *other == opening);
        self.tray.panels.ids_where(move |panel| {
            panel
                .hanging
                .as_ref()
                .is_some_and(|hanging| on(&hanging.on))
        })
    }

    fn flat_panel(&self, panel: PanelId) -> FlatPanel {
        let frame = self.tray.frames[panel];
        let mut holes = Vec::new();
        let openings = self.tray.openings.enumerated();
        for (id, opening) in openings.filter(|(_, opening)| opening.panel == panel) {
            match &opening.cut {
                OpeningCut::Flaps(_) => holes.push(
                    Outline::straight(opening.rect.corners())
                        .placed(&frame)
                        .reversed(),
                ),
                OpeningCut::Clean(_) if opening.rect.is_slit() => {}
                OpeningCut::Clean(hole) => holes.push(hole.placed(&frame).reversed()),
                OpeningCut::Uncut => {
                    holes.extend(self.hung_on(id).map(|hung| self.outline(hung).reversed()))
                }
                OpeningCut::EdgeCutout => {}
            }
        }
        let slits = self
            .tray
            .interlocks
            .iter()
            .filter(|interlock| interlock.into == panel);
        holes.extend(slits.filter_map(|interlock| match &interlock.slit {
            Slit::Hole { corners, .. } => Some(closed(corners)?.placed(&frame).reversed()),
            _ => None,
        }));
        FlatPanel {
            frame,
            outline: self.outline(panel),
            holes,
        }
    }

    fn outline(&self, panel: PanelId) -> Outline {
        self.tray.panels[panel]
            .outline(true)
            .placed(&self.tray.frames[panel])
    }

    fn creases(&self) -> Vec<Crease> {
        let mut creases = Vec::new();
        for (panel, hung) in self.tray.panels.enumerated() {
            let Some(hanging) = &hung.hanging else {
                continue;
            };
            let pieces = self.tray.crease_pieces(panel).into_iter();
            creases.extend(pieces.map(|(from, to)| Crease {
                panel,
                from,
                to,
                fold_deg: hanging.fold_deg,
            }));
        }
        creases
    }
}

/// A slit as a hole; none if it has no width.
fn closed(corners: &[Point; 4]) -> Option<Outline> {
    let slit = Outline::straight(*corners);
    let thin = corners[0].touches(corners[3]) || corners[0].touches(corners[1]);
    (!thin).then_some(slit)
}

/// A hole without width, from end to end.
fn slit(rect: &Rect, frame: &Frame) -> Vec<Corner> {
    let [from, _, to, _] = rect.corners();
    [from, to]
        .map(|end| Corner::sharp(frame.place(end)))
        .to_vec()
}

fn on_edge(on: &HangsOn, opening: OpeningId, edge: &str) -> bool {
    matches!(on, HangsOn::Opening { opening: other, edge: there } if *other == opening && there == edge)
}
