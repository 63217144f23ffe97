//! As far as print reaches around the blank, as a line for whoever lays artwork under it.
//!
//! Given the outline of the blank in straight pieces; gives closed lines at the distance of the bleed. It knows no page.

use std::f64::consts::FRAC_PI_3;

use i_overlay::mesh::float::outline::offset::OutlineOffset;
use i_overlay::mesh::float::style::{LineJoin, OutlineStyle};
use traywright_look::Layer;
use traywright_paper::{Mark, PointMm, StrokePath};

use crate::pieces::Piece;

/// Corners that are sharper than this are cut off, so that none reaches far beyond the bleed.
// Source: a choice of this project; a corner of 60 degrees reaches twice as far as the bleed.
const SHARPEST: f64 = FRAC_PI_3;

/// The lines at that distance around an outline.
pub(crate) fn lines(outline: &[Piece], bleed: f64) -> impl Iterator<Item = (Option<Layer>, Mark)> {
    let corners: Vec<PointMm> = outline.iter().map(|piece| piece.from).collect();
    let style = OutlineStyle::new(bleed).line_join(LineJoin::Miter(SHARPEST));
    let around = corners.outline_as::<i64>(&style);
    around.into_iter().flatten().map(|ring| {
        let stroke = Mark::Stroke {
            look: Layer::Bleed.look(),
            phase: 0.0,
            run: StrokePath::ring(&ring),
        };
        (Some(Layer::Bleed), stroke)
    })
}
