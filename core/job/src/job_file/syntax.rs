//! From text to KDL nodes, with syntax errors in the maker's words.
//!
//! **Input:** the text of a job. **Output:** its nodes as far as they can be read. Where the parser stops, the wrong
//! word is reported and blanked out, and the rest is read again, so that one run finds every error and no error hides
//! others or is reported twice. Never changes an offset: source spans stay those of the maker's text.

use kdl::{KdlDiagnostic, KdlDocument};
use traywright_engine::SourceError;
use traywright_engine::finding::SourceSpan;

mod mistakes;

/// Maximum bytes to parse in all rounds, which limits the time for a large file with errors.
const BYTES_TO_PARSE: usize = 256 * 1024;

/// Maximum number of errors. Common practice, none published: nobody reads more at once.
const MOST_SLIPS: usize = 20;

/// The readable parts of a text.
pub(super) struct Parsed {
    /// The nodes; none if the text stays unreadable.
    pub(super) document: Option<KdlDocument>,
    /// The errors found.
    pub(super) faults: Vec<SourceError>,
    /// Spans that were skipped because of an error.
    pub(super) spoiled: Vec<SkippedSpan>,
}

/// A skipped span.
pub(super) struct SkippedSpan {
    /// Its byte range.
    pub(super) place: SourceSpan,
    /// Whether it is a whole line, with the word that begins it.
    pub(super) whole_line: bool,
}

/// A syntax error, and the part of the text to blank out so that the rest can be read.
struct Slip {
    fault: SourceError,
    spoiled: SkippedSpan,
}

/// Reads the text. A bad text may take [`much stack`](super::read) and time.
pub(super) fn parse(text: &str) -> Parsed {
    let mut parsed = Parsed {
        document: None,
        faults: Vec::new(),
        spoiled: Vec::new(),
    };
    let mut rest = text.to_owned();
    let rounds = (BYTES_TO_PARSE / text.len().max(1)).clamp(1, MOST_SLIPS);
    for _ in 0..rounds {
        let error = match KdlDocument::parse_v2(&rest) {
            Ok(document) => {
                parsed.document = Some(document);
                return parsed;
            }
            Err(error) => error,
        };
        // The parser reports them in its own order, but the first in the text is among the first reported.
        let told = error.diagnostics.iter().take(MOST_SLIPS);
        let mistakes = told.map(|diagnostic| mistakes::slip(&rest, diagnostic));
        let Some(slip) = mistakes.min_by_key(|slip| slip.fault.place.start) else {
            break;
        };
        let place = slip.spoiled.place.clone();
        let blank = rest[place.clone()].trim().is_empty();
        parsed.faults.push(slip.fault);
        if blank {
            break;
        }
        parsed.spoiled.push(slip.spoiled);
        rest.replace_range(place.clone(), &" ".repeat(place.len()));
    }
    parsed
}

/// The byte at which the parser gave up.
fn stopped_at(text: &str, diagnostic: &KdlDiagnostic) -> usize {
    let start = diagnostic.span.offset().min(text.len());
    let end = (start + diagnostic.span.len()).min(text.len());
    let (start, end) = (
        text.floor_char_boundary(start),
        text.floor_char_boundary(end),
    );
    // Some spans go from the start of the text to the failing byte, so only their end is useful.
    let reaches_over_words = text[start..end].contains(char::is_whitespace);
    if reaches_over_words { end } else { start }
}
