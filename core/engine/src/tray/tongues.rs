//! Tongues, and the slits that are derived from them.
//!
//! **Input:** a tongue as the style states it and the tray's panels. **Output:** the tongue as part of its edge, and
//! its slit: once all panels are drawn, the tray is folded by its creases, and the slit is the tongue's section in the
//! card of the other panel, larger by the clearance on all sides. **Does not** check: a tongue that misses has the
//! distance.
//!
//! ```text
//!         tip              The edge runs from the right to the left, counter-clockwise around the panel below it;
//!       +------+           `taper` draws both sides in towards the tip, `chamfer` cuts the tip's corners.
//!      /        \
//!  ---+          +---
//! ```

use super::drawing::TrayIds;
use super::edge_cutouts::{opened, reaching};
use super::{EdgeDetour, Interlock, Panel, PanelId, Slit, Tray};
use crate::geometry::{Corner, Frame, Point, TOUCH_MM, Vector};
use crate::ids::IdVec;
use crate::space::{ConvexSolid, Vec3};
use crate::values::{EvalError, PanelShape, TongueForm, Values};
use traywright_document::Pose;
use traywright_document::steady::Steady;

/// The tongues drawn from one entry, and the panels they may enter.
pub(super) struct DrawnTongue {
    name: String,
    panel: PanelId,
    tongue: usize,
    /// The panels that it may enter: all of one family.
    into: Vec<PanelId>,
    play: f64,
}

impl Tray {
    /// Draws the tongues of a style on their panels.
    pub(super) fn draw_tongues(
        &mut self,
        values: &Values,
        ids: &TrayIds,
    ) -> Result<Vec<DrawnTongue>, EvalError> {
        let mut tongues = Vec::new();
        for entry in values.sheet().tongues.ids() {
            let Some(form) = values.tongue_form(entry)? else {
                continue;
            };
            let (name, written) = &values.sheet().tongues[entry];
            let (on, edge) = written.on.word.rsplit_once('.').unwrap_or_default();
            let panels = ids.called(values, on);
            let into = ids.called(values, &written.into.word);
            for panel in panels {
                let shape = &self.panels[panel].shape;
                let Some(edge) = shape.edge_index(edge) else {
                    continue;
                };
                for run in runs(shape, edge, &form) {
                    tongues.push(DrawnTongue {
                        name: name.word.clone(),
                        panel,
                        tongue: self.panels[panel].tongues.len(),
                        into: into.clone(),
                        play: form.play,
                    });
                    self.panels[panel].tongues.push(run);
                }
            }
        }
        Ok(tongues)
    }

    /// Derives the slit of every tongue from the folded tray.
    pub(super) fn cut_slits(&mut self, tongues: Vec<DrawnTongue>) {
        if tongues.is_empty() {
            return;
        }
        let fold = |panel: &Panel| {
            panel
                .hanging
                .as_ref()
                .map_or(0.0, |hanging| hanging.fold_deg)
        };
        let motions = self.poses(|panel| fold(&self.panels[panel]));
        for tongue in tongues {
            let meetings = tongue
                .into
                .iter()
                .map(|&into| (into, self.meeting(&motions, &tongue, into)));
            let Some((into, slit)) =
                meetings.min_by(|one, other| one.1.missed_by().total_cmp(&other.1.missed_by()))
            else {
                continue;
            };
            if let Slit::EdgeCutout { corners, .. } = &slit
                && let Some(cutout) = reaching(&self.panels[into].shape, corners)
            {
                self.panels[into].edge_cutouts.push(cutout);
            }
            self.interlocks.push(Interlock {
                name: tongue.name,
                panel: tongue.panel,
                tongue: tongue.tongue,
                into,
                slit,
            });
        }
    }

    /// The section of a tongue in a panel when the tray is folded.
    fn meeting(&self, motions: &IdVec<Panel, Pose>, tongue: &DrawnTongue, into: PanelId) -> Slit {
        let (half, panel) = (self.caliper / 2.0, tongue.panel);
        let run = &self.panels[panel].tongues[tongue.tongue];
        let foot = |corner: &Corner| {
            let flat = self.frames[panel].place(corner.at);
            [flat.x, flat.y]
        };
        let flat: Vec<[f64; 2]> = run.corners.iter().map(foot).collect();
        let there = motions[into].inverse().after(&motions[panel]);
        let solid = ConvexSolid::prism(&flat, half).moved(&there);
        let (least, most) = solid.corners.iter().fold(
            (f64::INFINITY, f64::NEG_INFINITY),
            |(least, most), corner| (least.min(corner[2]), most.max(corner[2])),
        );
        let deep = most.min(half) - least.max(-half);
        if deep < TOUCH_MM {
            return Slit::Missed { by: -deep };
        }
        let way = there.turn([
            flat[flat.len() - 1][0] - flat[0][0],
            flat[flat.len() - 1][1] - flat[0][1],
            0.0,
        ]);
        let section = section(&solid, half);
        let corners = grown(
            &self.frames[into],
            &section,
            way,
            [tongue.play, self.narrowest],
        );
        let shape = &self.panels[into].shape;
        let beside = shape.distance_outside(corners[0].middle(corners[2]));
        if beside > TOUCH_MM {
            return Slit::Missed { by: beside };
        }
        let corners = opened(shape, corners, self.caliper, self.narrowest);
        match reaching(shape, &corners) {
            Some(_) => Slit::EdgeCutout { corners, deep },
            None => Slit::Hole { corners, deep },
        }
    }
}

