//! What the solids did with an item, as the script prints it.
//!
//! Lengths in mm; heights over the surface on which items stand if no card lies under them.

use serde::Deserialize;

/// One item.
#[derive(Clone, Debug, Deserialize)]
pub(crate) struct Seen {
    pub(crate) name: String,
    /// How high card lies that is flat under it.
    pub(crate) seat: f64,
    /// How far its top lies below the panel with its opening.
    pub(crate) below: f64,
    pub(crate) rise: f64,
    /// Where it lies, lifted as far as it goes, and in the tray upside down: along and across.
    pub(crate) rest: [Pushed; 2],
    pub(crate) risen: [Pushed; 2],
    pub(crate) down: [Pushed; 2],
    /// What reaches into its place, and into its way in.
    pub(crate) in_place: Vec<Reach>,
    pub(crate) way_in: Vec<Reach>,
}

/// An item pushed to and fro.
#[derive(Clone, Debug, Deserialize)]
pub(crate) struct Pushed {
    pub(crate) travel: f64,
    /// The height that it shares with what stops it, on the side where that is less.
    pub(crate) bears: f64,
    /// What that is, where several share as much of its height.
    pub(crate) by: Vec<String>,
    /// The heights of each.
    pub(crate) spans: Vec<[f64; 2]>,
}

/// A panel in the room of an item.
#[derive(Clone, Debug, Deserialize)]
pub(crate) struct Reach {
    pub(crate) panel: String,
    pub(crate) depth: f64,
}
