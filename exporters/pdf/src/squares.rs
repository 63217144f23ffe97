//! A sheet cut into small squares, each of which is set or not, and how many are set in a rectangle.
//!
//! Given marks; answers for any rectangle at once, from sums over all squares below and to the left. It does not know
//! what a set square means.

/// The squares of a sheet, rows counted upwards.
pub(crate) struct Squares {
    columns: usize,
    rows: usize,
    set: Vec<bool>,
    /// For every corner of squares how many below and to the left are set.
    sums: Vec<u32>,
}

impl Squares {
    /// None of them set.
    pub(crate) fn new([columns, rows]: [usize; 2]) -> Squares {
        Squares {
            columns,
            rows,
            set: vec![false; columns * rows],
            sums: vec![0; (columns + 1) * (rows + 1)],
        }
    }

    /// Sets those from a first column and row up to a last one, which is not set. [`Squares::settle`] must follow.
    pub(crate) fn set(&mut self, first: [usize; 2], last: [usize; 2]) {
        for row in first[1]..last[1].min(self.rows) {
            let columns = first[0].min(self.columns)..last[0].min(self.columns);
            self.set[row * self.columns..][columns].fill(true);
        }
    }

    /// Sets those that another sheet of the same squares has set, and counts anew.
    pub(crate) fn add(&mut self, other: &Squares) {
        for (mine, theirs) in self.set.iter_mut().zip(&other.set) {
            *mine |= theirs;
        }
        self.settle();
    }

    /// Counts anew after squares were set.
    pub(crate) fn settle(&mut self) {
        let width = self.columns + 1;
        for row in 0..self.rows {
            let mut line = 0;
            for column in 0..self.columns {
                line += u32::from(self.set[row * self.columns + column]);
                self.sums[(row + 1) * width + column + 1] =
                    self.sums[row * width + column + 1] + line;
            }
        }
    }

    /// How many are set in a rectangle of squares.
    pub(crate) fn count(&self, [column, row]: [usize; 2], [wide, high]: [usize; 2]) -> u32 {
        let at = |column: usize, row: usize| self.sums[row * (self.columns + 1) + column];
        at(column + wide, row + high) + at(column, row)
            - at(column + wide, row)
            - at(column, row + high)
    }
}
