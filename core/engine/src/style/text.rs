//! The shape of a style's file, field by field: what an author can write, without its meaning.
//!
//! Every field with a formula is [`Written`], every name a [`Name`]; text for the maker is a plain string.
//! The reader rejects unknown fields and variants with their line and column.

use serde::Deserialize;

use super::either::{Inset, ItemCount, OneOrMore};
use super::written::{Entries, Name, Written};
use crate::ids::Id;

pub(crate) type SettingId = Id<SettingEntry>;
pub(crate) type ValueId = Id<Written>;
pub(crate) type FallbackId = Id<Entries<Written>>;
pub(crate) type PanelEntryId = Id<PanelEntry>;
pub(crate) type OpeningEntryId = Id<OpeningEntry>;
pub(crate) type TongueId = Id<TongueEntry>;

/// The version of the style language that this engine reads.
pub(crate) const LANGUAGE: u32 = 1;

/// A whole file.
#[derive(Clone, Debug, Deserialize)]
#[serde(rename = "Style", deny_unknown_fields)]
pub(crate) struct StyleFile {
    pub(crate) language: u32,
    pub(crate) about: String,
    #[serde(default)]
    pub(crate) items: ItemCount,
    #[serde(default)]
    pub(crate) stands: Orientation,
    #[serde(default)]
    pub(crate) fills: Vec<Direction>,
    #[serde(default)]
    pub(crate) settings: Entries<SettingEntry>,
    #[serde(default)]
    pub(crate) values: Entries<Written>,
    #[serde(default)]
    pub(crate) fallbacks: Entries<Entries<Written>>,
    pub(crate) panels: Entries<PanelEntry>,
    #[serde(default)]
    pub(crate) openings: Entries<OpeningEntry>,
    #[serde(default)]
    pub(crate) tongues: Entries<TongueEntry>,
    #[serde(default)]
    pub(crate) rules: Entries<RuleEntry>,
    #[serde(default)]
    pub(crate) measures: Entries<Written>,
    #[serde(default)]
    pub(crate) steps: Vec<StepEntry>,
}

/// Orientation of the folded tray in its box.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Deserialize)]
pub(crate) enum Orientation {
    #[default]
    RootUp,
    RootDown,
}

/// A direction of the box.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
pub(crate) enum Direction {
    Length,
    Width,
    Depth,
}

/// A question to the maker, with its default and range.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) enum SettingEntry {
    Length {
        default: Written,
        min: Written,
        max: Written,
        question: String,
    },
    Angle {
        default: Written,
        min: Written,
        max: Written,
        question: String,
    },
    Number {
        default: Written,
        min: Written,
        max: Written,
        question: String,
    },
    Choice {
        default: Name,
        of: Vec<Name>,
        question: String,
    },
    YesNo {
        default: bool,
        question: String,
    },
}

/// A size, and how it is measured.
#[derive(Clone, Debug, Deserialize)]
pub(crate) enum Size {
    Outside(Written),
    Inside(Written),
    Flat(Written),
}

/// How the corners of a free polygon are measured.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Deserialize)]
pub(crate) enum MeasuredOn {
    Outside,
    Inside,
    #[default]
    Flat,
}

/// A panel.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) enum PanelEntry {
    Rectangle {
        length: Size,
        width: Size,
    },
    Regular {
        sides: usize,
        across: Size,
        edges: Vec<Name>,
    },
    Polygon {
        corners: Vec<(Name, Written, Written)>,
        #[serde(default)]
        measured: MeasuredOn,
    },
    Hinged(Box<HingedEntry>),
}

/// A panel that is hinged to another one.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct HingedEntry {
    pub(crate) on: OneOrMore,
    pub(crate) when: Option<Written>,
    #[serde(default)]
    pub(crate) inset: Inset,
    pub(crate) span: Option<Written>,
    pub(crate) reach: Option<Size>,
    #[serde(default)]
    pub(crate) sense: Sense,
    pub(crate) angle: Option<Written>,
    pub(crate) overhang: Option<Written>,
    #[serde(default)]
    pub(crate) trim: Entries<Trim>,
    pub(crate) outline: Option<Vec<(Name, Written, Written)>>,
}

/// The direction in which a crease folds.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Deserialize)]
pub(crate) enum Sense {
    #[default]
    Valley,
    Mountain,
}

/// A part trimmed off an edge or a corner.
#[derive(Clone, Debug, Deserialize)]
pub(crate) enum Trim {
    Taper(Written),
    Chamfer(Written),
    Notch(Written, Written),
}

