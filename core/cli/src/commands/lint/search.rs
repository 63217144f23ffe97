//! The search for a job that a style accepts and that gives no tray.
//!
//! Tries the jobs of a style's range by their numbers, on as many threads as there are processors, and takes the
//! outcomes in order, so that the verdict depends only on counts. The clock only limits the time; if it ends a search
//! early, the report says so. A job that shows an error is then shrunk.

use std::time::{Duration, Instant};

use traywright_engine::lint::{Outcome, Range, StyleError, Tally, shrink, try_out};
use traywright_engine::{Job, Style};

use crate::side_by_side::in_order;

/// Trays to check in space, and the maximum of jobs drawn for them: quick and thorough.
// Source: measured: 30 panels take up to 10 ms a tray, so that the quick ones stay within the 3 s of
// core/CONTRACT.md, "Commands".
const PROVED: [usize; 2] = [120, 4000];
const DRAWN: [usize; 2] = [2400, 60_000];

/// A style that has not given one tray after this many jobs counts as giving none.
// Source: no rule of the trade; the style that refuses most, one with a fence around its item, makes one in ten.
const ENOUGH: usize = 800;

/// Times at which a quick search stops, and at which it stops shrinking.
// Derived: together less than the 3 s of core/CONTRACT.md, "Commands", with what it takes to start and to print.
const SEARCH_TIME: Duration = Duration::from_millis(2200);
const PLAIN_TIME: Duration = Duration::from_millis(2800);

/// Number of jobs per batch.
const BATCH: usize = 16;

/// The result of a search.
#[derive(Debug)]
pub(super) struct Search {
    pub(super) tally: Tally,
    /// The job that shows an error.
    pub(super) shown: Option<Shown>,
    /// Whether the clock ended the search.
    pub(super) cut_short: bool,
}

/// A job that shows an error.
#[derive(Debug)]
pub(super) struct Shown {
    pub(super) job: Job,
    pub(super) flaw: StyleError,
}

impl Search {
    /// Searches the range of a style.
    pub(super) fn run(style: &Style, thorough: bool) -> Self {
        let clock = Instant::now();
        let in_time = |limit: Duration| thorough || clock.elapsed() < limit;
        let range = Range::of(style);
        let (proved, drawn) = (PROVED[usize::from(thorough)], DRAWN[usize::from(thorough)]);
        let mut tally = Tally::default();
        let mut cut_short = false;
        let hopeless = |tally: &Tally| tally.drawn >= ENOUGH && tally.proved() + tally.left == 0;
        while tally.proved() < proved && tally.drawn < drawn {
            if tally.has_flaw() || hopeless(&tally) {
                break;
            }
            cut_short = !in_time(SEARCH_TIME);
            if cut_short {
                break;
            }
            for (job, outcome) in tried(style, &range, tally.drawn) {
                tally.add(&job, outcome);
            }
        }
        let shown = tally.worst().map(|(job, flaw)| {
            let (job, flaw) = shrink(style, &job, &flaw, &mut || in_time(PLAIN_TIME));
            Shown { job, flaw }
        });
        Search {
            tally,
            shown,
            cut_short,
        }
    }
}

/// Tries a batch of jobs from a number on; returns the outcomes in order.
fn tried(style: &Style, range: &Range, from: usize) -> Vec<(Job, Outcome)> {
    let try_one = |offset: usize| {
        let job = range.job(from + offset);
        let outcome = try_out(style, &job);
        (job, outcome)
    };
    let mut tried = Vec::with_capacity(BATCH);
    in_order(BATCH, try_one, |outcome| tried.push(outcome));
    tried
}
