//! The three streams of a child, each in a thread of its own, so that no child can block the program.
//!
//! **Input:** the child's pipes. **Output:** channels. **Does not** judge an answer.

use std::io::{self, Read};
use std::process::{ChildStderr, ChildStdin, ChildStdout};
use std::sync::mpsc::{self, Receiver, Sender};

use super::starter::thread;
use crate::exporter_protocol::{self as frames, Frame, FrameFault};

/// Number of bytes kept from the end of standard error.
const LAST_WORDS: usize = 16 * 1024;

/// Sends requests; a child that does not read would block the program.
pub(super) fn feed(stdin: Option<ChildStdin>) -> io::Result<Sender<Frame>> {
    let (sender, receiver) = mpsc::channel::<Frame>();
    let mut stdin = stdin.expect("the input was asked to be a pipe");
    thread(move || {
        for request in receiver {
            if frames::write(&mut stdin, request.kind, [&request.bytes, &[]]).is_err() {
                break;
            }
        }
    })?;
    Ok(sender)
}

/// Reads answers of at most `longest` bytes, at most one ahead. The end of the output closes the channel.
pub(super) fn listen(
    stdout: Option<ChildStdout>,
    longest: u64,
) -> io::Result<Receiver<Result<Frame, FrameFault>>> {
    let (sender, receiver) = mpsc::sync_channel(0);
    let mut stdout = stdout.expect("the output was asked to be a pipe");
    thread(move || {
        loop {
            let answer = frames::read(&mut stdout, longest);
            let last = answer.is_err();
            if sender.send(answer).is_err() || last {
                break;
            }
        }
    })?;
    Ok(receiver)
}

/// Keeps the end of the child's standard error, and returns it once the stream is closed.
pub(super) fn overhear(stderr: Option<ChildStderr>) -> io::Result<Receiver<Vec<u8>>> {
    let (sender, receiver) = mpsc::channel();
    let mut stderr = stderr.expect("the error output was asked to be a pipe");
    thread(move || {
        let mut kept = Vec::new();
        let mut piece = [0; 4096];
        while let Ok(length @ 1..) = stderr.read(&mut piece) {
            kept.extend_from_slice(&piece[..length]);
            let excess = kept.len().saturating_sub(LAST_WORDS);
            kept.drain(..excess);
        }
        // Nobody listens after a child without an error.
        let _ = sender.send(kept);
    })?;
    Ok(receiver)
}
