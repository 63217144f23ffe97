//! The card: its thickness, its material, and the kind of its creases.

use serde::{Deserialize, Serialize};

/// The card stock.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Board {
    /// Its name in the list of boards, if the job named one.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub name: Option<String>,
    /// Thickness of one sheet, in mm.
    pub caliper: f64,
    /// Its material.
    #[serde(default)]
    pub kind: BoardKind,
    /// How its creases are made.
    #[serde(default)]
    pub crease: CreaseKind,
    /// Distance of the fold lines from the middle of the card, towards the inside of their fold, in mm.
    pub hinge: f64,
    /// Whether the maker should measure a strip of this card first, because its fold line is unknown.
    #[serde(default)]
    pub wants_strip: bool,
    /// The direction of the grain in the blank, if the job states it; for corrugated board that of its flutes.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub grain: Option<Grain>,
}

impl Board {
    /// Whether its creases are pressed on the face that is inside their fold: the flutes of corrugated board are crushed
    /// there. All other creases are made on the face outside their fold.
    // Source: from memory: corrugated is scored on the inside, so that the liner outside the fold stays whole and smooth.
    pub fn is_crushed(&self) -> bool {
        self.kind == BoardKind::Corrugated && self.crease == CreaseKind::Pressed
    }
}

/// The materials of card that fold differently.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum BoardKind {
    /// Paper and folding carton: thin layers that separate where a crease is pressed.
    #[default]
    Carton,
    /// Greyboard, museum board, mount board: thick and dense.
    Solid,
    /// Two liners with a fluted layer between them.
    Corrugated,
}

/// The ways to make a crease.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum CreaseKind {
    /// Pressed. Carton from the side outside its fold: a groove there, a bead on the other side. Corrugated board from
    /// the side inside its fold, until its flutes are flat.
    #[default]
    Pressed,
    /// Cut half through on the side outside its fold; the rest bends.
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
