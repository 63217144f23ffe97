//! Closed solids: corners in space and triangles by surface.
//!
//! **Input:** profiles and where their corners lie at both ends. **Output:** one mesh whose triangles run
//! counter-clockwise seen from outside. Lengths in mm, in the frame of the folded tray.

use std::collections::BTreeMap;

use traywright_document::space::{Vec3, cross, dot, minus};
use traywright_document::{Document, DrawnFace};

use crate::profile::{Place, Profile};

/// The surfaces of the solids, each with a material.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Surface {
    /// The face of the card that is inside the folded tray.
    Inner,
    /// The face of the card that is outside.
    Outer,
    /// The cut edges of the card.
    Edge,
    /// Items.
    Item,
    /// Pads.
    Pad,
    /// The box.
    Box,
}

/// The surfaces of the card: of the face that is not drawn, and of the drawn one.
pub(crate) fn faces(document: &Document) -> [Surface; 2] {
    match document.output.drawn_face {
        DrawnFace::Inside => [Surface::Outer, Surface::Inner],
        DrawnFace::Outside => [Surface::Inner, Surface::Outer],
    }
}

/// The two ends of an extruded profile.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum End {
    /// Where its triangles are seen turned over.
    Near,
    /// Where the extrusion leads.
    Far,
}

/// The surfaces of an extruded profile.
pub(crate) struct Surfaces<S> {
    pub(crate) near: Surface,
    pub(crate) far: Surface,
    /// That of the side over an edge of the outline, by the corners of the edge.
    pub(crate) side: S,
}

/// One mesh.
#[derive(Clone, Debug, Default)]
pub(crate) struct Solid {
    pub(crate) corners: Vec<Vec3>,
    pub(crate) triangles: BTreeMap<Surface, Vec<[usize; 3]>>,
}

impl Solid {
    /// Adds an extruded profile. `place` must keep its sense: from near to far is the third axis of a right-handed frame
    /// whose first two are those of the profile.
    pub(crate) fn extrude<S: Fn([usize; 2]) -> Surface>(
        &mut self,
        profile: &Profile,
        place: impl Fn(Place, End) -> Vec3,
        surfaces: Surfaces<S>,
    ) {
        let first = self.corners.len();
        for &corner in &profile.places {
            self.corners
                .extend([End::Near, End::Far].map(|end| place(corner, end)));
        }
        let (near, far) = (
            |corner: usize| first + 2 * corner,
            |corner: usize| first + 2 * corner + 1,
        );
        for &[a, b, c] in &profile.triangles {
            self.add(surfaces.near, [near(a), near(c), near(b)]);
            self.add(surfaces.far, [far(a), far(b), far(c)]);
        }
        for [from, to] in profile.outline() {
            let surface = (surfaces.side)([from, to]);
            self.add(surface, [near(from), near(to), far(to)]);
            self.add(surface, [near(from), far(to), far(from)]);
        }
    }

    fn add(&mut self, surface: Surface, triangle: [usize; 3]) {
        self.triangles.entry(surface).or_default().push(triangle);
    }

    /// Its volume in mm³.
    // Source: divergence theorem: a sixth of the sum of the triple products of the triangles' corners.
    pub(crate) fn volume(&self) -> f64 {
        let Some(&origin) = self.corners.first() else {
            return 0.0;
        };
        let all = self.triangles.values().flatten();
        let products = all.map(|three| {
            let [a, b, c] = three.map(|corner| minus(self.corners[corner], origin));
            dot(a, cross(b, c))
        });
        products.sum::<f64>() / 6.0
    }
}
