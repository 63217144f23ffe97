//! Panels as solids with the card's thickness, in convex pieces.
//!
//! **Input:** a tray and its blank. **Output:** each panel's pieces in the flat frame. A panel and its parent both
//! occupy the strip at their crease, which becomes the bend. So each panel has a second set of pieces, without this
//! strip, for the comparison with its parent.
//!
//! ```text
//!            |  |
//!      child |  |
//!            |  |
//!            |##|______
//!            |##|______ parent
//! ```
//!
//! The strip is as wide as the farthest that the bend reaches into the panel during the fold. With a = caliper / 2 -
//! hinge the width is a sin(angle) up to a quarter turn, where the upper corner of the parent's edge is deepest in the
//! child, and beyond that a tan(angle / 2), up to the inside corner of the fold.

use std::f64::consts::FRAC_PI_2;
use traywright_document::steady::Steady;

use super::bounds::Bounds;
use crate::blank::Blank;
use crate::geometry::{Outline, Point, TOUCH_MM};
use crate::ids::IdVec;
use crate::space::ConvexSolid;
use crate::tray::{EdgeDetour, Panel, PanelId, Tray};

/// Maximum distance between a chord and its arc. Arcs bound what is cut out, so chords only add card.
// Source: common practice, none published: what a hand cuts to; each chord is a solid to be held against all others.
const CHORD_MM: f64 = 0.25;

/// The same maximum for panels beside an item.
// Derived: what an item travels is told to 0.01 mm.
const CHORD_BESIDE_ITEMS_MM: f64 = 0.002;

/// The solids of all panels, in the flat frame.
#[derive(Clone, Debug)]
pub(crate) struct PanelSolids {
    /// By panel, without its tongues.
    whole: IdVec<Panel, Vec<ConvexSolid>>,
    /// By panel, without its tongues and the strip at its own crease.
    free: IdVec<Panel, Vec<ConvexSolid>>,
    /// By panel, its tongues.
    tongues: IdVec<Panel, Vec<ConvexSolid>>,
    /// By panel, the box around all of these.
    bounds: IdVec<Panel, Bounds>,
}

/// Whether tongues are as stiff as their panels, or bend out of the way.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Tongues {
    Stiff,
    Bowed,
}

impl PanelSolids {
    /// Cuts the panels of a blank into solids.
    pub(crate) fn of(tray: &Tray, blank: &Blank) -> PanelSolids {
        let mut solids = PanelSolids {
            whole: IdVec::default(),
            free: IdVec::default(),
            tongues: IdVec::default(),
            bounds: IdVec::default(),
        };
        let half = tray.caliper / 2.0;
        for panel in tray.panels.ids() {
            let pieces = pieces(tray, blank, panel, CHORD_MM);
            let prisms = |pieces: &[Vec<[f64; 2]>]| {
                pieces
                    .iter()
                    .map(|piece| ConvexSolid::prism(piece, half))
                    .collect()
            };
            solids.whole.push(prisms(&pieces));
            let beyond: Vec<Vec<[f64; 2]>> = pieces
                .iter()
                .map(|piece| beyond_bar(tray, blank, panel, piece))
                .filter(|piece| piece.len() > 2)
                .collect();
            solids.free.push(prisms(&beyond));
            let frame = &tray.frames[panel];
            let tongue = |run: &EdgeDetour| {
                Outline::new(run.corners.clone())
                    .placed(frame)
                    .flattened(CHORD_MM)
            };
            let tongues: Vec<Vec<[f64; 2]>> =
                tray.panels[panel].tongues.iter().map(tongue).collect();
            solids.tongues.push(prisms(&tongues));
            let all = solids.whole[panel].iter().chain(&solids.tongues[panel]);
            solids.bounds.push(Bounds::around(all));
        }
        solids
    }

    /// The pieces of a panel with its tongues, its curves as exact as an item beside it needs.
    pub(crate) fn beside_items(
        &self,
        tray: &Tray,
        blank: &Blank,
        panel: PanelId,
    ) -> Vec<ConvexSolid> {
        let flat = &blank.panels[panel];
        let outlines = [&flat.outline].into_iter().chain(&flat.holes);
        let is_curved = outlines
            .flat_map(Outline::corners)
            .any(|corner| corner.bulge != 0.0);
        let body = if is_curved {
            let pieces = pieces(tray, blank, panel, CHORD_BESIDE_ITEMS_MM);
            let prism = |piece: Vec<[f64; 2]>| ConvexSolid::prism(&piece, tray.caliper / 2.0);
            pieces.into_iter().map(prism).collect()
        } else {
            self.whole[panel].clone()
        };
        body.into_iter()
            .chain(self.tongues[panel].iter().cloned())
            .collect()
    }

