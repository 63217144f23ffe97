//! The search for a good nesting, from several seeds side by side.
//!
//! Without a time limit each seed makes a fixed number of moves, so the result does not depend on the computer.

use std::time::Instant;

use traywright_nest::{Effort, NestError, Nesting, Stock};

use super::{NestedTray, pieces};
use crate::args::NestArguments;
use crate::side_by_side::in_order;

/// Searches, each from its own seed.
const SEEDS: usize = 2;
/// Moves of a search for each sheet: some seconds.
// Source: measured on the blanks of the example jobs; more moves gain little there.
const MOVES: usize = 3_000;

/// The best nesting that is found.
///
/// # Errors
/// A blank that no sheet holds.
pub(super) fn nest(trays: &[NestedTray], asked: &NestArguments) -> Result<Nesting, NestError> {
    let pieces = pieces::pieces(trays, asked);
    let stock = Stock {
        sides: asked.stock.sides.map(|side| side.mm()),
        margin: asked.margin.mm(),
        gap: asked.gap.mm(),
    };
    let begin = Instant::now();
    let moves = if asked.seconds.is_some() {
        usize::MAX
    } else {
        MOVES
    };
    let go_on = || asked.seconds.is_none_or(|limit| begin.elapsed() < limit);
    let search = |seed: usize| {
        let effort = Effort {
            seed: seed as u64,
            moves,
        };
        // With one core the second search begins only if there is time left.
        (seed == 0 || go_on()).then(|| traywright_nest::nest(&pieces, &stock, effort, &go_on))
    };
    let mut best: Option<Result<Nesting, NestError>> = None;
    in_order(SEEDS, search, |found| {
        let Some(found) = found else { return };
        let is_better = match (&best, &found) {
            (Some(Ok(best)), Ok(found)) => found.is_better_than(best),
            (known, _) => known.is_none(),
        };
        if is_better {
            best = Some(found);
        }
    });
    best.unwrap_or(Ok(Nesting { sheets: Vec::new() }))
}
