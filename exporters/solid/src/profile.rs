//! Flat figures in triangles, to be extruded.
//!
//! **Input:** contours as corners, and figures to remove from them. **Output:** corners and counter-clockwise triangles.
//! Every edge inside a figure belongs to two triangles and every edge of its outline to one, so that an extruded figure
//! is closed.

use std::collections::BTreeSet;

use i_overlay::core::fill_rule::FillRule;
use i_overlay::core::overlay_rule::OverlayRule;
use i_overlay::float::single::SingleFloatOverlay;
use i_triangle::float::triangulatable::Triangulatable;

/// A point of a figure.
pub(crate) type Place = [f64; 2];

/// Smaller pieces are left out.
// Derived: a thousand times the area of a square whose side is the step of the library's grid (0.4 um at 1 m), and a
// piece that nobody can cut.
const LEAST_AREA_MM2: f64 = 1e-6;

/// A figure in triangles.
#[derive(Clone, Debug, Default)]
pub(crate) struct Profile {
    /// Its corners.
    pub(crate) places: Vec<Place>,
    /// Its triangles, counter-clockwise, by their corners.
    pub(crate) triangles: Vec<[usize; 3]>,
}

impl Profile {
    /// What is left of closed contours (the outline counter-clockwise, holes clockwise) without some figures. Each
    /// connected piece is a profile of its own.
    pub(crate) fn rest(contours: Vec<Vec<Place>>, removed: Vec<Vec<Place>>) -> Vec<Profile> {
        let shapes = contours.overlay(&removed, OverlayRule::Difference, FillRule::NonZero);
        let pieces = shapes.iter().map(|shape| {
            let triangles = shape.as_slice().triangulate().to_triangulation::<u32>();
            Profile {
                places: triangles.points,
                triangles: triangles
                    .indices
                    .chunks_exact(3)
                    .map(|three| [0, 1, 2].map(|corner| three[corner] as usize))
                    .collect(),
            }
        });
        pieces
            .filter(|piece| piece.area() > LEAST_AREA_MM2)
            .collect()
    }

    /// A figure that is seen whole from its first corner, counter-clockwise.
    pub(crate) fn fan(places: Vec<Place>) -> Profile {
        let last = places.len().saturating_sub(1);
        Profile {
            triangles: (1..last).map(|corner| [0, corner, corner + 1]).collect(),
            places,
        }
    }

    /// Its area.
    pub(crate) fn area(&self) -> f64 {
        let doubled = self.triangles.iter().map(|three| {
            let [a, b, c] = three.map(|corner| self.places[corner]);
            (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])
        });
        doubled.sum::<f64>() / 2.0
    }

    /// The edges of its outline and its holes, the figure on the left.
    pub(crate) fn outline(&self) -> Vec<[usize; 2]> {
        let edges = || {
            let corners = self.triangles.iter();
            corners.flat_map(|&[a, b, c]| [[a, b], [b, c], [c, a]])
        };
        let all: BTreeSet<[usize; 2]> = edges().collect();
        edges()
            .filter(|&[from, to]| !all.contains(&[to, from]))
            .collect()
    }
}
