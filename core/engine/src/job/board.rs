//! The card of a job, and the properties that follow from its kind.

use traywright_document::{BoardKind, CreaseKind, Grain, Length};

use super::StockSheet;
use super::hinge::ReadHinge;

/// The greatest thickness, in mm, that counts as carton if neither the list nor the job states the kind.
// Source: common practice, none published: above about 0.6 mm one pressed crease does not fold cleanly.
const THICKEST_CARTON_MM: f64 = 0.6;

/// Height of the fold line above the middle of a half-cut crease, as a part of the thickness.
// Derived: the cut leaves the inner half of the card, and that half bends in its own middle, a quarter of the caliper above
// the middle of the whole. Where the cut goes deeper the line lies farther in; `checked/tolerance.rs` allows for that.
const HALF_CUT_HINGE: f64 = 0.25;

/// The card stock.
#[derive(Clone, Debug, PartialEq)]
pub struct Board {
    /// Its name in the list of boards, if the job named one.
    pub name: Option<String>,
    /// Thickness of the card.
    pub caliper: Length,
    /// Its material, if the list or the job states it.
    pub kind: Option<BoardKind>,
    /// How its creases are made, if the job states it.
    pub crease: Option<CreaseKind>,
    /// Height of the fold lines above the middle of the card, towards the inside of the fold, in mm, if the job states
    /// it. A negative one is an error of the tray.
    pub hinge: Option<f64>,
    /// How much longer a strip of this card is folded than flat, if the maker measured it.
    pub reading: Option<Length>,
    /// Error of the thickness, either way, if known.
    pub tolerance: Option<Length>,
    /// Whether the thickness is from memory, so that it should be measured.
    pub measure_it: bool,
    /// The largest sheet available, if the job states it.
    pub sheet: Option<StockSheet>,
    /// The direction of the grain in the blank, if the job states it; for corrugated board that of its flutes.
    pub grain: Option<Grain>,
}

impl Board {
    /// Card with a thickness and defaults for all else.
    pub fn plain(caliper: Length) -> Board {
        Board {
            name: None,
            caliper,
            kind: None,
            crease: None,
            hinge: None,
            reading: None,
            tolerance: None,
            measure_it: false,
            sheet: None,
            grain: None,
        }
    }

    /// Its material: as stated in the list or the job, else by its thickness.
    // Source: core/CONTRACT.md, "Job file".
    pub fn kind(&self) -> BoardKind {
        let by_caliper = if self.caliper.mm() <= THICKEST_CARTON_MM {
            BoardKind::Carton
        } else {
            BoardKind::Solid
        };
        self.kind.unwrap_or(by_caliper)
    }

    /// How its creases are made: as the job states, else by its kind.
    // Source: core/CONTRACT.md, "Job file".
    pub fn crease(&self) -> CreaseKind {
        let by_kind = match self.kind() {
            BoardKind::Carton | BoardKind::Corrugated => CreaseKind::Pressed,
            BoardKind::Solid => CreaseKind::HalfCut,
        };
        self.crease.unwrap_or(by_kind)
    }

    /// Height of the fold lines above the middle of the card, in mm: as the job states, else from the strip's reading,
    /// else by the kind of crease.
    // Source: core/CONTRACT.md, "Job file".
    pub fn hinge(&self) -> f64 {
        let by_crease = match self.crease() {
            CreaseKind::Pressed => 0.0,
            CreaseKind::HalfCut => HALF_CUT_HINGE * self.caliper.mm(),
        };
        let read = self.read_hinge().map(ReadHinge::mm);
        self.hinge.or(read).unwrap_or(by_crease)
    }

    /// Whether a strip of this card should be measured first: the list does not have the card, or it is too thick for a
    /// crease that is only pressed, and neither hinge nor reading is stated.
    pub fn wants_strip(&self) -> bool {
        let is_known = self.hinge.is_some() || self.reading.is_some();
        let is_strange = self.name.is_none() || self.caliper.mm() > THICKEST_CARTON_MM;
        !is_known && is_strange
    }
}
