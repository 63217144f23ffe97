//! Numbers drawn by lot, the same for the same tray on every machine.
//!
//! Given the number of a tray, gives as many numbers as are asked for. Nothing is kept between two trays.

/// The random numbers of one tray.
pub(super) struct Rng {
    state: u64,
}

/// The step between two states.
// Source: splitmix64, as it is commonly published; nothing rests on its exact values.
const STEP: u64 = 0x9e37_79b9_7f4a_7c15;

impl Rng {
    /// The random numbers of the tray of that number.
    pub(super) fn of(tray: usize) -> Self {
        // Mixed once, so that the random numbers of one tray are not those of the next one, shifted by a place.
        Rng {
            state: mixed(tray as u64),
        }
    }

    /// A number from 0 to 1, 1 left out.
    pub(super) fn part(&mut self) -> f64 {
        self.state = self.state.wrapping_add(STEP);
        (mixed(self.state) >> 11) as f64 / (1_u64 << 53) as f64
    }

    /// A whole number from 0 up to a count, the count left out.
    pub(super) fn one_of(&mut self, count: usize) -> usize {
        (self.part() * count as f64) as usize
    }
}

fn mixed(bits: u64) -> u64 {
    let bits = (bits ^ (bits >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
    let bits = (bits ^ (bits >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
    bits ^ (bits >> 31)
}
