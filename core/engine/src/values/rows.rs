//! Openings in rows: the way to break the list that leaves the widest gaps, and the position of each opening.
//!
//! **Input:** the sizes of the openings in the job's order, the field's size and the web. **Output:** the middle of
//! each from the field's lower left corner, the lowest row first, or the missing length. Rotates nothing and keeps the
//! order.

use std::cmp::Ordering;

use crate::geometry::{TOUCH_MM, Vector};

/// Up to this many openings, every way to break the list is tried.
// Source: core/GEOMETRY.md, "Multi-slot: the arrangement".
const MOST_TRIED: usize = 12;

/// Openings in rows.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Rows {
    /// The middle of each opening, from the field's lower left corner.
    pub(super) middles: Vec<Vector>,
    /// The missing length along the field's length and its width; 0 if the rows fit.
    pub(super) lacks: [f64; 2],
}

/// One way to break the list into rows.
struct BreakUp {
    /// The end of each row in the list.
    ends: Vec<usize>,
    lacks: [f64; 2],
    /// The equal gaps of each row and between the rows, the smallest first.
    gaps: Vec<f64>,
}

/// Arranges openings in rows.
// Source: core/GEOMETRY.md, "Multi-slot: the arrangement": the break-up with the largest least gap, then the fewest
// rows. Among those that are left the one with the larger gaps after the least is taken.
pub(super) fn lay(sizes: &[[f64; 2]], field: [f64; 2], web: f64) -> Rows {
    let weigh = |ends: Vec<usize>| BreakUp::weigh(ends, sizes, field, web);
    let best = break_ups(sizes)
        .map(weigh)
        .min_by(BreakUp::compare)
        .expect("there is at least one opening");
    let heights: Vec<f64> = best.rows().map(|row| height(&sizes[row])).collect();
    let bottoms = spread(&heights, field[1], web);
    let mut middles = Vec::new();
    for ((row, bottom), height) in best.rows().zip(bottoms).zip(heights) {
        let lengths: Vec<f64> = sizes[row].iter().map(|size| size[0]).collect();
        let lefts = spread(&lengths, field[0], web);
        let middle =
            |(left, length): (f64, &f64)| Vector::new(left + length / 2.0, bottom + height / 2.0);
        middles.extend(lefts.into_iter().zip(&lengths).map(middle));
    }
    Rows {
        middles,
        lacks: best.lacks,
    }
}

/// The ways to break the list that are tried: all, or for each number of rows the one with the shortest rows.
fn break_ups(sizes: &[[f64; 2]]) -> Box<dyn Iterator<Item = Vec<usize>> + '_> {
    let count = sizes.len();
    if count > MOST_TRIED {
        return Box::new((1..=count).map(|rows| even(sizes, rows)));
    }
    let ends = move |breaks: u32| {
        let before = (1..count).filter(move |end| breaks & (1 << (end - 1)) != 0);
        before.chain([count]).collect()
    };
    Box::new((0..1_u32 << (count - 1)).map(ends))
}

/// At most `rows` rows, filled one after the other up to the smallest length that suffices.
fn even(sizes: &[[f64; 2]], rows: usize) -> Vec<usize> {
    let count = sizes.len();
    let run = |from: usize, to: usize| -> f64 { sizes[from..to].iter().map(|size| size[0]).sum() };
    let filled = |most: f64| {
        let mut ends = Vec::new();
        let mut start = 0;
        for end in 1..=count {
            if end > start + 1 && run(start, end) > most + TOUCH_MM {
                ends.push(end - 1);
                start = end - 1;
            }
        }
        ends.push(count);
        ends
    };
    let starts = (0..count).flat_map(|from| (from + 1..=count).map(move |to| (from, to)));
    let widest = sizes.iter().map(|size| size[0]).fold(0.0, f64::max);
    let mut lengths: Vec<f64> = starts
        .map(|(from, to)| run(from, to))
        .filter(|length| *length >= widest)
        .collect();
    lengths.sort_by(f64::total_cmp);
    let least = lengths.partition_point(|&length| filled(length).len() > rows);
    filled(lengths[least])
}

impl BreakUp {
    fn weigh(ends: Vec<usize>, sizes: &[[f64; 2]], field: [f64; 2], web: f64) -> BreakUp {
        let mut found = BreakUp {
            ends,
            lacks: [0.0; 2],
            gaps: Vec::new(),
        };
        let mut heights = Vec::new();
        for row in found.rows() {
            let lengths: Vec<f64> = sizes[row.clone()].iter().map(|size| size[0]).collect();
            found.lacks[0] = lack(&lengths, field[0], web).max(found.lacks[0]);
            found.gaps.push(gap(&lengths, field[0]));
            heights.push(height(&sizes[row]));
        }
        found.lacks[1] = lack(&heights, field[1], web);
        found.gaps.push(gap(&heights, field[1]));
        found.gaps.sort_by(f64::total_cmp);
        found
    }

    /// The range of each row's openings in the list.
    fn rows(&self) -> impl Iterator<Item = std::ops::Range<usize>> + use<> {
        let ends = self.ends.clone();
        let starts: Vec<usize> = std::iter::once(0).chain(ends.iter().copied()).collect();
        starts.into_iter().zip(ends).map(|(start, end)| start..end)
    }

    /// The better one is less: one that fits, then the one that lacks less length.
    fn compare(&self, other: &BreakUp) -> Ordering {
        let missing = |one: &BreakUp| one.lacks[0] + one.lacks[1];
        let fewer = || self.ends.len().cmp(&other.ends.len());
        let gaps = || {
            self.gaps
                .iter()
                .zip(&other.gaps)
                .map(|(own, its)| apart(*its, *own))
        };
        apart(missing(self), missing(other))
            .then_with(|| gaps().next().unwrap_or(Ordering::Equal))
            .then_with(fewer)
            .then_with(|| {
                gaps()
                    .find(|order| order.is_ne())
                    .unwrap_or(Ordering::Equal)
            })
    }
}

/// Compares two lengths; a rounding difference counts as equal.
fn apart(one: f64, other: f64) -> Ordering {
    if (one - other).abs() < TOUCH_MM {
        Ordering::Equal
    } else {
        one.total_cmp(&other)
    }
}

fn height(row: &[[f64; 2]]) -> f64 {
    row.iter().map(|size| size[1]).fold(0.0, f64::max)
}

/// The equal gap between all of them, the two borders included.
fn gap(sizes: &[f64], room: f64) -> f64 {
    (room - sizes.iter().sum::<f64>()) / (sizes.len() + 1) as f64
}

/// The missing length if only the web is between them.
fn lack(sizes: &[f64], room: f64, web: f64) -> f64 {
    let least = sizes.iter().sum::<f64>() + (sizes.len() - 1) as f64 * web;
    let lack = least - room;
    if lack > TOUCH_MM { lack } else { 0.0 }
}

/// The start of each: equal gaps, or gaps of one web and equal borders if equal gaps would be narrower.
fn spread(sizes: &[f64], room: f64, web: f64) -> Vec<f64> {
    let alike = gap(sizes, room);
    let (border, between) = if alike >= web {
        (alike, alike)
    } else {
        let taken = sizes.iter().sum::<f64>() + (sizes.len() - 1) as f64 * web;
        ((room - taken) / 2.0, web)
    };
    let mut at = border;
    let begin = |size: &f64| {
        let begin = at;
        at += size + between;
        begin
    };
    sizes.iter().map(begin).collect()
}
