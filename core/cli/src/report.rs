//! The only file that prints: standard output is for what was asked, standard error for all else.
//!
//! Given answers, remarks and troubles, it puts them where they belong, with control characters made visible. It never
//! decides anything: what to say comes from the commands, the wording of faults and trays from the files below.

mod figures;
mod folding;
pub(crate) mod json;
pub(crate) mod outcome;
mod paper;
pub(crate) mod sentence;
mod snippet;
pub(crate) mod text;

use std::io::{self, ErrorKind, Write};
use std::process::ExitCode;

use traywright_engine::Fault;

use crate::trouble::Trouble;

/// The two streams, and whether the maker wants to hear remarks.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Voice {
    quiet: bool,
}

impl Voice {
    /// A voice that leaves out remarks if `quiet`.
    pub(crate) fn new(quiet: bool) -> Self {
        Voice { quiet }
    }

    /// Prints what was asked for. A reader that has gone away is no trouble; a full disk is.
    pub(crate) fn answer(&self, text: &str) -> Result<(), Trouble> {
        let mut stream = io::stdout().lock();
        let outcome = stream
            .write_all(visible(text).as_bytes())
            .and_then(|()| stream.flush());
        match outcome {
            Err(error) if error.kind() != ErrorKind::BrokenPipe => Err(Trouble::sentence(
                format_args!("standard output cannot be written: {error}"),
            )),
            _ => Ok(()),
        }
    }

    /// Prints lines beside the answer, such as what was written and what to do next.
    pub(crate) fn remark(&self, text: &str) {
        if !self.quiet {
            complain(text);
        }
    }

    /// Prints what went wrong with a tray; not even `--quiet` leaves it out.
    pub(crate) fn finding(&self, text: &str) {
        complain(text);
    }

    /// Prints what is odd in a text, with its places.
    pub(crate) fn warnings(&self, path: &str, text: &str, odd: &[Fault]) {
        self.remark(&snippet::warnings(path, text, odd));
    }

    /// Prints everything that stopped a command.
    pub(crate) fn troubles(&self, troubles: &[Trouble]) {
        for trouble in troubles {
            match trouble {
                Trouble::Text { path, text, faults } => complain(&snippet::all(path, text, faults)),
                Trouble::Sentence(words) => complain(&format!("error: {words}\n")),
            }
        }
    }
}

/// Prints help, the version, or what is wrong with the words typed, and says how to exit.
pub(crate) fn usage(told: &clap::Error) -> ExitCode {
    let text = told.render().to_string();
    if told.use_stderr() {
        complain(&text);
        return ExitCode::from(2);
    }
    match Voice::new(false).answer(&text) {
        Ok(()) => ExitCode::SUCCESS,
        Err(_) => ExitCode::from(2),
    }
}

/// Nothing can be done about a standard error that is gone.
fn complain(text: &str) {
    let mut stream = io::stderr().lock();
    let _ = stream.write_all(visible(text).as_bytes());
}

/// Names come from files of others: no character of theirs may steer the terminal.
fn visible(text: &str) -> String {
    text.chars()
        .map(|character| match character {
            '\n' | '\t' => character,
            _ if character.is_control() => char::REPLACEMENT_CHARACTER,
            _ => character,
        })
        .collect()
}
