//! Lengths as words: as people write them on a note, and as a job writes them.
//!
//! **Input:** words, or millimetres and a unit. **Output:** millimetres and the unit of the words, or words. Besides
//! the job reader, only this module knows inches. Never looks at KDL, and never guesses: it rejects words with two
//! meanings.

use traywright_engine::job::Unit;

/// Millimetres in one inch.
// Source: international yard and pound agreement of 1959.
pub const INCH: f64 = 25.4;

/// A length and the unit in which it was written.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WrittenLength {
    /// In millimetres.
    pub mm: f64,
    /// Centimetres count as millimetres.
    pub unit: Unit,
}

/// Why a quoted text is not a fraction.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FractionFault {
    /// Not whole numbers in the form `3 5/8` or `5/8`.
    Form,
    /// A denominator that no ruler has.
    Denominator,
    /// A whole number beside a fraction that is 1 or more.
    Improper,
    /// Zero.
    Zero,
}

/// Reads `3 5/8`, `5/8` or `3` as inches.
///
/// # Refuses
/// Anything else, signs included, and denominators other than 2, 4, 8, 16, 32 and 64.
pub fn fraction(text: &str) -> Result<f64, FractionFault> {
    let text = text.trim();
    let (whole, part) = match text.rsplit_once(' ') {
        Some((whole, part)) => (natural(whole.trim_end())?, Some(part)),
        None if text.contains('/') => (0, Some(text)),
        None => (natural(text)?, None),
    };
    let (numerator, denominator) = match part {
        Some(part) => {
            let (above, below) = part.split_once('/').ok_or(FractionFault::Form)?;
            (natural(above)?, natural(below)?)
        }
        None => (0, 1),
    };
    if part.is_some() && ![2, 4, 8, 16, 32, 64].contains(&denominator) {
        return Err(FractionFault::Denominator);
    }
    if whole > 0 && numerator >= denominator {
        return Err(FractionFault::Improper);
    }
    match whole * denominator + numerator {
        0 => Err(FractionFault::Zero),
        parts => Ok(f64::from(parts) / f64::from(denominator)),
    }
}

/// At most five digits, so that no sum overflows.
fn natural(digits: &str) -> Result<u32, FractionFault> {
    let plain = (1..=5).contains(&digits.len()) && digits.bytes().all(|byte| byte.is_ascii_digit());
    match digits.parse() {
        Ok(number) if plain => Ok(number),
        _ => Err(FractionFault::Form),
    }
}

/// Reads a length as people write it: `182`, `18.2 cm`, `18,2cm`, `7 3/16 in`, `7-3/16"`, `7½"`.
///
/// A number without a unit is in `usual`, a fraction without one in inches.
pub fn as_people_write(text: &str, usual: Unit) -> Option<WrittenLength> {
    let text = text.trim().to_lowercase();
    let (number, unit_word) = split_unit(&text);
    if number.starts_with('-') {
        return None;
    }
    let slashed = spell_out_fractions(number);
    let is_fraction = slashed.contains('/');
    let (scale, unit) = match unit_word {
        "" if is_fraction => (INCH, Unit::Inch),
        "" if usual == Unit::Inch => (INCH, Unit::Inch),
        "" | "mm" | "millimetre" | "millimetres" | "millimeter" | "millimeters" => {
            (1.0, Unit::Millimetre)
        }
        "cm" | "centimetre" | "centimetres" | "centimeter" | "centimeters" => {
            (10.0, Unit::Millimetre)
        }
        "in" | "in." | "inch" | "inches" | "\"" | "''" | "”" | "″" => (INCH, Unit::Inch),
        _ => return None,
    };
    let number = match is_fraction {
        true if unit == Unit::Inch => fraction(&slashed.replacen('-', " ", 1)).ok()?,
        true => return None,
        false => decimal(&slashed)?,
    };
    Some(WrittenLength {
        mm: number * scale,
        unit,
    })
}

/// The number and the word after it.
fn split_unit(text: &str) -> (&str, &str) {
    let is_number = |c: char| c.is_ascii_digit() || "½¼¾⅛⅜⅝⅞.,/- ".contains(c);
    let end = text.find(|c: char| !is_number(c)).unwrap_or(text.len());
    (text[..end].trim(), text[end..].trim())
}

fn spell_out_fractions(number: &str) -> String {
    let mut spelled = number.to_owned();
    for (sign, words) in [
        ("½", " 1/2"),
        ("¼", " 1/4"),
        ("¾", " 3/4"),
        ("⅛", " 1/8"),
        ("⅜", " 3/8"),
        ("⅝", " 5/8"),
        ("⅞", " 7/8"),
    ] {
        spelled = spelled.replace(sign, words);
    }
    spelled.trim().to_owned()
}

/// A number with a point or a comma. `1,000` can mean a thousand or one, so it is rejected.
fn decimal(text: &str) -> Option<f64> {
    let mut parts = text.split(['.', ',']);
    let (whole, part, rest) = (parts.next()?, parts.next(), parts.next());
    let digits = |text: &str| {
        (1..=12).contains(&text.len()) && text.bytes().all(|byte| byte.is_ascii_digit())
    };
    let ambiguous = text.contains(',') && part.is_some_and(|part| part.len() == 3);
    if rest.is_some() || !digits(whole) || part.is_some_and(|part| !digits(part)) || ambiguous {
        return None;
    }
    text.replace(',', ".").parse().ok()
}

/// A length as a job writes it: `(mm)182`, `(in)"7 3/16"`, `(in)7.165`.
pub fn in_job(length: WrittenLength) -> String {
    match length.unit {
        Unit::Millimetre => format!("(mm){}", trimmed(length.mm, 4)),
        Unit::Inch => {
            let words = inch_words(length.mm);
            if words.contains('/') {
                format!("(in)\"{words}\"")
            } else {
                format!("(in){words}")
            }
        }
    }
}

/// A length for reading: `182 mm`, `7 3/16 in`.
pub fn read_out(length: WrittenLength) -> String {
    match length.unit {
        Unit::Millimetre => format!("{} mm", trimmed(length.mm, 4)),
        Unit::Inch => format!("{} in", inch_words(length.mm)),
    }
}

/// Inches as a fraction of a ruler, or as a decimal if they are on none of its marks.
fn inch_words(mm: f64) -> String {
    let sixty_fourths = mm / INCH * 64.0;
    if (sixty_fourths - sixty_fourths.round()).abs() > 1e-6 || sixty_fourths.abs() > 1e9 {
        return trimmed(mm / INCH, 5);
    }
    let count = sixty_fourths.round() as i64;
    let (whole, rest) = (count / 64, count % 64);
    if rest == 0 || count < 0 {
        return trimmed(mm / INCH, 5);
    }
    // A ruler's parts are powers of two, so dividing by the power of two in the numerator gives the lowest terms.
    let power = 1_i64 << rest.trailing_zeros();
    let part = format!("{}/{}", rest / power, 64 / power);
    if whole == 0 {
        part
    } else {
        format!("{whole} {part}")
    }
}

/// A number with at most `decimals` decimals, without trailing zeros.
pub fn trimmed(number: f64, decimals: usize) -> String {
    let text = format!("{number:.decimals$}");
    let text = match text.contains('.') {
        true => text.trim_end_matches('0').trim_end_matches('.'),
        false => &text,
    };
    match text {
        "-0" => "0".to_owned(),
        _ => text.to_owned(),
    }
}

#[cfg(test)]
mod tests;
