//! From a document to its pages: how the paper lies, how many sheets it takes, and which way looks best.
//!
//! Given a document; gives the bytes of its pages and what the maker should know about them. One sheet is taken where it
//! holds the blank either way round; otherwise the fewest, and among those the way that leaves bars and words their room.

use traywright_document::{Document, ExportError, Length, PageError, SheetCount};
use traywright_paper::{Font, Page};

use crate::annotations::{Asked, NO_BAR};
use crate::input::{PdfInput, no_lines};
use crate::search::{Paper, Spread, spreads};
use crate::sheets::Sheets;
use crate::single::on_one_sheet;
use crate::single_page::{self, LONGEST_SIDE};
use crate::spread::MOST_SHEETS;
use crate::window::Window;

/// So many sheets are counted at all, to be told in the refusal.
const MOST_COUNTED: usize = 1_000_000;
/// Less overlap than this leaves no room for a cross.
// Derived: the strokes of a cross are at least 2 mm long (core/CONTRACT.md, "Files: PDF"), and stay 1 mm off the edges.
const LEAST_OVERLAP: f64 = 4.0;
/// So many sheets may be laid out to find the best way: with the bars alone, and in full.
const TRIED_WITH_BARS: usize = 96;
const TRIED_IN_FULL: usize = 16;

/// A tray on its pages.
pub(crate) struct Printed {
    /// The file.
    pub(crate) bytes: Vec<u8>,
    /// How many of its pages carry lines.
    pub(crate) sheets: usize,
    /// What the maker should know about them.
    pub(crate) warnings: Vec<String>,
}

/// Makes the pages.
///
/// # Refuses
/// A page that leaves nothing to draw on or is too large, a blank that needs more than 400 sheets, a font that cannot be
/// used.
pub(crate) fn print(document: &Document) -> Result<Printed, ExportError> {
    let font = Font::of(document.output.paper.page())?;
    refuse_bars_misread(document)?;
    let mut warnings: Vec<String> = Vec::new();
    let (sheets, pages) = match document.output.paper.bleed() {
        Some(bleed) => {
            let (page, told) = single_page::page(document, &font, bleed)?;
            refuse_too_long(page.size[0].max(page.size[1]))?;
            warnings.extend(told);
            (1, vec![page])
        }
        None => tiled(document, &font, &mut warnings)?,
    };
    let machine = &document.output.machine;
    if machine.perforation.is_some() {
        warnings.push("a perforated crease is drawn as a row of dashes: its cuts at true size are in SVG and DXF".to_owned());
    }
    if machine.kerf > Length::ZERO || machine.nicks.is_some() {
        warnings.push("the pages show the edges of the piece itself: the width of the cut and the gaps that hold it are for machines, in SVG and DXF".to_owned());
    }
    let printed = traywright_paper::print(
        &document.title,
        document.output.paper.condition(),
        &font,
        &pages,
    )?;
    warnings.extend(printed.warning);
    Ok(Printed {
        bytes: printed.bytes,
        sheets,
        warnings,
    })
}

/// The pages of the size that the job asks for, and how many of them carry lines.
fn tiled(
    document: &Document,
    font: &Font,
    warnings: &mut Vec<String>,
) -> Result<(usize, Vec<Page>), ExportError> {
    let tray = PdfInput::new(document, font)?;
    let page = document.output.paper.page();
    refuse_too_long(page.width.mm().max(page.height.mm()))?;
    let papers = papers(&tray, warnings)?;
    let [blank, drawn] = tray.extents();
    refuse_beyond_counting(document, &blank, &papers)?;
    let on_one = on_one_sheet(&blank, &drawn, &papers);
    let ways = if on_one.is_empty() {
        let ways = spreads(&tray.pieces, &tray.measures, &papers, MOST_COUNTED);
        let count = ways.first().map_or(0, |way| way.sheets.len());
        if count > MOST_SHEETS {
            return Err(too_many(document, SheetCount::Exactly(count)));
        }
        chosen(&tray, ways)
    } else {
        on_one.into_iter().map(|way| (0.0, way)).collect()
    };
    let sheets = best(&tray, &ways).ok_or_else(no_lines)?;
    if sheets.penalty >= NO_BAR {
        return Err(no_bars(document));
    }
    let mut pages = sheets.pages();
    let count = pages.len();
    let words = tray.words_sheet(count, &sheets.said);
    let name = &document.output.paper.page().name;
    let also = if words.is_some() {
        " and one of words"
    } else {
        ""
    };
    warnings.push(format!("{}{also}", counted(count, name)));
    pages.extend(words);
    Ok((count, pages))
}

/// A sheet without both bars could not be trusted.
fn no_bars(document: &Document) -> ExportError {
    let page = document.output.paper.page();
    let no_room = PageError::NoRoomForBars {
        page: page.name.clone(),
        margin: page.margin.mm(),
        bar: document.unit.check_bar(),
    };
    no_room.into()
}

