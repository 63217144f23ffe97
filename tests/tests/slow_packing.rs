//! The squares with sides 1 to 10, 11 and 12 go into the published least rectangles, and into no smaller ones.
//!
//! Source: OEIS A038666, area of the smallest rectangle that the squares with sides 1 to n go into; the terms are
//! tests/facts/packing.md pck-10. Up to nine squares are tried in the engine's own fast tests.

use std::sync::atomic::{AtomicUsize, Ordering};
use std::thread;

use traywright_engine::packing::{Packing, Piece, pack};

/// Steps enough to settle every rectangle here: the hardest takes 42 million.
const PLENTY: usize = 200_000_000;

/// The squares, their published area, and all rectangles of at most that area which are not too small from the outset.
fn rectangles(count: usize, area: usize) -> Vec<[usize; 2]> {
    let squares: usize = (1..=count).map(|side| side * side).sum();
    let mut rectangles = Vec::new();
    for side in count..=area {
        let others = side..=area / side;
        rectangles.extend(others.map(|other| [side, other]));
    }
    rectangles.retain(|[side, other]| side * other >= squares);
    rectangles
}

fn goes_in(count: usize, [side, other]: [usize; 2]) -> bool {
    let square = |side: usize| Piece {
        length: side as f64,
        width: side as f64,
        turns: false,
    };
    let squares: Vec<Piece> = (1..=count).map(square).collect();
    match pack(&squares, [side as f64, other as f64], PLENTY) {
        Packing::Found(_) => true,
        Packing::Impossible => false,
        Packing::Unsettled => panic!("{count} squares in {side} by {other} are not settled"),
    }
}

#[test]
fn squares_of_one_to_twelve_go_into_the_published_least_rectangles() {
    for (count, area) in [(10, 405), (11, 513), (12, 667)] {
        let rectangles = rectangles(count, area);
        let next = AtomicUsize::new(0);
        let smallest = AtomicUsize::new(usize::MAX);
        thread::scope(|scope| {
            for _ in 0..2 {
                scope.spawn(|| {
                    while let Some(&rectangle) =
                        rectangles.get(next.fetch_add(1, Ordering::Relaxed))
                    {
                        if goes_in(count, rectangle) {
                            smallest.fetch_min(rectangle[0] * rectangle[1], Ordering::Relaxed);
                        }
                    }
                });
            }
        });
        println!(
            "squares 1 to {count}: {} rectangles tried",
            rectangles.len()
        );
        assert_eq!(smallest.into_inner(), area, "squares 1 to {count}");
    }
}
