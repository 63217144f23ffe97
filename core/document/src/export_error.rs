//! The reasons why an exporter refuses a document.
//!
//! The reasons are data; only their `Display` makes words of them. The C interface carries only the words.

use std::fmt;

/// The reason of a refusal.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub enum ExportError {
    /// There are no words in the language of the job.
    Language {
        /// Its code.
        asked: String,
        /// The codes of the available languages.
        known: Vec<String>,
    },
    /// The file of words of a language cannot be read.
    Words {
        /// Its code.
        language: String,
        /// The error in it.
        why: String,
    },
    /// The font cannot be used.
    Font {
        /// Its file; none for the built-in font.
        path: Option<String>,
        /// The error in it, as a sentence continues after "the font X".
        why: String,
    },
    /// The blank cannot be printed on the page.
    Page(PageError),
    /// The document breaks a promise, or contains something that the format cannot express.
    Refused(String),
    /// The bytes of the file cannot be written.
    Written(String),
}

/// The reasons why a blank cannot be printed on a page. Lengths in mm.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub enum PageError {
    /// There is no space for both check bars.
    NoRoomForBars {
        /// The page's name.
        page: String,
        /// Its margin.
        margin: f64,
        /// Length of a bar.
        bar: f64,
    },
    /// The page is longer than some readers show at true size.
    TooLong {
        /// Its longer side.
        side: f64,
        /// The longest side that all readers show.
        longest: f64,
    },
    /// No printer gives these readings of the check bars.
    BarsMisread {
        /// The reading across.
        across: f64,
        /// The reading down.
        down: f64,
    },
    /// Margins and overlap leave no space to draw on.
    NothingLeft {
        /// The page's name.
        page: String,
        /// The length between the margins.
        between: f64,
        /// The overlap.
        overlap: f64,
    },
    /// The blank needs more sheets than the maximum.
    TooManySheets {
        /// The page's name.
        page: String,
        /// The number that it needs.
        needed: SheetCount,
        /// The maximum.
        most: usize,
    },
}

/// A number of sheets.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum SheetCount {
    /// Exactly this many.
    Exactly(usize),
    /// More than this many, where counting stopped.
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
