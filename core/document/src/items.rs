//! The items: their sizes, their positions, and their stops.

use serde::{Deserialize, Serialize};

use crate::Document;
use crate::plane::Point;

/// One thing that the tray holds.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Item {
    /// The maker's name for it; repeats carry `.2`, `.3`, ….
    pub name: String,
    /// Index of its line in the job, from 0; the repeats of one line share it.
    pub kind: usize,
    /// Its number among the items of its kind, counted from 1.
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
    /// Height of its underside over the bare floor on which items stand: its pad, and flat card under it.
    #[serde(default)]
    pub rest: f64,
    /// Thickness of the pad under it, 0 for none.
    #[serde(default)]
    pub pad: f64,
    /// Height above its underside up to which it has its full outline; none for its whole depth.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub straight: Option<f64>,
    /// Whether the maker accepts that it lies loose in the tray.
    #[serde(default, skip_serializing_if = "is_false")]
    pub loose: bool,
    /// Whether it is rotated by 90° from how the job writes it; length and width are as it lies.
    #[serde(default, skip_serializing_if = "is_false")]
    pub turned: bool,
    /// How the folded tray holds it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub held: Option<Held>,
}

/// How a folded tray holds an item. Heights in mm over the floor on which items stand without card under them.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Held {
    /// Its stop along the box.
    pub along: Stop,
    /// Its stop across the box.
    pub across: Stop,
    /// How far it can rise.
    pub rise: f64,
    /// Height of the top of the panel around it; none for an item between fences.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub deck: Option<f64>,
    /// The possible pads, if having no pad is as good; none if no pad holds it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub pads: Option<Pads>,
}

/// The stop of an item along one axis of the box, on the end with the smaller contact height.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Stop {
    /// The kind of stop.
    pub by: Holder,
    /// Lowest and highest point of its contact with the item.
    pub heights: [f64; 2],
    /// How far the item can move to and fro.
    pub travel: f64,
    /// Whether it is rigid when the item pushes it.
    pub firm: bool,
}

/// The kinds of stop.
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
    /// None: it slides further than its clearance.
    Nothing,
    /// A kind of a later release.
    #[serde(other)]
    Other,
}

/// The possible pads of an item, in mm.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Pads {
    /// The thinnest pad that holds the item and brings its top within reach.
    pub least: f64,
    /// The thickest pad with which the item fits under the lid.
    pub most: f64,
    /// The pad to recommend; none if the item is held and within reach without a pad.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub named: Option<f64>,
}

impl Document {
    /// The first item of each kind, in the order of the job, with the number of items of its kind.
    pub fn kinds(&self) -> impl Iterator<Item = (&Item, usize)> {
        let count = |kind: usize| self.items.iter().filter(|item| item.kind == kind).count();
        let firsts = self.items.iter().filter(|item| item.number == 1);
        firsts.map(move |first| (first, count(first.kind)))
    }

    /// Like [`kinds`](Document::kinds), for items on a pad.
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
