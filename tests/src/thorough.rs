//! How much of a long test is done: all of it where the tests are asked to be thorough, a seeded tenth everywhere else.
//!
//! **Input:** the environment's `TRAYWRIGHT_THOROUGH`, which `cargo xtask test --thorough` sets. **Output:** counts.

use std::env;

/// So many of a whole: all of them, or a tenth. Cases are drawn from a seed, so the tenth is always the same.
pub fn part_of(whole: usize) -> usize {
    if env::var_os("TRAYWRIGHT_THOROUGH").is_some() {
        whole
    } else {
        whole.div_ceil(10)
    }
}
