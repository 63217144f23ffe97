//! How a time grows with a count.

use std::fmt;
use std::hint::black_box;
use std::time::Duration;

use traywright_engine::make;

use super::{Contest, Counts, Desk, comb, trays, vials};

/// The least time for each count.
#[derive(Clone, Debug)]
pub struct Growth {
    /// What is counted.
    pub of: &'static str,
    /// Counts and times.
    pub times: Vec<(usize, Duration)>,
}

impl Growth {
    /// The power of the count with which the time grows: the slope through all points where both have logarithms as scales.
    // Source: least squares, common practice.
    pub fn exponent(&self) -> f64 {
        let points = self.times.iter();
        let points: Vec<[f64; 2]> = points
            .map(|(count, time)| [(*count as f64).ln(), time.as_secs_f64().ln()])
            .collect();
        let mean =
            |axis: usize| points.iter().map(|point| point[axis]).sum::<f64>() / points.len() as f64;
        let [across, up] = [mean(0), mean(1)];
        let of = |other: usize| -> f64 {
            let away =
                |point: &[f64; 2]| (point[0] - across) * (point[other] - [across, up][other]);
            points.iter().map(away).sum()
        };
        of(1) / of(0)
    }
}

impl fmt::Display for Growth {
    /// A row for each count, and the exponent below.
    fn fmt(&self, out: &mut fmt::Formatter) -> fmt::Result {
        for (count, time) in &self.times {
            writeln!(
                out,
                "| {count} {} | {:.2} ms | |",
                self.of,
                time.as_secs_f64() * 1e3
            )?;
        }
        writeln!(
            out,
            "| exponent of {} | {:.2} | |",
            self.of,
            self.exponent()
        )
    }
}

/// The checks of a tray, by its panels.
///
/// # Panics
/// When a tray is refused.
pub fn by_panels(counts: Counts) -> Growth {
    let combs: Vec<_> = counts.panels().iter().map(|&count| comb(count)).collect();
    let mut contest = Contest::default();
    for comb in &combs {
        contest = contest.with("", || {
            black_box(
                make(&comb.style, &comb.job).unwrap_or_else(|refusal| panic!("{refusal:#?}")),
            );
        });
    }
    of("panels", counts.panels(), contest, counts)
}

/// The checks of a tray, by its openings.
///
/// # Panics
/// When a tray is refused.
pub fn by_openings(counts: Counts) -> Growth {
    let boxes: Vec<_> = counts
        .openings()
        .iter()
        .map(|&count| vials(count))
        .collect();
    let mut contest = Contest::default();
    for (style, job) in &boxes {
        contest = contest.with("", || {
            black_box(make(style, job).unwrap_or_else(|refusal| panic!("{refusal:#?}")));
        });
    }
    of("openings", counts.openings(), contest, counts)
}

/// The files of a batch, by its jobs.
///
/// # Panics
/// When a job fails.
pub fn by_jobs(counts: Counts) -> Growth {
    let desks = counts.jobs().iter();
    let desks: Vec<Desk> = desks
        .map(|&count| Desk::with("single-slot", &trays(count)))
        .collect();
    let mut contest = Contest::default();
    for desk in &desks {
        contest = contest.with("", || {
            desk.run_all(&["make", "--quiet", "--as", "svg,dxf,pdf", "--into", "out"]);
        });
    }
    of("jobs", counts.jobs(), contest, counts)
}

fn of(of: &'static str, numbers: &[usize], contest: Contest, counts: Counts) -> Growth {
    let measured = contest.measure(counts.rounds().min(10));
    let times = measured.least.iter().map(|(_, time)| *time);
    Growth {
        of,
        times: numbers.iter().copied().zip(times).collect(),
    }
}
