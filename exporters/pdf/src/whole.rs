//! One page as large as the blank, for print shops and plotters.
//!
//! Given a document; gives it with a page of the blank's own size and the bleed around it, where the job asks for that,
//! and as it is otherwise. Never smaller than the check bars need.

use std::borrow::Cow;

use traywright_document::{Document, Page, Unit};

use crate::words::{BAR, number};

/// What a bar needs beside its own length: half a number at each end, and white.
// Derived: twice the 2.6 mm that a bar reaches beyond its ends, and 1 mm off whatever is near.
const BESIDE_BAR: f64 = 8.0;

/// The document as it is printed.
pub(crate) fn as_printed(document: &Document) -> Cow<'_, Document> {
    let Some(bleed) = document.wishes.whole_page else {
        return Cow::Borrowed(document);
    };
    let extent = document.flat.extent;
    let blank = [
        extent.most.x - extent.least.x,
        extent.most.y - extent.least.y,
    ];
    let enlarged = [document.page.bar_across, document.page.bar_down].map(|read| BAR / read);
    let lies = blank[0] > blank[1];
    let size = [0, 1].map(|axis| {
        let along = if lies { 1 - axis } else { axis };
        blank[axis].max(BAR + BESIDE_BAR) * enlarged[along] + 2.0 * bleed
    });
    let [width, height] = size.map(|side| number(side, Unit::Millimetre));
    let mut printed = document.clone();
    printed.page = Page {
        name: format!("{width} x {height} mm"),
        width: size[0],
        height: size[1],
        margin: bleed,
        ..printed.page
    };
    Cow::Owned(printed)
}
