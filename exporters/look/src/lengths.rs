//! Lengths as the maker reads them.
//!
//! **Input:** millimetres. **Output:** numbers with the decimal sign of the language. In a job in inches every length
//! is also written in inches: to the nearest thirty-second, and in thousandths if that is not exact. The output is
//! never used in a computation.

use traywright_document::Unit;

/// Separator of the lengths of one size, with non-breaking spaces.
const TIMES: &str = "\u{a0}×\u{a0}";
/// Fractions of an inch on a ruler.
// Source: core/CONTRACT.md, "Files: booklet": to the nearest 1/32.
const PARTS: i64 = 32;
/// A fraction with an error below this needs no thousandths, which would show the same value.
// Derived: half of a thousandth.
const TRUE_IN: f64 = 0.0005;
/// A fraction with an error above this part of its length would mislead, as for the thickness of card, and is left out.
const MISLEADING: f64 = 0.25;

/// The format of lengths.
#[derive(Clone, Copy, Debug)]
pub struct Lengths {
    /// The maker's unit.
    pub unit: Unit,
    /// The decimal sign of the language.
    pub decimal: char,
}

impl Lengths {
    /// A length as a number of the maker's unit, without the unit's sign.
    pub fn number(&self, length_mm: f64) -> String {
        self.decimal(&self.unit.figure(length_mm))
    }

    /// A length only in the maker's unit: `0.2 mm`, or `0.008 in`.
    pub fn length(&self, length_mm: f64) -> String {
        format!("{} {}", self.number(length_mm), self.unit.sign())
    }

    /// Lengths that make up one size, only in the maker's unit: `104 × 90 × 8 mm`.
    pub fn sides(&self, lengths_mm: &[f64]) -> String {
        let sides: Vec<String> = lengths_mm.iter().map(|&side| self.number(side)).collect();
        // A non-breaking space keeps the unit with its number.
        format!("{}\u{a0}{}", sides.join(" × "), self.unit.sign())
    }

    /// A length with its unit: `31.75 mm`, or `31.75 mm (1 1/4 in)`.
    pub fn say(&self, length_mm: f64) -> String {
        self.size(&[length_mm])
    }

    /// Lengths that make up one size, with their unit once.
    pub fn size(&self, lengths_mm: &[f64]) -> String {
        let figures: Vec<String> = lengths_mm
            .iter()
            .map(|&length| self.figure(length))
            .collect();
        // Non-breaking spaces keep a number with its unit.
        let metric = format!("{}\u{a0}mm", figures.join(TIMES));
        if self.unit == Unit::Millimetre {
            return metric;
        }
        format!("{metric} ({})", self.inches(lengths_mm))
    }

    /// A number in millimetres without its unit, with at most two decimals.
    pub fn figure(&self, length_mm: f64) -> String {
        self.decimal(&Unit::Millimetre.figure(length_mm))
    }

    /// A number with the decimal sign of the language.
    pub fn decimal(&self, figure: &str) -> String {
        figure.replace('.', &self.decimal.to_string())
    }

    /// Lengths in inches: fractions, and thousandths if one of the fractions is not exact.
    fn inches(&self, lengths_mm: &[f64]) -> String {
        let row = |figures: Vec<String>| format!("{}\u{a0}in", figures.join(TIMES));
        let told = lengths_mm.iter().copied();
        let fractions = told.clone().map(|length| self.fraction(length, PARTS));
        let thousandths = told.map(|length| self.decimal(&Unit::Inch.figure(length)));
        let off = |length_mm: f64| {
            let parts = length_mm / 25.4 * PARTS as f64;
            (parts - parts.round()).abs() / PARTS as f64
        };
        let all = |is_so: &dyn Fn(f64) -> bool| lengths_mm.iter().all(|&length| is_so(length));
        if all(&|length| off(length) < TRUE_IN) {
            row(fractions.collect())
        } else if all(&|length| off(length) <= MISLEADING * length / 25.4) {
            let (fractions, thousandths) = (row(fractions.collect()), row(thousandths.collect()));
            format!("{fractions}; {thousandths}")
        } else {
            row(thousandths.collect())
        }
    }

    /// Inches to the nearest `1/parts`, where `parts` is a power of two.
    // Source: 1 in = 25.4 mm exactly (international yard, 1959).
    pub fn fraction(&self, length_mm: f64, parts: i64) -> String {
        let count = (length_mm / 25.4 * parts as f64).round() as i64;
        let (whole, mut rest, mut parts) = (count / parts, count % parts, parts);
        while rest != 0 && rest % 2 == 0 {
            (rest, parts) = (rest / 2, parts / 2);
        }
        match (whole, rest) {
            (_, 0) => whole.to_string(),
            (0, rest) => format!("{rest}/{parts}"),
            (_, rest) => format!("{whole}\u{a0}{rest}/{parts}"),
        }
    }
}
