//! Cuts inside a panel that remove no card.
//!
//! **Input:** the open cuts of the blank and the panels' edges. **Output:** for each panel the cuts inside it. A cut
//! between two panels is left out, because it is already an edge of both.

use std::collections::BTreeSet;

use traywright_document::{Contour, Point};

use crate::chords;
use crate::edges::{closed, either_way, pieces};
use crate::faces::PanelLines;
use crate::places::{Places, VertexIndex};

/// Numbers the points of open cuts, and adds every piece that is not an edge of a panel to the panel it cuts.
pub(crate) fn lay(open_cuts: &[Contour], panels: &mut [PanelLines], places: &mut Places) {
    let runs: Vec<Vec<VertexIndex>> = open_cuts
        .iter()
        .map(|cut| {
            chords::corners(cut)
                .into_iter()
                .map(|at| places.number(at))
                .collect()
        })
        .collect();
    let mut edges: BTreeSet<[VertexIndex; 2]> = BTreeSet::new();
    for ring in panels.iter().flat_map(|panel| &panel.rings) {
        edges.extend(pieces(&closed(&places.ring(ring))).map(either_way));
    }
    for run in &runs {
        let mut slits: Vec<Vec<[VertexIndex; 2]>> = vec![Vec::new(); panels.len()];
        for [from, to] in pieces(run) {
            let way = places.way(from, to);
            for piece in pieces(&way).filter(|&piece| !edges.contains(&either_way(piece))) {
                let [one, other] = piece.map(|place| places.point(place));
                let middle = Point {
                    x: (one.x + other.x) / 2.0,
                    y: (one.y + other.y) / 2.0,
                };
                if let Some(panel) = panels.iter().position(|panel| panel.covers(middle, places)) {
                    slits[panel].push(piece);
                }
            }
        }
        for (panel, slit) in panels
            .iter_mut()
            .zip(slits)
            .filter(|(_, slit)| !slit.is_empty())
        {
            panel.slits.push(slit);
        }
    }
}
