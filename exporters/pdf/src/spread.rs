//! A blank spread over sheets of one grid: which sheets of it must be printed.
//!
//! Given the pieces of the blank, the window of a sheet, the overlap and where the grid begins; gives the fewest sheets of
//! that grid that show every line and hang together side by side. It never says whether another grid would do better.
//!
//! ```text
//! columns     |----- 0 -----|
//!                         |----- 1 -----|
//! zones       |    0      |0+1|    1    |      what a line needs: any one of the columns of its zone
//! ```

use std::collections::{BTreeMap, BTreeSet};

use crate::pieces::Piece;
use crate::whole::{rounded_down, rounded_up};
use crate::window::{TOUCH, Window};

/// The sheets of a grid, all alike.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Grid {
    /// Lower left corner of the sheet in column 0 and row 0.
    pub(crate) begin: [f64; 2],
    /// Width and height of what a sheet shows.
    pub(crate) size: [f64; 2],
    /// How much of it the next sheet shows too.
    pub(crate) overlap: f64,
}

/// Column and row of a sheet, rows counted upwards.
pub(crate) type Cell = [i64; 2];

/// More sheets than this nobody joins.
// Source: core/CONTRACT.md, "Files: PDF".
pub(crate) const MOST_SHEETS: usize = 400;
/// With more open choices than this the first sheet that will do is taken.
const MOST_OPEN: usize = 10;

/// A stretch of the blank along one axis, and the columns or rows that show it.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
struct Zone {
    first: i64,
    last: i64,
}

/// What the zones of columns must show, whatever the rows are.
#[derive(PartialEq)]
pub(crate) struct Columns {
    /// Ranges of y by zone, apart from each other and in order.
    ranges: Vec<(Zone, Vec<[f64; 2]>)>,
}

impl Grid {
    /// From one sheet to the next.
    pub(crate) fn pitch(&self, axis: usize) -> f64 {
        self.size[axis] - self.overlap
    }

    /// What a sheet shows.
    pub(crate) fn window(&self, cell: Cell) -> Window {
        let least = [0, 1].map(|axis| self.begin[axis] + cell[axis] as f64 * self.pitch(axis));
        Window::new(least, self.size)
    }

    /// The zone of a coordinate.
    fn zone(&self, axis: usize, value: f64) -> Zone {
        let (from, pitch) = (value - self.begin[axis], self.pitch(axis));
        Zone {
            first: rounded_up((from - self.size[axis] - TOUCH) / pitch),
            last: rounded_down((from + TOUCH) / pitch),
        }
    }

    /// A range cut where sheets begin and end, into stretches of which each has one zone; in `cuts` between the calls.
    fn stretches(&self, axis: usize, [least, most]: [f64; 2], cuts: &mut Vec<f64>) {
        let pitch = self.pitch(axis);
        cuts.clear();
        cuts.push(least);
        for edge in [self.begin[axis], self.begin[axis] + self.size[axis]] {
            let first = rounded_up((least - edge) / pitch);
            let last = rounded_down((most - edge) / pitch);
            cuts.extend((first..=last).map(|index| edge + index as f64 * pitch));
        }
        cuts.push(most);
        cuts.retain(|cut| *cut >= least && *cut <= most);
        cuts.sort_unstable_by(f64::total_cmp);
        if !cuts.windows(2).any(is_long) {
            let middle = (least + most) / 2.0;
            cuts.clear();
            // A range that is all touch is one stretch without a length.
            cuts.extend([middle - 2.0 * TOUCH, middle + 2.0 * TOUCH]);
        }
    }

    /// What the columns of this grid must show.
    pub(crate) fn columns(&self, pieces: &[Piece]) -> Columns {
        let mut ranges: BTreeMap<(i64, i64), Vec<[f64; 2]>> = BTreeMap::new();
        let mut cuts = Vec::new();
        for piece in pieces {
            let sides = [
                piece.from[0].min(piece.to[0]),
                piece.from[0].max(piece.to[0]),
            ];
            self.stretches(0, sides, &mut cuts);
            for pair in cuts.windows(2).filter(|pair| is_long(pair)) {
                let zone = self.zone(0, (pair[0] + pair[1]) / 2.0);
                let Some(shares) = piece.between(0, pair[0], pair[1]) else {
                    continue;
                };
                let ends = shares.map(|share| piece.at(share)[1]);
                let range = [ends[0].min(ends[1]), ends[0].max(ends[1])];
                ranges
                    .entry((zone.first, zone.last))
                    .or_default()
                    .push(range);
            }
        }
        let joined = ranges
            .into_iter()
            .map(|((first, last), ranges)| (Zone { first, last }, joined(ranges)));
        Columns {
            ranges: joined.collect(),
        }
    }

    /// So many sheets at least show what the columns need, wherever the rows begin.
    // Derived: k sheets of one column reach over k pitches and the overlap at most.
    pub(crate) fn fewest_of(&self, columns: &Columns) -> usize {
        let mut fewest: BTreeMap<i64, f64> = BTreeMap::new();
        let alone = columns
            .ranges
            .iter()
            .filter(|(zone, _)| zone.first == zone.last);
        for (zone, ranges) in alone {
            let needed = ranges.iter().map(|[least, most]| {
                let pitches = (most - least - self.overlap - 8.0 * TOUCH) / self.pitch(1);
                pitches.ceil().max(1.0)
            });
            let most = fewest.entry(zone.first).or_insert(1.0);
            *most = needed.fold(*most, f64::max);
        }
        fewest.values().sum::<f64>() as usize
    }

