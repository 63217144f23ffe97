//! Random numbers from a seed, the same on every system.

/// A source of random numbers.
// Source: splitmix64, Steele, Lea and Flood, "Fast splittable pseudorandom number generators", 2014 (from memory).
#[derive(Clone, Debug)]
pub(crate) struct Random(u64);

impl Random {
    pub(crate) fn new(seed: u64) -> Random {
        Random(seed)
    }

    fn bits(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut bits = self.0;
        bits = (bits ^ (bits >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        bits = (bits ^ (bits >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        bits ^ (bits >> 31)
    }

    /// From 0 up to 1.
    pub(crate) fn share(&mut self) -> f64 {
        (self.bits() >> 11) as f64 / (1_u64 << 53) as f64
    }

    /// Between two numbers.
    pub(crate) fn between(&mut self, least: f64, most: f64) -> f64 {
        least + self.share() * (most - least)
    }

    /// An index below a count that is not 0.
    pub(crate) fn below(&mut self, count: usize) -> usize {
        ((self.share() * count as f64) as usize).min(count.saturating_sub(1))
    }

    pub(crate) fn shuffle<T>(&mut self, list: &mut [T]) {
        for last in (1..list.len()).rev() {
            list.swap(last, self.below(last + 1));
        }
    }
}
