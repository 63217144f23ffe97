//! The panels: flat card between its two faces, without the strips that belong to the bends.
//!
//! **Input:** a panel, and the bends at its edges. **Output:** its solid, posed in the folded tray.

use traywright_document::{Chords, Document};

use crate::bends::{Bend, CHORD_MM};
use crate::profile::{Place, Profile};
use crate::solid::{End, Solid, Surface, Surfaces, faces};

/// A panel without its strips, flat.
pub(crate) fn profiles(document: &Document, panel: usize, bends: &[Bend]) -> Vec<Profile> {
    let contours: Vec<Vec<Place>> = document.panels[panel]
        .contours()
        .map(|contour| {
            let corners = contour.corners(Chords::Within(CHORD_MM)).into_iter();
            corners.map(|corner| [corner.x, corner.y]).collect()
        })
        .collect();
    let touches = |bend: &&Bend| bend.panel == panel || bend.hinge.parent == panel;
    let strips: Vec<Vec<Place>> = bends
        .iter()
        .filter(touches)
        .flat_map(Bend::strips)
        .collect();
    Profile::rest(contours, strips)
}

/// A panel as it stands in the folded tray.
pub(crate) fn solid(document: &Document, panel: usize, profiles: &[Profile]) -> Solid {
    let half = document.board.caliper / 2.0;
    let pose = &document.panels[panel].pose;
    let [near, far] = faces(document);
    let mut solid = Solid::default();
    for profile in profiles {
        let place = |[x, y]: Place, end: End| {
            let z = if end == End::Near { -half } else { half };
            pose.apply([x, y, z])
        };
        let side = |_| Surface::Edge;
        solid.extrude(profile, place, Surfaces { near, far, side });
    }
    solid
}
