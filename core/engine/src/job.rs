//! What the maker asked for, in plain data with the places of its words.
//!
//! Given by whoever reads a job file: lengths in mm, angles in degrees, all finite and within the job's limits.
//! Never reads a file; a [`SourceSpan`] is a range of bytes in the job's text, kept so that a fault found later can point at it.

pub(crate) mod numbers;

use crate::finding::SourceSpan;
use crate::ids::Id;

pub use traywright_document::{
    BoxSize, DrawnFace, DxfVersion, Grain, ItemShape, Machine, Nicks, Output, Page, Paper, Unit,
};

/// The place of an item in its job.
pub(crate) type ItemId = Id<Item>;

/// One tray to make.
#[derive(Clone, Debug, PartialEq)]
pub struct Job {
    /// What the maker calls the tray.
    pub title: String,
    /// Name of the style.
    pub style: String,
    /// Where the job names it, so that an unknown style can be refused there.
    pub style_place: SourceSpan,
    /// Inside of the box.
    pub box_size: BoxSize,
    /// How the box's edges are rounded.
    pub rounding: Rounding,
    /// The items in the order of the job, repeats written out.
    pub items: Vec<Item>,
    /// The card.
    pub board: Board,
    /// The clearances.
    pub fit: Fit,
    /// How the openings are cut.
    pub slot: Slot,
    /// Where the job names a font, if it does.
    pub font_place: Option<SourceSpan>,
    /// The settings of the style that the job sets.
    pub settings: Vec<Setting>,
    /// The unit in which the maker thinks.
    pub unit: Unit,
    /// What the files need of the job, beside the tray itself; it reaches them untouched.
    pub output: Output,
}

impl Job {
    /// The job that says no more of a tray in a style than the inside of its box, the caliper of its card and its items.
    pub fn plain(style: &str, box_size: BoxSize, caliper: f64, items: Vec<Item>) -> Job {
        Job {
            title: style.to_owned(),
            style: style.to_owned(),
            style_place: 0..0,
            box_size,
            rounding: Rounding::default(),
            items,
            board: Board::plain(caliper),
            fit: Fit::default(),
            slot: Slot {
                cut: Cut::default(),
                finger: None,
                place: None,
            },
            font_place: None,
            settings: Vec::new(),
            unit: Unit::default(),
            output: Output::default(),
        }
    }

    /// The kind of an item: the index of its line among the lines of items. Repeats of one line share it.
    pub(crate) fn kind_of(&self, item: ItemId) -> usize {
        let firsts = self.items[..=item.index()]
            .iter()
            .filter(|item| item.number == 1);
        firsts.count().saturating_sub(1)
    }

    /// An item, if the job has so many.
    pub(crate) fn item(&self, item: ItemId) -> Option<&Item> {
        self.items.get(item.index())
    }
}

/// Radii of the rounded edges inside the box, 0 where they are square.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Rounding {
    /// Of the four upright edges.
    pub corner: f64,
    /// Of the edges between walls and floor.
    pub floor_corner: f64,
}

/// One thing that the tray holds.
#[derive(Clone, Debug, PartialEq)]
pub struct Item {
    /// The maker's name for it; repeats carry `.2`, `.3`, ….
    pub name: String,
    /// Which of the repeats of its line of the job it is, counted from 1; repeats follow the first in order.
    pub number: usize,
    /// Along the box's length.
    pub length: f64,
    /// Along the box's width.
    pub width: f64,
    /// Upright.
    pub depth: f64,
    /// Its outline seen from above.
    pub shape: ItemShape,
    /// Whether it may lie a quarter turn round where it does not fit as written.
    pub turns: bool,
    /// Where the job speaks of it.
    pub place: SourceSpan,
}

impl Item {
    /// A rectangular item of which no more is known than its name, length, width and depth.
    pub fn plain(name: &str, [length, width, depth]: [f64; 3]) -> Item {
        Item {
            name: name.to_owned(),
            number: 1,
            length,
            width,
            depth,
            shape: ItemShape::default(),
            turns: false,
            place: 0..0,
        }
    }
}

/// The card stock.
#[derive(Clone, Debug, PartialEq)]
pub struct Board {
    /// Its name in the list of boards, if the job named one.
    pub name: Option<String>,
    /// Caliper of the card.
    pub caliper: f64,
    /// Height of the fold lines over the middle of the card, towards the inside of the fold.
    pub hinge: f64,
    /// How far the caliper may be off, either way, if known.
    pub tolerance: Option<f64>,
    /// Whether the caliper is only remembered, so that it ought to be measured.
    pub measure_it: bool,
    /// The largest piece at hand, if the job says it.
    pub sheet: Option<StockSheet>,
    /// The way the grain runs in the blank, if the job says it.
    pub grain: Option<Grain>,
}

impl Board {
    /// Card of which nothing but its caliper is known.
    pub fn plain(caliper: f64) -> Board {
        Board {
            name: None,
            caliper,
            hinge: 0.0,
            tolerance: None,
            measure_it: false,
            sheet: None,
            grain: None,
        }
    }
}

/// A piece of card to cut from.
#[derive(Clone, Debug, PartialEq)]
pub struct StockSheet {
    /// Its name, or its size as the maker wrote it.
    pub name: String,
    /// One side.
    pub width: f64,
    /// The other side.
    pub height: f64,
}

/// Clearances, each a total and not per side.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fit {
    /// Of the tray in the box.
    pub around_tray: f64,
    /// Of the item in its opening.
    pub around_item: f64,
    /// Of a stack of trapped layers.
    pub play: f64,
}

impl Default for Fit {
    /// The clearances of a job that gives none.
    // Source: the outside contract of the project (common practice, none published).
    fn default() -> Self {
        Fit {
            around_tray: 2.0,
            around_item: 2.0,
            play: 0.5,
        }
    }
}

/// How openings for items are cut.
#[derive(Clone, Debug, PartialEq)]
pub struct Slot {
    /// The kind of cut.
    pub cut: Cut,
    /// Width of half-round finger notches, if asked for.
    pub finger: Option<f64>,
    /// Where the job speaks of it, if it does.
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
    /// The answer.
    pub answer: SettingInput,
    /// Where the job says it, name and value.
    pub place: SourceSpan,
}

/// A value as a job can write it.
#[derive(Clone, Debug, PartialEq)]
pub enum SettingInput {
    /// `(mm)3`, `(in)"1/8"`.
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
