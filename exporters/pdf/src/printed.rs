//! The pictures on panels, on every sheet that shows a part of them.
//!
//! Given pictures that have their places already; gives the marks on one sheet. It moves nothing.

use std::rc::Rc;

use traywright_document::{Flat, PanelPicture, Point};
use traywright_paper::{LaidPicture, Mark, Page, PointMm};

use crate::window::Window;

/// Draws the part of the pictures on the drawn face that lies on one sheet.
pub(crate) fn draw(flat: &Flat, page: &mut Page, sheet: &Window) {
    let drawn = flat.panel_pictures.iter().filter(|it| it.is_drawn());
    for picture in drawn {
        let window = Window::around(picture.shown.iter().flatten().map(|at| place(*at)));
        if window.common(sheet).is_some() {
            let is_whole = sheet.covers(&window);
            let part = (!is_whole).then_some([sheet.least, sheet.most]);
            page.marks.push((None, Mark::Picture(laid(picture, part))));
        }
    }
}

fn laid(picture: &PanelPicture, window: Option<[PointMm; 2]>) -> LaidPicture {
    let (low, across, up) = picture.frame();
    let ring = |ring: &Vec<Point>| ring.iter().map(|at| place(*at)).collect();
    LaidPicture {
        file: Rc::new(picture.file.clone()),
        at: place(low),
        across: [across.x, across.y],
        up: [up.x, up.y],
        shown: picture.shown.iter().map(ring).collect(),
        window,
    }
}

fn place(point: Point) -> PointMm {
    [point.x, point.y]
}
