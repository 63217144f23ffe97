//! The card: how thick it is, what it is made of, and how its creases are made.

use serde::{Deserialize, Serialize};

/// The card stock.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Board {
    /// Its name in the list of boards, if the job named one.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub name: Option<String>,
    /// Thickness of one sheet, in mm.
    pub caliper: f64,
    /// What it is made of.
    #[serde(default)]
    pub kind: BoardKind,
    /// How its creases are made.
    #[serde(default)]
    pub crease: CreaseKind,
    /// How far the fold lines lie from the middle of the card towards the inside of their fold, in mm.
    pub hinge: f64,
    /// Whether the maker ought to measure a strip of this card first, because nobody knows where it folds.
    #[serde(default)]
    pub wants_strip: bool,
    /// The way the grain runs in the blank, if the job says it; of corrugated board that of its flutes.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub grain: Option<Grain>,
}

/// What card is made of, as far as folding goes.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum BoardKind {
    /// Paper and folding carton: thin layers that part where a crease is pressed.
    #[default]
    Carton,
    /// Greyboard, museum board, mount board: thick and dense.
    Solid,
    /// Two liners with a fluted layer between them.
    Corrugated,
}

/// How a crease is made.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum CreaseKind {
    /// Pressed. Carton from the side that is outside its fold: a groove there, a bead on the other side. Corrugated board
    /// from the side that is inside, until its flutes lie flat.
    #[default]
    Pressed,
    /// Cut half through on the side that is outside its fold; what is left bends.
    HalfCut,
}

/// A direction in the flat frame.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Grain {
    /// Along x, the box's length.
    Length,
    /// Along y, the box's width.
    Width,
}
