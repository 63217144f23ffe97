//! Checks before the parser sees a job: its size, its encoding, and nesting that the parser cannot handle.
//!
//! **Input:** the bytes of a file. **Output:** its text. **Errors:** the one error that prevents reading it at all.

use traywright_engine::SourceError;

use super::WHOLE;

/// Maximum size of a job, in bytes.
// Source: core/CONTRACT.md, "Job file".
pub const LARGEST: usize = 256 * 1024;

const NO_INNER_PARTS: &str = "a job has no inner parts: what belongs to a word stands behind it on its line, as in \
    `box length=(mm)182 …`";
const PLAIN_COMMENTS: &str = "begin a comment with `//`: it ends with its line";
const PLAIN_QUOTES: &str = "write text in plain double quotes";

/// Texts that the parser handles badly, and how many of each a job may have, anywhere in it. A job needs none of them.
// Derived from runs of the parser, release 6.7.1: a commented-out block in another one doubles the time, nested blocks
// and comments take stack, each raw text is looked through to the end of the file, a chain of `/-` takes time squared.
const MOST: [(&str, usize, &str); 5] = [
    ("{", 8, NO_INNER_PARTS),
    ("}", 8, NO_INNER_PARTS),
    ("/-", 64, PLAIN_COMMENTS),
    ("/*", 256, PLAIN_COMMENTS),
    ("#\"", 8, PLAIN_QUOTES),
];

/// Maximum of bytes times two for each level of commented-out blocks: some seconds of work.
const MOST_WORK: usize = 2 * 1024 * 1024;

/// The file as text.
pub(super) fn text_of(bytes: &[u8]) -> Result<&str, Box<SourceError>> {
    if bytes.len() > LARGEST {
        let message = format!("this file is too large for a job: {} bytes", bytes.len());
        let label = format!("a job has at most {LARGEST} bytes (256 KiB): is it the right file?");
        return Err(Box::new(SourceError::new(WHOLE, message, label)));
    }
    let text = std::str::from_utf8(bytes).map_err(|error| {
        let line = bytes[..error.valid_up_to()]
            .iter()
            .filter(|byte| **byte == b'\n')
            .count()
            + 1;
        Box::new(SourceError::new(
            WHOLE,
            format!("this file is not UTF-8 text (the first strange byte is in line {line})"),
            "save it as UTF-8, which every text editor offers, or check that it is the right file",
        ))
    })?;
    if text.trim_start_matches('\u{feff}').trim().is_empty() {
        return Err(Box::new(empty()));
    }
    Ok(text)
}

/// The error of a job without content.
pub(super) fn empty() -> SourceError {
    SourceError::new(
        WHOLE,
        "this job is empty",
        "a job names a tray, a box, an item and a board: `traywright start FILE.kdl` writes one to fill in",
    )
}

/// Rejects nesting that the parser cannot handle.
pub(super) fn nesting_of(text: &str) -> Result<(), Box<SourceError>> {
    for (sign, most, fix) in MOST {
        let mut places = text
            .match_indices(sign)
            .filter(|(at, _)| !opens_comment(text, *at));
        if let Some((at, _)) = places.nth(most) {
            let message = format!("more than {most} times `{sign}`");
            return Err(Box::new(SourceError::new(
                at..at + sign.len(),
                message,
                fix,
            )));
        }
    }
    if let Some((at, letter)) = text
        .char_indices()
        .skip(1)
        .find(|(_, letter)| is_invisible(*letter))
    {
        let message = format!(
            "an invisible character stands here, U+{:04X}",
            u32::from(letter)
        );
        let label = "delete it: it often comes along when text is pasted from a web page";
        return Err(Box::new(SourceError::new(
            at..at + letter.len_utf8(),
            message,
            label,
        )));
    }
    let levels = text.matches('{').count().min(text.matches("/-").count());
    if text.len() << levels > MOST_WORK {
        let message = format!(
            "{levels} commented-out blocks (`/-`) are too many for a file of {} KiB",
            text.len().div_ceil(1024)
        );
        return Err(Box::new(SourceError::new(WHOLE, message, PLAIN_COMMENTS)));
    }
    Ok(())
}

/// Invisible characters, which a job must not contain.
// Source: KDL 2.0.0, "Disallowed Literal Code Points".
fn is_invisible(letter: char) -> bool {
    let kept = matches!(letter, '\t' | '\n' | '\r' | '\u{b}' | '\u{c}' | '\u{85}');
    letter.is_control() && !kept && !matches!(letter, '\u{80}'..='\u{9f}')
        || matches!(letter, '\u{200e}' | '\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}' | '\u{feff}')
}

/// Whether these two characters are the last of `//-` or `//*`, which begin a comment and not a block.
fn opens_comment(text: &str, at: usize) -> bool {
    let before = &text[..at];
    text[at..].starts_with('/') && before.ends_with('/') && !before.ends_with("*/")
}
