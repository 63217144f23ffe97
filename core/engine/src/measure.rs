//! The measures of a report, under the contract's names.
// Source: core/CONTRACT.md, "check --format json".

use std::fmt::{self, Display};

/// One length of a report, in mm.
#[derive(Clone, Debug, PartialEq)]
pub struct Measure {
    /// The part that it measures.
    pub of: Measured,
    /// The length.
    pub value: f64,
}

impl Measure {
    /// A measure of the tray, its box or its blank.
    pub(crate) fn of_tray(measure: TrayMeasure, value: f64) -> Measure {
        Measure {
            of: Measured::Tray(measure),
            value,
        }
    }
}

/// The part that a measure is about. It prints as the name in a report.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Measured {
    /// The tray, its box or its blank.
    Tray(TrayMeasure),
    /// A measure that the style names.
    Style(String),
    /// A field with several arranged openings.
    Field {
        /// The opening's name in the style, if the tray has several fields.
        opening: Option<String>,
        /// The length of the field.
        measure: FieldMeasure,
    },
    /// An item and its opening.
    Item {
        /// The length of the item or its opening.
        measure: ItemMeasure,
        /// The item, counted from 0 in the order of the job.
        item: usize,
        /// The item's name.
        name: String,
    },
}

/// An enum of measures with their printed names.
macro_rules! names {
    ($(#[$about:meta])* $enum:ident { $($(#[$doc:meta])* $variant:ident = $name:literal,)* }) => {
        $(#[$about])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
        pub enum $enum { $($(#[$doc])* $variant,)* }

        impl $enum {
            /// Its name in a report.
            pub fn name(self) -> &'static str {
                match self { $($enum::$variant => $name,)* }
            }
        }
    };
}

names! {
    /// Lengths of every tray, in the order of a report.
    TrayMeasure {
        /// The root panel along the box's length, crease to crease.
        DeckLength = "deck_length",
        /// The root panel along the box's width, crease to crease.
        DeckWidth = "deck_width",
        /// The folded tray along the box's length, outside.
        FoldedLength = "folded_length",
        /// The folded tray along the box's width, outside.
        FoldedWidth = "folded_width",
        /// The folded tray's depth, outside.
        FoldedDepth = "folded_depth",
        /// Clearance in the box along its length, in all.
        BoxClearanceLength = "box_clearance_length",
        /// Clearance in the box along its width, in all.
        BoxClearanceWidth = "box_clearance_width",
        /// Clearance in the box under the lid.
        BoxClearanceDepth = "box_clearance_depth",
        /// The blank along the box's length.
        BlankLength = "blank_length",
        /// The blank along the box's width.
        BlankWidth = "blank_width",
    }
}

names! {
    /// Lengths of a field in which openings are arranged.
    FieldMeasure {
        /// Along the box's length.
        Length = "field_length",
        /// Along the box's width.
        Width = "field_width",
        /// The narrowest card between two openings.
        LeastWeb = "least_web",
    }
}

names! {
    /// Lengths of an item and its opening.
    ItemMeasure {
        /// The item along the box's length, in its orientation in the tray.
        ItemLength = "item_length",
        /// The item along the box's width, in its orientation in the tray.
        ItemWidth = "item_width",
        /// The opening along the box's length, crease to crease.
        SlotLength = "slot_length",
        /// The opening along the box's width, crease to crease.
        SlotWidth = "slot_width",
        /// The opening between the folded flaps along the box's length.
        ClearLength = "clear_length",
        /// The opening between the folded flaps along the box's width.
        ClearWidth = "clear_width",
        /// The smaller clearance of the item between the folded flaps.
        Play = "play",
        /// How far the item's top lies below the deck; negative above it.
        BelowDeck = "below_deck",
        /// The pad under the item.
        Pad = "pad",
        /// How far the item can rise.
        Rise = "rise",
        /// How far the item can move along the box, to and fro.
        TravelLength = "travel_length",
        /// How far the item can move across the box, to and fro.
        TravelWidth = "travel_width",
        /// Contact height of the stop along the box; 0 if the item slides.
        BearsLength = "bears_length",
        /// Contact height of the stop across the box; 0 if the item slides.
        BearsWidth = "bears_width",
        /// Depth of the flaps at its ends, which stop it along the box.
        FlapEnds = "flap_ends",
        /// Depth of the flaps at its sides, which stop it across the box.
        FlapSides = "flap_sides",
        /// Depth of the deepest flaps.
        FlapDepth = "flap_depth",
        /// Maximum depth of the flaps.
        FlapLimit = "flap_limit",
    }
}

/// The style's measure that every style names: the side wall, flat.
pub(crate) const WALL_HEIGHT: &str = "wall_height";

impl Measured {
    /// Whether it is the height of the side wall, which every style names.
    pub fn is_wall_height(&self) -> bool {
        matches!(self, Measured::Style(name) if name == WALL_HEIGHT)
    }

    /// Its position in a report: the tray's promised measures, the style's own, then those of the items.
    pub(crate) fn rank(&self) -> usize {
        match self {
            Measured::Tray(measure) if *measure <= TrayMeasure::DeckWidth => 0,
            of if of.is_wall_height() => 1,
            Measured::Tray(_) => 2,
            Measured::Style(_) | Measured::Field { .. } => 3,
            Measured::Item { .. } => 4,
        }
    }
}

impl Display for Measured {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Measured::Tray(measure) => out.write_str(measure.name()),
            Measured::Style(name) => out.write_str(name),
            Measured::Field {
                opening: Some(opening),
                measure,
            } => write!(out, "{opening}_{}", measure.name()),
            Measured::Field {
                opening: None,
                measure,
            } => out.write_str(measure.name()),
            Measured::Item { measure, name, .. } => write!(out, "{}.{name}", measure.name()),
        }
    }
}
