//! Which sheet of paper holds a blank.
//!
//! **Input:** the blank's extent and the page of the job. **Output:** whether that page holds the blank, or which one
//! does. The margin of the job applies to every page. **Does not** spread a blank over several sheets: exporters do.

use traywright_engine::job::{Length, Page, Unit};

use crate::job_file::{known_pages, page_named};

/// A page that holds a blank in one piece.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PaperFit {
    /// Its name, or its size as the job writes it.
    pub name: String,
    /// Whether the longer side lies along the blank's length.
    pub landscape: bool,
}

impl PaperFit {
    /// The job's own page, if it holds the blank.
    pub fn own(blank: [f64; 2], page: &Page) -> Option<Self> {
        Self::holding(blank, &page.name, [page.width, page.height], page.margin)
    }

    /// The smallest page, of those common with the maker's unit, that holds the blank.
    pub fn smallest(blank: [f64; 2], page: &Page, unit: Unit) -> Option<Self> {
        // Source: ISO 216 names are an A and a number; makers who think in inches buy the other sizes.
        let is_iso = |name: &str| {
            let digit = name.strip_prefix('A').and_then(|rest| rest.chars().next());
            digit.is_some_and(|digit| digit.is_ascii_digit())
        };
        let usual = |name: &&str| is_iso(name) == (unit == Unit::Millimetre);
        known_pages().filter(usual).find_map(|name| {
            let size = page_named(name).ok()?;
            Self::holding(blank, name, [size.width, size.height], page.margin)
        })
    }

    fn holding(blank: [f64; 2], name: &str, page: [Length; 2], margin: Length) -> Option<Self> {
        let room = page.map(|side| side.mm() - 2.0 * margin.mm());
        let sheet = |turned: bool| PaperFit {
            name: name.to_owned(),
            landscape: turned == (page[0] <= page[1]),
        };
        if blank[0] <= room[0] && blank[1] <= room[1] {
            Some(sheet(false))
        } else if blank[0] <= room[1] && blank[1] <= room[0] {
            Some(sheet(true))
        } else {
            None
        }
    }

    /// In words: `A3 landscape`.
    pub fn words(&self) -> String {
        let way = if self.landscape {
            "landscape"
        } else {
            "upright"
        };
        format!("{} {way}", self.name)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn page(name: &str, width: f64, height: f64, margin: f64) -> Page {
        Page {
            name: name.to_owned(),
            width: Length::known(width),
            height: Length::known(height),
            margin: Length::known(margin),
            ..Page::default()
        }
    }

    fn named(sheet: Option<PaperFit>) -> String {
        sheet.map_or("none".to_owned(), |sheet| sheet.words())
    }

    #[test]
    fn a_page_holds_what_lies_between_its_margins_either_way() {
        // Source: tests/facts/paper.md prn-07: 210 x 134 on A4 with a margin of 6 is one page, turned (210 <= 285, 134
        // <= 198).
        let a4 = page("A4", 210.0, 297.0, 6.0);
        assert_eq!(named(PaperFit::own([210.0, 134.0], &a4)), "A4 landscape");
        assert_eq!(named(PaperFit::own([134.0, 210.0], &a4)), "A4 upright");
        // Derived: 297 - 2 * 6 = 285 and 210 - 2 * 6 = 198.
        assert_eq!(named(PaperFit::own([285.0, 198.0], &a4)), "A4 landscape");
        assert_eq!(named(PaperFit::own([285.01, 198.0], &a4)), "none");
        assert_eq!(
            named(PaperFit::own(
                [210.0, 134.0],
                &page("wide", 297.0, 210.0, 6.0)
            )),
            "wide landscape"
        );
    }

    #[test]
    fn the_smallest_page_is_one_that_the_maker_can_buy() {
        // Derived: 308.42 x 182.42 needs 320.42 x 194.42 with margins of 6; A3 is 420 x 297, Legal 355.6 x 215.9.
        let blank = [308.42, 182.42];
        let a4 = page("A4", 210.0, 297.0, 6.0);
        assert_eq!(
            named(PaperFit::smallest(blank, &a4, Unit::Millimetre)),
            "A3 landscape"
        );
        assert_eq!(
            named(PaperFit::smallest(blank, &a4, Unit::Inch)),
            "Legal landscape"
        );
        // Derived: larger than Tabloid, 279.4 x 431.8; ANSI C is 431.8 x 558.8.
        assert_eq!(
            named(PaperFit::smallest([500.0, 300.0], &a4, Unit::Inch)),
            "ANSI C landscape"
        );
        assert_eq!(
            named(PaperFit::smallest([1300.0, 900.0], &a4, Unit::Millimetre)),
            "none"
        );
    }
}
