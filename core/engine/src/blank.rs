//! The blank: all panels laid flat by walking the graph, and the lines to cut and to crease.
//!
//! Given a [`Tray`]; gives one outline run counter-clockwise, holes run clockwise, open cuts and creases in the flat
//! frame (the root's own). Vertices are the panels' own: nothing is rounded or moved. Where the outline would run to
//! and fro along one line, the line becomes an open cut. Never judges whether panels overlap.

pub(crate) mod proof;
mod run;

use crate::geometry::{Corner, Frame, Outline, Point};
use crate::numbers::Rect;
use crate::tray::{HangsOn, OpeningCut, Tray};
use run::{cleaned, single_runs};

/// The flat blank.
#[derive(Clone, Debug)]
pub(crate) struct Blank {
    /// The panels laid flat, in the tray's order.
    pub(crate) panels: Vec<FlatPanel>,
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
    /// What is not its own inside it: openings, and panels cut out of it.
    pub(crate) holes: Vec<Outline>,
}

/// A line to crease.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Crease {
    /// The panel that hangs on it.
    pub(crate) panel: usize,
    pub(crate) from: Point,
    pub(crate) to: Point,
    pub(crate) fold_deg: f64,
}

impl Blank {
    /// Lays a tray flat.
    pub(crate) fn lay(tray: &Tray) -> Blank {
        let frames = frames(tray);
        let laying = Laying {
            tray,
            frames: &frames,
        };
        let mut open_cuts = Vec::new();
        let mut round = Vec::new();
        laying.run(0, 0, &mut round);
        let outline = single_runs(cleaned(round), &mut open_cuts);
        let mut holes = Vec::new();
        for opening in 0..tray.openings.len() {
            laying.cut_opening(opening, &mut holes, &mut open_cuts);
        }
        let panels = (0..tray.panels.len())
            .map(|panel| laying.flat_panel(panel))
            .collect();
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
    /// Lower left and upper right corner of the outline's extent.
    pub(crate) fn extent(&self) -> (Point, Point) {
        let (mut least, mut most) = ([f64::INFINITY; 2], [f64::NEG_INFINITY; 2]);
        for point in self.outline.points() {
            least = [least[0].min(point.x), least[1].min(point.y)];
            most = [most[0].max(point.x), most[1].max(point.y)];
        }
        (Point::new(least[0], least[1]), Point::new(most[0], most[1]))
    }
}

/// Every panel's own frame in the flat frame.
fn frames(tray: &Tray) -> Vec<Frame> {
    let mut frames: Vec<Frame> = Vec::new();
    for panel in &tray.panels {
        frames.push(match &panel.hanging {
            None => Frame::SAME,
            Some(hanging) => frames[hanging.parent].then(&hanging.frame()),
        });
    }
    frames
}

struct Laying<'t> {
    tray: &'t Tray,
    frames: &'t [Frame],
}

