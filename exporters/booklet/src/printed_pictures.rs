//! The pictures of the job on the panels of a figure.
//!
//! Given a scene as it is seen, or the blank; gives of each picture the part that is seen, slanted as its panel is.

use std::rc::Rc;

use i_overlay::core::fill_rule::FillRule;
use i_overlay::core::overlay_rule::OverlayRule;
use i_overlay::float::single::SingleFloatOverlay;
use traywright_document::space::Vec3;
use traywright_document::{Flat, Point};

use crate::picture::PrintedPicture;
use crate::scene_prints::ScenePicture;
use crate::visible::{Region, Seen, Sight};

impl ScenePicture {
    /// The part of the picture that is seen; none where nothing of it is.
    pub(crate) fn seen(&self, sight: &Sight) -> Option<PrintedPicture> {
        if sight.sees_first_face(self.surface) != self.on_first_face {
            return None;
        }
        let view = sight.view();
        let ring = |ring: &Vec<Vec3>| ring.iter().map(|at| view.on_plane(*at)).collect();
        let shown: Vec<Vec<Seen>> = self.shown.iter().map(ring).collect();
        let regions: Vec<Vec<Seen>> = sight.region(self.surface).into_iter().flatten().collect();
        let both: Vec<Region> = shown.overlay(&regions, OverlayRule::Intersect, FillRule::EvenOdd);
        let shown: Region = both.into_iter().flatten().collect();
        (!shown.is_empty()).then(|| PrintedPicture {
            file: Rc::clone(&self.file),
            at: view.on_plane(self.at),
            across: view.on_plane(self.across),
            up: view.on_plane(self.up),
            shown,
        })
    }
}

/// The pictures on the drawn face of a blank that lies flat.
pub(crate) fn on_blank(flat: &Flat) -> impl Iterator<Item = PrintedPicture> + '_ {
    let drawn = flat.panel_pictures.iter().filter(|it| it.is_drawn());
    drawn.map(|picture| {
        let place = |at: &Point| [at.x, at.y];
        let (low, across, up) = picture.frame();
        let ring = |ring: &Vec<Point>| ring.iter().map(place).collect();
        PrintedPicture {
            file: Rc::new(picture.file.clone()),
            at: place(&low),
            across: [across.x, across.y],
            up: [up.x, up.y],
            shown: picture.shown.iter().map(ring).collect(),
        }
    })
}
