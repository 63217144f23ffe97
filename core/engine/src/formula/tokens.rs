//! Splits the text of a formula into numbers, words and signs.
//!
//! **Input:** the text. **Output:** its tokens with their byte ranges. **Errors:** the first character that no formula
//! has.
//! A hyphen or a dot between letters or digits belongs to the word: `tab-max` and `fit.play` are one word each.

use std::ops::Range;

use super::FormulaFault;
use super::term::Measure;

/// One number, word or sign.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Token<'t> {
    pub(super) place: Range<usize>,
    pub(super) what: What<'t>,
}

/// The kinds of token.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum What<'t> {
    Number(f64, Measure),
    Word(&'t str),
    Sign(&'static str),
    End,
}

/// Each sign comes before the signs that it begins with.
const SIGNS: [&str; 13] = [
    "<=", ">=", "==", "!=", "<", ">", "+", "-", "*", "/", "(", ")", ",",
];

/// Signs that people write out of habit, longer before shorter, and the correct ones.
const STRANGERS: [(&str, &str); 19] = [
    ("&&", "write `and`"),
    ("&", "write `and`"),
    ("||", "write `or`"),
    ("|", "write `or`"),
    ("!", "write `not`"),
    ("=<", "write `<=`"),
    ("=>", "write `>=`"),
    ("=", "write `==` to ask whether two values are equal"),
    ("≤", "write `<=`"),
    ("≥", "write `>=`"),
    ("≠", "write `!=`"),
    ("×", "write `*`"),
    ("·", "write `*`"),
    ("÷", "write `/`"),
    ("−", "write `-`"),
    ("–", "write `-`"),
    ("^", "write a power out: `a * a`"),
    ("\"", "write words and names without quotes"),
    ("'", "write words and names without quotes"),
];

/// Units that people write out of habit, and the correct ones.
const STRANGE_UNITS: [(&str, &str); 6] = [
    ("\"", "write inches as `in`: `0.25in`"),
    ("″", "write inches as `in`: `0.25in`"),
    ("°", "write degrees as `deg`: `90deg`"),
    (
        "%",
        "write a share as a number: `0.3 * span` for 30% of the span",
    ),
    ("cm", "write centimetres as ten millimetres: `20mm` for 2cm"),
    (
        "m",
        "write metres as a thousand millimetres: `1000mm` for 1m",
    ),
];

/// Splits the text into its tokens; the last one is always [`What::End`].
pub(super) fn tokens(text: &str) -> Result<Vec<Token<'_>>, FormulaFault> {
    let mut tokens = Vec::new();
    let mut at = 0;
    while let Some(character) = text[at..].chars().next() {
        if character.is_whitespace() {
            at += character.len_utf8();
            continue;
        }
        let token = if character.is_ascii_digit() {
            number(text, at)?
        } else if character.is_alphabetic() {
            word(text, at)?
        } else {
            sign(text, at)?
        };
        at = token.place.end;
        tokens.push(token);
    }
    tokens.push(Token {
        place: at..at,
        what: What::End,
    });
    Ok(tokens)
}

fn number(text: &str, start: usize) -> Result<Token<'_>, FormulaFault> {
    let mut end = digits_end(text, start);
    if text[end..].starts_with('.') {
        let point = end;
        end = digits_end(text, point + 1);
        if end == point + 1 {
            return Err(FormulaFault::new(
                start..end,
                "a digit is missing after the point",
                format!(
                    "write `{}` or `{}.5`",
                    &text[start..point],
                    &text[start..point]
                ),
            ));
        }
    }
    let amount = text[start..end].parse().unwrap_or(f64::INFINITY);
    let unit_end = unit_end(text, end);
    let measure = measure(text, end..unit_end)?;
    let in_millimetres = amount * 25.4;
    if !f64::is_finite(in_millimetres) {
        return Err(FormulaFault::new(
            start..unit_end,
            "the number is too large",
            "no tray needs a number of hundreds of digits",
        ));
    }
    Ok(Token {
        place: start..unit_end,
        what: What::Number(amount, measure),
    })
}

fn digits_end(text: &str, start: usize) -> usize {
    end_while(text, start, |character| character.is_ascii_digit())
}

/// The end of the letters directly after a number, which can only be meant as its unit.
fn unit_end(text: &str, start: usize) -> usize {
    let word = end_while(text, start, |character| {
        character.is_alphanumeric() || character == '_'
    });
    if word > start {
        return word;
    }
    text[start..]
        .chars()
        .next()
        .filter(|character| "\"″°%.".contains(*character))
        .map_or(start, |character| start + character.len_utf8())
}

fn end_while(text: &str, start: usize, belongs: impl Fn(char) -> bool) -> usize {
    text[start..]
        .find(|character| !belongs(character))
        .map_or(text.len(), |length| start + length)
}

fn measure(text: &str, place: Range<usize>) -> Result<Measure, FormulaFault> {
    let unit = &text[place.clone()];
    if let Some(measure) = Measure::ALL.into_iter().find(|known| known.unit() == unit) {
        return Ok(measure);
    }
    if unit == "." {
        return Err(FormulaFault::new(
            place,
            "the number has a second point",
            "write one decimal point and no others",
        ));
    }
    let expected = STRANGE_UNITS
        .iter()
        .find(|(strange, _)| *strange == unit)
        .map_or(
            "a unit is `mm`, `in` or `deg`; a product is written with `*`",
            |(_, right)| right,
        );
    Err(FormulaFault::new(
        place,
        format!("`{unit}` is no unit"),
        expected,
    ))
}

fn word(text: &str, start: usize) -> Result<Token<'_>, FormulaFault> {
    let mut end = start;
    while let Some(character) = text[end..].chars().next() {
        let joins = matches!(character, '-' | '.')
            && text[end + 1..].starts_with(|next: char| next.is_alphanumeric());
        if !(joins || character.is_alphanumeric() || character == '_') {
            break;
        }
        end += character.len_utf8();
    }
    let word = &text[start..end];
    if let Some((offset, character)) = word
        .char_indices()
        .find(|(_, character)| !character.is_ascii() || *character == '_')
    {
        let expected = if character == '_' {
            format!("write a hyphen: `{}`", word.replace('_', "-"))
        } else {
            "a name has letters a to z, digits, hyphens and dots".to_owned()
        };
        return Err(FormulaFault::new(
            start + offset..start + offset + character.len_utf8(),
            format!("`{character}` cannot stand in a name"),
            expected,
        ));
    }
    Ok(Token {
        place: start..end,
        what: What::Word(word),
    })
}

fn sign(text: &str, start: usize) -> Result<Token<'_>, FormulaFault> {
    let rest = &text[start..];
    let stranger = STRANGERS.iter().find(|(sign, _)| rest.starts_with(sign));
    if let Some(sign) = SIGNS.into_iter().find(|sign| rest.starts_with(sign)) {
        return Ok(Token {
            place: start..start + sign.len(),
            what: What::Sign(sign),
        });
    }
    if let Some((sign, right)) = stranger {
        return Err(FormulaFault::new(
            start..start + sign.len(),
            format!("`{sign}` is no sign of a formula"),
            *right,
        ));
    }
    let length = rest.chars().next().map_or(0, char::len_utf8);
    let expected = if rest.starts_with('.') {
        "a number begins with a digit: `0.5mm`; a name goes on after its dot: `box.length`"
    } else {
        "the signs are `+ - * / ( ) ,` and `< <= > >= == !=`"
    };
    Err(FormulaFault::new(
        start..start + length,
        format!(
            "`{}` is no sign of a formula",
            rest[..length].escape_debug()
        ),
        expected,
    ))
}