impl Laying<'_> {
    /// Runs along a panel's edges from one of its corners on and around every panel that hangs on them, up to the
    /// panel's first corner.
    fn run(&self, panel: usize, first_edge: usize, round: &mut Vec<Corner>) {
        let corners = &self.tray.panels[panel].shape.corners;
        for (index, corner) in corners.iter().enumerate().skip(first_edge) {
            if index > first_edge || first_edge == 0 {
                round.push(Corner::sharp(self.frames[panel].place(corner.at)));
            }
            let Some(edge) = &corner.edge else { continue };
            let on = |on: &HangsOn| matches!(on, HangsOn::Edge(there) if there == edge);
            self.run_hung(panel, corner.at, on, round);
        }
    }

    /// Runs around the panels that hang on one edge of a panel, in the order in which they lie along it.
    fn run_hung(
        &self,
        parent: usize,
        start: Point,
        on: impl Fn(&HangsOn) -> bool,
        round: &mut Vec<Corner>,
    ) {
        let mut hung: Vec<(f64, usize)> = Vec::new();
        for (index, panel) in self.tray.panels.iter().enumerate() {
            let Some(hanging) = panel
                .hanging
                .as_ref()
                .filter(|hanging| hanging.parent == parent && on(&hanging.on))
            else {
                continue;
            };
            hung.push(((hanging.crease.0 - start).length(), index));
        }
        hung.sort_by(|one, other| one.0.total_cmp(&other.0));
        for (_, panel) in hung {
            self.run_around(panel, round);
        }
    }

    /// Runs from one end of a panel's crease around it to the other end. Both ends are the parent's, so that the run
    /// leaves and meets the parent's edge exactly.
    fn run_around(&self, panel: usize, round: &mut Vec<Corner>) {
        let Some(hanging) = &self.tray.panels[panel].hanging else {
            return;
        };
        let frame = self.frames[hanging.parent];
        round.push(Corner::sharp(frame.place(hanging.crease.0)));
        self.run(panel, 1, round);
        round.push(Corner::sharp(frame.place(hanging.crease.1)));
    }

    fn cut_opening(
        &self,
        index: usize,
        holes: &mut Vec<Outline>,
        open_cuts: &mut Vec<Vec<Corner>>,
    ) {
        let opening = &self.tray.openings[index];
        let frame = self.frames[opening.panel];
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
            OpeningCut::Clean(hole) if self.hung_on(index).next().is_none() => {
                holes.push(hole.placed(&frame).reversed())
            }
            OpeningCut::Clean(_) => {
                let mut round = Vec::new();
                let corners = opening.rect.corners();
                // Around a hole the card lies on the left when the hole is run clockwise.
                for side in (0..4).rev() {
                    let start = corners[(side + 1) % 4];
                    round.push(Corner::sharp(frame.place(start)));
                    self.run_hung(
                        opening.panel,
                        start,
                        |on| on_edge(on, index, &opening.edges[side]),
                        &mut round,
                    );
                }
                holes.push(Outline::new(single_runs(cleaned(round), open_cuts)));
            }
            OpeningCut::Uncut => {
                for panel in self.hung_on(index) {
                    let mut round = Vec::new();
                    self.run_around(panel, &mut round);
                    open_cuts.push(round);
                }
            }
        }
    }

    fn hung_on(&self, opening: usize) -> impl Iterator<Item = usize> {
        let on = move |on: &HangsOn| matches!(on, HangsOn::Opening { opening: other, .. } if *other == opening);
        let panels = self.tray.panels.iter().enumerate();
        panels
            .filter(move |(_, panel)| {
                panel
                    .hanging
                    .as_ref()
                    .is_some_and(|hanging| on(&hanging.on))
            })
            .map(|(index, _)| index)
    }

    fn flat_panel(&self, panel: usize) -> FlatPanel {
        let frame = self.frames[panel];
        let mut holes = Vec::new();
        for (index, opening) in self
            .tray
            .openings
            .iter()
            .enumerate()
            .filter(|(_, opening)| opening.panel == panel)
        {
            match &opening.cut {
                OpeningCut::Flaps(_) => holes.push(
                    Outline::straight(opening.rect.corners())
                        .placed(&frame)
                        .reversed(),
                ),
                OpeningCut::Clean(_) if opening.rect.is_slit() => {}
                OpeningCut::Clean(hole) => holes.push(hole.placed(&frame).reversed()),
                OpeningCut::Uncut => holes.extend(
                    self.hung_on(index)
                        .map(|hung| self.outline(hung).reversed()),
                ),
            }
        }
        FlatPanel {
            frame,
            outline: self.outline(panel),
            holes,
        }
    }

    fn outline(&self, panel: usize) -> Outline {
        Outline::straight(self.tray.panels[panel].shape.points()).placed(&self.frames[panel])
    }

    fn creases(&self) -> Vec<Crease> {
        let crease = |(index, panel): (usize, &crate::tray::Panel)| {
            let hanging = panel.hanging.as_ref()?;
            let frame = self.frames[hanging.parent];
            let (from, to) = hanging.crease;
            Some(Crease {
                panel: index,
                from: frame.place(from),
                to: frame.place(to),
                fold_deg: hanging.fold_deg,
            })
        };
        self.tray
            .panels
            .iter()
            .enumerate()
            .filter_map(crease)
            .collect()
    }
}

/// A hole without width, from end to end.
fn slit(rect: &Rect, frame: &Frame) -> Vec<Corner> {
    let [from, _, to, _] = rect.corners();
    [from, to]
        .map(|end| Corner::sharp(frame.place(end)))
        .to_vec()
}

fn on_edge(on: &HangsOn, opening: usize, edge: &str) -> bool {
    matches!(on, HangsOn::Opening { opening: other, edge: there } if *other == opening && there == edge)
}
