//! Paper: its names and sizes, and the line `page` of a job.
//!
//! **Input:** a name or a size as people write it. **Output:** two sides in mm. **Errors:** an unknown page, and a name
//! that two standards use for two sizes, with both. Never knows what is printed on a page.

use traywright_engine::SourceError;
use traywright_engine::job::{Job, Length, Page, Paper, Unit};

use super::form::Form;
use super::nodes::{Entry, Node};
use super::values::{FROM_ZERO, length, word};
use crate::lengths::{INCH, as_people_write, trimmed};
use crate::nearest::suggestion;

/// Names, and sides in mm.
// Source: ISO 216 for the A series; 8.5 x 11, 8.5 x 14 and 11 x 17 in of exactly 25.4 mm for the others, and sheet sizes C
// to E of ASME Y14.1 (from memory).
const SIZES: [(&str, f64, f64); 12] = [
    ("A5", 148.0, 210.0),
    ("A4", 210.0, 297.0),
    ("A3", 297.0, 420.0),
    ("A2", 420.0, 594.0),
    ("A1", 594.0, 841.0),
    ("A0", 841.0, 1189.0),
    ("Letter", 8.5 * INCH, 11.0 * INCH),
    ("Legal", 8.5 * INCH, 14.0 * INCH),
    ("Tabloid", 11.0 * INCH, 17.0 * INCH),
    ("ANSI C", 17.0 * INCH, 22.0 * INCH),
    ("ANSI D", 22.0 * INCH, 34.0 * INCH),
    ("ANSI E", 34.0 * INCH, 44.0 * INCH),
];

/// Names with two sizes: that of ISO 216 and that of JIS P 0138.
// Source: ISO 216 and JIS P 0138, B series.
const TWO_SIZES: [(&str, &str, &str); 3] = [
    ("B5", "176x250", "182x257"),
    ("B4", "250x353", "257x364"),
    ("B3", "353x500", "364x515"),
];

/// A sheet of a known name or size.
#[derive(Clone, Debug, PartialEq)]
pub struct PageSize {
    /// Its name, or its size as written.
    pub name: String,
    /// The first side.
    pub width: Length,
    /// The second side.
    pub height: Length,
}

/// Names of all pages.
pub fn known_pages() -> impl Iterator<Item = &'static str> {
    SIZES.iter().map(|(name, _, _)| *name)
}

/// Why a word is not a page.
#[derive(Clone, Debug, PartialEq)]
pub struct PageError {
    /// The error.
    pub message: String,
    /// The correct form.
    pub fix: String,
    /// An additional hint.
    pub hint: Option<String>,
}

impl PageError {
    fn new(message: String, fix: impl Into<String>) -> Self {
        PageError {
            message,
            fix: fix.into(),
            hint: None,
        }
    }
}

/// The page with that name or size.
pub fn page_named(written: &str) -> Result<PageSize, PageError> {
    let sized = |width, height| PageSize {
        name: written.to_owned(),
        width: Length::known(width),
        height: Length::known(height),
    };
    if let Some((_, width, height)) = SIZES.iter().find(|(name, _, _)| *name == written) {
        return Ok(sized(*width, *height));
    }
    if let Some((name, iso, jis)) = TWO_SIZES.iter().find(|(name, _, _)| *name == written) {
        let fix = format!(
            "ISO {name} is {iso} mm, JIS {name} is {jis} mm: write the size, as in \"{iso} mm\""
        );
        return Err(PageError::new(
            format!("`{name}` is the name of two sizes"),
            fix,
        ));
    }
    if written.starts_with(|c: char| c.is_ascii_digit()) {
        let wrong = || {
            let message = format!("`{written}` is no page size");
            PageError::new(message, "write it as in \"210x297 mm\" or \"8.5x11 in\"")
        };
        let (width, height) = sides(written).ok_or_else(wrong)?;
        // Source: core/CONTRACT.md, "Job file": lengths are 0.01 to 5000 mm.
        if [width, height]
            .iter()
            .any(|side| !(0.01..=5000.0).contains(side))
        {
            let fix = "a side is at least 0.01 mm and at most 5000 mm";
            return Err(PageError::new(format!("no page is {written}"), fix));
        }
        return Ok(sized(width, height));
    }
    let known: Vec<&str> = known_pages().collect();
    let hint = "a page has a name, from A5 to A0, Letter, Legal, Tabloid or ANSI C to E, or a size such as \"210x297 mm\"";
    Err(PageError {
        message: format!("unknown page `{written}`"),
        fix: suggestion(written, &known),
        hint: Some(hint.to_owned()),
    })
}

