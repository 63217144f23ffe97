//! The benchmark suite runs in every part, and the yardstick that it compares with draws our outlines.
//!
//! Source of all expectations: reasoning: a time is above 0, and only trays of the same outline are compared. No test judges
//! how long anything takes.

use std::time::Duration;

use traywright_tests::figures::{self, Counts, Growth, Measured};
use traywright_tests::thorough::part_of;

#[test]
fn the_yardstick_draws_our_outlines() {
    if let Some(differing) = figures::differing_outlines(part_of(100)) {
        assert_eq!(differing, Vec::<usize>::new());
    }
}

#[test]
fn every_command_of_the_suite_runs() {
    let counts = Counts::Smoke;
    let timed = |measured: Measured, least: usize| {
        assert!(measured.least.len() >= least, "{measured}");
        let is_timed =
            |(_, time): &(String, Duration)| *time > Duration::ZERO && *time < Duration::MAX;
        assert!(measured.least.iter().all(is_timed), "{measured}");
    };
    timed(figures::one_job(counts), 4);
    timed(figures::exporters(counts), 7);
    timed(figures::batch(counts), 2);
    timed(figures::saving(counts), 2);
    timed(figures::nesting(counts), 2);
}

#[test]
fn every_growth_of_the_suite_runs() {
    let counts = Counts::Smoke;
    for growth in [
        figures::by_panels(counts),
        figures::by_openings(counts),
        figures::by_jobs(counts),
    ] {
        assert_eq!(growth.times.len(), 2, "{growth}");
        assert!(growth.exponent().is_finite(), "{growth}");
    }
}

#[test]
fn the_exponent_is_that_of_a_power() {
    // Derived: a time of 3 n² has the exponent 2.
    let square = |count: usize| (count, Duration::from_nanos(3 * (count * count) as u64));
    let growth = Growth {
        of: "panels",
        times: [50, 100, 200, 400].map(square).to_vec(),
    };
    assert!((growth.exponent() - 2.0).abs() < 1e-9);
}