    /// The fewest sheets that show what the columns need, if they are no more than so many.
    pub(crate) fn sheets(&self, columns: &Columns, most: usize) -> Option<BTreeSet<Cell>> {
        let (mut sheets, mut choices) = (Vec::new(), Vec::new());
        let mut cuts = Vec::new();
        for (zone, ranges) in &columns.ranges {
            for range in ranges {
                self.stretches(1, *range, &mut cuts);
                for pair in cuts.windows(2).filter(|pair| is_long(pair)) {
                    let rows = self.zone(1, (pair[0] + pair[1]) / 2.0);
                    if zone.first == zone.last && rows.first == rows.last {
                        insert(&mut sheets, [zone.first, rows.first]);
                        if sheets.len() > most {
                            return None;
                        }
                    } else {
                        insert(&mut choices, [zone.first, zone.last, rows.first, rows.last]);
                    }
                }
            }
        }
        let sheets = fewest(sheets.into_iter().collect(), &choices, most)?;
        // What is refused for its number need not hang together.
        let sheets = if sheets.len() > MOST_SHEETS {
            sheets
        } else {
            hang_together(sheets)
        };
        (sheets.len() <= most).then_some(sheets)
    }
}

/// Whether two cuts leave a stretch between them.
fn is_long(cuts: &[f64]) -> bool {
    cuts[1] - cuts[0] > 2.0 * TOUCH
}

/// Inserts a value into a list in order that holds it once.
fn insert<T: Ord>(list: &mut Vec<T>, value: T) {
    if let Err(at) = list.binary_search(&value) {
        list.insert(at, value);
    }
}

impl Columns {
    /// Where ranges of y begin and end.
    pub(crate) fn ends(&self) -> Vec<f64> {
        self.ranges
            .iter()
            .flat_map(|(_, ranges)| ranges.iter().flatten().copied())
            .collect()
    }
}

/// Ranges that meet become one.
fn joined(mut ranges: Vec<[f64; 2]>) -> Vec<[f64; 2]> {
    ranges.sort_by(|one, other| {
        one[0]
            .total_cmp(&other[0])
            .then(one[1].total_cmp(&other[1]))
    });
    let mut joined: Vec<[f64; 2]> = Vec::new();
    for range in ranges {
        match joined.last_mut() {
            Some(last) if range[0] <= last[1] + TOUCH => last[1] = last[1].max(range[1]),
            _ => joined.push(range),
        }
    }
    joined
}

/// Adds the fewest sheets so that every choice of columns and rows holds one.
fn fewest(mut sheets: BTreeSet<Cell>, choices: &[[i64; 4]], most: usize) -> Option<BTreeSet<Cell>> {
    if sheets.len() > most {
        return None;
    }
    let open: Vec<[i64; 4]> = choices
        .iter()
        .filter(|choice| is_open(choice, &sheets))
        .copied()
        .collect();
    if open.len() > MOST_OPEN {
        // Every open choice may double the work, so the first sheet that will do is taken here.
        for choice in open {
            if is_open(&choice, &sheets) {
                sheets.insert([choice[0], choice[2]]);
            }
        }
        return Some(sheets);
    }
    let Some([left, right, low, high]) = open.first().copied() else {
        return Some(sheets);
    };
    let mut best: Option<BTreeSet<Cell>> = None;
    for cell in (left..=right).flat_map(|column| (low..=high).map(move |row| [column, row])) {
        let limit = best.as_ref().map_or(most, |best| best.len() - 1);
        let with = sheets.iter().copied().chain([cell]).collect();
        best = fewest(with, &open, limit).or(best);
    }
    best
}

/// Whether none of the sheets is one that the choice asks for.
fn is_open([left, right, low, high]: &[i64; 4], sheets: &BTreeSet<Cell>) -> bool {
    !(*left..=*right).any(|column| (*low..=*high).any(|row| sheets.contains(&[column, row])))
}

/// Adds sheets until one can go from each to every other across shared edges: islands could not be joined.
fn hang_together(mut sheets: BTreeSet<Cell>) -> BTreeSet<Cell> {
    loop {
        let Some(start) = sheets.first().copied() else {
            return sheets;
        };
        let mut mainland = BTreeSet::from([start]);
        let mut edge = vec![start];
        while let Some([column, row]) = edge.pop() {
            for next in [
                [column + 1, row],
                [column - 1, row],
                [column, row + 1],
                [column, row - 1],
            ] {
                if sheets.contains(&next) && mainland.insert(next) {
                    edge.push(next);
                }
            }
        }
        let islands: Vec<Cell> = sheets.difference(&mainland).copied().collect();
        let far = |one: &Cell, other: &Cell| (one[0] - other[0]).abs() + (one[1] - other[1]).abs();
        let pairs = islands
            .iter()
            .flat_map(|island| mainland.iter().map(move |land| (*island, *land)));
        let Some((island, land)) =
            pairs.min_by_key(|(island, land)| (far(island, land), *island, *land))
        else {
            return sheets;
        };
        let mut at = land;
        while at != island {
            let axis = usize::from(at[0] == island[0]);
            at[axis] += (island[axis] - at[axis]).signum();
            sheets.insert(at);
        }
    }
}
