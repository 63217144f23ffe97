//! The items: their sizes, where they lie, and what holds them.

use serde::{Deserialize, Serialize};

use crate::Document;
use crate::plane::Point;

/// One thing that the tray holds.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Item {
    /// The maker's name for it; repeats carry `.2`, `.3`, ….
    pub name: String,
    /// Which line of the job it comes from, counted from 0; the repeats of one line share it.
    pub kind: usize,
    /// Which of the items of its kind it is, counted from 1.
    pub number: usize,
    /// Along the box's length.
    pub length: f64,
    /// Along the box's width.
    pub width: f64,
    /// Upright.
    pub depth: f64,
    /// The middle of its opening in the flat frame, if the style gives it one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub middle: Option<Point>,
    /// The panel with that opening, by its index.
    #[serde(default)]
    pub panel: usize,
    /// Its outline seen from above.
    #[serde(default)]
    pub shape: ItemShape,
    /// How high its underside lies over the bare surface on which items stand: its pad, and card that lies flat under it.
    #[serde(default)]
    pub rest: f64,
    /// Thickness of the pad under it, 0 for none.
    #[serde(default)]
    pub pad: f64,
    /// The height from its underside up to which it keeps its outline; none if up to its top.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub straight: Option<f64>,
    /// Whether it may lie loose in the tray, as its maker wishes.
    #[serde(default, skip_serializing_if = "is_false")]
    pub loose: bool,
    /// Whether it lies a quarter turn from how the job writes it; length and width are as it lies.
    #[serde(default, skip_serializing_if = "is_false")]
    pub turned: bool,
    /// How the folded tray holds it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub held: Option<Held>,
}

/// How a folded tray holds an item. Heights are mm over the surface on which items stand if no card lies under them.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Held {
    /// What stops it along the box.
    pub along: Stop,
    /// What stops it across the box.
    pub across: Stop,
    /// How far it can go up.
    pub rise: f64,
    /// The face of the panel around it; none for an item between fences.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub deck: Option<f64>,
    /// The pads that would do, if no pad is as good; none where no pad holds it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub pads: Option<Pads>,
}

/// What stops an item along one side of the box, on the end where it bears least.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Stop {
    /// What it is.
    pub by: Holder,
    /// Between which heights it and the item meet.
    pub heights: [f64; 2],
    /// How far the item goes to and fro.
    pub travel: f64,
    /// Whether it gives nothing when the item pushes it.
    pub firm: bool,
}

/// What stops an item.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub enum Holder {
    /// The edge of the panel around it.
    Edge,
    /// Flaps that hang from the edges of its opening.
    Flaps,
    /// Fences that stand up from the floor.
    Fences,
    /// Another panel.
    Panel,
    /// The walls of the box.
    Box,
    /// Nothing: it slides further than its play.
    Nothing,
    /// Something of a later release.
    #[serde(other)]
    Other,
}

/// The pads that an item can have, in mm.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Pads {
    /// The thinnest that holds the item and lets it be gripped.
    pub least: f64,
    /// The thickest that goes in under the lid.
    pub most: f64,
    /// The one to name; none where the item is held and gripped without.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub named: Option<f64>,
}

impl Document {
    /// The first item of each kind, in the order of the job, with how many there are of it.
    pub fn kinds(&self) -> impl Iterator<Item = (&Item, usize)> {
        let count = |kind: usize| self.items.iter().filter(|item| item.kind == kind).count();
        let firsts = self.items.iter().filter(|item| item.number == 1);
        firsts.map(move |first| (first, count(first.kind)))
    }

    /// The same of those that lie on a pad.
    pub fn kinds_on_pads(&self) -> impl Iterator<Item = (&Item, usize)> {
        self.kinds().filter(|(item, _)| item.pad > 0.0)
    }
}

pub(crate) fn is_false(truth: &bool) -> bool {
    !truth
}

/// The outline of an item seen from above.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub enum ItemShape {
    /// Four corners.
    #[default]
    Rectangle,
    /// An ellipse.
    Oval,
    /// A circle.
    Round,
    /// A shape of a later release: length and width are those of the rectangle around it.
    #[serde(other)]
    Other,
}
