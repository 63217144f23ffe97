//! Nesting against known optima: a rectangle of 600 x 700 is cut up, and its pieces are laid on stock 700 wide.
//!
//! Source: derived: the pieces fill the rectangle, so no nesting uses less than 600 of the stock's length.

use std::f64::consts::PI;

use traywright_document::{Point, Turn};
use traywright_nest::{Effort, Nesting, Piece, Stock, nest};
use traywright_tests::thorough::part_of;
use traywright_tests::union::overlap;

pub(crate) const LENGTH: f64 = 600.0;
pub(crate) const WIDTH: f64 = 700.0;

/// Random numbers from a seed.
// Source: splitmix64 (from memory).
struct Random(u64);

impl Random {
    fn share(&mut self) -> f64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut bits = self.0;
        bits = (bits ^ (bits >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        bits = (bits ^ (bits >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        ((bits ^ (bits >> 31)) >> 11) as f64 / (1_u64 << 53) as f64
    }
}

/// The directions of cuts.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Cuts {
    Upright,
    Slanting,
}

fn area(corners: &[Point]) -> f64 {
    let ends = corners.iter().cycle().skip(1);
    corners
        .iter()
        .zip(ends)
        .map(|(from, to)| from.x * to.y - from.y * to.x)
        .sum::<f64>()
        / 2.0
}

/// Both parts of a convex piece beside a line.
fn cut(piece: &[Point], through: Point, [x, y]: [f64; 2]) -> [Vec<Point>; 2] {
    let side = |at: Point| (at.x - through.x) * x + (at.y - through.y) * y;
    let mut parts = [Vec::new(), Vec::new()];
    for (index, &from) in piece.iter().enumerate() {
        let to = piece[(index + 1) % piece.len()];
        let [off, next] = [side(from), side(to)];
        parts[usize::from(off < 0.0)].push(from);
        if off * next < 0.0 {
            let at = from.on_the_way(to, off / (off - next));
            parts.iter_mut().for_each(|part| part.push(at));
        }
    }
    parts
}

/// The largest piece is cut in two until there are enough.
pub(crate) fn cut_up(seed: u64, count: usize, cuts: Cuts) -> Vec<Vec<Point>> {
    let mut random = Random(seed);
    let corners = [[0.0, 0.0], [LENGTH, 0.0], [LENGTH, WIDTH], [0.0, WIDTH]];
    let mut pieces = vec![corners.map(|[x, y]| Point::new(x, y)).to_vec()];
    while pieces.len() < count {
        pieces.sort_by(|one, other| area(one).total_cmp(&area(other)));
        let piece = pieces.pop().expect("there is a piece");
        let range = |of: fn(&Point) -> f64| {
            let least = piece.iter().map(of).fold(f64::INFINITY, f64::min);
            [
                least,
                piece.iter().map(of).fold(f64::NEG_INFINITY, f64::max) - least,
            ]
        };
        let [x, y] = [range(|at| at.x), range(|at| at.y)];
        let through = Point::new(
            x[0] + x[1] * (0.3 + 0.4 * random.share()),
            y[0] + y[1] * (0.3 + 0.4 * random.share()),
        );
        let way = match cuts {
            Cuts::Upright if x[1] > y[1] => [1.0, 0.0],
            Cuts::Upright => [0.0, 1.0],
            Cuts::Slanting => {
                let (sin, cos) = (random.share() * PI).sin_cos();
                [cos, sin]
            }
        };
        let parts = cut(&piece, through, way);
        // Splinters are no blanks.
        if parts.iter().all(|part| area(part) > 0.15 * area(&piece)) {
            pieces.extend(parts);
        } else {
            pieces.push(piece);
        }
    }
    pieces
}

pub(crate) fn laid(outlines: &[Vec<Point>], moves: usize) -> Nesting {
    let piece = |outline: &Vec<Point>| Piece {
        outline: outline.clone(),
        stand_off: 0.0,
        count: 1,
        turns: Turn::ALL.to_vec(),
    };
    let pieces: Vec<Piece> = outlines.iter().map(piece).collect();
    let stock = Stock {
        sides: [2.0 * LENGTH, WIDTH + 0.1],
        margin: 0.0,
        gap: 0.0,
    };
    let lay = |seed| nest(&pieces, &stock, Effort { seed, moves }, &|| true);
    // As the program does.
    let [one, other] = [1, 2].map(|seed| lay(seed).expect("every piece fits"));
    if other.is_better_than(&one) {
        other
    } else {
        one
    }
}

/// The used length over the least possible, after a check that all pieces lie there and none overlap.
pub(crate) fn worth(outlines: &[Vec<Point>], nesting: &Nesting) -> f64 {
    let [sheet] = nesting.sheets.as_slice() else {
        panic!("{} sheets", nesting.sheet_count());
    };
    let shape = |blank: &traywright_nest::Laid| -> Vec<[f64; 2]> {
        let place = |corner: &Point| {
            let at = blank.placement.point(*corner);
            [at.x, at.y]
        };
        outlines[blank.piece].iter().map(place).collect()
    };
    let shapes: Vec<Vec<[f64; 2]>> = sheet.blanks.iter().map(shape).collect();
    let mut there: Vec<usize> = sheet.blanks.iter().map(|blank| blank.piece).collect();
    there.sort_unstable();
    assert_eq!(there, (0..outlines.len()).collect::<Vec<_>>());
    for (index, one) in shapes.iter().enumerate() {
        for other in &shapes[index + 1..] {
            assert!(overlap(one, other) < 1e-6, "{one:?} and {other:?}");
        }
    }
    LENGTH / sheet.used_length
}

/// The worth of seeded cut-ups; a tenth of them where the tests are not thorough.
fn all(cuts: Cuts, pieces: usize, moves: usize) -> Vec<f64> {
    let cases = 1..=part_of(20) as u64;
    cases
        .map(|seed| {
            let outlines = cut_up(seed, pieces, cuts);
            worth(&outlines, &laid(&outlines, moves))
        })
        .collect()
}

#[test]
fn rectangles_are_laid_to_within_fifteen_percent_of_the_optimum() {
    let worths = all(Cuts::Upright, 20, 2_000);
    println!("rectangles: {worths:?}");
    assert!(worths.iter().all(|worth| *worth > 0.85), "{worths:?}");
}

#[test]
fn slanting_pieces_are_laid_to_within_a_quarter_of_the_optimum() {
    let worths = all(Cuts::Slanting, 12, 2_000);
    println!("slanting pieces: {worths:?}");
    assert!(worths.iter().all(|worth| *worth > 0.75), "{worths:?}");
}
