//! Rust (or RON) text taken apart into code, comments and literals.
//!
//! Given a text, it gives the same text with comments and the insides of literals blanked out, byte for byte in the
//! same place, and the string literals with their places. It reads tokens, not grammar.

/// A text without its comments and literals.
pub(crate) struct RustSource {
    /// The code: as long as the text, with blanks for what is no code. Quotes stay.
    pub(crate) code: String,
    /// Every string literal with the place of its first byte.
    pub(crate) literals: Vec<(usize, String)>,
}

impl RustSource {
    /// Takes a text apart.
    pub(crate) fn read(text: &str) -> RustSource {
        let mut reader = Reader {
            text: text.as_bytes(),
            code: Vec::with_capacity(text.len()),
            literals: Vec::new(),
        };
        while reader.code.len() < reader.text.len() {
            reader.step();
        }
        RustSource {
            code: String::from_utf8_lossy(&reader.code).into_owned(),
            literals: reader.literals,
        }
    }

    /// The line of a place, counted from 1.
    pub(crate) fn line_of(&self, place: usize) -> usize {
        1 + self.code[..place].matches('\n').count()
    }

    /// Where the unit tests at the end of a file begin; its end if there are none.
    pub(crate) fn tests_begin(&self) -> usize {
        self.code.find("#[cfg(test)]").unwrap_or(self.code.len())
    }

    /// The words of the code with their places.
    pub(crate) fn words(&self) -> impl Iterator<Item = (usize, &str)> {
        let is_part = |letter: char| letter == '_' || letter.is_alphanumeric();
        let mut at = 0;
        self.code
            .split(move |letter| !is_part(letter))
            .map(move |word| {
                let place = at;
                at += word.len() + 1;
                (place, word)
            })
            .filter(|(_, word)| !word.is_empty())
    }
}

struct Reader<'a> {
    text: &'a [u8],
    code: Vec<u8>,
    literals: Vec<(usize, String)>,
}

impl Reader<'_> {
    fn step(&mut self) {
        let at = self.code.len();
        let rest = &self.text[at..];
        if rest.starts_with(b"//") {
            let length = rest.iter().position(|byte| *byte == b'\n');
            self.blank(length.unwrap_or(rest.len()));
        } else if rest.starts_with(b"/*") {
            self.blank(block_comment(rest));
        } else if let Some(hashes) = raw_string(self.text, at) {
            let open = 2 + hashes;
            let close = [b"\"".as_slice(), &b"#".repeat(hashes)].concat();
            let inside = find(&rest[open..], &close).unwrap_or(rest.len() - open);
            self.literal(open, inside, close.len());
        } else if rest[0] == b'"' {
            self.literal(1, escaped(&rest[1..], b'"'), 1);
        } else if rest[0] == b'\'' && is_character(rest) {
            self.blank(2 + escaped(&rest[1..], b'\''));
        } else {
            // Letters outside ASCII become blanks, so that every place in the code is a whole letter.
            self.code
                .push(if rest[0].is_ascii() { rest[0] } else { b' ' });
        }
    }

    fn blank(&mut self, length: usize) {
        let at = self.code.len();
        let end = (at + length).min(self.text.len());
        let blanks = self.text[at..end]
            .iter()
            .map(|byte| if *byte == b'\n' { b'\n' } else { b' ' });
        self.code.extend(blanks);
    }

    fn literal(&mut self, open: usize, inside: usize, close: usize) {
        let at = self.code.len();
        let content = &self.text[at + open..at + open + inside];
        self.literals
            .push((at, String::from_utf8_lossy(content).into_owned()));
        self.blank(open + inside + close);
        self.code[at] = b'"';
    }
}

/// Hashes of a raw string that begins here.
fn raw_string(text: &[u8], at: usize) -> Option<usize> {
    let rest = text[at..].strip_prefix(b"r")?;
    let before = at.checked_sub(1).map(|place| text[place]);
    if before.is_some_and(|byte| byte == b'_' || byte.is_ascii_alphanumeric() && byte != b'b') {
        return None;
    }
    let hashes = rest.iter().take_while(|byte| **byte == b'#').count();
    (rest.get(hashes) == Some(&b'"')).then_some(hashes)
}

/// Length up to a closing quote, the quote left out.
fn escaped(text: &[u8], quote: u8) -> usize {
    let mut at = 0;
    while at < text.len() && text[at] != quote {
        at += if text[at] == b'\\' { 2 } else { 1 };
    }
    at.min(text.len())
}

/// Whether a single quote begins a character and not a lifetime.
fn is_character(rest: &[u8]) -> bool {
    let text = String::from_utf8_lossy(&rest[1..rest.len().min(8)]).into_owned();
    let mut letters = text.chars();
    match letters.next() {
        Some('\\') => true,
        Some(_) => letters.next() == Some('\''),
        None => false,
    }
}

fn block_comment(rest: &[u8]) -> usize {
    let mut depth = 0;
    let mut at = 0;
    while at < rest.len() {
        if rest[at..].starts_with(b"/*") {
            depth += 1;
            at += 2;
        } else if rest[at..].starts_with(b"*/") {
            depth -= 1;
            at += 2;
            if depth == 0 {
                return at;
            }
        } else {
            at += 1;
        }
    }
    rest.len()
}

fn find(text: &[u8], wanted: &[u8]) -> Option<usize> {
    text.windows(wanted.len()).position(|part| part == wanted)
}

#[cfg(test)]
mod tests {
    use super::RustSource;

    #[test]
    fn comments_and_literals_are_no_code() {
        // Source: the Rust reference, chapters "Comments" and "Tokens".
        let text = "let a = \"{\\\"\"; // {\nlet b = '{'; let c: &'static str = r#\"}\"\"#; /* { /* } */ */ end();";
        let source = RustSource::read(text);
        assert_eq!(source.code.len(), text.len());
        assert!(!source.code.contains(['{', '}']), "{}", source.code);
        assert!(source.code.contains("'static") && source.code.contains("end();"));
        let literals: Vec<&str> = source
            .literals
            .iter()
            .map(|(_, word)| word.as_str())
            .collect();
        assert_eq!(literals, ["{\\\"", "}\""]);
    }

    #[test]
    fn words_know_their_places() {
        let source = RustSource::read("// é\nfn ä_word(b: u8)");
        for (place, word) in source.words() {
            assert_eq!(&source.code[place..place + word.len()], word);
        }
        assert_eq!(source.line_of(source.code.len()), 2);
    }
}
