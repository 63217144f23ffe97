//! The job: the maker's specification as plain data, with the source spans of its words.
//!
//! **Input:** from the reader of a job file, or any caller of the library. Every [`Length`] is finite and 0 or more by
//! its type. The hinge and the settings are bare numbers, because they may be negative, and are checked before they are
//! used. **Does not** read a file; a [`SourceSpan`] is a byte range of the job's text, for errors that are found later.

mod board;
mod hinge;
mod label;
pub(crate) mod numbers;
mod print;
mod tool;

use crate::finding::SourceSpan;
use crate::ids::Id;

pub use board::Board;
pub use hinge::ReadHinge;
pub use label::Label;
pub use print::{Picture, PictureFit, Print};
pub use tool::Tool;
pub use traywright_document::{
    BoardKind, BoxSize, CreaseKind, DrawnFace, DxfVersion, FileLines, Grain, ItemShape, Length,
    Machine, Nicks, NotALength, Output, Page, Paper, Perforation, PngFile, ToolKind, Turn, Unit,
};

/// How much longer than the tool needs an edge is drawn that is drawn for it.
// Derived: files have coordinates to 0.0001 mm, so the length of an edge in a file is off by less than this.
pub(crate) const FILE_ROUNDING_MM: f64 = 1e-3;

/// The id of an item in its job.
pub(crate) type ItemId = Id<Item>;

/// One tray to make.
#[derive(Clone, Debug, PartialEq)]
pub struct Job {
    /// The tray's name.
    pub title: String,
    /// Name of the style.
    pub style: String,
    /// The source span of its name, for the error about an unknown style.
    pub style_place: SourceSpan,
    /// Inside of the box; [`BoxSize::NONE`] for a piece without a box.
    pub box_size: BoxSize,
    /// Outside depth of the folded tray; none for the depth of the box less its clearance.
    pub tray_height: Option<Length>,
    /// Radii of the box's rounded edges.
    pub rounding: Rounding,
    /// The items in the order of the job, repeats written out.
    pub items: Vec<Item>,
    /// The card.
    pub board: Board,
    /// The tool that creases and cuts it.
    pub tool: Tool,
    /// The clearances.
    pub fit: Fit,
    /// How the openings are cut.
    pub slot: Slot,
    /// The source span of a font, if the job names one.
    pub font_place: Option<SourceSpan>,
    /// Pictures to print on panels, in the order of the job.
    pub prints: Vec<Print>,
    /// Words to print on panels, in the order of the job.
    pub labels: Vec<Label>,
    /// The settings of the style that the job sets.
    pub settings: Vec<Setting>,
    /// The maker's unit.
    pub unit: Unit,
    /// Values of the job that only the files need; the engine passes them on unchanged.
    pub output: Output,
}

impl Job {
    /// A job with only the style, the inside of its box, the thickness of its card and its items; all else is default.
    pub fn plain(style: &str, box_size: BoxSize, caliper: Length, items: Vec<Item>) -> Job {
        Job {
            title: style.to_owned(),
            style: style.to_owned(),
            style_place: 0..0,
            box_size,
            tray_height: None,
            rounding: Rounding::default(),
            items,
            board: Board::plain(caliper),
            tool: Tool::default(),
            fit: Fit::default(),
            slot: Slot {
                cut: Cut::default(),
                finger: None,
                place: None,
            },
            font_place: None,
            prints: Vec::new(),
            labels: Vec::new(),
            settings: Vec::new(),
            unit: Unit::default(),
            output: Output::default(),
        }
    }

    /// The narrowest slit, relief or window that is cut: as wide as the tool can follow and its kerf; 0 if the job does not
    /// say what the tool can follow.
    pub(crate) fn narrowest_cutout(&self) -> f64 {
        let machine = self.output.machine;
        let wide = |smallest: Length| smallest.mm() + machine.kerf.mm() + FILE_ROUNDING_MM;
        machine.smallest.map_or(0.0, wide)
    }

    /// Whether the piece goes into a box. A piece for no item does not: it only shows how card folds.
    pub fn has_box(&self) -> bool {
        self.box_size != BoxSize::NONE
    }

    /// The required outside depth of the folded tray.
    pub(crate) fn tray_height(&self) -> f64 {
        let usual = self.box_size.depth.mm() - self.fit.around_tray.mm();
        self.tray_height.map_or(usual, Length::mm)
    }

    /// The kind of an item: the index of its line among the lines of items. Repeats of one line share it.
    pub(crate) fn kind_of(&self, item: ItemId) -> usize {
        let firsts = self.items[..=item.index()]
            .iter()
            .filter(|item| item.number == 1);
        firsts.count().saturating_sub(1)
    }

    /// How the opening of an item is cut if the style leaves that to the job.
    pub(crate) fn cut_of(&self, item: &Item) -> Cut {
        item.cut.unwrap_or(self.slot.cut)
    }