    /// The box around a panel with its tongues, in the flat frame.
    pub(crate) fn bounds(&self, panel: PanelId) -> &Bounds {
        &self.bounds[panel]
    }

    /// The pieces of two panels to be compared.
    pub(crate) fn pair(
        &self,
        tray: &Tray,
        one: PanelId,
        other: PanelId,
        tongues: Tongues,
    ) -> [Vec<&ConvexSolid>; 2] {
        let hangs_on = |panel: PanelId, parent: PanelId| {
            tray.panels[panel]
                .hanging
                .as_ref()
                .is_some_and(|hanging| hanging.parent == parent)
        };
        [(one, other), (other, one)].map(|(panel, against)| {
            let body = if hangs_on(panel, against) {
                &self.free[panel]
            } else {
                &self.whole[panel]
            };
            let stiff = self.tongues[panel]
                .iter()
                .filter(|_| tongues == Tongues::Stiff);
            body.iter().chain(stiff).collect()
        })
    }
}

/// A panel in convex pieces, each counter-clockwise, with chords at most `chord` from its curves.
fn pieces(tray: &Tray, blank: &Blank, panel: PanelId, chord: f64) -> Vec<Vec<[f64; 2]>> {
    let flat = &blank.panels[panel];
    let body = tray.panels[panel].outline(false).placed(&flat.frame);
    let outline: Vec<[f64; 2]> = body.flattened(chord);
    if flat.holes.is_empty() && is_convex(&outline) {
        return vec![outline];
    }
    let mut points = outline;
    let mut holes = Vec::new();
    for hole in &flat.holes {
        holes.push(points.len());
        points.extend(hole.flattened(chord));
    }
    let mut corners: Vec<usize> = Vec::new();
    earcut::Earcut::new().earcut(points.iter().copied(), &holes, &mut corners);
    let triangle = |corners: &[usize]| -> Vec<[f64; 2]> {
        corners.iter().map(|&corner| points[corner]).collect()
    };
    let turned = |mut piece: Vec<[f64; 2]>| {
        if turn(piece[0], piece[1], piece[2]) < 0.0 {
            piece.reverse();
        }
        piece
    };
    let flat = |piece: &Vec<[f64; 2]>| turn(piece[0], piece[1], piece[2]).abs() > TOUCH_MM;
    corners
        .chunks_exact(3)
        .map(triangle)
        .filter(flat)
        .map(turned)
        .collect()
}

/// Twice the area of a triangle, positive when it runs counter-clockwise.
fn turn(one: [f64; 2], two: [f64; 2], three: [f64; 2]) -> f64 {
    (two[0] - one[0]) * (three[1] - one[1]) - (two[1] - one[1]) * (three[0] - one[0])
}

fn is_convex(points: &[[f64; 2]]) -> bool {
    let count = points.len();
    (0..count).all(|at| {
        turn(
            points[at],
            points[(at + 1) % count],
            points[(at + 2) % count],
        ) > 0.0
    })
}

/// The part of a piece beyond the strip at its panel's crease.
fn beyond_bar(tray: &Tray, blank: &Blank, panel: PanelId, piece: &[[f64; 2]]) -> Vec<[f64; 2]> {
    let Some(hanging) = &tray.panels[panel].hanging else {
        return piece.to_vec();
    };
    let frame = blank.panels[panel].frame;
    let out = frame.x_axis.left();
    let angle = hanging.fold_deg.abs().to_radians();
    let bar = (tray.caliper / 2.0 - tray.hinge)
        * angle
            .min(FRAC_PI_2)
            .steady_sin()
            .max((angle / 2.0).steady_tan());
    let above = |point: [f64; 2]| (Point::new(point[0], point[1]) - frame.origin).dot(out) - bar;
    let mut kept: Vec<[f64; 2]> = Vec::new();
    for (at, &from) in piece.iter().enumerate() {
        let to = piece[(at + 1) % piece.len()];
        let (here, there) = (above(from), above(to));
        if here >= 0.0 {
            kept.push(from);
        }
        if here * there < 0.0 {
            let part = here / (here - there);
            kept.push([
                from[0] + (to[0] - from[0]) * part,
                from[1] + (to[1] - from[1]) * part,
            ]);
        }
    }
    kept.dedup_by(|one, other| (one[0] - other[0]).steady_hypot(one[1] - other[1]) < TOUCH_MM);
    kept
}
