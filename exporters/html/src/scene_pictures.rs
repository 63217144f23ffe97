//! The pictures on panels as the scripts draw them: few pixels, of which only those that show are not clear.
//!
//! **Input:** a document. **Output:** for each picture its place and its pixels as base64. **Errors:** a damaged picture.

use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use serde::Serialize;
use traywright_document::{Document, ExportError, PanelPicture, Point, Vector};
use traywright_look::{Pixels, pixels};

/// The longer side of a picture has at most so many pixels: as many as a panel has on a screen.
// Source: a choice of this project; the page is looked at and never printed from.
const MOST: usize = 360;

#[derive(Serialize)]
pub(crate) struct ScenePicture {
    panel: usize,
    /// Whether it lies on the drawn face.
    drawn: bool,
    /// Its lower left corner, and the ways along its foot and to its top, all of them.
    at: [f64; 2],
    across: [f64; 2],
    up: [f64; 2],
    /// Columns and rows.
    size: [usize; 2],
    /// Red, green, blue and opacity of every pixel, row by row from the top, as base64.
    rgba: String,
}

/// The pictures of a tray.
pub(crate) fn pictures(document: &Document) -> Result<Vec<ScenePicture>, ExportError> {
    document.flat.panel_pictures.iter().map(scene).collect()
}

fn scene(picture: &PanelPicture) -> Result<ScenePicture, ExportError> {
    let full = pixels(&picture.file)?;
    let (low, across, up) = picture.frame();
    let share = full
        .size
        .map(|side| side as f64)
        .into_iter()
        .fold(0.0, f64::max)
        / MOST as f64;
    let size = full
        .size
        .map(|side| (side as f64 / share.max(1.0)).ceil() as usize);
    let mut rgba = Vec::with_capacity(4 * size[0] * size[1]);
    for row in 0..size[1] {
        for column in 0..size[0] {
            let part = |at: usize, count: usize| (at as f64 + 0.5) / count as f64;
            let (x, y) = (part(column, size[0]), part(row, size[1]));
            let place = low + across * x + up * (1.0 - y);
            let shows = shows(&picture.shown, place);
            rgba.extend(if shows {
                mean(&full, [column, row], size)
            } else {
                [0; 4]
            });
        }
    }
    let way = |way: Vector| [way.x, way.y];
    Ok(ScenePicture {
        panel: picture.panel,
        drawn: picture.is_drawn(),
        at: [low.x, low.y],
        across: way(across),
        up: way(up),
        size,
        rgba: STANDARD.encode(rgba),
    })
}

/// The mean of the pixels of a file that become one.
fn mean(full: &Pixels, at: [usize; 2], size: [usize; 2]) -> [u8; 4] {
    let range = |axis: usize| {
        let end = |step: usize| step * full.size[axis] / size[axis];
        end(at[axis])..end(at[axis] + 1).max(end(at[axis]) + 1)
    };
    let (mut sum, mut count) = ([0_usize; 4], 0);
    for y in range(1) {
        for x in range(0) {
            let dot = 4 * (y * full.size[0] + x);
            for (part, value) in full.rgba[dot..dot + 4].iter().enumerate() {
                sum[part] += usize::from(*value);
            }
            count += 1;
        }
    }
    sum.map(|part| (part / count) as u8)
}

/// Whether a place lies in an odd number of rings.
fn shows(rings: &[Vec<Point>], at: Point) -> bool {
    let crossings = |ring: &Vec<Point>| {
        let edges = ring.iter().zip(ring.iter().cycle().skip(1));
        let right = edges.filter(|(from, to)| {
            let spans = (from.y <= at.y) != (to.y <= at.y);
            spans && from.x + (at.y - from.y) / (to.y - from.y) * (to.x - from.x) > at.x
        });
        right.count()
    };
    rings.iter().map(crossings).sum::<usize>() % 2 == 1
}
