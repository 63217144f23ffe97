//! Errors that end a command with exit code 2.
//!
//! `report` prints them. **Does not** cover a tray that does not fit: that is a finding.

use std::fmt;

use traywright_job::error::InputError;

use crate::exporter_host::ExporterError;

/// Bad input, a failed exporter, or a file that cannot be read or written.
#[derive(Debug)]
pub(crate) enum CliError {
    /// A job, style or code that cannot be used.
    Input(InputError),
    /// An exporter that failed.
    Exporter(ExporterError),
    /// Anything else, in one sentence that names the file.
    Sentence(String),
}

impl CliError {
    /// A sentence.
    pub(crate) fn sentence(words: impl fmt::Display) -> Self {
        CliError::Sentence(words.to_string())
    }

    /// Inputs that cannot be used, as errors of the program.
    pub(crate) fn inputs(errors: Vec<InputError>) -> Vec<CliError> {
        errors.into_iter().map(CliError::Input).collect()
    }
}

impl From<InputError> for CliError {
    fn from(error: InputError) -> Self {
        CliError::Input(error)
    }
}

impl From<ExporterError> for CliError {
    fn from(error: ExporterError) -> Self {
        CliError::Exporter(error)
    }
}

impl From<CliError> for Vec<CliError> {
    fn from(error: CliError) -> Self {
        vec![error]
    }
}
