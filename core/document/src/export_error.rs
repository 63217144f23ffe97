//! Why an exporter makes no file of a document.
//!
//! The reasons are data; their words are made in one place, its `Display`. The C interface carries the words alone.

use std::fmt;

/// The reason of a refusal.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub enum ExportError {
    /// There are no words in the language that the job asks for.
    Language {
        /// Its code.
        asked: String,
        /// The codes of the languages that there are.
        known: Vec<String>,
    },
    /// The file of words of a language cannot be understood.
    Words {
        /// Its code.
        language: String,
        /// What is wrong with it.
        why: String,
    },
    /// The font cannot be used.
    Font {
        /// Its file; none for the built-in font.
        path: Option<String>,
        /// What is wrong with it, as a sentence goes on after "the font X".
        why: String,
    },
    /// The page cannot carry the blank.
    Page(PageError),
    /// The document breaks its promise, or says what the format cannot.
    Refused(String),
    /// The bytes of the file cannot be written.
    Written(String),
}

/// Why a page cannot carry a blank. Lengths in mm.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub enum PageError {
    /// There is no room for both check bars.
    NoRoomForBars {
        /// The page's name.
        page: String,
        /// Its margin.
        margin: f64,
        /// Length of a bar.
        bar: f64,
    },
    /// The page is longer than every reader shows at true size.
    TooLong {
        /// Its longer side.
        side: f64,
        /// The longest side that is shown.
        longest: f64,
    },
    /// The readings of the check bars are no matter of a printer.
    BarsMisread {
        /// The reading across.
        across: f64,
        /// The reading down.
        down: f64,
    },
    /// Margins and overlap leave nothing to draw on.
    NothingLeft {
        /// The page's name.
        page: String,
        /// What lies between the margins.
        between: f64,
        /// The overlap.
        overlap: f64,
    },
    /// The blank needs more sheets than are made.
    TooManySheets {
        /// The page's name.
        page: String,
        /// The number that it needs.
        needed: SheetCount,
        /// The most that are made.
        most: usize,
    },
}

/// A number of sheets.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum SheetCount {
    /// Exactly so many.
    Exactly(usize),
    /// More than so many: they are not counted any further.
    MoreThan(f64),
}

impl From<PageError> for ExportError {
    fn from(error: PageError) -> ExportError {
        ExportError::Page(error)
    }
}

impl std::error::Error for ExportError {}

impl fmt::Display for ExportError {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            ExportError::Language { asked, known } => write!(
                out,
                "there are no words in the language `{asked}`; there are: {}",
                known.join(", ")
            ),
            ExportError::Words { language, why } => {
                write!(out, "the words of the language `{language}`: {why}")
            }
            ExportError::Font { path: None, why } => write!(out, "the built-in font {why}"),
            ExportError::Font {
                path: Some(path),
                why,
            } => write!(out, "the font {path} {why}"),
            ExportError::Page(error) => error.fmt(out),
            ExportError::Refused(why) | ExportError::Written(why) => out.write_str(why),
        }
    }
}

impl fmt::Display for PageError {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let mm = |length: &f64| crate::Unit::Millimetre.figure(*length);
        match self {
            PageError::NoRoomForBars { page, margin, bar } => write!(
                out,
                "the page {page} with a margin of {} mm has no room for both check bars of {bar} mm: choose a larger page \
                 or a smaller margin",
                mm(margin)
            ),
            PageError::TooLong { side, longest } => write!(
                out,
                "a page {} mm long is longer than the {longest} mm that every reader shows at true size",
                mm(side)
            ),
            PageError::BarsMisread { across, down } => write!(
                out,
                "the bars read {across} and {down} mm; from 90 to 110 mm is a matter of the printer"
            ),
            PageError::NothingLeft {
                page,
                between,
                overlap,
            } => write!(
                out,
                "the page {page} leaves {} mm between its margins; with an overlap of {} mm nothing is left to draw on",
                mm(between),
                mm(overlap)
            ),
            PageError::TooManySheets { page, needed, most } => {
                let needed = match needed {
                    SheetCount::Exactly(count) => count.to_string(),
                    SheetCount::MoreThan(least) => format!("more than {least}"),
                };
                write!(
                    out,
                    "the blank needs {needed} sheets of {page}, and {most} are the most that are made: choose a larger page"
                )
            }
        }
    }
}