    /// Width of the finger notches of an item's opening, if it has notches and is cut out clean.
    pub(crate) fn finger_of(&self, item: &Item) -> Option<f64> {
        item.finger.or(self.slot.finger).map(Length::mm)
    }

    /// The name on an item's line in the job.
    pub(crate) fn line_of(&self, item: ItemId) -> Option<&str> {
        let mut lines = self.items.iter().filter(|item| item.number == 1);
        lines
            .nth(self.kind_of(item))
            .map(|first| first.name.as_str())
    }

    /// An item; none beyond the last.
    pub(crate) fn item(&self, item: ItemId) -> Option<&Item> {
        self.items.get(item.index())
    }
}

/// Radii of the rounded edges inside the box; 0 for square edges.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Rounding {
    /// Of the four upright edges.
    pub corner: Length,
    /// Of the edges between walls and floor.
    pub floor_corner: Length,
}

/// One object that the tray holds.
#[derive(Clone, Debug, PartialEq)]
pub struct Item {
    /// The maker's name for it; repeats carry `.2`, `.3`, ….
    pub name: String,
    /// Its number among the repeats of its line in the job, counted from 1; repeats follow the first in order.
    pub number: usize,
    /// Along the box's length.
    pub length: Length,
    /// Along the box's width.
    pub width: Length,
    /// Upright.
    pub depth: Length,
    /// Its outline seen from above.
    pub shape: ItemShape,
    /// Thickness of the pad under it, 0 for none.
    pub pad: Length,
    /// Height above its underside up to which it has its full outline; none for its whole depth.
    pub straight: Option<Length>,
    /// Whether the maker accepts that it lies loose in the tray.
    pub loose: bool,
    /// How its own opening is cut, if it differs from [`Slot`].
    pub cut: Option<Cut>,
    /// Width of the finger notches of its own opening, if it differs from [`Slot`].
    pub finger: Option<Length>,
    /// Whether it may be rotated by 90° if it does not fit as written.
    pub turns: bool,
    /// The source span of its line.
    pub place: SourceSpan,
}

impl Item {
    /// An item of a size, with defaults for all else.
    pub fn plain(name: &str, [length, width, depth]: [Length; 3]) -> Item {
        Item {
            name: name.to_owned(),
            number: 1,
            length,
            width,
            depth,
            shape: ItemShape::Rectangle,
            pad: Length::ZERO,
            straight: None,
            loose: false,
            cut: None,
            finger: None,
            turns: false,
            place: 0..0,
        }
    }

    /// Height above its underside up to which it has its full outline.
    pub fn straight(&self) -> f64 {
        self.straight.unwrap_or(self.depth).mm()
    }

    /// Whether it is narrower above some height.
    pub(crate) fn tapers(&self) -> bool {
        self.straight() < self.depth.mm()
    }
}

/// A piece of card to cut from.
#[derive(Clone, Debug, PartialEq)]
pub struct StockSheet {
    /// Its name, or its size as the maker wrote it.
    pub name: String,
    /// One side.
    pub width: Length,
    /// The other side.
    pub height: Length,
}

/// Clearances, each a total and not per side.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fit {
    /// Of the tray in its box.
    pub around_tray: Length,
    /// Of the item in its opening.
    pub around_item: Length,
    /// Of a stack of trapped layers.
    pub play: Length,
}

impl Default for Fit {
    /// The clearances of a job that states none.
    // Source: the outside contract of the project (common practice, none published).
    fn default() -> Self {
        Fit {
            around_tray: Length::known(2.0),
            around_item: Length::known(2.0),
            play: Length::known(0.5),
        }
    }
}

/// How openings for items are cut.
#[derive(Clone, Debug, PartialEq)]
pub struct Slot {
    /// The kind of cut.
    pub cut: Cut,
    /// Width of half-round finger notches, if asked for.
    pub finger: Option<Length>,
    /// The source span of its line, if there is one.
    pub place: Option<SourceSpan>,
}

/// The cut kinds of the trade.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Cut {
    /// Four flaps.
    #[default]
    Cross,
    /// Two flaps.
    Doors,
    /// None: cut out clean.
    Open,
}

/// `set "name"=value`: a setting of the style.
#[derive(Clone, Debug, PartialEq)]
pub struct Setting {
    /// The setting's name.
    pub name: String,
    /// The value.
    pub answer: SettingInput,
    /// The source span of name and value.
    pub place: SourceSpan,
}

/// A value as a job can write it.
#[derive(Clone, Debug, PartialEq)]
pub enum SettingInput {
    /// `(mm)3`, `(in)"1/8"`, in mm; the style decides whether it may be negative.
    Length(f64),
    /// `(deg)5`.
    Angle(f64),
    /// `3`.
    Number(f64),
    /// `"long"`.
    Word(String),
    /// `#true`.
    YesNo(bool),
}
