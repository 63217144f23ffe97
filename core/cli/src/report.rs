//! The only file that prints: requested output on standard output, everything else on standard error.
//!
//! Shows control characters as visible text. Decides nothing: the commands choose the content, and the modules below
//! word errors and trays.

pub(crate) mod make_summary;

use std::io::{self, ErrorKind, Write};
use std::process::ExitCode;

use traywright_engine::SourceError;
use traywright_job::error::InputError;
use traywright_job::report::snippet;

use crate::error::CliError;

/// The two streams, and whether to print information.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Output {
    quiet: bool,
}

impl Output {
    /// An output that leaves out information if `quiet`.
    pub(crate) fn new(quiet: bool) -> Self {
        Output { quiet }
    }

    /// Prints the requested output. A closed pipe is not an error; a full disk is.
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

    /// Prints information in addition to the output, such as the files written and what to do next.
    pub(crate) fn print_info(&self, text: &str) {
        if !self.quiet {
            eprint(text);
        }
    }

    /// Prints errors of a tray, even with `--quiet`.
    pub(crate) fn finding(&self, text: &str) {
        eprint(text);
    }

    /// Prints warnings about a text, with their positions.
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

/// Prints help, the version, or an error in the command line, and returns the exit code.
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

/// If standard error is closed, nothing can be done.
fn eprint(text: &str) {
    let mut stream = io::stderr().lock();
    let _ = stream.write_all(visible(text).as_bytes());
}

/// Names come from other people's files, so their control characters must not reach the terminal.
fn visible(text: &str) -> String {
    text.chars()
        .map(|character| match character {
            '\n' | '\t' => character,
            _ if character.is_control() => char::REPLACEMENT_CHARACTER,
            _ => character,
        })
        .collect()
}
