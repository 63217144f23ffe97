//! One page as large as the blank and its bleed, for print shops and plotters.
//!
//! Given a document; gives a page whose trim is the blank and whose bleed reaches as far around it as the job says. Measures
//! stand beside the blank, and words and check bars beside both, in a layer of their own: the page grows until all have
//! room, so nothing but its own lines, measures and names stands on the piece. A page that finds none says so.

use std::collections::BTreeSet;

use traywright_document::{Document, ExportError, Length, PageError, Unit};
use traywright_paper::{Font, Page};

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
    let mut best: Option<(bool, f64, Page)> = None;
    for aside in [0.0, BAR_STRIP] {
        let mut strip = 0.0;
        while strip <= WIDEST_STRIP {
            let window = with_strips(&drawn, document.unit.check_bar(), [aside, strip]);
            let (page, lacks) = laid_out(&tray, bleed, &window)?;
            let area = page.size[0] * page.size[1];
            let is_better =
                |(other, least, _): &(bool, f64, Page)| (lacks, area) < (*other, *least);
            if best.as_ref().is_none_or(is_better) {
                best = Some((lacks, area, page));
            }
            if !lacks {
                break;
            }
            strip += step;
        }
    }
    let (lacks, _, page) = best.ok_or_else(no_lines)?;
    let mut warnings = vec![told(&page, bleed)];
    warnings.extend(lacks.then(|| {
        "words or a bar found no room beside the blank: some are left out or stand on the piece, in the layer of the legend"
            .to_owned()
    }));
    Ok((page, warnings))
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

/// The page that shows so much, and whether something has no room on it.
fn laid_out(tray: &PdfInput, bleed: Length, window: &Window) -> Result<(Page, bool), ExportError> {
    let turned = window.size()[0] > window.size()[1];
    let enlarged = tray.enlarged(turned);
    let mut sides = [0, 1].map(|axis| window.size()[axis] * enlarged[axis] + 2.0 * bleed.mm());
    // A correction must not turn a page that is nearly square.
    let long = usize::from(!turned);
    sides[long] = sides[long].max(sides[1 - long]);
    let mut printed = tray.document.clone();
    let [width, height] = sides.map(|side| number(side, Unit::Millimetre));
    let page = printed.output.paper.page_mut();
    page.name = format!("{width} x {height} mm");
    [page.width, page.height] = [side(sides[0])?, side(sides[1])?];
    page.margin = bleed;
    let tray = PdfInput::new(&printed, tray.font)?;
    let sheet = Sheet {
        size: [0, 1].map(|axis| (sides[axis] - 2.0 * bleed.mm()) / enlarged[axis]),
        overlap: 0.0,
        turned,
    };
    let only = BTreeSet::from([[0, 0]]);
    let mut sheets = tray.sheets(&Spread::new(sheet.grid(window.least), only, turned));
    Ok((sheets.pages.remove(0), sheets.lacks))
}
