//! The labels of the job on the panels of a figure.
//!
//! Given a scene as it is seen, or the blank; gives the words of each label that is seen whole, slanted as its panel is.
//! **Does not** show a part of a label.

use traywright_document::{Flat, PanelLabel};
use traywright_look::{Colour, INK};

use crate::picture::PrintedWords;
use crate::scene_prints::SceneLabel;
use crate::visible::{Region, Seen, Sight, contains};

impl SceneLabel {
    /// The words as they are seen; none where something hides a part of them.
    pub(crate) fn seen(&self, sight: &Sight) -> Option<PrintedWords> {
        if sight.sees_first_face(self.surface) != self.on_first_face {
            return None;
        }
        let view = sight.view();
        let corners = self.corners.map(|corner| view.on_plane(corner));
        let regions = sight.region(self.surface);
        let is_whole = |region: &&Region| {
            let holds = |place: Seen| contains(region.iter().map(Vec::as_slice), place);
            let is_clear = region.iter().flatten().all(|at| !lies_in(&corners, *at));
            corners.into_iter().all(holds) && is_clear
        };
        regions.iter().find(is_whole)?;
        Some(PrintedWords {
            text: self.text.clone(),
            at: view.on_plane(self.at),
            along: view.on_plane(self.along),
            up: view.on_plane(self.up),
            capital: self.height,
            colour: INK,
        })
    }
}

/// The labels on the drawn face of a blank that lies flat.
pub(crate) fn on_blank(flat: &Flat, colour: Colour) -> impl Iterator<Item = PrintedWords> + '_ {
    let drawn = flat.panel_labels.iter().filter(|label| label.is_drawn());
    drawn.map(move |label: &PanelLabel| {
        let (foot, along, up) = (label.foot(), label.along(), label.up);
        PrintedWords {
            text: label.text.clone(),
            at: [foot.x, foot.y],
            along: [along.x, along.y],
            up: [up.x, up.y],
            capital: label.height,
            colour,
        }
    })
}

/// Whether a place lies inside a quadrilateral.
fn lies_in(corners: &[Seen; 4], place: Seen) -> bool {
    contains([corners.as_slice()], place)
}
