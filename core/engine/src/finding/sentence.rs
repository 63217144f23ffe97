//! Sentences with gaps, and the values that fill them.
//!
//! A sentence is text with gaps such as `{item}`. A table of sentences is an enum: each variant has the sentence's
//! values
//! as typed fields, and a field fills the gap of its own name. Lengths are written in the maker's unit.

use crate::finding::{Place, Side};
use crate::wording::{length, list, size};
use traywright_document::Unit;

/// A length in mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Mm(pub f64);

/// Lengths in mm that make up one size.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Size<const SIDES: usize = 2>(pub [f64; SIDES]);

/// An angle in degrees.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Degrees(pub f64);

/// An angle in degrees, printed to tenths.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FineDegrees(pub f64);

/// A fraction, printed as a percentage.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Percent(pub f64);

/// Error of a length, either way, in mm: expanded (k = 2), by root-sum-square, and at worst.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spread(pub [f64; 3]);

/// A probability, from 0 to 1.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Chance(pub f64);

/// An area in mm².
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SquareMm(pub f64);

/// A value that can fill a gap.
pub(super) trait InWords {
    /// The value in words, lengths in the maker's unit.
    fn in_words(&self, unit: Unit) -> String;
}

impl InWords for Mm {
    fn in_words(&self, unit: Unit) -> String {
        length(self.0, unit)
    }
}

impl<const SIDES: usize> InWords for Size<SIDES> {
    fn in_words(&self, unit: Unit) -> String {
        size(&self.0, unit)
    }
}

impl InWords for Degrees {
    fn in_words(&self, _: Unit) -> String {
        format!("{:.0}°", self.0)
    }
}

impl InWords for FineDegrees {
    fn in_words(&self, _: Unit) -> String {
        format!("{:.1}°", self.0)
    }
}

impl InWords for Percent {
    fn in_words(&self, _: Unit) -> String {
        format!("{} %", self.0)
    }
}

impl InWords for Spread {
    fn in_words(&self, unit: Unit) -> String {
        let [expected, squares, worst] = self.0.map(|value| Mm(value).in_words(unit));
        format!("±{expected} in 95 of 100 trays (worst ±{worst}, RSS ±{squares})")
    }
}

impl InWords for Chance {
    fn in_words(&self, _: Unit) -> String {
        match self.0 {
            rare if rare < 0.005 => "fewer than 1 of 100".to_owned(),
            rare if rare > 0.995 => "more than 99 of 100".to_owned(),
            chance => format!("{:.0} of 100", 100.0 * chance),
        }
    }
}

impl InWords for Place {
    fn in_words(&self, _: Unit) -> String {
        self.to_string()
    }
}

impl InWords for SquareMm {
    fn in_words(&self, _: Unit) -> String {
        let decimals = if self.0 < 0.1 { 4 } else { 1 };
        format!("{:.decimals$} mm²", self.0)
    }
}

impl InWords for String {
    fn in_words(&self, _: Unit) -> String {
        self.clone()
    }
}

impl InWords for usize {
    fn in_words(&self, _: Unit) -> String {
        self.to_string()
    }
}

impl InWords for Side {
    fn in_words(&self, _: Unit) -> String {
        self.to_string()
    }
}

impl InWords for Vec<String> {
    fn in_words(&self, _: Unit) -> String {
        list(self)
    }
}

/// An empty text for none.
impl<T: InWords> InWords for Option<T> {
    fn in_words(&self, unit: Unit) -> String {
        self.as_ref()
            .map_or(String::new(), |some| some.in_words(unit))
    }
}

/// An enum of sentences: each row is a variant with its typed values and its sentence.
macro_rules! sentences {
    ($(#[$about:meta])* $visibility:vis enum $name:ident {
        $($(#[$doc:meta])* $variant:ident $({ $($field:ident: $type:ty),* $(,)? })? = $sentence:literal,)*
    }) => {
        $(#[$about])*
        #[derive(Clone, Debug, PartialEq)]
        $visibility enum $name {
            $($(#[$doc])* $variant $({ $(
                #[doc = concat!("Fills the gap `", stringify!($field), "`.")]
                $field: $type,
            )* })?,)*
        }

        impl $name {
            /// The sentence, with its gaps.
            pub(super) fn sentence(&self) -> &'static str {
                match self {
                    $($name::$variant $({ $($field: _,)* })? => $sentence,)*
                }
            }

            /// The words for the gaps, each with the name of its gap.
            pub(super) fn in_words(&self, unit: traywright_document::Unit) -> Vec<(&'static str, String)> {
                let _ = unit;
                match self {
                    $($name::$variant $({ $($field,)* })? => {
                        vec![$($((
                            stringify!($field),
                            $crate::finding::sentence::InWords::in_words($field, unit),
                        ),)*)?]
                    })*
                }
            }

            /// Every sentence with the names of its values, for the test that no gap stays open.
            #[cfg(test)]
            pub(super) const ROWS: &'static [(&'static str, &'static [&'static str])] =
                &[$(($sentence, &[$($(stringify!($field),)*)?]),)*];
        }
    };
}
pub(super) use sentences;

#[cfg(test)]
mod tests {
    use crate::finding::{Advice, BuiltIn, Clause, PassedCheck};

    #[test]
    fn every_gap_has_its_value_and_every_value_its_gap() {
        let always = ["place", "value", "limit", "changes"];
        let rows = [BuiltIn::ROWS, Clause::ROWS, Advice::ROWS, PassedCheck::ROWS].concat();
        assert!(rows.len() > 60, "{} rows", rows.len());
        for (sentence, fields) in rows {
            let gaps: Vec<&str> = sentence
                .split('{')
                .skip(1)
                .map(|after| after.split_once('}').expect("a gap is closed").0)
                .collect();
            for field in fields {
                assert!(
                    gaps.contains(field),
                    "nothing asks for `{field}`: {sentence}"
                );
            }
            for gap in gaps {
                assert!(
                    fields.contains(&gap) || always.contains(&gap),
                    "`{gap}`: {sentence}"
                );
            }
        }
    }
}
