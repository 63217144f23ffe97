//! The blank as seen from the face that carries its lines.
//!
//! Seen from the outside of the card, x and z change their sign, so every fold changes its direction and nothing its
//! size.

use traywright_document::{Contour, CreaseLine, DrawnFace, Edge, Extent, Flat};

use crate::blank::Blank;
use crate::geometry::{Corner, Outline, Point};

/// The face from which lines are seen.
#[derive(Clone, Copy, Debug)]
pub(crate) struct DrawnView(pub(crate) DrawnFace);

impl DrawnView {
    /// -1 when the card is seen from its outside, 1 otherwise.
    pub(crate) fn sign(self) -> f64 {
        if self.0 == DrawnFace::Outside {
            -1.0
        } else {
            1.0
        }
    }

    /// A point as seen from the drawn face.
    pub(crate) fn point(self, point: Point) -> Point {
        Point::new(self.sign() * point.x, point.y)
    }

    /// An outline seen from the drawn face, in its original direction.
    pub(crate) fn contour(self, outline: &Outline) -> Contour {
        match self.0 {
            DrawnFace::Inside => contour(outline.edges(), true),
            DrawnFace::Outside => contour(self.mirrored(&outline.reversed()).edges(), true),
        }
    }

    /// An outline whose corners are seen from the drawn face.
    pub(crate) fn mirrored(self, outline: &Outline) -> Outline {
        let mirrored = outline.corners().iter().map(|corner| Corner {
            at: self.point(corner.at),
            bulge: self.sign() * corner.bulge,
        });
        Outline::new(mirrored.collect())
    }

    /// An open run of corners seen from the drawn face.
    pub(crate) fn run(self, corners: &[Corner]) -> Contour {
        let ends = corners.iter().zip(corners.iter().skip(1));
        let edges = ends.map(|(corner, next)| Edge {
            from: self.point(corner.at),
            to: self.point(next.at),
            bulge: self.sign() * corner.bulge,
        });
        contour(edges, false)
    }

    /// The blank without measures.
    pub(crate) fn lines(self, blank: &Blank) -> Flat {
        let crease = |crease: &crate::blank::Crease| CreaseLine {
            from: self.point(crease.from),
            to: self.point(crease.to),
            fold_deg: self.sign() * crease.fold_deg,
            panel: crease.panel.index(),
        };
        Flat {
            extent: self.extent(blank.outline.points()),
            outline: self.contour(&blank.outline),
            holes: blank.holes.iter().map(|hole| self.contour(hole)).collect(),
            open_cuts: blank.open_cuts.iter().map(|cut| self.run(cut)).collect(),
            creases: blank.creases.iter().map(crease).collect(),
            labels: Vec::new(),
            letters: Vec::new(),
            panel_pictures: Vec::new(),
            panel_labels: Vec::new(),
            dimensions: Vec::new(),
        }
    }

    /// The upright rectangle around points, seen from the drawn face.
    pub(crate) fn extent(self, points: impl IntoIterator<Item = Point>) -> Extent {
        Extent::around(points.into_iter().map(|point| self.point(point)))
    }
}

/// Edges as a contour.
fn contour(edges: impl IntoIterator<Item = Edge>, closed: bool) -> Contour {
    Contour::of_edges(edges, closed).expect("a panel, a hole and a cut have edges")
}
