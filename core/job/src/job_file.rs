//! Reads a job file into a [`Job`]. Only this module and its children know KDL.
//!
//! **Input:** the bytes of a file, its name as the maker knows it, and the list of boards. **Output:** the job in plain
//! millimetres. **Errors:** all errors of the file at once, each with its position. **Does not** know styles: an
//! unknown style and a setting of the wrong kind are errors of later code, at the source spans that the job keeps.

mod board;
mod change_lines;
mod copy_lines;
mod form;
mod items;
pub(crate) mod keys;
mod labels;
mod limits;
mod nicks;
mod nodes;
mod pages;
mod parts;
mod place;
mod prints;
mod syntax;
mod together;
mod values;
mod words;
mod write;
mod written;

use std::path::Path;

use traywright_engine::SourceError;
use traywright_engine::finding::SourceSpan;
use traywright_engine::job::Job;

use crate::error::InputError;
use crate::library::Boards;

pub use change_lines::changed;
pub use copy_lines::lines_of;
use form::Form;
use keys::LINES;
pub use keys::MOST_OPENINGS;
pub use limits::LARGEST;
use nodes::Nodes;
pub use pages::{known_pages, page_named};
pub(crate) use words::Choice;
pub use words::Words;
pub use write::{Value, line, setting, write};
pub use written::{WrittenLine, WrittenValue, written};

/// Reads a job.
///
/// A bad text takes up to 4 KiB of stack per byte, and some malicious texts take minutes, so a front end must call this
/// where it can stop it, and then report [`too_tangled`].
///
/// # Errors
/// A file that is too large, not UTF-8, empty or not KDL, and every word or value that core/CONTRACT.md, "Job file",
/// does not know.
pub fn read(path_as_named: &str, bytes: &[u8], boards: &Boards) -> Result<Job, InputError> {
    let refused = |text: &str, mut faults: Vec<SourceError>| {
        faults.sort_by_key(|fault| fault.place.start);
        for fault in &mut faults {
            clip(&mut fault.message);
            clip(&mut fault.label);
        }
        InputError::Text {
            path: path_as_named.to_owned(),
            text: text.to_owned(),
            faults,
        }
    };
    let text = limits::text_of(bytes).map_err(|fault| refused("", vec![*fault]))?;
    limits::nesting_of(text).map_err(|fault| refused(text, vec![*fault]))?;
    let parsed = syntax::parse(text);
    let mut faults = parsed.faults;
    let stem = Path::new(path_as_named).file_stem().unwrap_or_default();
    let job = parsed.document.as_ref().map(|document| {
        let mut nodes = Nodes::sort(document, &parsed.spoiled, &mut faults);
        job_of(&mut nodes, &stem.to_string_lossy(), boards, &mut faults)
    });
    match job {
        Some(job) if faults.is_empty() => Ok(job),
        _ => Err(refused(text, faults)),
    }
}

/// The error of a text that takes more stack or time than a job can need.
pub fn too_tangled(path_as_named: &str, bytes: &[u8]) -> InputError {
    let fault = SourceError::new(
        WHOLE,
        "this file is too tangled to be read",
        "a job is a few lines such as `box length=(mm)182 width=(mm)121 depth=(mm)34`: is it the right file?",
    );
    InputError::Text {
        path: path_as_named.to_owned(),
        text: String::from_utf8_lossy(bytes).into_owned(),
        faults: vec![fault],
    }
}

/// The job; errors about unreadable parts are in `faults`.
fn job_of(
    nodes: &mut Nodes<'_>,
    stem: &str,
    boards: &Boards,
    faults: &mut Vec<SourceError>,
) -> Job {
    let mut form = Form::blank();
    stem.clone_into(&mut form.job.title);
    for line in &LINES {
        // A piece for no item goes into no box. The engine knows which styles make such pieces.
        let needs_none = line.name == "box" && nodes.named("item").next().is_none();
        if !needs_none {
            nodes.require(line, faults);
        }
        for node in nodes.every(line) {
            node.fill(&mut form, boards, faults);
            if let Some(finish) = line.finish {
                finish(node, &mut form, faults);
            }
        }
    }
    together::check(nodes, &form, faults);
    form.job
}

/// A message about a word of a thousand letters need not repeat all of them.
fn clip(words: &mut String) {
    // Common practice, none published: some lines of a terminal.
    const MOST: usize = 240;
    if let Some((at, _)) = words.char_indices().nth(MOST) {
        words.truncate(at);
        words.push('…');
    }
}

/// The whole file, as the span of an error that belongs to no single word.
const WHOLE: SourceSpan = 0..0;

#[cfg(test)]
mod tests;