/// How many sheets there are to print.
fn counted(sheets: usize, page: &str) -> String {
    match sheets {
        1 => format!("one sheet of {page}"),
        more => format!("{more} sheets of {page}"),
    }
}

fn refuse_too_long(longest: f64) -> Result<(), ExportError> {
    if longest <= LONGEST_SIDE {
        return Ok(());
    }
    let too_long = PageError::TooLong {
        side: longest,
        longest: LONGEST_SIDE,
    };
    Err(too_long.into())
}

fn refuse_bars_misread(document: &Document) -> Result<(), ExportError> {
    let page = document.output.paper.page();
    let bar = document.unit.check_bar();
    let [across, down] =
        [page.bar_across, page.bar_down].map(|reading| reading.map_or(bar, Length::mm));
    if [across, down]
        .iter()
        .all(|bar| (90.0..=110.0).contains(bar))
    {
        return Ok(());
    }
    Err(PageError::BarsMisread { across, down }.into())
}

/// The paper in both ways, the one that the job writes first.
fn papers(tray: &PdfInput, warnings: &mut Vec<String>) -> Result<Vec<Paper>, ExportError> {
    let page = tray.document.output.paper.page();
    let asked = page.overlap.mm();
    let overlap = asked.max(LEAST_OVERLAP);
    let written_turned = page.width > page.height;
    let mut papers = Vec::new();
    for turned in [written_turned, !written_turned] {
        let (paper, enlarged) = (tray.paper(turned), tray.enlarged(turned));
        let size = [0, 1].map(|axis| (paper[axis] - 2.0 * page.margin.mm()) / enlarged[axis]);
        papers.push(Paper {
            size,
            overlap,
            turned,
        });
    }
    let short = papers
        .iter()
        .flat_map(|paper| paper.size)
        .fold(f64::INFINITY, f64::min);
    if short <= overlap {
        let nothing_left = PageError::NothingLeft {
            page: page.name.clone(),
            between: short,
            overlap,
        };
        return Err(nothing_left.into());
    }
    if asked < LEAST_OVERLAP {
        warnings.push(format!("pages overlap by {LEAST_OVERLAP} mm at least, so that crosses have room; the job says {asked}"));
    }
    if page.width == page.height {
        papers.pop();
    }
    Ok(papers)
}

/// The ways worth laying out in full: those where the bars stand best.
fn chosen(tray: &PdfInput, ways: Vec<Spread>) -> Vec<(f64, Spread)> {
    let Some(count) = ways.first().map(|way| way.sheets.len()) else {
        return Vec::new();
    };
    let stride = ways.len().div_ceil((TRIED_WITH_BARS / count).max(1)).max(1);
    let kept = (TRIED_IN_FULL / count).max(1);
    let mut judged: Vec<(f64, Spread)> = Vec::new();
    for way in ways.into_iter().step_by(stride) {
        // What is no better than the last of those to keep needs no further look.
        let last = judged.get(kept - 1);
        let limit = last.map_or(f64::INFINITY, |(penalty, _)| *penalty);
        if let Some(penalty) = tray.bars_short(&way, limit) {
            let at = judged.partition_point(|(other, _)| *other <= penalty);
            judged.insert(at, (penalty, way));
            judged.truncate(kept);
        }
    }
    judged
}

/// Lays out the ways, those with the best bars first, and keeps the best; of equals the first. What the bars alone make no
/// better than the best one is not laid out.
fn best<'a>(tray: &'a PdfInput, ways: &'a [(f64, Spread)]) -> Option<Sheets<'a>> {
    let mut best: Option<Sheets> = None;
    for (least, way) in ways {
        let limit = best
            .as_ref()
            .map_or(f64::INFINITY, |best| best.penalty - 1e-9);
        if *least < limit {
            best = tray.sheets(way, limit, Asked::WhatHasRoom).or(best);
        }
    }
    best
}

/// Refuses a blank that is longer than so many sheets side by side: as many columns or rows hold a line at least.
fn refuse_beyond_counting(
    document: &Document,
    blank: &Window,
    papers: &[Paper],
) -> Result<(), ExportError> {
    let in_line = |paper: &Paper| {
        let along = [0, 1].map(|axis| {
            let pitch = paper.size[axis] - paper.overlap;
            ((blank.size()[axis] - paper.overlap) / pitch).ceil()
        });
        along[0].max(along[1])
    };
    let least = papers.iter().map(in_line).fold(f64::INFINITY, f64::min);
    if least > MOST_SHEETS as f64 {
        return Err(too_many(document, SheetCount::MoreThan(least)));
    }
    Ok(())
}

fn too_many(document: &Document, needed: SheetCount) -> ExportError {
    let too_many = PageError::TooManySheets {
        page: document.output.paper.page().name.clone(),
        needed,
        most: MOST_SHEETS,
    };
    too_many.into()
}