/// Both sides of `210x297 mm` or `8 1/2 x 11 in`.
fn sides(written: &str) -> Option<(f64, f64)> {
    let text = written.trim_end();
    let (numbers, unit) = ["mm", "in"]
        .iter()
        .find_map(|unit| Some((text.strip_suffix(unit)?, *unit)))?;
    let (width, height) = numbers.split_once(['x', '×'])?;
    let side =
        |number: &str| Some(as_people_write(&format!("{number} {unit}"), Unit::Millimetre)?.mm);
    Some((side(width)?, side(height)?))
}

/// The page of an entry.
pub(super) fn page_of(entry: &Entry<'_>, faults: &mut Vec<SourceError>) -> Option<PageSize> {
    let written = word(entry, "the name or size of a page in double quotes", faults)?;
    match page_named(written) {
        Ok(page) => Some(page),
        Err(no) => {
            let fault = SourceError::new(entry.place(), no.message, no.fix);
            faults.push(SourceError {
                hint: no.hint,
                ..fault
            });
            None
        }
    }
}

/// The word for one page as large as the blank.
const WHOLE_PAGE: &str = "whole";

/// The sheets of a job with this unit that names none.
// Source: core/CONTRACT.md, "Job file".
pub(super) fn usual_page(unit: Unit) -> Page {
    match unit {
        Unit::Millimetre => Page::default(),
        Unit::Inch => Page {
            name: "Letter".to_owned(),
            width: Length::known(8.5 * INCH),
            height: Length::known(11.0 * INCH),
            margin: Length::known(0.25 * INCH),
            ..Page::default()
        },
    }
}

/// The default bleed of a whole page.
// Source: core/CONTRACT.md, "Job file"; common practice, no source.
fn usual_bleed(unit: Unit) -> Length {
    Length::known(match unit {
        Unit::Millimetre => 3.0,
        Unit::Inch => 0.125 * INCH,
    })
}

/// Reads the paper; with a whole page, the sheets are those of a job without a line `page`.
pub(super) fn read_page(
    entry: &Entry<'_>,
    job: &mut Job,
    faults: &mut Vec<SourceError>,
) -> Option<()> {
    let page = job.output.paper.page_mut();
    if entry.value().as_string() == Some(WHOLE_PAGE) {
        job.output.paper = Paper::Whole {
            bleed: usual_bleed(job.unit),
            condition: None,
            page: page.clone(),
        };
        return Some(());
    }
    let size = sheet_size(entry, faults)?;
    (page.name, page.width, page.height) = (size.name, size.width, size.height);
    Some(())
}

/// The job's word for the paper.
pub(super) fn word_of(paper: &Paper) -> &str {
    match paper {
        Paper::Sheets(page) => &page.name,
        Paper::Whole { .. } => WHOLE_PAGE,
    }
}

/// Reads the margin of the sheets, or the bleed of a whole page.
pub(super) fn read_margin(
    entry: &Entry<'_>,
    paper: &mut Paper,
    faults: &mut Vec<SourceError>,
) -> Option<()> {
    *margin(paper) = length(entry, FROM_ZERO, faults)?;
    Some(())
}

/// The margin of the sheets, or the bleed of a whole page.
fn margin(paper: &mut Paper) -> &mut Length {
    match paper {
        Paper::Sheets(page) => &mut page.margin,
        Paper::Whole { bleed, .. } => bleed,
    }
}

