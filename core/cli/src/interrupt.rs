//! The wish of the maker that the program ends: Ctrl-C, or the system's request to end.
//!
//! **Input:** a signal. **Output:** a flag that long work looks at, and a message for whoever waits. The first signal
//! lets the command end in order, so that no half-made folder stays; the second ends the program at once, but never
//! between two moves of files. While nobody looks at the flag, the first signal ends the program at once too.

use std::io;
use std::path::{Path, PathBuf};
use std::process;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Mutex, MutexGuard, PoisonError};

static ASKED: AtomicBool = AtomicBool::new(false);

static STATE: Mutex<State> = Mutex::new(State {
    hears: false,
    looking: 0,
    tell: None,
    hidden: Vec::new(),
});

/// Held while files are moved into place. Whoever locks both locks this one before `STATE`.
static MOVING: Mutex<()> = Mutex::new(());

/// The exit code of a program that a signal ended at once.
// Source: common practice of shells: 128 and the number of the signal SIGINT.
const ENDED_AT_ONCE: i32 = 130;

/// Attempts to remove a folder in which another thread may still write. Common practice, none published.
const ATTEMPTS: usize = 5;

/// Removes a hidden folder; false if it is still there.
type Remove = fn(&Path) -> bool;

struct State {
    /// Whether signals are heard.
    hears: bool,
    /// How many parts of the program look at the flag.
    looking: usize,
    tell: Option<Box<dyn Fn() + Send>>,
    /// Hidden folders of files that are not in place yet, and how each is removed.
    hidden: Vec<(PathBuf, Remove)>,
}

/// Work that looks at the flag. While there is any, the first signal lets it end in order.
#[derive(Debug)]
pub(crate) struct Orderly(());

impl Orderly {
    /// Begins such work. Where the system allows no listening, a signal ends the program at once.
    pub(crate) fn begin() -> Self {
        let mut state = state();
        state.looking += 1;
        state.hear();
        Orderly(())
    }
}

impl Drop for Orderly {
    fn drop(&mut self) {
        state().looking -= 1;
    }
}

impl State {
    fn hear(&mut self) {
        if !std::mem::replace(&mut self.hears, true) {
            let _ = ctrlc::set_handler(heard);
            fail_to_write_beyond_the_limit();
        }
    }
}

/// Listens for signals from now on; `tell` runs at the first one.
pub(crate) fn listen(tell: impl Fn() + Send + 'static) {
    state().tell = Some(Box::new(tell));
    // To the end of the program.
    std::mem::forget(Orderly::begin());
}

/// Whether the maker wants the program to end.
pub(crate) fn asked() -> bool {
    ASKED.load(Ordering::SeqCst)
}

/// Until the result is dropped, no signal ends the program at once.
pub(crate) fn undisturbed() -> MutexGuard<'static, ()> {
    MOVING.lock().unwrap_or_else(PoisonError::into_inner)
}

/// Makes a hidden folder, which is removed if a signal ends the program at once.
pub(crate) fn hidden_folder(
    make: impl FnOnce() -> io::Result<PathBuf>,
    remove: Remove,
) -> io::Result<PathBuf> {
    let mut state = state();
    let folder = make()?;
    state.hidden.push((folder.clone(), remove));
    Ok(folder)
}

/// This hidden folder has been removed, or is to stay.
pub(crate) fn forget_hidden(folder: &Path) {
    state().hidden.retain(|(hidden, _)| hidden != folder);
}

fn state() -> MutexGuard<'static, State> {
    STATE.lock().unwrap_or_else(PoisonError::into_inner)
}

fn heard() {
    {
        let state = state();
        if state.looking > 0 && !ASKED.swap(true, Ordering::SeqCst) {
            if let Some(tell) = &state.tell {
                tell();
            }
            return;
        }
    }
    let _moved = undisturbed();
    let state = state();
    for (hidden, remove) in &state.hidden {
        (0..ATTEMPTS).any(|_| remove(hidden));
    }
    process::exit(ENDED_AT_ONCE);
}

/// A file larger than the limit of the shell (`ulimit -f`) is an error of writing, and not the end of the program.
fn fail_to_write_beyond_the_limit() {
    #[cfg(unix)]
    {
        use signal_hook::{consts::SIGXFSZ, flag};
        use std::sync::Arc;
        let _ = flag::register(SIGXFSZ, Arc::new(AtomicBool::new(false)));
    }
}
