//! A sheet cut into small squares, each of which is set or not: one bit each, so that 64 are asked at once.
//!
//! Given marks; answers for a rectangle at every corner at once whether it meets one, and from sums over all squares below
//! and to the left how much it meets. It does not know what a set square means.

/// The squares in one number.
const BITS: usize = u64::BITS as usize;

/// The squares of a sheet, rows counted upwards.
#[derive(Clone)]
pub(crate) struct Squares {
    columns: usize,
    rows: usize,
    /// Numbers of one row.
    stride: usize,
    set: Vec<u64>,
}

impl Squares {
    /// None of them set.
    pub(crate) fn new([columns, rows]: [usize; 2]) -> Squares {
        let stride = columns.div_ceil(BITS);
        Squares {
            columns,
            rows,
            stride,
            set: vec![0; stride * rows],
        }
    }

    /// Sets those from a first column and row up to a last one, which is not set.
    pub(crate) fn set(&mut self, first: [usize; 2], last: [usize; 2]) {
        let (from, to) = (first[0], last[0].min(self.columns));
        if from >= to {
            return;
        }
        let (low, high) = (from / BITS, (to - 1) / BITS);
        for row in first[1]..last[1].min(self.rows) {
            let line = &mut self.set[row * self.stride..][..self.stride];
            for (index, bits) in line.iter_mut().enumerate().take(high + 1).skip(low) {
                let above = if index == low {
                    u64::MAX << (from % BITS)
                } else {
                    u64::MAX
                };
                let below = if index == high {
                    u64::MAX >> (BITS - 1 - (to - 1) % BITS)
                } else {
                    u64::MAX
                };
                *bits |= above & below;
            }
        }
    }

    /// Sets those that another sheet of the same squares has set.
    pub(crate) fn add(&mut self, other: &Squares) {
        for (mine, theirs) in self.set.iter_mut().zip(&other.set) {
            *mine |= theirs;
        }
    }

    /// Sets those that are set on another sheet of the same squares, too.
    pub(crate) fn with(mut self, other: &Squares) -> Squares {
        self.add(other);
        self
    }

    /// Sets those that another sheet of the same squares has not set, too.
    pub(crate) fn with_others(mut self, other: &Squares) -> Squares {
        for (mine, theirs) in self.set.iter_mut().zip(&other.set) {
            *mine |= !theirs;
        }
        self
    }

    /// Adds so much for every set square of a row.
    fn add_worth(&self, row: usize, worth: u32, worths: &mut [u32]) {
        let line = &self.set[row * self.stride..][..self.stride];
        for (bits, worths) in line.iter().zip(worths.chunks_mut(BITS)) {
            let mut left = *bits;
            if left == u64::MAX {
                worths.iter_mut().for_each(|sum| *sum += worth);
                continue;
            }
            while left != 0 {
                worths[left.trailing_zeros() as usize] += worth;
                left &= left - 1;
            }
        }
    }

    /// The corners at which a rectangle of so many squares meets a set one. Only corners are told at which the rectangle
    /// lies on the sheet.
    // Each step joins every corner with one further on, which doubles the rectangle. All rows are one run of bits: what
    // comes in from the next row reaches only corners at which the rectangle leaves the sheet.
    pub(crate) fn met_by(mut self, [wide, high]: [usize; 2]) -> Squares {
        let row = self.stride * BITS;
        let mut joined = self.set.clone();
        let mut join = |far: usize| {
            join(&self.set, far, &mut joined);
            std::mem::swap(&mut self.set, &mut joined);
        };
        doublings(high, |rows| join(rows * row));
        doublings(wide, join);
        self
    }

    /// The last column of a row before one that is not set.
    pub(crate) fn unset_before(&self, row: usize, column: usize) -> Option<usize> {
        let line = &self.set[row * self.stride..][..self.stride];
        (0..column.div_ceil(BITS)).rev().find_map(|index| {
            let kept = column - index * BITS;
            let mask = if kept >= BITS {
                u64::MAX
            } else {
                (1 << kept) - 1
            };
            let bits = !line[index] & mask;
            (bits != 0).then(|| index * BITS + BITS - 1 - bits.leading_zeros() as usize)
        })
    }

    /// The first column of a row from one on that is not set, before an end.
    pub(crate) fn unset_from(&self, row: usize, column: usize, end: usize) -> Option<usize> {
        let line = &self.set[row * self.stride..][..self.stride];
        let first = (column / BITS..end.div_ceil(BITS)).find_map(|index| {
            let mask = u64::MAX << column.saturating_sub(index * BITS).min(BITS - 1);
            let bits = !line[index] & mask;
            (bits != 0).then(|| index * BITS + bits.trailing_zeros() as usize)
        });
        first.filter(|column| *column < end)
    }
}

