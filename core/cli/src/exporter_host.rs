//! The program's side of an exporter: a child process that receives documents and is never trusted.
//!
//! **Input:** an exporter's file, and a time limit per document. **Output:** the files for each document, or the reason
//! why there are none. One child serves many documents. It may crash, hang, flood, lie or leave processes behind; its
//! files are passed on only when the whole answer is complete and well-formed. Nothing here writes a file.

mod error;
mod quote;
mod reply;

use std::env;
use std::io::{self, Read};
use std::process::{Child, Command, ExitStatus, Stdio};
use std::sync::mpsc::{self, Receiver, RecvTimeoutError, Sender};
use std::thread;
use std::time::{Duration, Instant};

use traywright_document::plugin_api::Exported;

use crate::exporter_child::CALL;
use crate::exporter_file::ExporterFile;
use crate::exporter_protocol::{self as frames, Description, Frame, FrameFault, MessageKind};
use error::BrokenPromise;
pub(crate) use error::{ExporterError, HostError};
use quote::quote_end;
use reply::Reply;

/// Maximum size of the files of one document. Common practice, none published: a booklet of 400 pages takes a tenth of
/// it.
const MOST_BYTES: usize = 64 * 1024 * 1024;

/// Number of bytes kept from the end of standard error.
const LAST_WORDS: usize = 16 * 1024;

/// One exporter in a process of its own, ready for documents.
#[derive(Debug)]
pub(crate) struct Running {
    time_limit: Duration,
    child: Child,
    /// Set when the child has been stopped or has ended.
    ended: Option<ExitStatus>,
    /// Dropped to end the child's input.
    requests: Option<Sender<Frame>>,
    answers: Receiver<Result<Frame, FrameFault>>,
    last_words: Receiver<Vec<u8>>,
}

/// The status of an exporter without an export.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct ExporterStatus {
    /// Its description of itself, as far as it could be read.
    pub(crate) description: Option<Description>,
    /// Its error, if there is one.
    pub(crate) fault: Option<HostError>,
}

impl Running {
    /// Starts the child of one exporter. The library is loaded while the first request runs.
    ///
    /// # Refuses
    /// If the system starts no process.
    pub(crate) fn start(exporter: &ExporterFile, time_limit: Duration) -> Result<Self, HostError> {
        Self::spawn(exporter, time_limit).map_err(|cause| HostError::NotStarted(cause.to_string()))
    }

    fn spawn(exporter: &ExporterFile, time_limit: Duration) -> io::Result<Self> {
        let mut command = Command::new(env::current_exe()?);
        command
            .arg(CALL)
            .arg(&exporter.path)
            // The same document gives the same bytes in every place and language.
            .env("LC_ALL", "C")
            .env("TZ", "UTC0")
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .stderr(Stdio::piped());
        #[cfg(unix)]
        std::os::unix::process::CommandExt::process_group(&mut command, 0);
        let mut child = command.spawn()?;
        let requests = feed(child.stdin.take());
        let answers = listen(child.stdout.take());
        let last_words = overhear(child.stderr.take());
        Ok(Running {
            time_limit,
            child,
            ended: None,
            requests: Some(requests),
            answers,
            last_words,
        })
    }

    /// The files of one encoded document.
    ///
    /// # Refuses
    /// An exporter that refuses the document, crashes, takes too long or gives an invalid answer. Only after a refusal
    /// it answers again.
    pub(crate) fn export(&mut self, document: &[u8]) -> Result<Exported, HostError> {
        let request = Frame {
            kind: MessageKind::Document,
            bytes: document.to_owned(),
        };
        self.ask(request).and_then(Reply::exported)
    }

    /// The exporter's description of itself when its library is loaded, and whether loading succeeded.
    pub(crate) fn describe(&mut self) -> ExporterStatus {
        let request = Frame {
            kind: MessageKind::Describe,
            bytes: Vec::new(),
        };
        match self.ask(request) {
            Ok(reply) => ExporterStatus {
                description: reply.description,
                fault: reply.fault.map(HostError::Unusable),
            },
            Err(reason) => ExporterStatus {
                description: None,
                fault: Some(reason),
            },
        }
    }

    /// Ends the child, and checks whether it ended normally.
    ///
    /// # Refuses
    /// An exporter that crashes or takes too long even now.
    pub(crate) fn finish(mut self) -> Result<(), HostError> {
        self.requests = None;
        let deadline = Instant::now() + self.time_limit;
        match self.next(deadline) {
            Err(_) if self.ended.is_some_and(|status| status.success()) => Ok(()),
            Err(reason) => Err(reason),
            Ok(_) => Err(BrokenPromise::Unasked.into()),
        }
    }

