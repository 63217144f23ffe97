//! Contenders that run by turns, and the least time of each.

use std::fmt;
use std::time::{Duration, Instant};

/// What is run by turns.
#[derive(Default)]
pub struct Contest<'c> {
    contenders: Vec<(String, Box<dyn FnMut() + 'c>)>,
}

/// The least times of a contest, in the order of its contenders.
#[derive(Clone, Debug)]
pub struct Measured {
    /// What was run, and its least time.
    pub least: Vec<(String, Duration)>,
}

impl<'c> Contest<'c> {
    /// Adds a contender; all others are compared with the first one.
    pub fn with(mut self, name: &str, run: impl FnMut() + 'c) -> Contest<'c> {
        self.contenders.push((name.to_owned(), Box::new(run)));
        self
    }

    /// Runs each contender once in every round, after one that does not count.
    pub fn measure(mut self, rounds: usize) -> Measured {
        let mut least = vec![Duration::MAX; self.contenders.len()];
        for round in 0..=rounds {
            for ((_, run), least) in self.contenders.iter_mut().zip(&mut least) {
                let start = Instant::now();
                run();
                let took = start.elapsed();
                if round > 0 {
                    *least = took.min(*least);
                }
            }
        }
        let names = self.contenders.into_iter().map(|(name, _)| name);
        Measured {
            least: names.zip(least).collect(),
        }
    }
}

impl fmt::Display for Measured {
    /// A row for each contender: its least time, and as a multiple of the first one's.
    fn fmt(&self, out: &mut fmt::Formatter) -> fmt::Result {
        let first = self
            .least
            .first()
            .map_or(Duration::MAX, |(_, least)| *least);
        for (name, least) in &self.least {
            let ratio = least.as_secs_f64() / first.as_secs_f64();
            writeln!(
                out,
                "| {name} | {:.2} ms | {ratio:.2} |",
                least.as_secs_f64() * 1e3
            )?;
        }
        Ok(())
    }
}
