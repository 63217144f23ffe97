//! A polygon in convex pieces, and the sum of two convex polygons.

use traywright_document::{Point, Vector};

use crate::polygon::Outline;

/// Corners of a convex polygon, counter-clockwise.
pub(crate) type Convex = Vec<Point>;

/// Cuts a polygon into few convex pieces: triangles, joined as long as the union of two stays convex.
pub(crate) fn pieces(polygon: &Outline) -> Vec<Convex> {
    let corners = &polygon.corners;
    let places = corners.iter().map(|corner| [corner.x, corner.y]);
    let mut indexes: Vec<usize> = Vec::new();
    earcut::Earcut::new().earcut(places, &[], &mut indexes);
    let mut pieces: Vec<Vec<usize>> = indexes
        .chunks_exact(3)
        .map(<[usize]>::to_vec)
        .map(|mut piece| {
            if turn(corners[piece[0]], corners[piece[1]], corners[piece[2]]) < 0.0 {
                piece.reverse();
            }
            piece
        })
        .collect();
    while join_two(&mut pieces, corners) {}
    let place = |piece: Vec<usize>| piece.into_iter().map(|index| corners[index]).collect();
    pieces.into_iter().map(place).collect()
}

fn join_two(pieces: &mut Vec<Vec<usize>>, corners: &[Point]) -> bool {
    for one in 0..pieces.len() {
        for other in one + 1..pieces.len() {
            if let Some(joined) = joined(&pieces[one], &pieces[other], corners) {
                pieces[one] = joined;
                pieces.swap_remove(other);
                return true;
            }
        }
    }
    false
}

/// Two pieces with a common edge as one, if it is convex.
fn joined(one: &[usize], other: &[usize], corners: &[Point]) -> Option<Vec<usize>> {
    let next = |piece: &[usize], at: usize| piece[(at + 1) % piece.len()];
    for at in 0..one.len() {
        let (from, to) = (one[at], next(one, at));
        let shared =
            (0..other.len()).find(|&there| other[there] == to && next(other, there) == from);
        let Some(there) = shared else { continue };
        // From the end of the common edge around the first piece to its start, then around the second.
        let mut around: Vec<usize> = (1..=one.len())
            .map(|step| one[(at + step) % one.len()])
            .collect();
        around.extend((2..other.len()).map(|step| other[(there + step) % other.len()]));
        let is_convex = (0..around.len()).all(|index| {
            let corner = |step: usize| corners[around[(index + step) % around.len()]];
            turn(corner(0), corner(1), corner(2)) >= 0.0
        });
        return is_convex.then_some(around);
    }
    None
}

fn turn(one: Point, two: Point, three: Point) -> f64 {
    (two - one).cross(three - two)
}

/// The convex polygon of all sums of a point of one and a point of the other.
// Source: de Berg and others, Computational Geometry, chapter 13: the edges of both in the order of their directions.
pub(crate) fn sum(one: &[Point], other: &[Point]) -> Convex {
    let [one, other] = [from_lowest(one), from_lowest(other)];
    let edge = |piece: &[Point], at: usize| piece[(at + 1) % piece.len()] - piece[at % piece.len()];
    let mut at = one[0] + (other[0] - Point::ORIGIN);
    let (mut first, mut second) = (0, 0);
    let mut corners = Vec::with_capacity(one.len() + other.len());
    while first < one.len() || second < other.len() {
        corners.push(at);
        let (along, beside) = (edge(&one, first), edge(&other, second));
        let side = along.cross(beside);
        let takes_first = first < one.len() && (second >= other.len() || side >= 0.0);
        let takes_second = second < other.len() && (first >= one.len() || side <= 0.0);
        if takes_first {
            at = at + along;
            first += 1;
        }
        if takes_second {
            at = at + beside;
            second += 1;
        }
    }
    corners
}

/// The corners from the lowest on, of several the leftmost.
fn from_lowest(piece: &[Point]) -> Convex {
    let lower = |one: &usize, other: &usize| {
        let (one, other) = (piece[*one], piece[*other]);
        one.y.total_cmp(&other.y).then(one.x.total_cmp(&other.x))
    };
    let start = (0..piece.len()).min_by(lower).unwrap_or(0);
    let mut turned = piece.to_vec();
    turned.rotate_left(start);
    turned
}

/// A convex polygon around a circle about the origin; along both axes it touches the circle.
pub(crate) fn around_circle(radius: f64) -> Convex {
    // Corners of a regular polygon of twelve sides at half the angle between sides, and of a square for what is tiny.
    let unit: &[[f64; 2]] = if radius < TINY { &SQUARE } else { &TWELVE };
    let corner = |[x, y]: &[f64; 2]| Point::ORIGIN + Vector::new(x * radius, y * radius);
    unit.iter().map(corner).collect()
}

/// Below this a square around the circle is near enough.
const TINY: f64 = 0.05;
const SQUARE: [[f64; 2]; 4] = [[1.0, -1.0], [1.0, 1.0], [-1.0, 1.0], [-1.0, -1.0]];
/// tan 15°.
const NEAR: f64 = 0.267_949_192_431_122_7;
/// Either coordinate of the corner at 45°.
// Derived: the corners of a polygon of twelve sides around the unit circle lie 1 / cos 15° from the middle, at 15°, 45°,
// 75° and so on; √½ / cos 15° = √3 − 1.
const SLANT: f64 = 0.732_050_807_568_877_3;
const TWELVE: [[f64; 2]; 12] = [
    [1.0, -NEAR],
    [1.0, NEAR],
    [SLANT, SLANT],
    [NEAR, 1.0],
    [-NEAR, 1.0],
    [-SLANT, SLANT],
    [-1.0, NEAR],
    [-1.0, -NEAR],
    [-SLANT, -SLANT],
    [-NEAR, -1.0],
    [NEAR, -1.0],
    [SLANT, -SLANT],
];
