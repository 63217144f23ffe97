//! Runs the program as a maker would, in a folder of the test's choice.
//!
//! Given a folder and the words of the command line, it gives the exit code and what was said on both streams. The
//! run has no standard input, speaks no local language and ends after a minute at most. It never judges the outcome.

use std::os::unix::process::{CommandExt, ExitStatusExt};
use std::path::Path;
use std::process::{Command, Output, Stdio};
use std::sync::mpsc;
use std::thread;
use std::time::Duration;

use rustix::process::{Pid, Signal, kill_process_group};

use crate::program;

/// Longer than any command of the program may take.
const LIMIT: Duration = Duration::from_secs(60);

/// What one run of the program said.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Outcome {
    /// The exit code; 128 and the signal's number after a crash, as a shell shows it.
    pub code: i32,
    /// What was asked for.
    pub stdout: String,
    /// Everything else.
    pub stderr: String,
}

/// Runs the program in a folder.
///
/// # Panics
/// When it cannot be started, takes longer than a minute, or says something that is not UTF-8.
pub fn run(folder: &Path, arguments: &[&str]) -> Outcome {
    run_command(Command::new(program()), folder, arguments)
}

/// Runs another build of the program, or the program by means of another one.
///
/// # Panics
/// As [`run`].
pub fn run_command(mut command: Command, folder: &Path, arguments: &[&str]) -> Outcome {
    let child = command
        .current_dir(folder)
        .args(arguments)
        .env("LC_ALL", "C")
        .stdin(Stdio::null())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .process_group(0)
        .spawn()
        .expect("the program can be started");
    let group = Pid::from_child(&child);
    let (sender, receiver) = mpsc::channel();
    thread::spawn(move || sender.send(child.wait_with_output()));
    match receiver.recv_timeout(LIMIT) {
        Ok(output) => outcome(output.expect("the program's output can be read")),
        Err(_) => {
            kill_process_group(group, Signal::KILL).ok();
            panic!("traywright {arguments:?} took longer than {LIMIT:?}");
        }
    }
}

fn outcome(output: Output) -> Outcome {
    let status = output.status;
    let code = status
        .code()
        .or_else(|| status.signal().map(|signal| 128 + signal))
        .expect("a finished program has a code or a signal");
    Outcome {
        code,
        stdout: String::from_utf8(output.stdout).expect("standard output is UTF-8"),
        stderr: String::from_utf8(output.stderr).expect("standard error is UTF-8"),
    }
}
