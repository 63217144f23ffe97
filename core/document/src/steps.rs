//! What the hands do, one action after the other.
//!
//! Given in the order in which the tray was checked to fold, with the words for each action and the reason why it comes
//! there. Never says where a panel then stands: that follows from the angles.

use serde::{Deserialize, Deserializer, Serialize};

use crate::open::Unknown;

/// One action of the hands.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Step {
    /// The words for it.
    pub words: String,
    /// Why it comes here; steps of one group carry the same reason.
    pub why: String,
    /// What is done.
    pub action: Action,
    /// Whether this step is the first after which other panels keep every wall of the tray from turning out, so that it
    /// stands without a hand or its box. No step does so in a tray with a wall that its box alone holds.
    #[serde(default)]
    pub stands: bool,
}

/// What an action does to the tray.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub enum Action {
    /// Panels are folded, all at once.
    Fold(Vec<Move>),
    /// The tray is turned over.
    Turn,
    /// The items go in.
    Place,
    /// An action of a later release; the words of the step say what it is.
    #[serde(untagged, deserialize_with = "later_action")]
    Other(Unknown),
}

fn later_action<'de, D: Deserializer<'de>>(deserializer: D) -> Result<Unknown, D::Error> {
    Unknown::beside(&["fold", "turn", "place"], deserializer)
}

/// One panel turned about its crease.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Move {
    /// Index of the panel.
    pub panel: usize,
    /// Angle of its crease afterwards; positive folds the drawn face inwards.
    pub to_deg: f64,
}
