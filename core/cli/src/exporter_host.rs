//! The program's side of an exporter: a child process that receives documents and is never trusted.
//!
//! **Input:** an exporter's file, and a time limit per document. **Output:** the files for each document, or the reason
//! why there are none. One child serves many documents. It may crash, hang, flood, lie or leave processes behind; its
//! files are passed on only when the whole answer is complete and well-formed. Nothing here writes a file.

mod error;
mod quote;
mod reply;
mod starter;
mod streams;

use std::env;
use std::fs;
use std::io;
use std::path::{Path, PathBuf};
use std::process::{self, Child, Command, ExitStatus, Stdio};
use std::sync::mpsc::{Receiver, RecvTimeoutError, Sender};
use std::thread;
use std::time::{Duration, Instant, SystemTime};

use traywright_document::plugin_api::Exported;

use crate::exporter_child;
use crate::exporter_file::ExporterFile;
use crate::exporter_protocol::{Description, Frame, FrameFault, MessageKind};
use crate::exporter_sandbox::{Needs, Restrictions};
use crate::interrupt;
use error::BrokenPromise;
pub(crate) use error::{ExporterError, Failure, HostError};
use quote::quote_end;
use reply::Reply;

/// Maximum size of the files of one document. Common practice, none published: a booklet of 400 pages takes a tenth of
/// it.
const MOST_BYTES: usize = 64 * 1024 * 1024;

/// Time between two looks at whether the maker wants the program to end. Common practice: a tenth of a second is not felt.
const LOOKS_UP: Duration = Duration::from_millis(100);

/// Time for a child to end by itself after its output or its input has ended. Common practice, none published.
const GRACE: Duration = Duration::from_millis(500);

/// Variables that the child gets from the program's own environment.
// Source: Windows starts no process without it; common practice, none published.
const PASSED_ON: [&str; 1] = ["SystemRoot"];

/// One exporter in a process of its own, ready for documents.
#[derive(Debug)]
pub(crate) struct Running {
    time_limit: Duration,
    /// The font that it may read, and when that was saved: what replaces the file may not be read.
    font: Option<(PathBuf, Option<SystemTime>)>,
    /// What it told about itself before its library was loaded.
    restrictions: Option<Restrictions>,
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
    pub(crate) fault: Option<Failure>,
    /// What it cannot do, if its process came so far.
    pub(crate) restrictions: Option<Restrictions>,
}

impl Running {
    /// Starts the child of one exporter, which may read this font. The library is loaded while the first request runs.
    ///
    /// # Refuses
    /// If the system starts no process.
    pub(crate) fn start(
        exporter: &ExporterFile,
        font: Option<&Path>,
        time_limit: Duration,
    ) -> Result<Self, HostError> {
        Self::spawn(exporter, font, time_limit)
            .map_err(|cause| HostError::NotStarted(cause.to_string()))
    }

    fn spawn(
        exporter: &ExporterFile,
        font: Option<&Path>,
        time_limit: Duration,
    ) -> io::Result<Self> {
        let needs = Needs {
            library: exporter.path.clone(),
            parent: process::id(),
            font: font.map(Path::to_owned),
        };
        let font = font.map(as_saved);
        let mut child = starter::spawn(command(&needs)?)?;
        let mut streams = || -> io::Result<_> {
            let requests = streams::feed(child.stdin.take())?;
            let answers = streams::listen(child.stdout.take(), MOST_BYTES as u64)?;
            Ok((requests, answers, streams::overhear(child.stderr.take())?))
        };
        match streams() {
            Ok((requests, answers, last_words)) => Ok(Running {
                time_limit,
                font,
                restrictions: None,
                child,
                ended: None,
                requests: Some(requests),
                answers,
                last_words,
            }),
            Err(error) => {
                // Its input has ended, so it would end by itself too.
                let _ = child.kill();
                let _ = child.wait();
                Err(error)
            }
        }
    }

    /// The files of one encoded document.
    ///
    /// # Refuses
    /// An exporter that refuses the document, crashes, takes too long or gives an invalid answer. Only after a refusal
    /// with a reason it answers again.
    pub(crate) fn export(&mut self, document: &[u8]) -> Result<Exported, Failure> {
        let request = Frame {
            kind: MessageKind::Document,
            bytes: document.to_owned(),
        };
        let exported = self.ask(request).and_then(Reply::exported);
        exported.map_err(|cause| self.failed(cause))
    }

    /// The exporter's description of itself when its library is loaded, and whether loading succeeded.
    pub(crate) fn describe(&mut self) -> ExporterStatus {
        let request = Frame {
            kind: MessageKind::Describe,
            bytes: Vec::new(),
        };
        let (description, fault) = match self.ask(request) {
            Ok(reply) => (reply.description, reply.fault.map(HostError::Unusable)),
            Err(reason) => (None, Some(reason)),
        };
        ExporterStatus {
            description,
            fault: fault.map(|cause| self.failed(cause)),
            restrictions: self.restrictions.clone(),
        }
    }

