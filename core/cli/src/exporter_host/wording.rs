//! How the end of an exporter is told, and how its own words are quoted.
//!
//! Given what the system or the exporter says, gives clauses that follow the exporter's name. An exporter's words never
//! make more than one line.

use std::process::ExitStatus;

use super::MOST_BYTES;
use super::reply::MOST_FILES;

/// Words of an exporter in a sentence of ours are cut here, in characters.
const LONGEST_QUOTE: usize = 400;

/// More than one document may become.
pub(super) fn too_much() -> String {
    format!(
        "made more than {} MiB or {MOST_FILES} files of one tray",
        MOST_BYTES / 1024 / 1024
    )
}

/// An answer that does not follow the rules of the pipe.
pub(super) fn nonsense() -> String {
    "answers with bytes that mean nothing here".to_owned()
}

/// How a process ended that should still run.
pub(super) fn end_in_words(status: ExitStatus) -> String {
    #[cfg(unix)]
    if let Some(signal) = std::os::unix::process::ExitStatusExt::signal(&status) {
        let meaning = match signal {
            4 => ": an instruction that the machine does not know",
            6 => ": it gave up by itself",
            7 => ": its file is damaged, or it read memory that is not there",
            8 => ": a division by zero",
            9 => ": it was killed",
            11 => ": it used memory that is not its own",
            _ => "",
        };
        return format!("crashed with signal {signal}{meaning}");
    }
    match status.code() {
        Some(code) => format!("stopped in the middle of its work with exit code {code}"),
        None => "stopped in the middle of its work".to_owned(),
    }
}

/// Foreign words as part of one sentence: one line, no full stop at the end, not too long.
pub(super) fn quote(words: &str) -> String {
    let line = one_line(words);
    match line.char_indices().nth(LONGEST_QUOTE) {
        Some((end, _)) => format!("{}…", &line[..end]),
        None => line,
    }
}

/// The same, keeping the end.
pub(super) fn quote_end(words: &str) -> String {
    let line = one_line(words);
    match line.char_indices().rev().nth(LONGEST_QUOTE) {
        Some((start, _)) => format!("…{}", &line[start..]),
        None => line,
    }
}

fn one_line(words: &str) -> String {
    let words: Vec<&str> = words.split_whitespace().collect();
    words.join(" ").trim_end_matches('.').to_owned()
}
