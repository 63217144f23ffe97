//! The only file that prints: requested output on standard output, everything else on standard error.
//!
//! Shows hidden characters as visible text. Decides nothing: the commands choose the content, and the modules below
//! put errors and trays into words.

pub(crate) mod make_summary;
pub(crate) mod make_table;
pub(crate) mod progress;

use std::io::{self, ErrorKind, IsTerminal, Write};
use std::process::ExitCode;

use traywright_document::seen;
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

    /// Begins a new screen, if standard error is a terminal.
    pub(crate) fn begin_screen(&self) {
        if !self.quiet && io::stderr().is_terminal() {
            // Source: ECMA-48, "CUP" and "ED": the cursor goes home, and the screen is erased.
            let _ = io::stderr().lock().write_all(b"\x1b[H\x1b[2J");
        }
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

/// Names come from other people's files: what controls a terminal or changes the direction of writing must not reach it.
fn visible(text: &str) -> String {
    let parts = text.split_inclusive(['\n', '\t']).map(|part| {
        let end = part.len() - usize::from(part.ends_with(['\n', '\t']));
        seen(&part[..end]) + &part[end..]
    });
    parts.collect()
}
