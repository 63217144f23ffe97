//! A panel's outline and holes as corners and triangles.
//!
//! **Input:** a panel. **Output:** rings of corners, arcs as chords, and triangles that fill what lies between them.

use traywright_document::{Chords, Panel};

/// How far a chord may leave its arc.
// Source: a choice of this project: less than a pixel of a picture in which the whole blank is seen.
const CHORD_MM: f64 = 0.05;
/// Corners are written in steps of this.
// Source: a choice of this project: a hundredth of a pixel; places that something is computed from are written in full.
const STEP_MM: f64 = 1e-3;

/// A panel seen from above.
pub(crate) struct Triangulated {
    /// Its rings, the outline first: x and y of every corner in turn.
    pub(crate) rings: Vec<Vec<f64>>,
    /// Three numbers of corners a triangle; corners are counted through all rings.
    pub(crate) triangles: Vec<usize>,
}

impl Triangulated {
    /// A panel.
    pub(crate) fn of(panel: &Panel) -> Triangulated {
        let rings: Vec<Vec<f64>> = panel
            .contours()
            .map(|contour| {
                let corners = contour.corners(Chords::Within(CHORD_MM));
                let places = corners.iter().flat_map(|corner| [corner.x, corner.y]);
                places
                    .map(|place| (place / STEP_MM).round() * STEP_MM + 0.0)
                    .map(|place| (place * 1e6).round() / 1e6)
                    .collect()
            })
            .collect();
        let mut holes = Vec::new();
        let mut count = rings[0].len() / 2;
        for ring in &rings[1..] {
            holes.push(count);
            count += ring.len() / 2;
        }
        let places: Vec<[f64; 2]> = rings
            .iter()
            .flatten()
            .copied()
            .collect::<Vec<f64>>()
            .chunks_exact(2)
            .map(|place| [place[0], place[1]])
            .collect();
        let mut triangles: Vec<usize> = Vec::new();
        earcut::Earcut::new().earcut(places.iter().copied(), &holes, &mut triangles);
        Triangulated { rings, triangles }
    }
}