/// Joins every bit with the one so far behind it.
// Three slices side by side, so that the compiler joins several numbers at once.
fn join(set: &[u64], far: usize, joined: &mut [u64]) {
    let (numbers, bits) = (far / BITS, far % BITS);
    let near = set.get(numbers..).unwrap_or_default();
    let last = near.len();
    if bits == 0 {
        for ((joined, own), near) in joined.iter_mut().zip(set).zip(near) {
            *joined = own | near;
        }
    } else {
        let next = near.get(1..).unwrap_or_default();
        for (((joined, own), near), next) in joined.iter_mut().zip(set).zip(near).zip(next) {
            *joined = own | (near >> bits) | (next << (BITS - bits));
        }
        if let Some(near) = near.last() {
            joined[last - 1] = set[last - 1] | (near >> bits);
        }
    }
    joined[last..].copy_from_slice(&set[last..]);
}

/// Calls with the lengths of the joins that make one square a run of so many.
fn doublings(count: usize, mut join: impl FnMut(usize)) {
    let mut reached = 1;
    while reached < count {
        let step = reached.min(count - reached);
        join(step);
        reached += step;
    }
}

/// For every corner of squares the sum over those below and to the left.
pub(crate) struct Sums {
    width: usize,
    sums: Vec<u32>,
}

impl Sums {
    /// The sums over several sheets of the same squares, each of which counts so much.
    pub(crate) fn of(sheets: &[(&Squares, u32)]) -> Sums {
        let [columns, rows] = sheets
            .first()
            .map_or([0; 2], |(first, _)| [first.columns, first.rows]);
        let width = columns + 1;
        let mut sums = vec![0; width * (rows + 1)];
        let mut worths = vec![0; columns];
        for row in 0..rows {
            worths.fill(0);
            for (squares, worth) in sheets {
                squares.add_worth(row, *worth, &mut worths);
            }
            let (below, above) = sums.split_at_mut((row + 1) * width);
            let mut line = 0;
            let below = &below[row * width + 1..];
            for ((sum, below), worth) in above[1..width].iter_mut().zip(below).zip(&worths) {
                line += worth;
                *sum = below + line;
            }
        }
        Sums { width, sums }
    }

    /// The sum over a rectangle of squares.
    pub(crate) fn within(&self, [column, row]: [usize; 2], [wide, high]: [usize; 2]) -> u32 {
        let at = |column: usize, row: usize| self.sums[row * self.width + column];
        at(column + wide, row + high) + at(column, row)
            - at(column + wide, row)
            - at(column, row + high)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn is_set(squares: &Squares, [column, row]: [usize; 2]) -> bool {
        (squares.set[row * squares.stride + column / BITS] >> (column % BITS)) & 1 == 1
    }

    /// Squares in a pattern that repeats nowhere on the sheet.
    fn spotted(size: [usize; 2]) -> Squares {
        let mut squares = Squares::new(size);
        for spot in 0..40 {
            let first = [(spot * 37) % size[0], (spot * 53) % size[1]];
            squares.set(first, [first[0] + 1 + spot % 3, first[1] + 1 + spot % 2]);
        }
        squares
    }

    #[test]
    fn a_rectangle_meets_what_its_sum_counts() {
        let size = [150, 90];
        let squares = spotted(size);
        let sums = Sums::of(&[(&squares, 1)]);
        for rectangle in [[1, 1], [5, 3], [70, 9], [150, 1], [2, 90]] {
            let met = squares.clone().met_by(rectangle);
            for row in 0..=size[1] - rectangle[1] {
                for column in 0..=size[0] - rectangle[0] {
                    let corner = [column, row];
                    let counted = sums.within(corner, rectangle) > 0;
                    assert_eq!(is_set(&met, corner), counted, "{rectangle:?} at {corner:?}");
                }
            }
        }
    }

    #[test]
    fn the_nearest_unset_squares_are_those_that_a_walk_finds() {
        let squares = spotted([150, 90]).met_by([4, 2]);
        for row in [0, 7, 53] {
            for (from, end) in [(0, 147), (64, 147), (100, 128), (120, 140), (147, 147)] {
                let is_unset = |column: &usize| !is_set(&squares, [*column, row]);
                let walked = [
                    (0..from.min(end)).rev().find(is_unset),
                    (from..end).find(is_unset),
                ];
                let found = [
                    squares.unset_before(row, from),
                    squares.unset_from(row, from, end),
                ];
                assert_eq!(found, walked, "{row} {from} {end}");
            }
        }
    }
}
