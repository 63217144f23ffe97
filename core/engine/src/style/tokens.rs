//! The tokens of a style's text: brackets, quoted texts, words and marks, each with its source span.
//!
//! **Input:** a text that may not be RON at all. **Output:** its tokens, so that an error of the RON reader can be
//! explained in plain words: a bracket that stays open, a missing quote, the token before and after. Knows no grammar.

use crate::finding::SourceError;
use crate::finding::SourceSpan;

/// The kinds of token.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum TokenKind {
    Open,
    Close,
    /// A text with its quotes.
    Text,
    /// Letters, digits and the characters that join them.
    Word,
    /// Any other character.
    Mark,
}

/// One token.
#[derive(Clone, Debug)]
pub(super) struct Token {
    pub(super) sort: TokenKind,
    pub(super) place: SourceSpan,
}

/// All tokens of a text in order.
pub(super) struct Tokens<'t> {
    text: &'t str,
    pub(super) list: Vec<Token>,
    /// The start of a text or a comment that never ends.
    endless: Option<SourceSpan>,
}

impl<'t> Tokens<'t> {
    /// Splits a text into tokens.
    pub(super) fn of(text: &'t str) -> Self {
        let mut tokens = Tokens {
            text,
            list: Vec::new(),
            endless: None,
        };
        let mut at = 0;
        while let Some(letter) = text[at..].chars().next() {
            let rest = &text[at..];
            let length = match letter {
                '/' if rest.starts_with("//") => rest.find('\n').unwrap_or(rest.len()),
                '/' if rest.starts_with("/*") => tokens.remark(at),
                '"' => tokens.quoted(at),
                letter if letter.is_whitespace() => letter.len_utf8(),
                letter => tokens.token(at, letter),
            };
            at += length;
        }
        tokens
    }