    fn ask(&mut self, request: Frame) -> Result<Reply, HostError> {
        if self.ended.is_some() {
            return Err(HostError::StoppedBefore);
        }
        let deadline = Instant::now() + self.time_limit;
        if let Some(requests) = &self.requests {
            // A child that has ended is noticed because no answer comes.
            let _ = requests.send(request);
        }
        let mut reply = Reply::default();
        let mut received = 0;
        loop {
            let frame = self.next(deadline)?;
            received += frame.bytes.len();
            let outcome = match received > MOST_BYTES {
                true => Err(HostError::TooLarge),
                false => reply.take(frame),
            };
            match outcome {
                Ok(true) => return Ok(reply),
                Ok(false) => {}
                Err(reason) => {
                    // The rest of this answer must not be mistaken for the next one.
                    self.stop();
                    return Err(reason);
                }
            }
        }
    }

    fn next(&mut self, deadline: Instant) -> Result<Frame, HostError> {
        let patience = deadline.saturating_duration_since(Instant::now());
        match self.answers.recv_timeout(patience) {
            Ok(Ok(frame)) => Ok(frame),
            Err(RecvTimeoutError::Timeout) => {
                self.stop();
                Err(HostError::TimedOut(self.time_limit))
            }
            Ok(Err(FrameFault::TooLong)) => {
                self.stop();
                Err(HostError::TooLarge)
            }
            Ok(Err(FrameFault::Noise)) => {
                self.stop();
                Err(BrokenPromise::Noise.into())
            }
            Ok(Err(FrameFault::Ended)) | Err(RecvTimeoutError::Disconnected) => {
                Err(self.how_it_ended())
            }
        }
    }

    /// The end of its output is the end of the child; processes still running in its group were left behind by it.
    fn how_it_ended(&mut self) -> HostError {
        let status = self.stop();
        let patience = Duration::from_millis(200);
        let said = self.last_words.recv_timeout(patience).unwrap_or_default();
        HostError::ended(status, quote_end(&String::from_utf8_lossy(&said)))
    }

    fn stop(&mut self) -> Option<ExitStatus> {
        if self.ended.is_none() {
            // Not yet waited for, so its process id is still its own.
            #[cfg(unix)]
            let _ = rustix::process::kill_process_group(
                rustix::process::Pid::from_child(&self.child),
                rustix::process::Signal::KILL,
            );
            #[cfg(not(unix))]
            let _ = self.child.kill();
            self.ended = self.child.wait().ok();
        }
        self.ended
    }
}

impl Drop for Running {
    fn drop(&mut self) {
        self.stop();
    }
}

/// Sends requests on a separate thread, because a child that does not read would block the program.
fn feed(stdin: Option<std::process::ChildStdin>) -> Sender<Frame> {
    let (sender, receiver) = mpsc::channel::<Frame>();
    let mut stdin = stdin.expect("the input was asked to be a pipe");
    thread::spawn(move || {
        for request in receiver {
            if frames::write(&mut stdin, request.kind, [&request.bytes, &[]]).is_err() {
                break;
            }
        }
    });
    sender
}

/// Reads answers on a separate thread, at most one ahead. The end of the output closes the channel.
fn listen(stdout: Option<std::process::ChildStdout>) -> Receiver<Result<Frame, FrameFault>> {
    let (sender, receiver) = mpsc::sync_channel(0);
    let mut stdout = stdout.expect("the output was asked to be a pipe");
    thread::spawn(move || {
        loop {
            let answer = frames::read(&mut stdout, MOST_BYTES as u64);
            let last = answer.is_err();
            if sender.send(answer).is_err() || last {
                break;
            }
        }
    });
    receiver
}

/// Keeps the end of the child's standard error, and returns it once the stream is closed.
fn overhear(stderr: Option<std::process::ChildStderr>) -> Receiver<Vec<u8>> {
    let (sender, receiver) = mpsc::channel();
    let mut stderr = stderr.expect("the error output was asked to be a pipe");
    thread::spawn(move || {
        let mut kept = Vec::new();
        let mut piece = [0; 4096];
        while let Ok(length @ 1..) = stderr.read(&mut piece) {
            kept.extend_from_slice(&piece[..length]);
            let excess = kept.len().saturating_sub(LAST_WORDS);
            kept.drain(..excess);
        }
        sender.send(kept)
    });
    receiver
}
