//! The finished tray, or a sheet of blanks, in plain data, and the C interface for exporters.
//!
//! Every exporter may rely on these promises of a [`Document`]:
//! - every number is finite; lengths are millimetres, angles degrees;
//! - the flat frame has y up, x along the box's length, z out of the drawn face;
//! - the outline comes first and runs counter-clockwise, holes run clockwise, and nothing is drawn twice (on a
//!   sheet of stock the edges of its blanks stand among the holes, counter-clockwise);
//! - names are the style's own, words are ready to print: of hidden characters (`is_hidden`) they have none.
//!
//! It does not describe how a tray is designed: an exporter knows lines, panels, poses and steps, and no rule of
//! folding. Fields are public and only ever added within one [`SCHEMA`]; a reader ignores fields that it does not know.

#![warn(missing_docs)]

mod board;
pub mod cutting;
pub mod edge;
#[cfg(feature = "example")]
pub mod example;
pub mod export_error;
pub mod flat;
mod gaps;
mod hidden;
pub mod items;
mod length;
mod open;
pub mod output;
mod panel_label;
pub mod panels;
pub mod parts;
mod perforation;
mod picture;
pub mod plane;
pub mod plugin_api;
pub mod sheet;
pub mod space;
pub mod stages;
pub mod standing;
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
pub use hidden::{is_hidden, seen};
pub use items::{Held, Holder, Item, ItemShape, Pads, Stop};
pub use length::{Length, NotALength};
pub use open::Unknown;
pub use output::{DrawnFace, DxfVersion, FileLines, Machine, Nicks, Output, Page, Paper};
pub use panel_label::{PanelLabel, PrintedFace};
pub use panels::{Hinge, Interlock, Panel, Pose};
pub use parts::PartKind;
pub use perforation::Perforation;
pub use picture::{PanelPicture, PngFile};
pub use plane::{Extent, Point, TOUCH_MM, Vector};
pub use sheet::{LaidBlank, NestedBlank, Placement, Turn};
pub use stages::Stage;
pub use standing::Resting;
pub use steps::{Action, Move, Step};
pub use tool::{Tool, ToolKind};

/// The version of the document's shape, read before anything else. It is not a release number: it changes only when a
/// field changes its meaning or is removed.
pub const SCHEMA: u32 = 2;

/// One finished tray: all that an exporter gets.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Document {
    /// The tray's name; the stem of the job's file name if the job gives no name.
    pub title: String,
    /// Name of the style.
    pub style: String,
    /// The card.
    pub board: Board,
    /// The tool that creases and cuts it.
    #[serde(default)]
    pub tool: Tool,
    /// The box, inside; [`BoxSize::NONE`] for a piece without a box.
    pub box_size: BoxSize,
    /// The items in the order of the job, one entry per opening.
    pub items: Vec<Item>,
    /// The maker's unit. Numbers in the document are millimetres all the same.
    pub unit: Unit,
    /// Values of the job that only the files need.
    pub output: Output,
    /// Orientation of the folded tray in its box.
    #[serde(default)]
    pub stands: Orientation,
    /// The coarsest ruler step to which a maker may round the positions of corners and of the ends of creases, counted
    /// from the left and the lower edge of the blank with [`rounded`], with which the tray was checked to fold and fit.
    /// None if no step passes, or if the program did not search, as for a report (`CheckedTray::unrounded` of the
    /// engine). A round edge keeps its bulge between its rounded ends, and a closed run of arcs alone moves as a whole,
    /// by as much as the middle of its corners moves when rounded.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub hand_step: Option<f64>,
    /// The blank before folding.
    pub flat: Flat,
    /// The panels, the root first and every parent before its children.
    pub panels: Vec<Panel>,
    /// The tongues and their slits.
    #[serde(default)]
    pub interlocks: Vec<Interlock>,
    /// Whether a tongue, or an edge that jams against another panel, is smaller than the tool can cut: then it holds by
    /// friction at most.
    #[serde(default, skip_serializing_if = "items::is_false")]
    pub friction: bool,
    /// The warnings of the check, a few English words each, the gravest first.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub warnings: Vec<String>,
    /// The actions of the hands, in order.
    pub steps: Vec<Step>,
    /// The measures of the report.
    pub measures: Vec<Measure>,
    /// The lines of the blank in the order of a machine.
    #[serde(default)]
    pub toolpaths: Vec<Toolpath>,
    /// The blanks that lie on a sheet of stock, if the document is such a sheet and not one tray. Then the outline is the
    /// edge of the stock, which nobody cuts, and the edges of the blanks stand among the holes, counter-clockwise; there
    /// are no panels, items and steps, and the panel of a crease is none of them.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub nested: Vec<NestedBlank>,
}

