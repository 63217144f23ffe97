//! Tests of the search against published tables, and against one that tries every order and every corner.

use super::{Packing, Piece, PlacedRect, pack};

/// Enough steps to settle every case here.
const PLENTY: usize = 100_000_000;

fn squares(count: u32) -> Vec<Piece> {
    let square = |side: u32| Piece {
        length: f64::from(side),
        width: f64::from(side),
        turns: false,
    };
    (1..=count).map(square).collect()
}

/// Whether every rectangle lies in the field and overlaps no other.
fn is_packed(pieces: &[Piece], field: [f64; 2], laid: &[PlacedRect]) -> bool {
    let spans: Vec<[[f64; 2]; 2]> = pieces
        .iter()
        .zip(laid)
        .map(|(piece, laid)| {
            let (length, width) = if laid.turned {
                assert!(piece.turns, "{piece:?} was turned");
                (piece.width, piece.length)
            } else {
                (piece.length, piece.width)
            };
            [[laid.x, laid.x + length], [laid.y, laid.y + width]]
        })
        .collect();
    let slack = 1e-7;
    let inside = |span: &[[f64; 2]; 2]| {
        (0..2).all(|axis| span[axis][0] > -slack && span[axis][1] < field[axis] + slack)
    };
    let apart = |one: &[[f64; 2]; 2], other: &[[f64; 2]; 2]| {
        (0..2).any(|axis| {
            one[axis][1] < other[axis][0] + slack || other[axis][1] < one[axis][0] + slack
        })
    };
    spans.iter().all(inside)
        && (0..spans.len()).all(|one| (0..one).all(|other| apart(&spans[one], &spans[other])))
}

fn goes_in(pieces: &[Piece], field: [f64; 2]) -> bool {
    match pack(pieces, field, PLENTY) {
        Packing::Found(laid) => {
            assert!(is_packed(pieces, field, &laid), "{laid:?} in {field:?}");
            true
        }
        Packing::Impossible => false,
        Packing::Unsettled => panic!("{pieces:?} in {field:?} is not settled"),
    }
}

#[test]
fn squares_of_one_to_nine_go_into_the_published_least_rectangles() {
    // Source: OEIS A038666, area of the smallest rectangle that the squares with sides 1 to n go into; the first four
    // terms and those from 15 on are tests/facts/packing.md pck-03 to pck-09.
    let least = [1, 6, 15, 35, 60, 99, 154, 210, 300];
    for (count, least) in (1..).zip(least) {
        let mut smallest = u32::MAX;
        for side in count..=least {
            for other in side..=least / side {
                if goes_in(&squares(count), [f64::from(side), f64::from(other)]) {
                    smallest = smallest.min(side * other);
                }
            }
        }
        assert_eq!(smallest, least, "squares 1 to {count}");
    }
}

/// Whether rectangles fit, found by placing them in every order at every point where one may end below or left of them.
fn goes_in_by_trying(pieces: &[(u32, u32, bool)], field: [u32; 2]) -> bool {
    let mut laid: Vec<[u32; 4]> = Vec::new();
    try_all(pieces, field, &mut laid)
}

fn try_all(rest: &[(u32, u32, bool)], field: [u32; 2], laid: &mut Vec<[u32; 4]>) -> bool {
    let Some((&(length, width, turns), others)) = rest.split_first() else {
        return true;
    };
    let ways = [(length, width), (width, length)];
    for &(length, width) in &ways[..if turns { 2 } else { 1 }] {
        for x in 0..=field[0].saturating_sub(length) {
            for y in 0..=field[1].saturating_sub(width) {
                let here = [x, y, x + length, y + width];
                let inside = here[2] <= field[0] && here[3] <= field[1];
                let apart = |there: &[u32; 4]| {
                    here[2] <= there[0]
                        || there[2] <= here[0]
                        || here[3] <= there[1]
                        || there[3] <= here[1]
                };
                if inside && laid.iter().all(apart) {
                    laid.push(here);
                    if try_all(others, field, laid) {
                        return true;
                    }
                    laid.pop();
                }
            }
        }
    }
    false
}

#[test]
fn four_hundred_small_cases_agree_with_trying_every_whole_place() {
    // Reasoning: with whole sides, pushing down and left ends at whole places, so trying all of them settles it.
    let mut seed = 12_345_u64;
    let mut below = |most: u64| {
        // Source: a linear congruential generator with the constants of Knuth's MMIX, from memory; nothing rests on them.
        seed = seed
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        (seed >> 33) % most
    };
    let (mut fit, mut turned) = (0, 0);
    for _ in 0..400 {
        let count = 2 + below(4);
        let pieces: Vec<(u32, u32, bool)> = (0..count)
            .map(|_| (1 + below(5) as u32, 1 + below(5) as u32, below(2) == 0))
            .collect();
        let field = [3 + below(6) as u32, 3 + below(6) as u32];
        let exact: Vec<Piece> = pieces
            .iter()
            .map(|&(length, width, turns)| Piece {
                length: f64::from(length),
                width: f64::from(width),
                turns,
            })
            .collect();
        let field_mm = field.map(f64::from);
        let found = goes_in(&exact, field_mm);
        assert_eq!(
            found,
            goes_in_by_trying(&pieces, field),
            "{pieces:?} in {field:?}"
        );
        fit += usize::from(found);
        if let Packing::Found(laid) = pack(&exact, field_mm, PLENTY) {
            turned += usize::from(laid.iter().any(|laid| laid.turned));
        }
    }
    assert!(fit > 100 && fit < 300 && turned > 20, "{fit} {turned}");
}

#[test]
fn twins_may_be_laid_first_anywhere() {
    // Reasoning: four rectangles of 2 by 3 and a square of 1 fill a square of 5 as a pinwheel, and in no other way.
    let mut pinwheel = vec![
        Piece {
            length: 3.0,
            width: 2.0,
            turns: true
        };
        4
    ];
    pinwheel.push(Piece {
        length: 1.0,
        width: 1.0,
        turns: false,
    });
    assert!(goes_in(&pinwheel, [5.0, 5.0]));
    assert!(!goes_in(&pinwheel, [5.0, 4.999]));
}

#[test]
fn a_rounding_refuses_nothing() {
    // Reasoning: ten tenths of an inch are an inch, however they are added.
    let tenth = Piece {
        length: 25.4 / 10.0,
        width: 25.4 / 3.0,
        turns: false,
    };
    assert!(goes_in(&[tenth; 10], [25.4, 25.4 / 3.0]));
}

#[test]
fn too_few_steps_are_admitted() {
    // Reasoning: no search settles eight squares in ten steps, one way or the other.
    assert_eq!(pack(&squares(8), [15.0, 14.0], 10), Packing::Unsettled);
}
