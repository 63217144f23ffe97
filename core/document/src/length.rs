//! A length that a job states: a finite number of millimetres, 0 or more.
//!
//! **Input:** a number of millimetres. **Output:** a [`Length`], which holds only valid numbers, so that its readers
//! need not check again. **Errors:** [`NotALength`] for a number that is negative, infinite or not a number. In JSON a
//! length is its bare number of millimetres, and the reader rejects what the constructor rejects.

use std::fmt;

use serde::{Deserialize, Serialize};

/// A length in millimetres, 0 or more.
#[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd, Serialize, Deserialize)]
#[serde(try_from = "f64", into = "f64")]
pub struct Length(f64);

impl Length {
    /// The length 0.
    pub const ZERO: Length = Length(0.0);

    /// A length of this many millimetres.
    ///
    /// # Errors
    /// A number that is negative, infinite or not a number.
    pub const fn new(mm: f64) -> Result<Length, NotALength> {
        match mm.is_finite() && mm >= 0.0 {
            // Without the sign of -0, which equals 0 but is printed with the sign.
            true => Ok(Length(mm.abs())),
            false => Err(NotALength { mm }),
        }
    }

    /// A length of this many millimetres that is a constant of the program or was checked already.
    ///
    /// # Panics
    /// If the number is negative, infinite or not a number; a constant with such a number does not compile.
    pub const fn known(mm: f64) -> Length {
        match Length::new(mm) {
            Ok(length) => length,
            Err(_) => panic!("a known length is finite and 0 or more"),
        }
    }

    /// The number of millimetres, finite and 0 or more.
    pub const fn mm(self) -> f64 {
        self.0
    }
}

/// A number that is no length.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct NotALength {
    /// The number.
    pub mm: f64,
}

impl fmt::Display for NotALength {
    fn fmt(&self, words: &mut fmt::Formatter<'_>) -> fmt::Result {
        let mm = self.mm;
        write!(
            words,
            "{mm} is no length: a length is a finite number of millimetres, 0 or more"
        )
    }
}

impl std::error::Error for NotALength {}

impl TryFrom<f64> for Length {
    type Error = NotALength;

    fn try_from(mm: f64) -> Result<Length, NotALength> {
        Length::new(mm)
    }
}

impl From<Length> for f64 {
    fn from(length: Length) -> f64 {
        length.mm()
    }
}

#[cfg(test)]
mod tests {
    use super::{Length, NotALength};

    /// Source of every expectation: IEEE 754, and what a ruler can show.
    const NONE: [f64; 5] = [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, -0.5, -5e-324];

    #[test]
    fn a_number_that_is_negative_or_not_finite_is_no_length() {
        for number in NONE {
            let said = Length::new(number).map_err(|error| error.to_string());
            let names_it = |words: &String| words.starts_with(&format!("{number} is no length"));
            assert!(said.as_ref().is_err_and(names_it), "{number}: {said:?}");
        }
        assert_eq!(Length::new(-0.5), Err(NotALength { mm: -0.5 }));
    }

    #[test]
    fn a_length_is_its_number_of_millimetres() {
        for number in [0.0, 5e-324, 0.29, 182.0, f64::MAX] {
            assert_eq!(Length::new(number).map(Length::mm), Ok(number));
        }
        let zero = Length::new(-0.0).map(|length| length.mm().to_string());
        assert_eq!(zero, Ok("0".to_owned()));
    }

    #[test]
    fn in_json_a_length_is_a_number_and_a_negative_one_is_refused() {
        let length = Length::known(0.29);
        let sent = serde_json::to_string(&length).expect("a number can be written");
        assert_eq!(sent, "0.29");
        assert_eq!(serde_json::from_str::<Length>("0.29").ok(), Some(length));
        for text in ["-0.29", "-1", "null", "1e999", "\"0.29\""] {
            assert!(serde_json::from_str::<Length>(text).is_err(), "{text}");
        }
    }
}