/// An opening in a panel.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) enum OpeningEntry {
    Slot(Box<SlotEntry>),
    Hole(Box<HoleEntry>),
    ThumbNotch(Box<ThumbNotchEntry>),
}

impl OpeningEntry {
    /// The condition under which it exists, if it has one.
    pub(crate) fn when(&self) -> Option<&Written> {
        match self {
            OpeningEntry::Slot(slot) => slot.when.as_ref(),
            OpeningEntry::Hole(hole) => hole.when.as_ref(),
            OpeningEntry::ThumbNotch(notch) => notch.when.as_ref(),
        }
    }

    /// Length and width, if the style states them: a slot may take them from its item, a thumb notch has a radius.
    pub(crate) fn size(&self) -> Option<&(Written, Written)> {
        match self {
            OpeningEntry::Slot(slot) => slot.size.as_ref(),
            OpeningEntry::Hole(hole) => Some(&hole.size),
            OpeningEntry::ThumbNotch(_) => None,
        }
    }

    /// The position of its middle, if the style states it; a thumb notch is in an edge.
    pub(crate) fn at(&self) -> Option<&(Written, Written)> {
        match self {
            OpeningEntry::Slot(slot) => slot.at.as_ref(),
            OpeningEntry::Hole(hole) => hole.at.as_ref(),
            OpeningEntry::ThumbNotch(_) => None,
        }
    }
}

/// A fixed hole.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct HoleEntry {
    pub(crate) on: Name,
    pub(crate) when: Option<Written>,
    pub(crate) size: (Written, Written),
    pub(crate) at: Option<(Written, Written)>,
    #[serde(default)]
    pub(crate) shape: HoleShape,
}

/// A half-round notch in an edge.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct ThumbNotchEntry {
    pub(crate) on: Name,
    pub(crate) when: Option<Written>,
    pub(crate) radius: Written,
    pub(crate) at: Option<Written>,
}

/// Openings for items.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct SlotEntry {
    pub(crate) on: Name,
    pub(crate) when: Option<Written>,
    pub(crate) item: Option<usize>,
    pub(crate) size: Option<(Written, Written)>,
    pub(crate) place: Option<SlotPlace>,
    pub(crate) at: Option<(Written, Written)>,
    #[serde(default)]
    pub(crate) stacks: Entries<Written>,
    #[serde(default)]
    pub(crate) cut: SlotCut,
    pub(crate) max_item_depth: Option<Written>,
    pub(crate) max_flap_depth: Option<Size>,
}

/// Arrangement of openings without `at`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
pub(crate) enum SlotPlace {
    Centred,
    Rows,
}

/// How an opening for an item is cut.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Deserialize)]
pub(crate) enum SlotCut {
    #[default]
    Job,
    Open,
    Uncut,
}

/// The shape of a fixed hole.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Deserialize)]
pub(crate) enum HoleShape {
    #[default]
    Rectangle,
    Oval,
}

/// A tongue of one panel in a slit of another.
#[derive(Clone, Debug, Deserialize)]
#[serde(rename = "Tongue", deny_unknown_fields)]
pub(crate) struct TongueEntry {
    pub(crate) on: Name,
    pub(crate) into: Name,
    pub(crate) when: Option<Written>,
    #[serde(default = "one")]
    pub(crate) count: usize,
    pub(crate) spacing: Option<Written>,
    pub(crate) width: Written,
    pub(crate) length: Written,
    pub(crate) taper: Option<Written>,
    pub(crate) chamfer: Option<Written>,
    pub(crate) play: Option<Written>,
}

fn one() -> usize {
    1
}

/// A rule of the style's own.
#[derive(Clone, Debug, Deserialize)]
pub(crate) enum RuleEntry {
    Error(RuleText),
    Warning(RuleText),
    Note(RuleText),
}

/// The condition of a rule, and its sentences.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct RuleText {
    pub(crate) need: Option<Written>,
    pub(crate) when: Option<Written>,
    pub(crate) value: Option<Written>,
    pub(crate) limit: Option<Written>,
    pub(crate) at: Option<Name>,
    pub(crate) message: String,
    pub(crate) fix: Option<String>,
}

/// A group of folds, or another action.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) enum StepEntry {
    Fold {
        each: Option<Name>,
        panels: Entries<String>,
        #[serde(default)]
        why: String,
    },
    Flaps {
        text: String,
        #[serde(default)]
        why: String,
    },
    Turn {
        text: String,
    },
    Place {
        text: String,
    },
}
