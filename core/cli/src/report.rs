//! The only file that prints: standard output is for what was asked, standard error for all else.
//!
//! Given answers, remarks and troubles, it puts them where they belong, with control characters made visible. It never
//! decides anything: what to say comes from the commands, the wording of faults and trays from the files below.

pub(crate) mod make_summary;

use std::io::{self, ErrorKind, Write};
use std::process::ExitCode;

use traywright_engine::SourceError;
use traywright_job::error::InputError;
use traywright_job::report::snippet;

use crate::error::CliError;

/// The two streams, and whether the maker wants to hear remarks.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Output {
    quiet: bool,
}

impl Output {
    /// An output that leaves out information if `quiet`.
    pub(crate) fn new(quiet: bool) -> Self {
        Output { quiet }
    }

    /// Prints what was asked for. A reader that has gone away is no trouble; a full disk is.
    pub(crate) fn print_result(&self, text: &str) -> Result<(), CliError> {
        let mut stream = io::stdout().lock();
        let outcome = stream
            .write_all(visible(text).as_bytes())
            .and_then(|()| stream.flush());
        match outcome {
            Err(error) if error.kind() != ErrorKind::BrokenPipe => Err(CliError::sentence(
                format_args!("standard output cannot be written: {error}"),
            )),
            _ => Ok(()),
        }
    }

    /// Prints lines beside the answer, such as what was written and what to do next.
    pub(crate) fn print_info(&self, text: &str) {
        if !self.quiet {
            eprint(text);
        }
    }

    /// Prints what went wrong with a tray; not even `--quiet` leaves it out.
    pub(crate) fn finding(&self, text: &str) {
        eprint(text);
    }

    /// Prints what is odd in a text, with its places.
    pub(crate) fn warnings(&self, path: &str, text: &str, odd: &[SourceError]) {
        self.print_info(&snippet::warnings(path, text, odd));
    }

    /// Prints everything that stopped a command.
    pub(crate) fn errors(&self, errors: &[CliError]) {
        for error in errors {
            match error {
                CliError::Input(InputError::Text { path, text, faults }) => {
                    eprint(&snippet::all(path, text, faults));
                }
                CliError::Exporter(error) => eprint(&format!("error: {error}\n")),
                CliError::Input(InputError::Sentence(words)) | CliError::Sentence(words) => {
                    eprint(&format!("error: {words}\n"))
                }
            }
        }
    }
}

/// Prints help, the version, or what is wrong with the words typed, and says how to exit.
pub(crate) fn print_usage(error: &clap::Error) -> ExitCode {
    let text = error.render().to_string();
    if error.use_stderr() {
        eprint(&text);
        return ExitCode::from(2);
    }
    match Output::new(false).print_result(&text) {
        Ok(()) => ExitCode::SUCCESS,
        Err(_) => ExitCode::from(2),
    }
}

/// Nothing can be done about a standard error that is gone.
fn eprint(text: &str) {
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
