//! Paper: its names and sizes, and the line `page` of a job.
//!
//! Given a name or a size as people write it, gives two sides in mm. A name that two standards use for two sizes is
//! refused with both. Never knows what is printed on a page.

use traywright_engine::SourceError;
use traywright_engine::job::{Length, Page, Paper, Unit};

use super::nodes::{Entry, Node};
use super::values::word;
use crate::lengths::{INCH, as_people_write, trimmed};
use crate::nearest::suggestion;

/// Names, and sides in mm.
// Source: ISO 216 for the A series; 8.5 x 11, 8.5 x 14 and 11 x 17 in of exactly 25.4 mm for the others.
const SIZES: [(&str, f64, f64); 9] = [
    ("A5", 148.0, 210.0),
    ("A4", 210.0, 297.0),
    ("A3", 297.0, 420.0),
    ("A2", 420.0, 594.0),
    ("A1", 594.0, 841.0),
    ("A0", 841.0, 1189.0),
    ("Letter", 8.5 * INCH, 11.0 * INCH),
    ("Legal", 8.5 * INCH, 14.0 * INCH),
    ("Tabloid", 11.0 * INCH, 17.0 * INCH),
];

/// Names of two sizes: that of ISO 216 and that of JIS P 0138.
// Source: ISO 216 and JIS P 0138, B series.
const TWO_SIZES: [(&str, &str, &str); 3] = [
    ("B5", "176x250", "182x257"),
    ("B4", "250x353", "257x364"),
    ("B3", "353x500", "364x515"),
];

/// A sheet of a known name or size.
#[derive(Clone, Debug, PartialEq)]
pub struct PageSize {
    /// Its name, or its size as it was written.
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

/// Why a word is no page.
#[derive(Clone, Debug, PartialEq)]
pub struct PageError {
    /// What is wrong.
    pub message: String,
    /// What would be right.
    pub fix: String,
    /// What else would be.
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

/// The page of that name or size.
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
    let hint = "a page has a name, from A5 to A0, Letter, Legal or Tabloid, or a size such as \"210x297 mm\"";
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

/// The page that an entry names.
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
pub(super) const WHOLE_PAGE: &str = "whole";

/// The paper of a job that does not name it.
pub(super) struct DefaultPage {
    pub(super) name: &'static str,
    pub(super) margin: Length,
    /// The margin of a whole page.
    pub(super) bleed: Length,
}

impl DefaultPage {
    /// That of a job in a unit.
    // Source: core/CONTRACT.md, "Job file"; the bleed of 3 mm or 1/8 in is common practice, no source.
    pub(super) fn of(unit: Unit) -> DefaultPage {
        match unit {
            Unit::Millimetre => DefaultPage {
                name: "A4",
                margin: Length::known(6.0),
                bleed: Length::known(3.0),
            },
            Unit::Inch => DefaultPage {
                name: "Letter",
                margin: Length::known(0.25 * INCH),
                bleed: Length::known(0.125 * INCH),
            },
        }
    }
}

/// The line `page`; what is not written follows the unit of the job.
pub(super) fn paper(node: &Node<'_>, unit: Unit, faults: &mut Vec<SourceError>) -> Option<Paper> {
    let default = DefaultPage::of(unit);
    let is_whole = |entry: &Entry<'_>| entry.value().as_string() == Some(WHOLE_PAGE);
    if node.argument.as_ref().is_some_and(is_whole) {
        let bleed = bleed(node, default.bleed, faults);
        let size = page_named(default.name).ok();
        let sheet = sheet(node, size, Some(default.margin), faults)?;
        return Some(Paper::Whole {
            bleed: bleed?,
            page: sheet,
        });
    }
    let size = match &node.argument {
        Some(entry) => sheet_size(entry, faults),
        None => page_named(default.name).ok(),
    };
    let margin = margin(node, default.margin, faults);
    let sheet = sheet(node, size, margin, faults)?;
    let sheet = leaves_room(node, sheet, faults)?;
    Some(Paper::Sheets(sheet))
}

/// The margin of a whole page; nothing overlaps it.
fn bleed(node: &Node<'_>, default: Length, faults: &mut Vec<SourceError>) -> Option<Length> {
    if let Some(overlap) = node.entry("overlap") {
        faults.push(SourceError::new(
            overlap.place(),
            "a whole page overlaps no other",
            "leave `overlap` out, or name the paper, as in page \"A4\"",
        ));
    }
    margin(node, default, faults)
}

fn margin(node: &Node<'_>, default: Length, faults: &mut Vec<SourceError>) -> Option<Length> {
    match node.entry("margin") {
        Some(_) => node.length("margin", faults),
        None => Some(default),
    }
}

/// The sheets of paper; beside a whole page they are what the job would have without a line `page`.
fn sheet(
    node: &Node<'_>,
    size: Option<PageSize>,
    margin: Option<Length>,
    faults: &mut Vec<SourceError>,
) -> Option<Page> {
    let overlap = node.length("overlap", faults);
    let (bar_across, bar_down) = (
        node.length("bar-across", faults),
        node.length("bar-down", faults),
    );
    let font = match node.entry("font") {
        Some(_) => Some(node.name("font", faults)?.to_owned()),
        None => None,
    };
    let size = size?;
    Some(Page {
        name: size.name,
        width: size.width,
        height: size.height,
        margin: margin?,
        overlap: overlap?,
        bar_across: bar_across?,
        bar_down: bar_down?,
        font,
    })
}

/// The size that the line `page` names.
fn sheet_size(entry: &Entry<'_>, faults: &mut Vec<SourceError>) -> Option<PageSize> {
    let size = page_of(entry, faults);
    if size.is_none()
        && let Some(fault) = faults.last_mut()
    {
        tell_of_whole(entry, fault);
    }
    size
}

/// The line `page` knows one word more than other places that name a page.
fn tell_of_whole(entry: &Entry<'_>, fault: &mut SourceError) {
    let known: Vec<&str> = known_pages().chain([WHOLE_PAGE]).collect();
    if let (Some(written), Some(hint)) = (entry.value().as_string(), &mut fault.hint) {
        fault.label = suggestion(written, &known);
        *hint += ", or is \"whole\": one page as large as the blank";
    }
}

/// The page, if its margins and overlap leave something to draw on.
fn leaves_room(node: &Node<'_>, page: Page, faults: &mut Vec<SourceError>) -> Option<Page> {
    let side = page.width.mm().min(page.height.mm());
    let inner = side - 2.0 * page.margin.mm();
    let (name, title) = if inner <= 0.0 {
        ("margin", "the margins leave nothing of the page")
    } else if page.overlap.mm() >= inner {
        ("overlap", "the overlap leaves nothing of the page")
    } else {
        return Some(page);
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
    None
}