impl Document {
    /// Whether the piece goes into a box. A piece for no item does not: it only shows how card folds.
    pub fn has_box(&self) -> bool {
        self.box_size != BoxSize::NONE
    }

    /// Its toolpaths; if the program did not order them, the lines in the blank's order.
    pub fn all_toolpaths(&self) -> Vec<Toolpath> {
        if self.toolpaths.is_empty() {
            self.flat.toolpaths()
        } else {
            self.toolpaths.clone()
        }
    }

    /// Whether SVG and DXF have nothing but the lines that are cut and creased.
    pub fn has_bare_lines(&self) -> bool {
        self.output.machine.lines == FileLines::Bare
    }

    /// The step in which a crease is made: creased, or perforated if the job asks for it.
    pub fn step_of(&self, crease: &CreaseLine) -> ProcessingStep {
        match self.output.machine.perforation {
            Some(_) => crease.step().perforated(),
            None => crease.step(),
        }
    }

    /// The steps in which its lines are made, in the order of the work, whether it has such lines or not.
    pub fn work_steps(&self) -> [ProcessingStep; 3] {
        let folds = [ProcessingStep::Creasing, ProcessingStep::ReverseCreasing];
        let [inwards, outwards] = match self.output.machine.perforation {
            Some(_) => folds.map(ProcessingStep::perforated),
            None => folds,
        };
        [inwards, outwards, ProcessingStep::Cutting]
    }

    /// Extent of the blank and of its toolpaths: the blank's own, or wider by the kerf.
    pub fn cut_extent(&self) -> Extent {
        let paths = self.all_toolpaths();
        let extents = paths.iter().map(|path| path.contour.extent());
        extents.fold(self.flat.extent, Extent::with)
    }
}

/// Inside dimensions of the box.
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
    /// No box.
    pub const NONE: BoxSize = BoxSize {
        length: Length::ZERO,
        width: Length::ZERO,
        depth: Length::ZERO,
    };
}

/// The unit in which the maker reads lengths.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Unit {
    /// Millimetres.
    #[default]
    Millimetre,
    /// Inches of exactly 25.4 mm.
    Inch,
}

/// A distance from an edge of the blank, rounded to a step; halves up, tolerating rounding errors.
pub fn rounded(side: f64, step: f64) -> f64 {
    (side / step + 0.5 + 1e-6).floor() * step
}

impl Unit {
    /// The steps of rulers to which a maker may round, the coarser first, in mm: the finest common marks, and half of
    /// them by eye.
    // Source: common practice, none published.
    pub const fn ruler_steps(self) -> [f64; 2] {
        match self {
            Unit::Millimetre => [0.5, 0.25],
            Unit::Inch => [25.4 / 32.0, 25.4 / 64.0],
        }
    }

    /// Length of a check bar in mm, suited to a ruler of the unit.
    // Source: core/CONTRACT.md, "Files: PDF".
    pub const fn check_bar(self) -> f64 {
        match self {
            Unit::Millimetre => 100.0,
            Unit::Inch => 4.0 * 25.4,
        }
    }

    /// The sign after a number.
    pub fn sign(self) -> &'static str {
        match self {
            Unit::Millimetre => "mm",
            Unit::Inch => "in",
        }
    }

    /// A length given in mm as a number of this unit, without its sign: two decimals of a millimetre, three of an inch,
    /// half up despite rounding errors, without trailing zeros.
    pub fn figure(self, length_mm: f64) -> String {
        let (length, scale) = match self {
            Unit::Millimetre => (length_mm, 1e2),
            // Source: 1 in = 25.4 mm exactly (international yard, 1959).
            Unit::Inch => (length_mm / 25.4, 1e3),
        };
        let rounded = ((length * scale * 1e6).round() / 1e6).round() / scale;
        // Adding 0 turns -0 into 0.
        (rounded + 0.0).to_string()
    }
}

/// Orientation of the folded tray in its box.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Orientation {
    /// On its walls: the root panel is on top, and the items go down through it.
    #[default]
    RootUp,
    /// On its root panel, which carries the items.
    RootDown,
}

/// One measure of the report.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Measure {
    /// Name, in snake case; names of measures of an item end in `.ITEM`.
    pub name: String,
    /// Its length in mm.
    pub value: f64,
}
