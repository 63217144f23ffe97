//! Lengths and places on the sheet, each rounded once, here.
//!
//! **Input:** lengths in millimetres. **Output:** whole ticks of 0.0001 mm, which compare exactly and print as decimals
//! without trailing zeros.

use std::fmt;

/// A length on the sheet in ten-thousandths of a millimetre.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct Tick(i64);

/// A place on the sheet, y down.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct TickPoint {
    pub(crate) x: Tick,
    pub(crate) y: Tick,
}

impl Tick {
    /// Rounds a length.
    pub(crate) fn new(length: f64) -> Tick {
        // A first rounding to 1e-9 mm keeps the noise of other units from deciding at the half: a job in inches and
        // its twin in millimetres give the same digits.
        Tick(((length * 1e9).round() / 1e5).round() as i64)
    }
}

impl TickPoint {
    /// Rounds a place.
    pub(crate) fn new(x: f64, y: f64) -> TickPoint {
        TickPoint {
            x: Tick::new(x),
            y: Tick::new(y),
        }
    }
}

impl fmt::Display for Tick {
    fn fmt(&self, formatter: &mut fmt::Formatter) -> fmt::Result {
        let sign = if self.0 < 0 { "-" } else { "" };
        let (whole, part) = (
            self.0.unsigned_abs() / 10_000,
            self.0.unsigned_abs() % 10_000,
        );
        if part == 0 {
            return write!(formatter, "{sign}{whole}");
        }
        let digits = format!("{part:04}");
        write!(formatter, "{sign}{whole}.{}", digits.trim_end_matches('0'))
    }
}

impl fmt::Display for TickPoint {
    fn fmt(&self, formatter: &mut fmt::Formatter) -> fmt::Result {
        write!(formatter, "{} {}", self.x, self.y)
    }
}

#[cfg(test)]
mod tests {
    use super::Tick;

    /// Source: core/CONTRACT.md, "Files: SVG": numbers exact to 0.0001, and no more of them than needed.
    #[test]
    fn numbers_have_four_decimals_at_most_and_no_idle_zeros() {
        for (length, written) in [
            (0.0, "0"),
            (-0.000_01, "0"),
            (1.5, "1.5"),
            (-0.25, "-0.25"),
            (71.354_949, "71.3549"),
            (0.000_1, "0.0001"),
            (120.0, "120"),
            (5_000.123_46, "5000.1235"),
            // The same length by way of inches: noise in the last bits must not change the last digit.
            (0.000_05, "0.0001"),
            (0.000_049_999_999_999_9, "0.0001"),
        ] {
            assert_eq!(Tick::new(length).to_string(), written, "{length}");
        }
    }
}
