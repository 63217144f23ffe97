//! One page as large as the blank and its bleed, for print shops and plotters.
//!
//! Given a document; gives a page whose trim is the blank and whose bleed reaches as far around it as the job says.
//! Measures stand beside the blank, and words and check bars beside both, in a layer of their own: the page grows until
//! all have room, so nothing but its own lines, measures and names stands on the piece. If some find none, a warning
//! says so.

use std::collections::BTreeSet;

use traywright_document::{Document, ExportError, Length, PageError, Unit};
use traywright_paper::{Font, Page};

use crate::annotations::Asked;
use crate::input::{PdfInput, no_lines};
use crate::search::{Paper as Sheet, Spread};
use crate::window::Window;
use crate::words::number;

/// What a bar needs beside its own length: half a number at each end, and white.
// Derived: twice the 2.6 mm that a bar reaches beyond its ends, 2.5 mm of white around it, and a square of the room.
const BESIDE_BAR: f64 = 12.0;
/// What a bar takes across its length, with its words and white.
const BAR_STRIP: f64 = 16.0;
/// The strip for words grows by so much, or by this share of the page, so that a large page is found as fast as a small one.
const STEP: f64 = 6.0;
const STEP_SHARE: f64 = 0.02;
/// So wide a strip holds all words, however narrow the page is.
// Derived: the bar that stands is 105 mm, and the words of a page 110 mm wide take less than twice that.
const WIDEST_STRIP: f64 = 360.0;
/// The longest side that every reader of PDF shows at true size.
// Source: ISO 32000-1, annex C.2: 14,400 units, which are 5080 mm.
pub(crate) const LONGEST_SIDE: f64 = 5080.0;

/// The page, and what the maker is told of it.
///
/// # Refuses
/// A language without words.
pub(crate) fn page(
    document: &Document,
    font: &Font,
    bleed: Length,
) -> Result<(Page, Vec<String>), ExportError> {
    let tray = PdfInput::new(document, font)?;
    let [_, drawn] = tray.extents();
    let step = STEP.max(STEP_SHARE * drawn.size()[0].max(drawn.size()[1]));
    let whole = smallest(&tray, bleed, (&drawn, step), Asked::All)?;
    let lacks = whole.is_none();
    let page = match whole {
        Some(page) => page,
        None => smallest(&tray, bleed, (&drawn, step), Asked::WhatHasRoom)?.ok_or_else(no_lines)?,
    };
    // The page of a sheet of stock is the stock, which its maker knows.
    let is_stock = !document.nested.is_empty();
    let mut warnings = Vec::from_iter((!is_stock).then(|| told(&page, bleed)));
    warnings.extend(lacks.then(|| {
        "words or a bar found no room beside the blank: some are left out or stand on the piece, in the layer of the legend"
            .to_owned()
    }));
    Ok((page, warnings))
}

/// The smallest page on which all that is asked for has room; none where that is all and no page has room for it.
fn smallest(
    tray: &PdfInput,
    bleed: Length,
    (drawn, step): (&Window, f64),
    asked: Asked,
) -> Result<Option<Page>, ExportError> {
    let mut best: Option<(f64, Page)> = None;
    for aside in [0.0, BAR_STRIP] {
        let mut strip = 0.0;
        while strip <= WIDEST_STRIP {
            let window = with_strips(drawn, tray.document.unit.check_bar(), [aside, strip]);
            let sides = sides(tray, bleed, &window);
            let area = sides[0] * sides[1];
            // A wider strip makes no smaller page.
            if best.as_ref().is_some_and(|(least, _)| area >= *least) {
                break;
            }
            if let Some(page) = laid_out(tray, bleed, (&window, sides), asked)? {
                best = Some((area, page));
                break;
            }
            strip += step;
        }
    }
    Ok(best.map(|(_, page)| page))
}

/// What the maker is told of it.
fn told(page: &Page, bleed: Length) -> String {
    let [width, height, bleed] =
        [page.size[0], page.size[1], bleed.mm()].map(|side| number(side, Unit::Millimetre));
    format!(
        "one page of {width} x {height} mm: the trim is the blank, the bleed reaches {bleed} mm around it, and words and bars stand beside both"
    )
}

/// What a page shows that has a strip at its right and one below, and is never too small for a bar.
fn with_strips(drawn: &Window, bar: f64, [aside, below]: [f64; 2]) -> Window {
    let short = drawn.size().map(|side| (bar + BESIDE_BAR - side).max(0.0));
    Window {
        least: [drawn.least[0], drawn.least[1] - below.max(short[1])],
        most: [drawn.most[0] + aside.max(short[0]), drawn.most[1]],
    }
}

/// A side of a page; a blank without end has none.
fn side(mm: f64) -> Result<Length, ExportError> {
    let too_long = |_| PageError::TooLong {
        side: mm,
        longest: LONGEST_SIDE,
    };
    Ok(Length::new(mm).map_err(too_long)?)
}

/// Width and height of the page that shows so much.
fn sides(tray: &PdfInput, bleed: Length, window: &Window) -> [f64; 2] {
    let turned = is_turned(window);
    let enlarged = tray.enlarged(turned);
    let mut sides = [0, 1].map(|axis| window.size()[axis] * enlarged[axis] + 2.0 * bleed.mm());
    // A correction must not turn a page that is nearly square.
    let long = usize::from(!turned);
    sides[long] = sides[long].max(sides[1 - long]);
    sides
}

fn is_turned(window: &Window) -> bool {
    window.size()[0] > window.size()[1]
}

/// The page of that size that shows so much; none if something that is asked for has no room on it.
fn laid_out(
    tray: &PdfInput,
    bleed: Length,
    (window, sides): (&Window, [f64; 2]),
    asked: Asked,
) -> Result<Option<Page>, ExportError> {
    let turned = is_turned(window);
    let enlarged = tray.enlarged(turned);
    let mut printed = tray.document.clone();
    let [width, height] = sides.map(|side| number(side, Unit::Millimetre));
    let page = printed.output.paper.page_mut();
    page.name = format!("{width} x {height} mm");
    [page.width, page.height] = [side(sides[0])?, side(sides[1])?];
    page.margin = bleed;
    let tray = tray.on_page_of(&printed);
    let sheet = Sheet {
        size: [0, 1].map(|axis| (sides[axis] - 2.0 * bleed.mm()) / enlarged[axis]),
        overlap: 0.0,
        turned,
    };
    let only = BTreeSet::from([[0, 0]]);
    let spread = Spread::new(sheet.grid(window.least), only, turned);
    let sheets = tray.sheets(&spread, f64::INFINITY, asked);
    Ok(sheets.and_then(|sheets| sheets.pages().into_iter().next()))
}
