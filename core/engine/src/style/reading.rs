//! Reads a style's text as RON, and explains a failure in words for style authors.
//!
//! **Input:** a text. **Output:** the requested shape. **Errors:** the first point that makes no sense; the reader
//! stops there, so later errors are unknown. **Does not** check a text that can be read.

use ron::Error;
use ron::error::SpannedError;
use ron::extensions::Extensions;

use super::tokens::{Token, TokenKind, Tokens};
use super::written;
use crate::finding::SourceError;
use crate::finding::SourceSpan;
use crate::renamed::{STYLE_WORDS, new_name};
use crate::wording::nearest;

/// Fields with a size.
const SIZES: [&str; 5] = ["length", "width", "across", "reach", "max_flap_depth"];

/// Reads RON into one of the shapes of a style's file.
///
/// # Refuses
/// A text that is not RON or has another shape: the error at which reading stopped, and unbalanced brackets.
pub(super) fn read<'t, T: serde::Deserialize<'t>>(text: &'t str) -> Result<T, Vec<SourceError>> {
    let extensions = Extensions::IMPLICIT_SOME | Extensions::UNWRAP_VARIANT_NEWTYPES;
    let reader = ron::Options::default().with_default_extension(extensions);
    written::with_places(text, || reader.from_str(text)).map_err(|error| plain(text, &error))
}

/// An error of the RON reader in plain words.
fn plain(text: &str, error: &SpannedError) -> Vec<SourceError> {
    let tokens = Tokens::of(text);
    let halt = byte_at(text, error.span.start.line, error.span.start.col);
    let at = tokens.sign_at(halt);
    let line_end = text[halt..].find('\n').map_or(text.len(), |end| halt + end);
    if let Some(place) = tokens.odd_quotes().filter(|place| place.start < line_end) {
        let message = "a quote is missing, or one is too many";
        return vec![SourceError::new(
            place,
            message,
            "this is taken for one text in quotes",
        )];
    }
    let unbalanced = tokens.unbalanced();
    let stopped = Stopped { tokens, at, halt };
    match unbalanced {
        // A missing bracket is what stopped the reader, unless a wrong word did.
        Some(fault) if !at_a_word(&error.code) => vec![with_halt(fault, &stopped, error)],
        unbalanced => std::iter::once(stopped.fault(&error.code))
            .chain(unbalanced)
            .collect(),
    }
}

/// The point at which reading stopped is the better clue if it is before the unbalanced bracket.
fn with_halt(fault: SourceError, stopped: &Stopped, error: &SpannedError) -> SourceError {
    let Some(text) = stopped.text() else {
        return fault;
    };
    let line = error.span.start.line;
    let text = shortened(text);
    let hint = format!("what first makes no sense is `{text}` in line {line}: look before it");
    fault.with_hint(hint)
}

/// Whether reading stopped at a wrong word, and not at a right word in the wrong bracket.
fn at_a_word(error: &Error) -> bool {
    match error {
        Error::NoSuchEnumVariant {
            expected, found, ..
        }
        | Error::NoSuchStructField {
            expected, found, ..
        } => {
            nearest(found, expected.iter().copied()).is_some()
                || new_name(STYLE_WORDS, found, expected).is_some()
        }
        Error::DuplicateStructField { .. }
        | Error::ExpectedNamedStructLike(_)
        | Error::ExpectedDifferentStructName { .. } => true,
        _ => false,
    }
}

/// The first characters of a text that may be long.
fn shortened(text: &str) -> String {
    let mut letters = text.chars();
    let first: String = letters.by_ref().take(24).collect();
    if letters.next().is_some() {
        format!("{first}…")
    } else {
        first
    }
}

/// The point at which the reader stopped.
struct Stopped<'t> {
    tokens: Tokens<'t>,
    /// The token at which it stopped.
    at: usize,
    halt: usize,
}

