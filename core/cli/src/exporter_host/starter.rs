//! Starts every child from one thread, which lives as long as the program.
//!
//! **Input:** a command. **Output:** its process. The kernel ends a child when the thread that started it ends, and the
//! threads that work on jobs end sooner than the children that serve them.
// Source: PR_SET_PDEATHSIG(2const), Linux man-pages.

use std::io;
use std::process::{Child, Command};
use std::sync::mpsc::{self, Sender};
use std::sync::{Mutex, PoisonError};
use std::thread;

type Order = (Command, Sender<io::Result<Child>>);

static ORDERS: Mutex<Option<Sender<Order>>> = Mutex::new(None);

/// Starts the process of a command.
///
/// # Errors
/// If the system gives no process, or no thread to start it from.
pub(super) fn spawn(command: Command) -> io::Result<Child> {
    let ended = || io::Error::other("the thread that starts exporters has ended");
    let (sender, started) = mpsc::channel();
    let order = orders()?.send((command, sender));
    order.map_err(|_| ended())?;
    started.recv().map_err(|_| ended())?
}

/// Runs work in a thread; an error says that it is the thread that is missing.
pub(super) fn thread(work: impl FnOnce() + Send + 'static) -> io::Result<()> {
    match thread::Builder::new().spawn(work) {
        Ok(_) => Ok(()),
        Err(error) => Err(io::Error::other(format!(
            "the system gives the program no thread: {error}"
        ))),
    }
}

fn orders() -> io::Result<Sender<Order>> {
    let mut orders = ORDERS.lock().unwrap_or_else(PoisonError::into_inner);
    if let Some(orders) = &*orders {
        return Ok(orders.clone());
    }
    let (sender, receiver) = mpsc::channel::<Order>();
    thread(move || {
        for (mut command, started) in receiver {
            // Whoever gave the order waits for it.
            let _ = started.send(command.spawn());
        }
    })?;
    *orders = Some(sender.clone());
    Ok(sender)
}