/// The margin or bleed, if a job in millimetres must state it.
pub(super) fn unusual_margin(paper: &mut Paper) -> Option<Length> {
    let usual = match paper {
        Paper::Sheets(_) => usual_page(Unit::Millimetre).margin,
        Paper::Whole { .. } => usual_bleed(Unit::Millimetre),
    };
    Some(*margin(paper)).filter(|margin| *margin != usual)
}

/// Reads the overlap of sheets; a whole page has none.
pub(super) fn read_overlap(
    entry: &Entry<'_>,
    paper: &mut Paper,
    faults: &mut Vec<SourceError>,
) -> Option<()> {
    if paper.bleed().is_some() {
        faults.push(SourceError::new(
            entry.place(),
            "a whole page overlaps no other",
            "leave `overlap` out, or name the paper, as in page \"A4\"",
        ));
    }
    paper.page_mut().overlap = length(entry, FROM_ZERO, faults)?;
    Some(())
}

/// The longest name of a printing condition.
// Source: a choice of this project, stated in core/CONTRACT.md, "Job file"; the registry's names have less than half of it.
const LONGEST_CONDITION: usize = 40;

/// Reads the printing condition; only a whole page has one.
pub(super) fn read_condition(
    entry: &Entry<'_>,
    paper: &mut Paper,
    faults: &mut Vec<SourceError>,
) -> Option<()> {
    let name = word(
        entry,
        "the name of a printing condition in double quotes",
        faults,
    )?;
    let is_name = |letter: char| letter.is_ascii_alphanumeric() || " -_.".contains(letter);
    let wrong = if name.trim().is_empty() || name.trim() != name || !name.chars().all(is_name) {
        "a printing condition has letters, digits, dots, hyphens, and single words between spaces"
    } else if name.len() > LONGEST_CONDITION {
        "the name of a printing condition has at most 40 characters"
    } else if let Paper::Whole { condition, .. } = paper {
        *condition = Some(name.to_owned());
        return Some(());
    } else {
        let hint = "leave `condition` out, or write page \"whole\" for a print shop";
        let title = "only a whole page has a printing condition";
        faults.push(SourceError::new(entry.place(), title, hint));
        return None;
    };
    let hint = "write its name as in the registry of the International Color Consortium, such as \"FOGRA51\"; your print shop knows it";
    faults.push(SourceError::new(entry.place(), wrong, hint));
    None
}

/// The size on the line `page`.
fn sheet_size(entry: &Entry<'_>, faults: &mut Vec<SourceError>) -> Option<PageSize> {
    let size = page_of(entry, faults);
    if size.is_none()
        && let Some(fault) = faults.last_mut()
    {
        tell_of_whole(entry, fault);
    }
    size
}

/// Adds the word that only the line `page` knows to an error.
fn tell_of_whole(entry: &Entry<'_>, fault: &mut SourceError) {
    let known: Vec<&str> = known_pages().chain([WHOLE_PAGE]).collect();
    if let (Some(written), Some(hint)) = (entry.value().as_string(), &mut fault.hint) {
        fault.label = suggestion(written, &known);
        *hint += ", or is \"whole\": one page as large as the blank";
    }
}

/// Margins and overlap of a sheet must leave something to draw on.
pub(super) fn finish(node: &Node<'_>, form: &mut Form, faults: &mut Vec<SourceError>) {
    let Paper::Sheets(page) = &form.job.output.paper else {
        return;
    };
    let side = page.width.mm().min(page.height.mm());
    let inner = side - 2.0 * page.margin.mm();
    let (name, title) = if !node.unread.is_empty() {
        return;
    } else if inner <= 0.0 {
        ("margin", "the margins leave nothing of the page")
    } else if page.overlap.mm() >= inner {
        ("overlap", "the overlap leaves nothing of the page")
    } else {
        return;
    };
    let place = [node.entry(name), node.argument.as_ref()]
        .into_iter()
        .flatten()
        .next()
        .map_or(node.place.clone(), |entry| entry.place());
    let limit = if name == "margin" { side / 2.0 } else { inner };
    let label = format!(
        "on a page {} mm wide it is less than {} mm",
        trimmed(side, 2),
        trimmed(limit, 2)
    );
    faults.push(SourceError::new(place, title, label));
}
