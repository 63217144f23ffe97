//! The bends: what stands in place of the strip of card at each crease.
//!
//! ```text
//!      | child |
//!      |       |
//!      |_______|
//!      |    _./   bend: a sector about the inside corner of the fold
//!  ____|__./
//!      |
//!  parent
//! ```
//!
//! Rigid panels overlap inside a fold, and gape outside it. So both are cut back by the strip, as far as their inside
//! faces overlap, and a sector of a cylinder joins their ends: its axis is the line in which the inside faces now meet,
//! and its radius is the caliper. Inside faces, outside faces and ends of the card are flush with it.
// Derived: with the hinge h above the middle of the card of thickness t, inside faces lie a = t/2 - h inside the axis of
// the fold. Folded by an angle they meet a tan(angle / 2) off the crease, which is the width of the strip on either side.

use traywright_document::steady::Steady;
use traywright_document::{Chords, CreaseLine, Document, Edge, Hinge, Point, Vector};

use crate::profile::{Place, Profile};
use crate::solid::{End, Solid, Surface, Surfaces, faces};

/// Maximum distance between a chord and its arc, in outlines and in bends.
// Source: a choice of this project: a twentieth of the thinnest usual card.
pub(crate) const CHORD_MM: f64 = 0.005;

/// A crease that is folded farther has no bend if its inside faces overlap: its strip would grow without limit.
// Source: a choice of this project: there the strip is 3.7 times the overlap.
const FARTHEST_DEG: f64 = 150.0;

/// Lengths below this are 0.
const NOTHING_MM: f64 = 1e-9;

/// The bend between a panel and its parent.
#[derive(Clone, Debug)]
pub(crate) struct Bend {
    /// The panel that is hinged.
    pub(crate) panel: usize,
    pub(crate) hinge: Hinge,
    /// The parts of the crease, without the cut-outs that interrupt it, along the hinge's line.
    pub(crate) pieces: Vec<[Point; 2]>,
    /// Width of the strip on either side of the crease, mm.
    pub(crate) strip: f64,
    /// Whether a sector stands in place of the strip.
    pub(crate) is_round: bool,
}

impl Bend {
    /// The bends of a tray, by panel.
    pub(crate) fn all(document: &Document) -> Vec<Bend> {
        let hinged = document.panels.iter().enumerate();
        let hinged = hinged.filter_map(|(index, panel)| panel.hinge.map(|hinge| (index, hinge)));
        hinged
            .map(|(panel, hinge)| {
                let caliper = document.board.caliper;
                let angle = hinge.fold_deg.abs();
                let overlap = (caliper / 2.0 - hinge.height).max(0.0);
                let is_flush = overlap > NOTHING_MM;
                let is_round = angle > 0.0 && !(is_flush && angle > FARTHEST_DEG);
                let strip = match is_flush && is_round {
                    true => overlap * (angle.to_radians() / 2.0).steady_tan(),
                    false => 0.0,
                };
                Bend {
                    panel,
                    hinge,
                    pieces: pieces(&document.flat.creases, panel, &hinge),
                    strip,
                    is_round,
                }
            })
            .collect()
    }

    /// The strips at the crease: rectangles on both of its sides, counter-clockwise.
    pub(crate) fn strips(&self) -> impl Iterator<Item = Vec<Place>> {
        let out = self.hinge.into_panel() * self.strip;
        let is_there = self.strip > NOTHING_MM;
        let pieces = self.pieces.iter().filter(move |_| is_there);
        pieces.map(move |&[from, to]| {
            [from + -out, from + out, to + out, to + -out]
                .map(|corner| [corner.x, corner.y])
                .to_vec()
        })
    }

    /// Length of the crease.
    pub(crate) fn length(&self) -> f64 {
        let lengths = self.pieces.iter().map(|[from, to]| (*to - *from).length());
        lengths.sum()
    }

    /// The bend as a solid in the folded tray; none if the crease has none.
    pub(crate) fn solid(&self, document: &Document) -> Option<Solid> {
        if !self.is_round || self.pieces.is_empty() {
            return None;
        }
        let caliper = document.board.caliper;
        // 1 where the drawn face is inside the fold, -1 where it is outside.
        let inwards = self.hinge.fold_deg.signum();
        let profile = Profile::fan(sector(caliper, self.hinge.fold_deg));
        let inner = Vector::new(-self.strip, inwards * caliper / 2.0);
        let [back, drawn] = faces(document);
        let outside = if inwards > 0.0 { back } else { drawn };
        let pose = &document.panels[self.hinge.parent].pose;
        let out = self.hinge.into_panel();
        let mut solid = Solid::default();
        for &[from, to] in &self.pieces {
            let place = |[across, up]: Place, end: End| {
                // Derived: out, z and the way from `to` to `from` are a right-handed frame, as `out` is right of the line.
                let foot = if end == End::Near { to } else { from };
                let flat = foot + out * (inner.x + across);
                pose.apply([flat.x, flat.y, inner.y + up])
            };
            let side = |[one, other]: [usize; 2]| match one == 0 || other == 0 {
                true => Surface::Edge,
                false => outside,
            };
            let (near, far) = (Surface::Edge, Surface::Edge);
            solid.extrude(&profile, place, Surfaces { near, far, side });
        }
        Some(solid)
    }
}

/// The parts of a panel's crease, from the first end of its line to the second.
fn pieces(creases: &[CreaseLine], panel: usize, hinge: &Hinge) -> Vec<[Point; 2]> {
    let [start, end] = hinge.line;
    let way = (end - start).unit();
    let along = |point: Point| (point - start).dot(way);
    let own = creases.iter().filter(|crease| crease.panel == panel);
    own.map(|crease| match along(crease.from) < along(crease.to) {
        true => [crease.from, crease.to],
        false => [crease.to, crease.from],
    })
    .collect()
}

/// A sector about 0, 0 in the plane of `out` and z, counter-clockwise: from the parent's end face, which points to the
/// outside of the fold, to the child's.
fn sector(radius: f64, fold_deg: f64) -> Vec<Place> {
    let (sin, cos) = fold_deg.abs().to_radians().steady_sin_cos();
    let arc = Edge {
        from: Point::new(0.0, -radius),
        to: Point::new(radius * sin, -radius * cos),
        // Source: DXF reference, LWPOLYLINE, group 42: the tangent of a quarter of the angle.
        bulge: (fold_deg.abs().to_radians() / 4.0).steady_tan(),
    };
    let mut places = vec![[0.0, 0.0], [arc.from.x, arc.from.y]];
    places.extend(
        arc.between(Chords::Within(CHORD_MM))
            .iter()
            .map(|point| [point.x, point.y]),
    );
    places.push([arc.to.x, arc.to.y]);
    if fold_deg < 0.0 {
        // A mountain is the mirror image in z, and a mirror image turns the other way.
        let mirrored = places[1..].iter().rev().map(|[across, up]| [*across, -up]);
        places = std::iter::once([0.0, 0.0]).chain(mirrored).collect();
    }
    places
}
