//! Values of the job that only the files need: paper, face, language, and the machine.
//!
//! The engine passes them all on unchanged. It draws the blank so that the tool can follow it, if the job says what is
//! the smallest cut.

use serde::{Deserialize, Serialize};

use crate::{Length, Perforation};

/// Values of the job that only the files need.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Output {
    /// The paper to print on.
    pub paper: Paper,
    /// The face of the card that carries the lines.
    pub drawn_face: DrawnFace,
    /// Whether the parts have their letters on the blank, where its drawn face does not show in the finished tray.
    #[serde(default = "yes")]
    pub letters: bool,
    /// The language of the words in files: a code of two letters, such as `en`.
    #[serde(default = "english")]
    pub language: String,
    /// The machine's options.
    #[serde(default)]
    pub machine: Machine,
}

/// A4 sheets, the inside face, English words, and nothing for a machine.
impl Default for Output {
    fn default() -> Output {
        Output {
            paper: Paper::default(),
            drawn_face: DrawnFace::default(),
            letters: true,
            language: english(),
            machine: Machine::default(),
        }
    }
}

impl Output {
    /// Whether the parts have their letters on the blank. A face that shows in the finished tray stays clean.
    pub fn has_letters_on_blank(&self) -> bool {
        self.letters && self.drawn_face == DrawnFace::Inside
    }
}

/// The paper to print on.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Paper {
    /// As many sheets as the blank needs.
    Sheets(Page),
    /// One page trimmed to the blank.
    Whole {
        /// How far print reaches around the blank.
        bleed: Length,
        /// The printing condition that the page is meant for, by its name in the registry of the International Color
        /// Consortium, if the job states one.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        condition: Option<String>,
        /// The sheets for everything but the blank, with the readings of the bars and the font.
        page: Page,
    },
}

impl Default for Paper {
    fn default() -> Paper {
        Paper::Sheets(Page::default())
    }
}

impl Paper {
    /// The sheets: of the blank, or of everything else if the blank has a whole page.
    pub fn page(&self) -> &Page {
        match self {
            Paper::Sheets(page) | Paper::Whole { page, .. } => page,
        }
    }

    /// The sheets, to change them.
    pub fn page_mut(&mut self) -> &mut Page {
        match self {
            Paper::Sheets(page) | Paper::Whole { page, .. } => page,
        }
    }

    /// The bleed of a whole page; none if the blank is printed on sheets.
    pub fn bleed(&self) -> Option<Length> {
        match self {
            Paper::Sheets(_) => None,
            Paper::Whole { bleed, .. } => Some(*bleed),
        }
    }

    /// The printing condition of a whole page, if the job states one.
    pub fn condition(&self) -> Option<&str> {
        match self {
            Paper::Sheets(_) => None,
            Paper::Whole { condition, .. } => condition.as_deref(),
        }
    }
}

/// A sheet of paper and the border that the printer cannot reach.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Page {
    /// Its name, or its size as the maker wrote it.
    pub name: String,
    /// The shorter or first side.
    pub width: Length,
    /// The longer or second side.
    pub height: Length,
    /// Unprinted border on all four sides.
    pub margin: Length,
    /// How far neighbouring pages of a large blank overlap.
    pub overlap: Length,
    /// The ruler's reading of the printed check bar across the page held upright, if the job states it; the bar's true
    /// length is [`Unit::check_bar`](crate::Unit::check_bar).
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub bar_across: Option<Length>,
    /// The reading of the bar down the page.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub bar_down: Option<Length>,
    /// A TrueType file for the words, if the job names one.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub font: Option<String>,
}

/// A4 with the usual border and overlap.
// Source: ISO 216; for border and overlap common practice, none published.
impl Default for Page {
    fn default() -> Page {
        Page {
            name: "A4".to_owned(),
            width: Length::known(210.0),
            height: Length::known(297.0),
            margin: Length::known(6.0),
            overlap: Length::known(10.0),
            bar_across: None,
            bar_down: None,
            font: None,
        }
    }
}

/// The face of the card that carries the lines.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum DrawnFace {
    /// The face that is inside the folded tray.
    #[default]
    Inside,
    /// The face that is outside. The blank is mirrored and every fold changes its direction.
    Outside,
}

/// Options of the job for a machine.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Machine {
    /// Width of the kerf, which the tool removes; toolpaths of closed cuts are offset from the piece by half of it. 0
    /// if the machine's own program does that.
    pub kerf: Length,
    /// Nicks, if asked for.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub nicks: Option<Nicks>,
    /// The cuts and gaps of perforated creases, if the creases are perforated.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub perforation: Option<Perforation>,
    /// The kind of DXF.
    pub dxf: DxfVersion,
    /// What SVG and DXF have besides the lines that are cut and creased.
    pub lines: FileLines,
    /// The shortest cut that the tool still follows, if the job states it; the blank is drawn for it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub smallest: Option<Length>,
}

/// What SVG and DXF have besides the lines that are cut and creased.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub enum FileLines {
    /// Dimensions, words, a check bar and a legend.
    #[default]
    Full,
    /// Nothing: the page is as large as the blank, and a machine works along every line.
    Bare,
    /// A word of a later release: an exporter that does not know it writes its default.
    #[serde(other)]
    Other,
}

/// Nicks: gaps in the outline that keep the piece in its sheet.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Nicks {
    /// Length of one.
    pub length: Length,
    /// Approximate maximum distance from one nick to the next along the outline.
    pub every: Length,
}

/// The lengths of nicks in a job that states none.
// Source: core/CONTRACT.md, "Job file" (common practice, none published).
impl Default for Nicks {
    fn default() -> Nicks {
        Nicks {
            length: Length::known(0.4),
            every: Length::known(60.0),
        }
    }
}

/// A kind of DXF.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[non_exhaustive]
pub enum DxfVersion {
    /// Release 2000: the file says that its unit is the millimetre.
    #[default]
    R2000,
    /// Release 12: for older programs; the file has no unit.
    R12,
    /// A kind of a later release: an exporter that does not know it writes its default.
    #[serde(other)]
    Other,
}

/// Whether there are letters where a document does not say.
fn yes() -> bool {
    true
}

/// The language of a document that names none.
fn english() -> String {
    "en".to_owned()
}
