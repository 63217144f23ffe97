//! From text to KDL nodes, with slips of spelling told in the maker's words.
//!
//! Given the text of a job, gives its nodes as far as they can be read. Where the parser stops, the word at fault is
//! named, blanked out, and the rest is read again, so that one pass finds every slip and no slip hides the others or is
//! reported twice. Never changes an offset: places stay those of the maker's text.

use kdl::{KdlDiagnostic, KdlDocument};
use traywright_engine::SourceError;
use traywright_engine::finding::SourceSpan;

mod mistakes;

/// Bytes to parse in all, over the rounds: what bounds the time of a large and faulty file.
const BYTES_TO_PARSE: usize = 256 * 1024;

/// Slips that are looked for. Common practice, none published: nobody reads more at once.
const MOST_SLIPS: usize = 20;

/// What could be read of a text.
pub(super) struct Parsed {
    /// The nodes; none if the text stays unreadable.
    pub(super) document: Option<KdlDocument>,
    /// Slips found on the way.
    pub(super) faults: Vec<SourceError>,
    /// Places that were passed over because of a slip.
    pub(super) spoiled: Vec<SkippedSpan>,
}

/// A place that was passed over.
pub(super) struct SkippedSpan {
    /// Its bytes.
    pub(super) place: SourceSpan,
    /// Whether a whole line went, with the word that begins it.
    pub(super) whole_line: bool,
}

/// A slip, and how much of the text has to go for the rest to be read.
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
        // The parser tells them in its order, so the first in the text is among the first that it tells.
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

/// Where the parser stood when it gave up, in bytes.
fn stopped_at(text: &str, diagnostic: &KdlDiagnostic) -> usize {
    let start = diagnostic.span.offset().min(text.len());
    let end = (start + diagnostic.span.len()).min(text.len());
    let (start, end) = (
        text.floor_char_boundary(start),
        text.floor_char_boundary(end),
    );
    // Some spans reach from the start of the text to the failing byte: only their end says anything.
    let reaches_over_words = text[start..end].contains(char::is_whitespace);
    if reaches_over_words { end } else { start }
}
