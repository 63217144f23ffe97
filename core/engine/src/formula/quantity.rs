//! The quantities of formulas: kinds, values and the card.
//!
//! Plain data exchanged between the formula and its caller. Lengths are mm, areas mm², angles degrees.

use crate::wording;
use traywright_document::Unit;
use traywright_document::steady::Steady;

/// The kinds of quantity.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// A plain number, such as a count.
    Number,
    /// A length.
    Length,
    /// An area.
    Area,
    /// An angle.
    Angle,
    /// Yes or no.
    Truth,
    /// One of the words of a setting.
    Word,
}

impl Kind {
    /// The kind with its article, for a sentence: `a length`.
    pub fn with_article(self) -> &'static str {
        match self {
            Kind::Number => "a number",
            Kind::Length => "a length",
            Kind::Area => "an area",
            Kind::Angle => "an angle",
            Kind::Truth => "a truth (yes or no)",
            Kind::Word => "a word",
        }
    }
}

/// The result of a formula for one job.
#[derive(Clone, Debug, PartialEq)]
pub enum Value {
    /// A plain number.
    Number(f64),
    /// A length in mm.
    Length(f64),
    /// An area in mm².
    Area(f64),
    /// An angle in degrees.
    Angle(f64),
    /// Yes or no.
    Truth(bool),
    /// One of the words of a setting.
    Word(String),
}

impl Value {
    /// The value in words, with its unit; lengths in the maker's unit.
    pub fn in_words(&self, unit: Unit) -> String {
        match self {
            Value::Number(number) => wording::number(*number),
            Value::Length(length_mm) => wording::length(*length_mm, unit),
            Value::Area(area_mm2) => wording::area(*area_mm2, unit),
            Value::Angle(degrees) => wording::angle(*degrees),
            Value::Truth(true) => "yes".to_owned(),
            Value::Truth(false) => "no".to_owned(),
            Value::Word(word) => word.clone(),
        }
    }

    /// Its kind.
    pub fn kind(&self) -> Kind {
        match self {
            Value::Number(_) => Kind::Number,
            Value::Length(_) => Kind::Length,
            Value::Area(_) => Kind::Area,
            Value::Angle(_) => Kind::Angle,
            Value::Truth(_) => Kind::Truth,
            Value::Word(_) => Kind::Word,
        }
    }

    /// Its number, in mm, mm² or degrees; none for a truth or a word.
    pub fn amount(&self) -> Option<f64> {
        match self {
            Value::Number(amount)
            | Value::Length(amount)
            | Value::Area(amount)
            | Value::Angle(amount) => Some(*amount),
            Value::Truth(_) | Value::Word(_) => None,
        }
    }

    /// The number, if it is one.
    pub fn number(&self) -> Option<f64> {
        self.amount().filter(|_| self.kind() == Kind::Number)
    }

    /// The length in mm, if it is one.
    pub fn length(&self) -> Option<f64> {
        self.amount().filter(|_| self.kind() == Kind::Length)
    }

    /// The area in mm², if it is one.
    pub fn area(&self) -> Option<f64> {
        self.amount().filter(|_| self.kind() == Kind::Area)
    }

    /// The angle in degrees, if it is one.
    pub fn angle(&self) -> Option<f64> {
        self.amount().filter(|_| self.kind() == Kind::Angle)
    }

    /// Yes or no, if it is that.
    pub fn truth(&self) -> Option<bool> {
        match self {
            Value::Truth(truth) => Some(*truth),
            _ => None,
        }
    }

    /// The word, if it is one.
    pub fn word(&self) -> Option<&str> {
        match self {
            Value::Word(word) => Some(word),
            _ => None,
        }
    }
}

/// The properties of the card that the trade's functions use.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Card {
    /// Thickness of the card.
    pub caliper: f64,
    /// Height of the fold lines over the middle of the card, towards the inside of the fold.
    pub hinge: f64,
}

impl Card {
    /// Distance from a crease to the outside corner of a fold by that angle in degrees.
    // Derived: the outside face lies caliper/2 + hinge from the fold line, and the corner halves the angle.
    pub fn outer(&self, angle_deg: f64) -> f64 {
        (self.caliper / 2.0 + self.hinge) * (angle_deg / 2.0).to_radians().steady_tan()
    }

    /// Distance from a crease to the inside corner of a fold by that angle in degrees.
    // Derived: as above with the inside face, caliper/2 - hinge away.
    pub fn inner(&self, angle_deg: f64) -> f64 {
        (self.caliper / 2.0 - self.hinge) * (angle_deg / 2.0).to_radians().steady_tan()
    }

    /// How much shorter a panel of that length becomes when bowed to a radius of 60 thicknesses, the tightest allowed.
    // Derived: a shallow arc of length s and radius r spans s - s³ / (24 r²).
    pub fn flex(&self, length: f64) -> f64 {
        let least_radius = BOW_CALIPERS * self.caliper;
        let shorter = length * length * length / (24.0 * least_radius * least_radius);
        // Card with a thickness near zero bows without limit, so the result is the largest number.
        if length == 0.0 {
            0.0
        } else {
            shorter.clamp(f64::MIN, f64::MAX)
        }
    }
}

/// Minimum radius, in thicknesses of card, to which a card can be bowed without creasing it.
// Source: common practice, none published.
const BOW_CALIPERS: f64 = 60.0;
