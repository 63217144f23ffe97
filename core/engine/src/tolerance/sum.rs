//! The sum of independent errors, each uniformly distributed within its limits.
//!
//! **Input:** the limits. **Output:** worst case, root-sum-square and expanded uncertainty, and the probability that
//! the sum exceeds a clearance. **Does not** know the causes of the errors.

/// Cells of the grid for the convolution of the distribution.
// Derived: the error of a cell is a 24th of its square times the slope of the density; with a 400th of the whole span it
// is under 1e-4 (a test compares with the exact polynomials).
const CELLS: usize = 400;

/// A limit smaller than this part of the total changes no reported probability.
// Derived: it moves the distribution by a sixth of its square times the slope of the density: under 1e-4.
const NOTHING: f64 = 0.005;

/// Limits of independent errors, each ± in mm.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Sum {
    /// From the largest to the smallest; zeros are left out.
    limits: Vec<f64>,
}

impl Sum {
    /// The sum of errors with these limits; signs are ignored.
    pub(crate) fn of(limits: impl IntoIterator<Item = f64>) -> Sum {
        let limits = limits.into_iter().map(f64::abs);
        let mut limits: Vec<f64> = limits.filter(|&limit| limit > 0.0).collect();
        limits.sort_by(|one, other| other.total_cmp(one));
        Sum { limits }
    }

    /// All limits added.
    pub(crate) fn worst(&self) -> f64 {
        self.limits.iter().sum()
    }

    /// Root of the sum of the squared limits.
    pub(crate) fn root_sum_square(&self) -> f64 {
        let squares: f64 = self.limits.iter().map(|limit| limit * limit).sum();
        squares.sqrt()
    }

    /// Expanded uncertainty, k = 2.
    // Source: NIST/SEMATECH e-Handbook 2.5.7: limits ±a with nothing else known have the standard uncertainty a/√3.
    pub(crate) fn expanded(&self) -> f64 {
        2.0 * self.root_sum_square() / 3.0_f64.sqrt()
    }

    /// Probability, from 0 to 1, that the errors exceed the clearance.
    // Derived: the distribution of a sum of rectangular errors is that of the largest, averaged over the width of each other
    // one in turn. The averages are taken on a grid between the worst cases.
    pub(crate) fn chance_below_nothing(&self, to_spare: f64) -> f64 {
        let worst = self.worst();
        if to_spare >= worst {
            return 0.0;
        }
        if to_spare < -worst {
            return 1.0;
        }
        let counted = self.limits.iter().filter(|&&limit| limit > NOTHING * worst);
        let counted: Vec<f64> = counted.copied().collect();
        let Some((largest, others)) = counted.split_first() else {
            return 0.0;
        };
        let cell = 2.0 * worst / CELLS as f64;
        let place = |at: usize| at as f64 * cell - worst;
        let mut below: Vec<f64> = (0..=CELLS)
            .map(|at| ((place(at) + largest) / (2.0 * largest)).clamp(0.0, 1.0))
            .collect();
        for limit in others {
            below = averaged(&below, limit / cell);
        }
        value_at(&below, (worst - to_spare) / cell)
    }
}

/// A distribution averaged over `reach` cells to either side of each grid point; 0 before the grid and 1 after it.
fn averaged(below: &[f64], reach: f64) -> Vec<f64> {
    // The integral up to each grid point, linear between two points.
    let mut area = vec![0.0; below.len()];
    for at in 1..below.len() {
        area[at] = area[at - 1] + (below[at - 1] + below[at]) / 2.0;
    }
    let end = below.len() - 1;
    let up_to = |place: f64| {
        if place <= 0.0 {
            0.0
        } else if place >= end as f64 {
            area[end] + (place - end as f64)
        } else {
            let at = place as usize;
            area[at] + (place - at as f64) * (below[at] + value_at(below, place)) / 2.0
        }
    };
    let averaged = |at: usize| {
        let place = at as f64;
        ((up_to(place + reach) - up_to(place - reach)) / (2.0 * reach)).clamp(0.0, 1.0)
    };
    (0..=end).map(averaged).collect()
}

/// The interpolated value between two grid points.
fn value_at(below: &[f64], place: f64) -> f64 {
    let at = (place.max(0.0) as usize).min(below.len() - 2);
    let part = (place - at as f64).clamp(0.0, 1.0);
    below[at] + part * (below[at + 1] - below[at])
}

#[cfg(test)]
mod tests {
    use super::Sum;

    #[test]
    fn limits_add_up_as_in_the_worked_examples() {
        // Derived: 0.10 + 0.05 + 0.03 + 0.05 = 0.23, and √(0.0100 + 0.0025 + 0.0009 + 0.0025) = 0.1261.
        let stack = Sum::of([0.10, 0.05, 0.03, 0.05]);
        assert!(
            (stack.worst() - 0.23).abs() < 1e-4 && (stack.root_sum_square() - 0.1261).abs() < 1e-4
        );
        // Source: NIST/SEMATECH e-Handbook 2.5.7 for a/√3 and k = 2. Derived: √(0.75 + 0.000625) = 0.8664, times 2/√3 is 1.0004.
        let tray = Sum::of([0.5, 0.5, 0.5, 0.025]);
        assert!((tray.worst() - 1.525).abs() < 1e-4);
        assert!((tray.root_sum_square() - 0.8664).abs() < 1e-4);
        assert!((tray.expanded() - 1.0004).abs() < 1e-4);
    }

    #[test]
    fn chances_are_those_of_the_exact_polynomials() {
        // Derived: like limits give the Irwin-Hall distribution. One limit of 0.5 and 0.2
        // to spare: 0.3 of 1. Two and 0.5: 0.5² / 2. Three and 0.29: (1.21³ - 3 · 0.21³) / 6. Four and 0.29:
        // (1.71⁴ - 4 · 0.71⁴) / 24.
        let of =
            |count: usize, to_spare: f64| Sum::of(vec![0.5; count]).chance_below_nothing(to_spare);
        let exact = [
            (1, 0.2, 0.3),
            (2, 0.5, 0.125),
            (3, 0.29, (1.771_561 - 3.0 * 0.009_261) / 6.0),
            (4, 0.29, (8.550_361 - 4.0 * 0.254_117) / 24.0),
        ];
        for (count, to_spare, chance) in exact {
            assert!(
                (of(count, to_spare) - chance).abs() < 2e-4,
                "{count} limits, {to_spare} to spare: {}",
                of(count, to_spare)
            );
        }
        // Derived: limits 1 and 0.25, nothing to spare: a half; 1.0 to spare: (0.25)² / 2 / (2 · 0.5).
        let unlike = Sum::of([0.25, -1.0, 0.0]);
        assert!((unlike.chance_below_nothing(0.0) - 0.5).abs() < 1e-9);
        assert!((unlike.chance_below_nothing(1.0) - 0.031_25).abs() < 2e-4);
    }

    #[test]
    fn beyond_the_worst_case_nothing_is_left_to_chance() {
        let sum = Sum::of([0.5, 0.5]);
        assert_eq!(sum.chance_below_nothing(1.0), 0.0);
        assert_eq!(sum.chance_below_nothing(-1.01), 1.0);
        assert_eq!(Sum::of([]).chance_below_nothing(0.0), 0.0);
        assert_eq!(Sum::of([]).chance_below_nothing(-0.1), 1.0);
    }
}