    /// Whether it may read this font, or no font if there is none.
    pub(crate) fn is_for(&self, font: Option<&Path>) -> bool {
        self.font == font.map(as_saved)
    }

    /// Whether it can take another document.
    pub(crate) fn is_running(&self) -> bool {
        self.ended.is_none()
    }

    /// Ends its input, so that it ends while others are still waited for.
    pub(crate) fn close(&mut self) {
        self.requests = None;
    }

    /// Ends the child, and checks whether it ended normally.
    ///
    /// # Refuses
    /// An exporter that crashes or takes too long even now.
    pub(crate) fn finish(mut self) -> Result<(), Failure> {
        self.close();
        let deadline = Instant::now() + self.time_limit;
        match self.next(deadline) {
            Err(_) if self.ended.is_some_and(|status| status.success()) => Ok(()),
            Err(reason) => Err(self.failed(reason)),
            Ok(_) => Err(self.failed(BrokenPromise::Unasked.into())),
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

    /// The next message, except the first one of all: that one tells the restrictions.
    fn next(&mut self, deadline: Instant) -> Result<Frame, HostError> {
        let frame = self.next_of_all(deadline)?;
        if frame.kind != MessageKind::Restrictions || self.restrictions.is_some() {
            return Ok(frame);
        }
        let restrictions = serde_json::from_slice(&frame.bytes);
        self.restrictions = Some(restrictions.map_err(|_| BrokenPromise::Noise)?);
        self.next_of_all(deadline)
    }

    fn next_of_all(&mut self, deadline: Instant) -> Result<Frame, HostError> {
        match self.receive(deadline) {
            Ok(Ok(frame)) => Ok(frame),
            Err(RecvTimeoutError::Timeout) if interrupt::asked() => {
                self.stop();
                Err(HostError::StoppedBefore)
            }
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

    /// Waits for a message until the deadline, or until the maker wants the program to end.
    fn receive(&self, deadline: Instant) -> Result<Result<Frame, FrameFault>, RecvTimeoutError> {
        loop {
            let patience = deadline.saturating_duration_since(Instant::now());
            match self.answers.recv_timeout(patience.min(LOOKS_UP)) {
                Err(RecvTimeoutError::Timeout) if patience > LOOKS_UP && !interrupt::asked() => {}
                received => return received,
            }
        }
    }

    /// The end of its output is the end of the child; processes still running in its group were left behind by it.
    fn how_it_ended(&mut self) -> HostError {
        let by_itself = self.ends_by_itself();
        let status = self.stop();
        HostError::ended(status.filter(|_| by_itself))
    }

    /// Adds the end of what it printed. A refusal with a reason needs nothing more, and the exporter stays.
    fn failed(&mut self, cause: HostError) -> Failure {
        if cause.is_explained() {
            return cause.into();
        }
        self.close();
        self.ends_by_itself();
        self.stop();
        let said = self.last_words.recv_timeout(GRACE).unwrap_or_default();
        Failure::new(cause, quote_end(&String::from_utf8_lossy(&said)))
    }

    /// Waits for a short time for the end of the child, so that the program's own signal is not taken for a crash.
    fn ends_by_itself(&mut self) -> bool {
        let deadline = Instant::now() + GRACE;
        while self.ended.is_none() && !self.has_ended() {
            if Instant::now() > deadline {
                return false;
            }
            thread::sleep(Duration::from_millis(5));
        }
        true
    }

    /// Whether the child has ended; its process id stays its own.
    #[cfg(unix)]
    fn has_ended(&mut self) -> bool {
        use rustix::process::{Pid, WaitId, WaitIdOptions, waitid};
        let options = WaitIdOptions::EXITED | WaitIdOptions::NOHANG | WaitIdOptions::NOWAIT;
        let child = WaitId::Pid(Pid::from_child(&self.child));
        waitid(child, options).is_ok_and(|status| status.is_some())
    }

    #[cfg(not(unix))]
    fn has_ended(&mut self) -> bool {
        self.child.try_wait().is_ok_and(|status| status.is_some())
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

/// The command of a child: an environment without anything of the maker's, pipes, and a group of its own.
fn command(needs: &Needs) -> io::Result<Command> {
    let mut command = Command::new(env::current_exe()?);
    let passed_on = PASSED_ON
        .iter()
        .filter_map(|name| Some((name, env::var_os(name)?)));
    command
        .args(exporter_child::call(needs))
        .env_clear()
        .envs(passed_on)
        // The same document gives the same bytes in every place and language.
        .env("LC_ALL", "C")
        .env("TZ", "UTC0")
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped());
    #[cfg(unix)]
    std::os::unix::process::CommandExt::process_group(&mut command, 0);
    Ok(command)
}

fn as_saved(font: &Path) -> (PathBuf, Option<SystemTime>) {
    let saved = fs::metadata(font).and_then(|about| about.modified());
    (font.to_owned(), saved.ok())
}
