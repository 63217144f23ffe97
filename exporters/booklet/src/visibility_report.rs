//! What the figures show, for those who check it from outside.
//!
//! Given the document; gives for the figure of every step the surfaces and edges as the eye sees them, and which
//! stretches of the edges are drawn. Nothing is judged here.

use traywright_document::Document;

use crate::for_readers;
use crate::scene::{EdgeKind, Scene};
use crate::step_figures::Staging;
use crate::view::View;
use crate::visible::Sight;

/// One figure: places are across the paper, up it, and towards the eye, in mm of the card.
#[derive(Clone, Debug, PartialEq)]
pub struct Sighting {
    /// The rings of every opaque surface, its outline first.
    pub surfaces: Vec<Vec<Vec<[f64; 3]>>>,
    /// The ends of every edge.
    pub edges: Vec<[[f64; 3]; 2]>,
    /// The stretches of every edge that are drawn.
    pub seen: Vec<Vec<[[f64; 2]; 2]>>,
}

/// The figures of all steps, and of the tray in its box.
pub fn sightings(document: &Document) -> Vec<Sighting> {
    let (document, _) = &for_readers(document);
    let staging = Staging::of(document);
    let scenes = staging.scenes().into_iter();
    scenes.map(|(scene, view)| sighting(&scene, view)).collect()
}

fn sighting(scene: &Scene, view: View) -> Sighting {
    let sight = Sight::of(scene, view);
    let rings = |rings: &Vec<Vec<[f64; 3]>>| -> Vec<Vec<[f64; 3]>> {
        let ring = |ring: &Vec<[f64; 3]>| ring.iter().map(|&place| view.seen(place)).collect();
        rings.iter().map(ring).collect()
    };
    // A seam between two sides that are both seen, or both not, is no line of the figure.
    let edges = scene.edges.iter().filter(|edge| match edge.kind {
        EdgeKind::Seam(ways) => {
            let [one, other] = ways.map(|way| view.seen(way)[2] > 0.0);
            one != other
        }
        _ => true,
    });
    Sighting {
        surfaces: scene
            .surfaces
            .iter()
            .map(|surface| rings(&surface.rings))
            .collect(),
        edges: edges
            .clone()
            .map(|edge| edge.ends.map(|end| view.seen(end)))
            .collect(),
        seen: edges.map(|edge| sight.stretches(edge)).collect(),
    }
}
