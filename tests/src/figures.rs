//! How long the program takes, told as ratios: against the start of a process, against plain Python, and as growth.
//!
//! Given counts, it gives tables of times and ratios. All that is compared is run by turns on the same machine, and the
//! least time of each counts, because other work only adds to a time. It never judges a time.

mod commands;
mod desk;
mod growth;
mod made_up;
mod turns;
mod yardstick;

pub use commands::{batch, exporters, nesting, one_job, saving};
pub use desk::Desk;
pub use growth::{Growth, by_jobs, by_openings, by_panels};
pub use made_up::{Comb, comb, trays, vials};
pub use turns::{Contest, Measured};
pub use yardstick::{differing_outlines, write_jobs};

/// How much is measured.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Counts {
    /// Enough to see that the suite runs.
    Smoke,
    /// A minute or two.
    Small,
    /// As large as the limits of the program are.
    Thorough,
}

impl Counts {
    /// How often each contender has its turn.
    pub fn rounds(self) -> usize {
        match self {
            Counts::Smoke => 1,
            Counts::Small => 10,
            Counts::Thorough => 30,
        }
    }

    /// How many jobs are a batch.
    pub fn batch(self) -> usize {
        match self {
            Counts::Smoke => 2,
            Counts::Small => 10,
            Counts::Thorough => 100,
        }
    }

    /// How many panels the trays of a growth have.
    pub fn panels(self) -> &'static [usize] {
        match self {
            Counts::Smoke => &[10, 20],
            Counts::Small => &[50, 100, 200],
            Counts::Thorough => &[50, 100, 200, 400, 500],
        }
    }

    /// How many openings the trays of a growth have.
    pub fn openings(self) -> &'static [usize] {
        match self {
            Counts::Smoke => &[1, 4],
            Counts::Small => &[4, 9, 16],
            Counts::Thorough => &[4, 9, 16, 36, 64],
        }
    }

    /// How many jobs the batches of a growth have.
    pub fn jobs(self) -> &'static [usize] {
        match self {
            Counts::Smoke => &[1, 2],
            Counts::Small => &[1, 4, 16],
            Counts::Thorough => &[1, 4, 16, 64, 256],
        }
    }
}