impl Slit {
    fn missed_by(&self) -> f64 {
        match self {
            Slit::Missed { by } => *by,
            _ => f64::NEG_INFINITY,
        }
    }
}

/// The tongues of one form along an edge, in the order of the outline.
fn runs(shape: &PanelShape, edge: usize, form: &TongueForm) -> Vec<EdgeDetour> {
    let count = shape.corners.len();
    let (from, to) = (shape.corners[edge].at, shape.corners[(edge + 1) % count].at);
    let (along, length) = ((to - from).unit(), (to - from).length());
    let apart = form.spacing.unwrap_or(length / form.count as f64);
    let tongue = |number: usize| {
        let middle =
            from.middle(to) + along * ((number as f64 - (form.count as f64 - 1.0) / 2.0) * apart);
        let frame = Frame {
            origin: middle,
            x_axis: -along,
        };
        let corners = half_tongue(form);
        let right = corners.iter().map(|&(x, y)| Point::new(x, y));
        let left = corners.iter().rev().map(|&(x, y)| Point::new(-x, y));
        let round = right
            .chain(left)
            .map(|corner| Corner::sharp(frame.place(corner)));
        EdgeDetour {
            edge,
            corners: round.collect(),
        }
    };
    (0..form.count).map(tongue).collect()
}

/// The right half of a tongue from its base to its tip, x from its middle and y out of the edge.
fn half_tongue(form: &TongueForm) -> Vec<(f64, f64)> {
    let half = form.width / 2.0;
    let side = |y: f64| {
        half - form.taper
            * if form.length > TOUCH_MM {
                y / form.length
            } else {
                0.0
            }
    };
    let shoulder = form.length - form.chamfer;
    if form.chamfer < TOUCH_MM {
        return vec![(half, 0.0), (side(form.length), form.length)];
    }
    vec![
        (half, 0.0),
        (side(shoulder), shoulder),
        (side(form.length) - form.chamfer, form.length),
    ]
}

/// The points of a solid between the faces of a card: its corners, and where its edges cross the faces.
fn section(solid: &ConvexSolid, half: f64) -> Vec<Point> {
    let within = |height: f64| height.abs() < half + TOUCH_MM;
    let flat = |place: Vec3| Point::new(place[0], place[1]);
    let mut places: Vec<Point> = solid
        .corners
        .iter()
        .filter(|corner| within(corner[2]))
        .map(|&corner| flat(corner))
        .collect();
    for &(from, to) in &solid.edges {
        let (from, to) = (solid.corners[from], solid.corners[to]);
        for level in [-half, half] {
            let (before, after) = (level - from[2], to[2] - level);
            if before * after > 0.0 {
                let part = before / (before + after);
                places.push(flat(from).on_the_way(flat(to), part));
            }
        }
    }
    places
}

/// The rectangle around a section, with sides along the tongue's width, larger by the clearance all round and as wide as
/// the tool needs; in the panel's own frame and counter-clockwise.
fn grown(frame: &Frame, section: &[Point], way: Vec3, [play, narrowest]: [f64; 2]) -> [Point; 4] {
    let flat = (way[0].steady_hypot(way[1]) > TOUCH_MM).then(|| Vector::new(way[0], way[1]).unit());
    let x_axis = flat.unwrap_or(frame.x_axis);
    let own = Frame {
        origin: Point::ORIGIN,
        x_axis,
    };
    let start = ([f64::INFINITY; 2], [f64::NEG_INFINITY; 2]);
    let (least, most) =
        section
            .iter()
            .map(|&place| own.from_outside(place))
            .fold(start, |(least, most), place| {
                (
                    [least[0].min(place.x), least[1].min(place.y)],
                    [most[0].max(place.x), most[1].max(place.y)],
                )
            });
    let corner = |x: f64, y: f64| frame.from_outside(own.place(Point::new(x, y)));
    let side = |axis: usize| {
        let more = f64::max(play, (narrowest - (most[axis] - least[axis])) / 2.0);
        (least[axis] - more, most[axis] + more)
    };
    let ((left, right), (low, high)) = (side(0), side(1));
    [
        corner(left, low),
        corner(right, low),
        corner(right, high),
        corner(left, high),
    ]
}