impl Stopped<'_> {
    fn fault(&self, error: &Error) -> SourceError {
        match error {
            Error::ExpectedComma => self.missing(",", "comma"),
            Error::ExpectedMapColon => self.missing(":", "colon"),
            Error::ExpectedString => self.unquoted(),
            Error::ExpectedIdentifier
            | Error::InvalidIdentifier(_)
            | Error::SuggestRawIdentifier(_) => self.no_word(),
            Error::ExpectedArray => self.here(
                "a list in square brackets belongs here",
                "write `[` … `]` around it",
            ),
            Error::ExpectedMap => self.here(
                "entries in braces belong here",
                "write `{` … `}` around them",
            ),
            Error::ExpectedStructLike => self.no_bracket(),
            Error::ExpectedStructLikeEnd | Error::ExpectedOptionEnd => self.too_much(),
            Error::ExpectedInteger
            | Error::InvalidIntegerDigit { .. }
            | Error::IntegerOutOfBounds => self.here(
                "a whole number belongs here",
                "without quotes, unit or fraction, such as 2",
            ),
            Error::ExpectedBoolean => self.here(
                "yes or no belongs here",
                "write true or false, without quotes",
            ),
            Error::ExpectedNamedStructLike(_) | Error::ExpectedDifferentStructName { .. } => {
                self.here("a style begins with `Style(`", "write `Style(` here")
            }
            Error::InvalidEscape(_) => self.backslash("leave the backslash out"),
            Error::TrailingCharacters => self.here(
                "the style ends before this",
                "leave out what stands behind its last bracket",
            ),
            Error::ExceededRecursionLimit => self.here(
                "too many brackets stand inside one another",
                "a style needs fewer than ten",
            ),
            Error::Message(words) if words.contains("backslash") => self.backslash(words),
            _ => self.shape(error),
        }
    }

    /// Errors of values that can be read but do not belong there.
    fn shape(&self, error: &Error) -> SourceError {
        match error {
            Error::NoSuchEnumVariant {
                expected, found, ..
            } => self.unknown("word", found, expected),
            Error::NoSuchStructField {
                expected, found, ..
            } => self.unknown("field", found, expected),
            Error::DuplicateStructField { field, .. } => self.here(
                format!("`{field}` stands twice in {}", self.whole()),
                "leave one out",
            ),
            Error::MissingStructField { field, .. } => {
                let place = self
                    .tokens
                    .opener(self.at)
                    .map_or(self.place(), |word| word.place.clone());
                SourceError::new(
                    place,
                    format!("{} has no `{field}`", self.whole()),
                    format!("write `{field}: …` in its brackets"),
                )
            }
            Error::InvalidValueForType { expected, .. } => {
                let label = match self.text() {
                    Some(number)
                        if number.starts_with(|first: char| first.is_ascii_digit())
                            && expected.contains("formula") =>
                    {
                        format!("write it with its unit in quotes: \"{number}mm\"")
                    }
                    _ => format!("write {expected}"),
                };
                self.here("this cannot stand here", label)
            }
            Error::ExpectedDifferentLength { expected, found } => {
                let digits: String = expected.chars().filter(char::is_ascii_digit).collect();
                self.here(
                    format!("{digits} things belong in these brackets"),
                    format!("there are only {found}"),
                )
            }
            Error::Message(words) => self.here(words.clone(), "here the style stops making sense"),
            other => self.here(other.to_string(), "here the style stops making sense"),
        }
    }

    fn here(&self, message: impl Into<String>, label: impl Into<String>) -> SourceError {
        SourceError::new(self.place(), message, label)
    }

    fn token(&self) -> Option<&Token> {
        self.tokens.list.get(self.at)
    }

    fn text(&self) -> Option<&str> {
        self.token().map(|token| self.tokens.text_of(token))
    }

    fn place(&self) -> SourceSpan {
        let end = || self.tokens.list.last().map_or(0, |token| token.place.end);
        match self.token() {
            Some(token) => token.place.clone(),
            None => end()..end(),
        }
    }

    /// The name in front of the innermost open bracket: `this Slot`.
    fn whole(&self) -> String {
        match self.tokens.opener(self.at) {
            Some(word) if self.tokens.text_of(word) != "Style" => {
                format!("this {}", self.tokens.text_of(word))
            }
            _ => "the style".to_owned(),
        }
    }

    /// A mark missing after the previous token, unless another mark is in its place.
    fn missing(&self, mark: &str, name: &str) -> SourceError {
        if let Some(other @ (";" | "=" | ":" | "," | ".")) = self.text() {
            return self.here(
                format!("a {name} belongs here"),
                format!("write `{mark}` instead of `{other}`"),
            );
        }
        let behind = self
            .tokens
            .before(self.at)
            .map_or(self.halt, |token| token.place.end);
        SourceError::new(
            behind..behind,
            format!("a {name} is missing"),
            format!("write `{mark}` here"),
        )
    }

    fn unquoted(&self) -> SourceError {
        let label = match self.text() {
            Some("“" | "”" | "„" | "'" | "‘" | "’" | "«" | "»") => {
                "write plain quotes: \"".to_owned()
            }
            Some("true") => "write \"otherwise\", or leave the field out".to_owned(),
            Some(number) if number.parse::<f64>().is_ok() => {
                format!("write it with its unit in quotes: \"{number}mm\"")
            }
            Some(word)
                if self
                    .token()
                    .is_some_and(|token| token.sort == TokenKind::Word) =>
            {
                format!("write it in quotes: \"{word}\"")
            }
            _ => "write it in quotes".to_owned(),
        };
        self.here(
            "a name, a formula or a sentence in quotes belongs here",
            label,
        )
    }

    fn no_word(&self) -> SourceError {
        let text = self.text().unwrap_or_default();
        if text.starts_with('#') {
            return self.here("this is no remark", "a remark begins with //");
        }
        let is_text = self
            .token()
            .is_some_and(|token| token.sort == TokenKind::Text);
        if is_text
            && self
                .tokens
                .field(self.at)
                .is_some_and(|field| SIZES.contains(&field))
        {
            let label = format!("write Outside({text}), Inside({text}) or Flat({text})");
            return self.here("a size says how it is measured", label);
        }
        if is_text {
            let bare = text.trim_matches('"');
            return self.here(
                "a word without quotes belongs here",
                format!("write {bare}"),
            );
        }
        self.here(
            "a word belongs here",
            "such as the name of a field, without quotes",
        )
    }

    fn no_bracket(&self) -> SourceError {
        let label = match self.tokens.field(self.at) {
            Some("size" | "at") => {
                "write two formulas in round brackets, as in (\"20mm\", \"10mm\")"
            }
            _ => "write `(` … `)` around it",
        };
        self.here("round brackets belong here", label)
    }

    fn too_much(&self) -> SourceError {
        let message = format!("{} has room for no more", self.whole());
        self.here(message, "write `)` here, and leave out the rest")
    }

    fn backslash(&self, label: &str) -> SourceError {
        let place = self.place();
        let token = self.text().and_then(|text| text.find('\\'));
        let place = token.map_or(place.clone(), |offset| {
            place.start + offset..place.start + offset + 1
        });
        SourceError::new(place, "a backslash means nothing in a style", label)
    }

    fn unknown(&self, what: &str, found: &str, expected: &[&str]) -> SourceError {
        if let Some(new) = new_name(STYLE_WORDS, found, expected) {
            let message = format!("`{found}` is now called `{new}`");
            return self.here(message, format!("write `{new}`"));
        }
        let label = match nearest(found, expected.iter().copied()) {
            Some(word) => format!("did you mean `{word}`?"),
            None => format!("what can stand here: {}", expected.join(", ")),
        };
        let message = if what == "field" {
            format!("{} has no field `{found}`", self.whole())
        } else {
            format!("`{found}` means nothing here")
        };
        self.here(message, label)
    }
}

/// The byte at a line and a column, both counted from 1, columns in characters.
fn byte_at(text: &str, line: usize, column: usize) -> usize {
    let start: usize = text
        .split_inclusive('\n')
        .take(line.saturating_sub(1))
        .map(str::len)
        .sum();
    let rest = &text[start.min(text.len())..];
    let within: usize = rest
        .chars()
        .take(column.saturating_sub(1))
        .map(char::len_utf8)
        .sum();
    start + within
}
