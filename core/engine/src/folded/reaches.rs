//! Sensitivity of a point of the folded tray to errors: of the creases between the point and the root, of the cut on
//! which the point lies, and of the card.
//!
//! **Input:** the folded tray and a direction in its frame. **Output:** how far a point moves in that direction per mm
//! that a crease is farther out in its parent, that all folds lie farther in, or that the card is thicker. Angles count
//! as exact: spring-back of folds is ignored everywhere.
//!
//! The blank is cut as drawn, so a crease that is farther out makes its parent longer and its panel shorter.

use traywright_document::space::{Vec3, dot, minus};

use super::FoldedTray;
use crate::geometry::Point;
use crate::tolerance::Chain;
use crate::tray::{HangsOn, PanelId, Tray};

/// Points within this distance of the farthest one are candidates: any of them may be farthest once lines are off.
// Source: a choice of this project: a tenth of what hands can cut.
const AS_FAR_MM: f64 = 0.05;

/// Sensitivities of a point in one direction.
#[derive(Clone, Debug, Default)]
pub(crate) struct Reach {
    /// Each panel whose crease moves the point, with the sensitivity to its line and to its fold.
    creases: Vec<(PanelId, f64, f64)>,
    /// Sensitivity to a cut that is farther out.
    cut: f64,
    /// Sensitivity to the card's thickness: a half on a face, 0 in the middle.
    caliper: f64,
}

impl Reach {
    /// The reach of the middle of a panel's card.
    // Derived: a panel turns by R about the crease. When the crease moves by u, all of the panel moves by (I - R) u.
    pub(crate) fn of(tray: &Tray, folded: &FoldedTray, panel: PanelId, way: Vec3) -> Reach {
        let mut creases = Vec::new();
        let mut at = panel;
        while let Some(hanging) = &tray.panels[at].hanging {
            let hinge = tray.hinge_of(hanging);
            let [parent, own] = [hanging.parent, at].map(|panel| &folded.motions[panel]);
            let moved = |by: Vec3| dot(minus(parent.turn(by), own.turn(by)), way);
            let into = hinge.into_panel();
            let line = moved([into.x, into.y, 0.0]);
            let fold = moved([0.0, 0.0, hinge.fold_deg.signum()]);
            creases.push((at, line, fold));
            at = hanging.parent;
        }
        Reach {
            creases,
            ..Reach::default()
        }
    }

    /// The reach of the same point on a face of the card or at a cut edge.
    pub(crate) fn ending(self, cut: f64, caliper: f64) -> Reach {
        Reach {
            cut,
            caliper,
            ..self
        }
    }

    /// The reach in the opposite direction.
    pub(crate) fn reversed(mut self) -> Reach {
        for (_, line, fold) in &mut self.creases {
            (*line, *fold) = (-*line, -*fold);
        }
        let (cut, caliper) = (-self.cut, -self.caliper);
        self.ending(cut, caliper)
    }

    /// The chain of the length from another point to this one.
    pub(crate) fn from(&self, other: &Reach) -> Chain {
        let of = |reach: &Reach, panel: PanelId| {
            let crease = reach.creases.iter().find(|(own, ..)| *own == panel);
            crease.map_or([0.0; 2], |&(_, line, fold)| [line, fold])
        };
        let only_there =
            |(panel, ..): &&(PanelId, f64, f64)| self.creases.iter().all(|(own, ..)| own != panel);
        let others = other.creases.iter().filter(only_there);
        let panels = self.creases.iter().chain(others).map(|(panel, ..)| *panel);
        let parts: Vec<[f64; 2]> = panels
            .map(|panel| {
                let (own, there) = (of(self, panel), of(other, panel));
                [own[0] - there[0], own[1] - there[1]]
            })
            .collect();
        let lines = parts.iter().map(|[line, _]| *line);
        let counts = |line: &f64| line.abs() > 1e-6;
        Chain {
            measured: 0,
            lines: lines.chain([self.cut, other.cut]).filter(counts).collect(),
            hinges: parts.iter().map(|[_, fold]| fold).sum(),
            calipers: self.caliper - other.caliper,
        }
    }

    /// Total sensitivity, for choosing the least certain point.
    fn weight(&self) -> f64 {
        let creases = self.creases.iter();
        let lines: f64 = creases
            .map(|(_, line, fold)| line * line + fold * fold)
            .sum();
        lines + self.cut * self.cut
    }

    /// The reach of the farthest point in a direction; among candidates, of the least certain one.
    pub(crate) fn farthest(tray: &Tray, folded: &FoldedTray, way: Vec3) -> Reach {
        let places = tray.panels.ids().flat_map(|panel| {
            let corners = 0..tray.panels[panel].shape.corners.len();
            corners.map(move |corner| (panel, corner))
        });
        let half = tray.caliper / 2.0;
        let far = |&(panel, corner): &(PanelId, usize)| {
            let pose = &folded.motions[panel];
            let Point { x, y, .. } =
                tray.frames[panel].place(tray.panels[panel].shape.corners[corner].at);
            let faces = dot(pose.turn([0.0, 0.0, half]), way).abs();
            dot(pose.apply([x, y, 0.0]), way) + faces
        };
        let places: Vec<((PanelId, usize), f64)> =
            places.map(|place| (place, far(&place))).collect();
        let most = places
            .iter()
            .map(|(_, far)| *far)
            .fold(f64::NEG_INFINITY, f64::max);
        let near = places.iter().filter(|(_, far)| *far > most - AS_FAR_MM);
        let mut least_certain: Option<Reach> = None;
        for &((panel, corner), _) in near {
            let faces = dot(folded.motions[panel].turn([0.0, 0.0, 0.5]), way).abs();
            let cut = cut_at(tray, folded, panel, corner, way);
            let reach = Reach::of(tray, folded, panel, way).ending(cut, faces);
            let known = least_certain
                .as_ref()
                .map_or(f64::NEG_INFINITY, Reach::weight);
            if reach.weight() > known + 1e-9 {
                least_certain = Some(reach);
            }
        }
        least_certain.unwrap_or_default()
    }
}

/// Sensitivity of a panel's corner, in a direction, to a cut that is farther out; 0 if the corner's edges are creased.
fn cut_at(tray: &Tray, folded: &FoldedTray, panel: PanelId, corner: usize, way: Vec3) -> f64 {
    let shape = &tray.panels[panel].shape;
    let count = shape.corners.len();
    let outwards = |edge: usize| {
        let (from, to) = (shape.corners[edge].at, shape.corners[(edge + 1) % count].at);
        let out = tray.frames[panel].turn((to - from).unit().right());
        dot(folded.motions[panel].turn([out.x, out.y, 0.0]), way)
    };
    [corner, (corner + count - 1) % count]
        .into_iter()
        .filter(|&edge| is_cut(tray, panel, shape.corners[edge].edge.as_deref()))
        .map(outwards)
        .fold(0.0, f64::max)
}

/// Whether an edge of a panel is cut: it is neither the panel's own crease nor that of a panel hinged to it.
pub(crate) fn is_cut(tray: &Tray, panel: PanelId, edge: Option<&str>) -> bool {
    let Some(edge) = edge else {
        return true;
    };
    let hung = tray.panels[panel].hanging.is_some();
    let carries = tray.panels.iter().any(|other| {
        other.hanging.as_ref().is_some_and(|hanging| {
            hanging.parent == panel && matches!(&hanging.on, HangsOn::Edge(there) if there == edge)
        })
    });
    !(carries || hung && edge == "near")
}
