//! The place of a name on a blank.
//!
//! **Input:** the words, and the lines of the blank as corners, closed ones first. **Output:** the name at the largest
//! size at which it touches no line and lies on card, nearest to the middle of the blank; none where it has no room.

use crate::flat::Label;
use crate::plane::{Extent, Point, Vector};

/// Heights of capitals, the largest first.
// Source: ISO 3098-1, nominal sizes of lettering (from memory).
const HEIGHTS: [f64; 4] = [7.0, 5.0, 3.5, 2.5];
/// Width of a letter as a multiple of the height of capitals, on the safe side.
// Source: DejaVu Sans, horizontal metrics: a figure has 0.87, lower case 0.76 on average.
const LETTER: f64 = 0.9;
/// White around the name.
const CLEAR: f64 = 1.5;
/// Places that are tried along each side.
const PLACES: usize = 60;
/// Longer names are cut off.
const LONGEST: usize = 30;

/// The name with its place; the first `closed` lines are the outline and the holes.
pub(super) fn label(words: &str, lines: &[Vec<Point>], closed: usize) -> Option<Label> {
    let text: String = words.chars().take(LONGEST).collect();
    let letters = text.chars().count() as f64;
    let extent = Extent::around(lines.first()?.iter().copied());
    let middle = extent.least.middle(extent.most);
    let mut places = grid(extent);
    places.sort_by(|one, other| far(*one, middle).total_cmp(&far(*other, middle)));
    HEIGHTS.into_iter().find_map(|height| {
        let half = Vector::new(
            LETTER * height * letters / 2.0 + CLEAR,
            height / 2.0 + CLEAR,
        );
        let is_free = |at: &&Point| {
            let around = Extent {
                least: **at + -half,
                most: **at + half,
            };
            is_on_card(**at, &lines[..closed]) && !lines.iter().any(|line| meets(line, around))
        };
        let at = *places.iter().find(is_free)?;
        Some(Label {
            text: text.clone(),
            at: at + Vector::new(0.0, -height / 2.0),
            height,
        })
    })
}

fn grid(extent: Extent) -> Vec<Point> {
    let [length, width] = extent.size();
    let share = |number: usize| (number as f64 + 0.5) / PLACES as f64;
    let place = |index: usize| {
        let (column, row) = (index % PLACES, index / PLACES);
        extent.least + Vector::new(length * share(column), width * share(row))
    };
    (0..PLACES * PLACES).map(place).collect()
}

fn far(one: Point, other: Point) -> f64 {
    (one - other).dot(one - other)
}

/// By the rule of odd crossings: inside the outline and in no hole.
fn is_on_card(at: Point, closed: &[Vec<Point>]) -> bool {
    let edges = closed.iter().flat_map(|line| line.windows(2));
    let crosses = |edge: &[Point]| {
        let (from, to) = (edge[0], edge[1]);
        (from.y > at.y) != (to.y > at.y)
            && at.x < from.x + (at.y - from.y) / (to.y - from.y) * (to.x - from.x)
    };
    edges.filter(|edge| crosses(edge)).count() % 2 == 1
}

/// Whether a line passes through a rectangle.
fn meets(line: &[Point], around: Extent) -> bool {
    line.windows(2).any(|edge| {
        let mut shares = [0.0_f64, 1.0];
        let way = edge[1] - edge[0];
        for (from, along, least, most) in [
            (edge[0].x, way.x, around.least.x, around.most.x),
            (edge[0].y, way.y, around.least.y, around.most.y),
        ] {
            if along == 0.0 {
                if from < least || from > most {
                    return false;
                }
                continue;
            }
            let [one, other] = [(least - from) / along, (most - from) / along];
            shares = [shares[0].max(one.min(other)), shares[1].min(one.max(other))];
        }
        shares[0] <= shares[1]
    })
}
