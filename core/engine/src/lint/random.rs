//! Deterministic random numbers for one trial job.
//!
//! **Input:** the job's number. **Output:** a repeatable sequence, independent of other jobs.

/// The random numbers of one trial job.
pub(super) struct Rng {
    state: u64,
}

/// The step between two states.
// Source: splitmix64, as it is commonly published; nothing rests on its exact values.
const STEP: u64 = 0x9e37_79b9_7f4a_7c15;

impl Rng {
    /// The random numbers of the trial job with this number.
    pub(super) fn of(tray: usize) -> Self {
        // Mixed once, so that the sequence of one job is not that of the next one, shifted by one.
        Rng {
            state: mixed(tray as u64),
        }
    }

    /// A number from 0 up to but not including 1.
    pub(super) fn part(&mut self) -> f64 {
        self.state = self.state.wrapping_add(STEP);
        (mixed(self.state) >> 11) as f64 / (1_u64 << 53) as f64
    }

    /// A whole number from 0 up to but not including `count`.
    pub(super) fn one_of(&mut self, count: usize) -> usize {
        (self.part() * count as f64) as usize
    }
}

fn mixed(bits: u64) -> u64 {
    let bits = (bits ^ (bits >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
    let bits = (bits ^ (bits >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
    bits ^ (bits >> 31)
}
