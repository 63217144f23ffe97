//! Lengths as the maker reads them.
//!
//! Given millimetres; gives figures with the decimal sign of the language. In a job in inches every length stands also in
//! inches: as a fraction where it lies on a mark of a rule, otherwise in thousandths. Nothing written here is reckoned with
//! again.

use traywright_document::Unit;

use crate::wording::File;

/// Parts of an inch on the finest common rule.
// Source: common practice, none published.
const FINEST: f64 = 64.0;

/// How lengths are written.
#[derive(Clone, Copy)]
pub(crate) struct Lengths<'a> {
    pub(crate) unit: Unit,
    pub(crate) words: &'a File,
}

impl Lengths<'_> {
    /// A length with its unit: `31.75 mm`, or `31.75 mm (1 1/4 in)`.
    pub(crate) fn say(&self, length_mm: f64) -> String {
        self.size(&[length_mm])
    }

    /// Lengths that make up one size, their unit once.
    pub(crate) fn size(&self, lengths_mm: &[f64]) -> String {
        let figures: Vec<String> = lengths_mm
            .iter()
            .map(|&length| self.figure(length))
            .collect();
        // Spaces that do not break keep a figure with its unit.
        let metric = format!("{}\u{a0}mm", figures.join("\u{a0}×\u{a0}"));
        if self.unit == Unit::Millimetre {
            return metric;
        }
        let inches: Vec<String> = lengths_mm
            .iter()
            .map(|&length| self.inches(length))
            .collect();
        format!("{metric} ({}\u{a0}in)", inches.join("\u{a0}×\u{a0}"))
    }

    /// A figure in millimetres without its unit, with two decimals at most.
    pub(crate) fn figure(&self, length_mm: f64) -> String {
        self.decimal(&Unit::Millimetre.figure(length_mm))
    }

    /// A figure with the decimal sign of the language.
    pub(crate) fn decimal(&self, figure: &str) -> String {
        figure.replace('.', &self.words.decimal.to_string())
    }

    /// Inches as a fraction where that is true to a thousandth, otherwise in thousandths.
    fn inches(&self, length_mm: f64) -> String {
        let nearest = (length_mm * FINEST / 25.4).round() * 25.4 / FINEST;
        let thousandths = Unit::Inch.figure(length_mm);
        if Unit::Inch.figure(nearest) == thousandths {
            self.fraction(length_mm, FINEST as i64)
        } else {
            self.decimal(&thousandths)
        }
    }

    /// Inches to the nearest part, a power of two.
    // Source: 1 in = 25.4 mm exactly (international yard, 1959).
    pub(crate) fn fraction(&self, length_mm: f64, parts: i64) -> String {
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
