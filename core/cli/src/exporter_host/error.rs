//! Why an exporter gave no files.
//!
//! The words of [`HostError`] follow the exporter's name: "the exporter `pdf` took longer than 3 s". [`ExporterError`]
//! adds the name, and the job on which the exporter failed.

use std::fmt;
use std::process::ExitStatus;
use std::time::Duration;

use traywright_document::plugin_api::LONGEST_SUFFIX;

use super::MOST_BYTES;
use super::reply::MOST_FILES;
use crate::exporter_file::ExporterFile;

/// The failure of an exporter.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum HostError {
    /// The system starts no process for it; carries the system's words.
    NotStarted(String),
    /// It was stopped earlier, after another error.
    StoppedBefore,
    /// It took longer than the time limit.
    TimedOut(Duration),
    /// It made more files or bytes of one tray than allowed.
    TooLarge,
    /// A signal ended its process.
    Crashed {
        /// The number of the signal.
        signal: i32,
    },
    /// Its process ended by itself before its answer was complete.
    Exited {
        /// The exit code, if the system gives one.
        code: Option<i32>,
    },
    /// Its library cannot be used; carries the reason from the child process.
    Unusable(String),
    /// It refuses the tray.
    Refused {
        /// The code that it returned.
        code: i32,
        /// Its reasons.
        reasons: Vec<String>,
    },
    /// Its answer breaks a rule.
    BrokenPromise(BrokenPromise),
}

/// A rule of answers that an exporter broke.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum BrokenPromise {
    /// The bytes are not a message.
    Noise,
    /// An answer came without a request.
    Unasked,
    /// The answer holds no file.
    NoFile,
    /// Two files have this suffix.
    SameSuffix(String),
    /// This is not a valid suffix.
    BadSuffix(String),
}

impl HostError {
    /// The end of a process that should still run.
    pub(super) fn ended(status: Option<ExitStatus>) -> Self {
        #[cfg(unix)]
        if let Some(signal) =
            status.and_then(|status| std::os::unix::process::ExitStatusExt::signal(&status))
        {
            return HostError::Crashed { signal };
        }
        HostError::Exited {
            code: status.and_then(|status| status.code()),
        }
    }

    /// Whether it is a refusal with a reason.
    pub(super) fn is_explained(&self) -> bool {
        matches!(self, HostError::Refused { reasons, .. } if !reasons.is_empty())
    }
}

impl From<BrokenPromise> for HostError {
    fn from(promise: BrokenPromise) -> Self {
        HostError::BrokenPromise(promise)
    }
}

impl fmt::Display for HostError {
    fn fmt(&self, to: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            HostError::NotStarted(cause) => write!(to, "cannot be started: {cause}"),
            HostError::StoppedBefore => write!(to, "has been stopped before"),
            HostError::TimedOut(limit) => write!(
                to,
                "took longer than {} s; `--exporter-seconds N` allows more",
                limit.as_secs_f64()
            ),
            HostError::TooLarge => write!(
                to,
                "made more than {} MiB or {MOST_FILES} files of one tray",
                MOST_BYTES / 1024 / 1024
            ),
            HostError::Crashed { signal } => {
                write!(to, "crashed with signal {signal}{}", meaning(*signal))
            }
            HostError::Exited { code } => {
                write!(to, "stopped in the middle of its work")?;
                if let Some(code) = code {
                    write!(to, " with exit code {code}")?;
                }
                Ok(())
            }
            HostError::Unusable(words) => write!(to, "{words}"),
            HostError::Refused { code, reasons } if reasons.is_empty() => {
                write!(to, "refuses the tray with code {code} and no reason")
            }
            HostError::Refused { reasons, .. } => {
                write!(to, "refuses the tray: {}", reasons.join("; "))
            }
            HostError::BrokenPromise(promise) => write!(to, "{promise}"),
        }
    }
}

impl fmt::Display for BrokenPromise {
    fn fmt(&self, to: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            BrokenPromise::Noise => write!(to, "answers with bytes that mean nothing here"),
            BrokenPromise::Unasked => write!(to, "answers without being asked"),
            BrokenPromise::NoFile => write!(to, "made no file"),
            BrokenPromise::SameSuffix(suffix) => {
                write!(to, "made two files with the ending `{suffix}`")
            }
            BrokenPromise::BadSuffix(suffix) => write!(
                to,
                "gave a file the ending `{suffix}`, where one begins with `.` or `-`, holds only ASCII letters, digits, \
                 `.` and `-`, and is at most {LONGEST_SUFFIX} bytes long"
            ),
        }
    }
}

/// A failure, with the end of what the exporter printed if nothing else explains it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Failure {
    cause: HostError,
    last_words: String,
}

impl Failure {
    pub(super) fn new(cause: HostError, last_words: String) -> Self {
        Failure { cause, last_words }
    }
}

impl From<HostError> for Failure {
    fn from(cause: HostError) -> Self {
        Failure::new(cause, String::new())
    }
}

impl fmt::Display for Failure {
    fn fmt(&self, to: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.last_words.as_str() {
            "" => write!(to, "{}", self.cause),
            words => write!(to, "{}; its last words: {words}", self.cause),
        }
    }
}

/// The meaning of a signal, as the end of a clause.
// Source: POSIX.1-2017, signal.h; the numbers are those of Linux.
fn meaning(signal: i32) -> &'static str {
    match signal {
        4 => ": an instruction that the machine does not know",
        6 => ": it gave up by itself",
        7 => ": its file is damaged, or it read memory that is not there",
        8 => ": a division by zero",
        9 => ": it was killed",
        11 => ": it used memory that is not its own",
        25 => ": it tried to write a file",
        _ => "",
    }
}

/// A failed exporter with its name.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct ExporterError {
    exporter: String,
    /// The job whose tray it was given, if it failed on one.
    job: Option<String>,
    failure: Failure,
}

impl ExporterError {
    /// The failure of an exporter.
    pub(crate) fn new(exporter: &ExporterFile, failure: impl Into<Failure>) -> Self {
        ExporterError {
            exporter: exporter.name.clone(),
            job: None,
            failure: failure.into(),
        }
    }

    /// The name of the exporter.
    pub(crate) fn exporter(&self) -> &str {
        &self.exporter
    }

    /// The same failure, on the tray of a job.
    pub(crate) fn on(self, job: &str) -> Self {
        ExporterError {
            job: Some(job.to_owned()),
            ..self
        }
    }
}

impl fmt::Display for ExporterError {
    fn fmt(&self, to: &mut fmt::Formatter<'_>) -> fmt::Result {
        if let Some(job) = &self.job {
            write!(to, "{job}: ")?;
        }
        write!(to, "the exporter `{}` {}", self.exporter, self.failure)
    }
}
