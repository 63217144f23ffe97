//! Lines typed by the maker, and lines printed between them.
//!
//! **Input:** two streams. **Output:** answers. **Errors:** the end of the answers, and a terminal that is gone.

use std::io::{self, BufRead, Read, Write};

use crate::error::CliError;

/// Longer than any answer.
const LONGEST_ANSWER: u64 = 1000;

/// A terminal with a maker at it.
pub(in super::super) struct Terminal<Input, Output> {
    input: Input,
    output: Output,
}

impl<Input: BufRead, Output: Write> Terminal<Input, Output> {
    /// A terminal with these two streams.
    pub(in super::super) fn new(input: Input, output: Output) -> Self {
        Terminal { input, output }
    }

    /// Prints words as they are.
    pub(in super::super) fn print(&mut self, words: &str) -> Result<(), CliError> {
        let outcome = self
            .output
            .write_all(words.as_bytes())
            .and_then(|()| self.output.flush());
        outcome.map_err(|error| gone(&error))
    }

    /// One line, without the white space around it.
    pub(in super::super) fn answer(&mut self, prompt: &str) -> Result<String, CliError> {
        self.print(&format!("{prompt}: "))?;
        let mut bytes = Vec::new();
        let read = (&mut self.input)
            .take(LONGEST_ANSWER)
            .read_until(b'\n', &mut bytes);
        match read {
            Err(error) => Err(gone(&error)),
            Ok(_) if !bytes.ends_with(b"\n") => {
                self.print("\n")?;
                Err(CliError::sentence(
                    "the answers ended before the job was complete: nothing is written",
                ))
            }
            Ok(_) => Ok(String::from_utf8_lossy(&bytes).trim().to_owned()),
        }
    }
}

fn gone(error: &io::Error) -> CliError {
    CliError::sentence(format_args!(
        "the terminal is gone ({error}): nothing is written"
    ))
}
