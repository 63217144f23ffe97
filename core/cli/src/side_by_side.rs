//! The same work on many things, over all cores, with the results in order.
//!
//! **Input:** how many things there are, and a function that does the work on one. **Output:** the results, handed over one by one in the order of
//! the things, whichever was ready first. Work never runs far ahead of the hand-over, so that the results that wait
//! stay few, however many things there are.

use std::collections::BTreeMap;
use std::num::NonZero;
use std::panic::{AssertUnwindSafe, catch_unwind, resume_unwind};
use std::sync::{Condvar, Mutex, MutexGuard, PoisonError};
use std::thread;

/// Stack of a thread that checks trays.
// Source: what Linux gives the first thread of a program.
const STACK: usize = 8 * 1024 * 1024;

/// Things begun, for each thread, before the oldest result is handed over. Common practice, none published.
const AHEAD: usize = 4;

/// The number of cores of this machine.
pub(crate) fn cores() -> usize {
    thread::available_parallelism().map_or(1, NonZero::get)
}

/// Works on `count` things and hands their results over in order, on the thread of the caller.
pub(crate) fn in_order<Done: Send>(
    count: usize,
    work: impl Fn(usize) -> Done + Sync,
    mut hand_over: impl FnMut(Done),
) {
    // One more than the cores, so that no core waits while a thread waits for an exporter.
    let threads = if cores() == 1 { 1 } else { cores() + 1 }.min(count);
    if threads <= 1 {
        (0..count).for_each(|thing| hand_over(work(thing)));
        return;
    }
    let bench = Bench::new(count, threads * AHEAD);
    thread::scope(|scope| {
        // Also after a panic the threads find that there is nothing left to do.
        let _cleared = Cleared(&bench);
        for _ in 0..threads {
            let thread = thread::Builder::new().stack_size(STACK);
            let worker = || bench.work(&work);
            // With fewer threads than asked for the work takes longer; without any it runs here.
            if thread.spawn_scoped(scope, worker).is_err() {
                break;
            }
            bench.state().threads += 1;
        }
        if bench.state().threads == 0 {
            (0..count).for_each(|thing| hand_over(work(thing)));
            return;
        }
        (0..count).for_each(|thing| hand_over(bench.result(thing)));
    });
}

/// What the threads share.
struct Bench<Done> {
    count: usize,
    /// How far work may run ahead of the hand-over.
    ahead: usize,
    state: Mutex<State<Done>>,
    changed: Condvar,
}

struct State<Done> {
    threads: usize,
    /// The next thing to begin.
    next: usize,
    /// The next thing to hand over.
    due: usize,
    ready: BTreeMap<usize, thread::Result<Done>>,
}

impl<Done> Bench<Done> {
    fn new(count: usize, ahead: usize) -> Self {
        Bench {
            count,
            ahead,
            state: Mutex::new(State {
                threads: 0,
                next: 0,
                due: 0,
                ready: BTreeMap::new(),
            }),
            changed: Condvar::new(),
        }
    }

    fn state(&self) -> MutexGuard<'_, State<Done>> {
        self.state.lock().unwrap_or_else(PoisonError::into_inner)
    }

    fn work(&self, work: &impl Fn(usize) -> Done) {
        while let Some(thing) = self.begin() {
            // A panic is passed on to the caller, who would otherwise wait for this result for ever.
            let done = catch_unwind(AssertUnwindSafe(|| work(thing)));
            self.state().ready.insert(thing, done);
            self.changed.notify_all();
        }
    }

    /// The next thing, as soon as it may begin; none if all have begun.
    fn begin(&self) -> Option<usize> {
        let waits = |state: &mut State<Done>| {
            state.next < self.count && state.next >= state.due + self.ahead
        };
        let state = self.changed.wait_while(self.state(), waits);
        let mut state = state.unwrap_or_else(PoisonError::into_inner);
        if state.next >= self.count {
            return None;
        }
        state.next += 1;
        Some(state.next - 1)
    }

    fn result(&self, thing: usize) -> Done {
        let waits = |state: &mut State<Done>| !state.ready.contains_key(&thing);
        let state = self.changed.wait_while(self.state(), waits);
        let mut state = state.unwrap_or_else(PoisonError::into_inner);
        let ready = state.ready.remove(&thing);
        state.due = thing + 1;
        drop(state);
        self.changed.notify_all();
        match ready.expect("it was waited for") {
            Ok(done) => done,
            Err(panic) => resume_unwind(panic),
        }
    }
}

/// Lets the threads end when the hand-over ends, for whatever reason.
struct Cleared<'a, Done>(&'a Bench<Done>);

impl<Done> Drop for Cleared<'_, Done> {
    fn drop(&mut self) {
        self.0.state().next = self.0.count;
        self.0.changed.notify_all();
    }
}

#[cfg(test)]
mod tests {
    use std::sync::atomic::{AtomicUsize, Ordering};

    use super::*;

    // Derived: squares in order, however long each takes; the spinning makes later ones finish first.
    #[test]
    fn results_come_in_order_and_work_never_runs_far_ahead() {
        for count in [0, 1, 2, 500] {
            let (begun, mut taken, mut farthest) = (AtomicUsize::new(0), Vec::new(), 0);
            let work = |thing: usize| {
                begun.fetch_add(1, Ordering::SeqCst);
                (0..(500 - thing) * 20).for_each(|_| std::hint::spin_loop());
                thing * thing
            };
            in_order(count, work, |square| {
                taken.push(square);
                farthest = farthest.max(begun.load(Ordering::SeqCst) - taken.len());
            });
            assert_eq!(
                taken,
                (0..count).map(|thing| thing * thing).collect::<Vec<_>>()
            );
            assert!(farthest <= (cores() + 1) * (AHEAD + 1), "{farthest}");
        }
    }

    #[test]
    fn a_panic_reaches_the_caller_and_hangs_nobody() {
        let outcome = catch_unwind(|| {
            in_order(200, |thing| assert_ne!(thing, 20, "twenty"), |()| {});
        });
        assert!(outcome.is_err());
    }
}
