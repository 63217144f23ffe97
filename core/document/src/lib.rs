//! The finished tray in plain data, and the C door through which it leaves.
//!
//! The promise of a [`Document`], which every exporter may rely on:
//! - every number is finite; lengths are millimetres, angles degrees;
//! - the flat frame has y up, x along the box's length, z out of the drawn face;
//! - the outline comes first and runs counter-clockwise, holes run clockwise, and nothing is drawn twice;
//! - names are the style's own, words are ready to print.
//!
//! It never says how a tray is designed: an exporter knows lines, panels, poses and steps, and no rule of folding.
//! Fields are public and only ever added within one [`SCHEMA`]; a reader ignores what it does not know.

#![warn(missing_docs)]

mod board;
pub mod cutting;
pub mod edge;
#[cfg(feature = "example")]
pub mod example;
pub mod export_error;
pub mod flat;
mod gaps;
pub mod items;
mod length;
mod open;
pub mod output;
pub mod panels;
pub mod parts;
pub mod plane;
pub mod plugin_api;
pub mod space;
pub mod stages;
pub mod steady;
pub mod steps;
mod tool;
pub mod wire;

use serde::{Deserialize, Serialize};

pub use board::{Board, BoardKind, CreaseKind, Grain};
pub use cutting::{Part, Toolpath};
pub use edge::{Arc, Chords, Edge};
pub use export_error::{ExportError, PageError, SheetCount};
pub use flat::{Contour, CreaseLine, Dimension, Flat, Label, ProcessingStep, Segment};
pub use gaps::filled;
pub use items::{Held, Holder, Item, ItemShape, Pads, Stop};
pub use length::{Length, NotALength};
pub use open::Unknown;
pub use output::{DrawnFace, DxfVersion, Machine, Nicks, Output, Page, Paper};
pub use panels::{Hinge, Interlock, Panel, Pose};
pub use parts::PartKind;
pub use plane::{Extent, Point, TOUCH_MM, Vector};
pub use stages::Stage;
pub use steps::{Action, Move, Step};
pub use tool::{Tool, ToolKind};

/// The number of the document's shape, read before anything else. It is no release number: it changes when a field
/// changes its meaning or goes, and for nothing else.
pub const SCHEMA: u32 = 2;

/// One finished tray: all that an exporter is told.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Document {
    /// What the maker calls the tray; the stem of the job's file when the job gives no name.
    pub title: String,
    /// Name of the style.
    pub style: String,
    /// The card.
    pub board: Board,
    /// What creases and cuts it.
    #[serde(default)]
    pub tool: Tool,
    /// The box, inside; [`BoxSize::NONE`] for a piece that goes into none.
    pub box_size: BoxSize,
    /// The items in the order of the job, one entry an opening.
    pub items: Vec<Item>,
    /// The unit in which the maker thinks. Numbers here are millimetres all the same.
    pub unit: Unit,
    /// What the files need of the job, beside the tray itself.
    pub output: Output,
    /// How the folded tray stands in its box.
    #[serde(default)]
    pub stands: Orientation,
    /// The coarsest step to which a maker with a ruler may round the places of corners and of the ends of creases, counted
    /// from the left and the lower edge of the blank with [`rounded`], so that the tray was proved to fold and fit still;
    /// none where no step passes, and none in a document of which the program asked for no search, as it does for a report
    /// (`CheckedTray::unrounded` of the engine). A round edge keeps its bulge between its rounded ends, and a closed run of arcs
    /// alone moves as a whole, by what the middle of its corners moves when it is rounded.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub hand_step: Option<f64>,
    /// The blank before folding.
    pub flat: Flat,
    /// The panels, the root first and every parent before its children.
    pub panels: Vec<Panel>,
    /// The tongues and their slits.
    #[serde(default)]
    pub interlocks: Vec<Interlock>,
    /// Whether a tongue, or an edge that jams against another panel, is smaller than what the tool can cut: then friction
    /// holds it at most.
    #[serde(default, skip_serializing_if = "items::is_false")]
    pub friction: bool,
    /// What the check warns of, a few English words each, the gravest first.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub warnings: Vec<String>,
    /// What the hands do, in order.
    pub steps: Vec<Step>,
    /// The figures of the report.
    pub measures: Vec<Measure>,
    /// The lines of the blank as a machine works along them, in order.
    #[serde(default)]
    pub toolpaths: Vec<Toolpath>,
}

impl Document {
    /// Whether the piece goes into a box. One that takes no item does not: it only shows how card folds.
    pub fn has_box(&self) -> bool {
        self.box_size != BoxSize::NONE
    }

    /// Its toolpaths; from a program that did not put them in order, the lines as they stand.
    pub fn all_toolpaths(&self) -> Vec<Toolpath> {
        if self.toolpaths.is_empty() {
            self.flat.toolpaths()
        } else {
            self.toolpaths.clone()
        }
    }
}

/// Inside measures of the box.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct BoxSize {
    /// The longer side of the opening.
    pub length: Length,
    /// The shorter side of the opening.
    pub width: Length,
    /// From the floor to the underside of the closed lid.
    pub depth: Length,
}

impl BoxSize {
    /// No box at all.
    pub const NONE: BoxSize = BoxSize {
        length: Length::ZERO,
        width: Length::ZERO,
        depth: Length::ZERO,
    };
}

/// The unit in which lengths are read out to the maker.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Unit {
    /// Millimetres.
    #[default]
    Millimetre,
    /// Inches of exactly 25.4 mm.
    Inch,
}

/// A place counted from an edge of the blank, rounded to a step; halves up, whatever the noise of arithmetic.
pub fn rounded(side: f64, step: f64) -> f64 {
    (side / step + 0.5 + 1e-6).floor() * step
}

impl Unit {
    /// The marks of rulers to which a maker may round, the coarser first, in mm: the finest common ones, and half of them
    /// by eye.
    // Source: common practice, none published.
    pub const fn ruler_steps(self) -> [f64; 2] {
        match self {
            Unit::Millimetre => [0.5, 0.25],
            Unit::Inch => [25.4 / 32.0, 25.4 / 64.0],
        }
    }

    /// Length of a check bar in mm: what a ruler of the unit shows well.
    // Source: core/CONTRACT.md, "Files: PDF".
    pub const fn check_bar(self) -> f64 {
        match self {
            Unit::Millimetre => 100.0,
            Unit::Inch => 4.0 * 25.4,
        }
    }

    /// The sign behind a figure.
    pub fn sign(self) -> &'static str {
        match self {
            Unit::Millimetre => "mm",
            Unit::Inch => "in",
        }
    }

    /// A length given in mm as a figure of this unit, without its sign: two decimals of a millimetre, three of an inch,
    /// half up whatever the noise of arithmetic, without zeros that say nothing.
    pub fn figure(self, length_mm: f64) -> String {
        let (length, scale) = match self {
            Unit::Millimetre => (length_mm, 1e2),
            // Source: 1 in = 25.4 mm exactly (international yard, 1959).
            Unit::Inch => (length_mm / 25.4, 1e3),
        };
        let rounded = ((length * scale * 1e6).round() / 1e6).round() / scale;
        // Adding 0 makes a zero of a negative one.
        (rounded + 0.0).to_string()
    }
}

/// How the folded tray stands in its box.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Orientation {
    /// On its walls: the root panel is on top, and the items go down through it.
    #[default]
    RootUp,
    /// On its root panel, which carries the items.
    RootDown,
}

/// One figure of the report.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Measure {
    /// Name, in snake case; figures about an item end in `.ITEM`.
    pub name: String,
    /// Its length in mm.
    pub value: f64,
}