    /// The text of a token.
    pub(super) fn text_of(&self, token: &Token) -> &'t str {
        &self.text[token.place.clone()]
    }

    /// The index of the first token that ends behind a byte.
    pub(super) fn sign_at(&self, byte: usize) -> usize {
        self.list.partition_point(|token| token.place.end <= byte)
    }

    /// The token before another one.
    pub(super) fn before(&self, token: usize) -> Option<&Token> {
        self.list.get(token.checked_sub(1)?)
    }

    /// Whether a token has this text.
    pub(super) fn is(&self, token: usize, text: &str) -> bool {
        self.list
            .get(token)
            .is_some_and(|token| self.text_of(token) == text)
    }

    /// The word before the innermost bracket that is open at a token, such as `Slot` of `Slot(`.
    pub(super) fn opener(&self, token: usize) -> Option<&Token> {
        let mut open = Vec::new();
        for (index, token) in self.list[..token.min(self.list.len())].iter().enumerate() {
            match token.sort {
                TokenKind::Open => open.push(index),
                TokenKind::Close => {
                    open.pop();
                }
                _ => {}
            }
        }
        self.before(*open.last()?)
            .filter(|token| token.sort == TokenKind::Word)
    }

    /// The field whose value begins at a token, such as `reach` of `reach: Flat("3mm")`.
    pub(super) fn field(&self, token: usize) -> Option<&'t str> {
        let name = self.before(token.checked_sub(1)?)?;
        (self.is(token - 1, ":") && name.sort == TokenKind::Word).then(|| self.text_of(name))
    }

    /// The span of a field's value at the top level of the style, up to the value's first token.
    pub(super) fn value_of(&self, field: &str) -> Option<SourceSpan> {
        let mut depth = 0;
        for (index, token) in self.list.iter().enumerate() {
            match token.sort {
                TokenKind::Open => depth += 1,
                TokenKind::Close => depth -= 1,
                TokenKind::Word
                    if depth == 1 && self.text_of(token) == field && self.is(index + 1, ":") =>
                {
                    return self.list.get(index + 2).map(|value| value.place.clone());
                }
                _ => {}
            }
        }
        None
    }

    /// The first text with a word directly before or after it, without a space: a quote is missing or superfluous
    /// there.
    pub(super) fn odd_quotes(&self) -> Option<SourceSpan> {
        let odd = |pair: &[Token]| {
            let touch = pair[0].place.end == pair[1].place.start;
            match (pair[0].sort, pair[1].sort) {
                (TokenKind::Text, TokenKind::Word | TokenKind::Text) if touch => {
                    Some(pair[0].place.clone())
                }
                (TokenKind::Word, TokenKind::Text) if touch => Some(pair[1].place.clone()),
                _ => None,
            }
        };
        self.list.windows(2).find_map(odd)
    }

    /// A text that never ends, a bracket that is never closed, or one that closes no other.
    pub(super) fn unbalanced(&self) -> Option<SourceError> {
        if let Some(start) = &self.endless {
            let (message, label) = if self.text[start.clone()].starts_with('"') {
                ("this text in quotes never ends", "a quote is missing")
            } else {
                ("this remark never ends", "write `*/` where it ends")
            };
            return Some(SourceError::new(start.clone(), message, label));
        }
        let mut open: Vec<&Token> = Vec::new();
        for token in &self.list {
            match (token.sort, open.last()) {
                (TokenKind::Open, _) => open.push(token),
                (TokenKind::Close, None) => {
                    let message = format!("this `{}` closes nothing", self.text_of(token));
                    return Some(SourceError::new(
                        token.place.clone(),
                        message,
                        "leave it out",
                    ));
                }
                (TokenKind::Close, Some(opened))
                    if closing(self.text_of(opened)) == self.text_of(token) =>
                {
                    open.pop();
                }
                (TokenKind::Close, Some(opened)) => {
                    let (opened_by, closed_by) = (self.text_of(opened), self.text_of(token));
                    let message = format!("the bracket `{opened_by}` is closed by a `{closed_by}`");
                    let label = format!(
                        "a bracket is missing before this `{closed_by}`, or one is too many"
                    );
                    let fault = SourceError::new(token.place.clone(), message, label);
                    return Some(fault.with_context(opened.place.clone(), "open since here"));
                }
                _ => {}
            }
        }
        let opened = open.last()?;
        let message = format!("the bracket `{}` is never closed", self.text_of(opened));
        let label = format!("its `{}` is missing", closing(self.text_of(opened)));
        Some(SourceError::new(opened.place.clone(), message, label))
    }

    fn remark(&mut self, at: usize) -> usize {
        let mut depth = 0;
        let mut here = at;
        while let Some(letter) = self.text[here..].chars().next() {
            let rest = &self.text[here..];
            if rest.starts_with("/*") {
                depth += 1;
                here += 2;
            } else if rest.starts_with("*/") {
                depth -= 1;
                here += 2;
                if depth == 0 {
                    return here - at;
                }
            } else {
                here += letter.len_utf8();
            }
        }
        self.endless.get_or_insert(at..at + 2);
        here - at
    }

    fn quoted(&mut self, at: usize) -> usize {
        let mut escaped = false;
        for (index, letter) in self.text[at..].char_indices().skip(1) {
            match letter {
                '"' if !escaped => {
                    self.push(TokenKind::Text, at, index + 1);
                    return index + 1;
                }
                '\\' => escaped = !escaped,
                _ => escaped = false,
            }
        }
        self.endless.get_or_insert(at..at + 1);
        self.text.len() - at
    }

    fn token(&mut self, at: usize, letter: char) -> usize {
        let sort = match letter {
            '(' | '[' | '{' => TokenKind::Open,
            ')' | ']' | '}' => TokenKind::Close,
            letter if in_a_word(letter) => TokenKind::Word,
            _ => TokenKind::Mark,
        };
        let length = if sort == TokenKind::Word {
            let rest = &self.text[at..];
            rest.find(|letter| !in_a_word(letter)).unwrap_or(rest.len())
        } else {
            letter.len_utf8()
        };
        self.push(sort, at, length);
        length
    }

    fn push(&mut self, sort: TokenKind, at: usize, length: usize) {
        let place = at..at + length;
        self.list.push(Token { sort, place });
    }
}

fn in_a_word(letter: char) -> bool {
    letter.is_alphanumeric() || matches!(letter, '_' | '-' | '+' | '.' | '#' | '!')
}

fn closing(open: &str) -> &'static str {
    match open {
        "(" => ")",
        "[" => "]",
        _ => "}",
    }
}
