//! The hinge of the card, computed from a folded strip.
//!
//! The maker measures the strip flat, folds it into a U, and measures the U: its width, and both legs from the outside.
//! The *reading* is the sum of these three lengths less the flat length. The positions of the two creases cancel out of
//! the reading, so a crease that is off its line does no harm.

use traywright_document::Length;

use super::Board;

/// Outside corners in the three lengths of the folded strip: one in each leg, two in the width.
// Derived: across the U lie both of its folds, and each leg is measured to the outside of one of them.
const CORNERS: f64 = 4.0;

/// Error of one length read on digital calipers, either way.
// Source: common practice, none published: 0.03 mm of the tool and as much of the hand.
const LENGTH_READ_MM: f64 = 0.05;

/// The assumed error of a thickness without a stated one, as a part of it.
// Source: common practice, none published.
const UNSTATED: f64 = 0.05;

/// The result of a reading.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum ReadHinge {
    /// Distance of the fold lines from the middle of the card, in mm.
    Inside(f64),
    /// The reading is beyond the possible range, but within the measuring error. The result is the nearest hinge.
    Nearly(f64),
    /// No fold of this card gives such a reading. The result is the nearest hinge; a later check refuses the tray.
    Impossible(f64),
}

impl ReadHinge {
    /// The hinge, in mm.
    pub fn mm(self) -> f64 {
        match self {
            ReadHinge::Inside(hinge) | ReadHinge::Nearly(hinge) | ReadHinge::Impossible(hinge) => {
                hinge
            }
        }
    }
}

impl Board {
    /// The hinge from the strip; none if the job has no reading.
    // Derived: a leg of flat length a is a + outer from outside, and a base of d is d + 2 outer across, with outer =
    // caliper / 2 + hinge at 90° (core/GEOMETRY.md, "The crease rule"). Their sum is the flat length and 4 outer.
    pub fn read_hinge(&self) -> Option<ReadHinge> {
        let reading = self.reading?.mm();
        let (hinge, most) = (
            reading / CORNERS - self.caliper.mm() / 2.0,
            self.caliper.mm() / 2.0,
        );
        let nearest = hinge.clamp(0.0, most);
        Some(match (hinge - nearest).abs() {
            0.0 => ReadHinge::Inside(hinge),
            beyond if beyond <= self.reading_slack() => ReadHinge::Nearly(nearest),
            _ => ReadHinge::Impossible(nearest),
        })
    }

    /// The least and the greatest possible reading of this card.
    // Derived: 4 outer with a hinge of 0 and of half the caliper.
    pub fn possible_readings(&self) -> [Length; 2] {
        [2.0, 4.0].map(|calipers| Length::known(calipers * self.caliper.mm()))
    }

    /// Error of the hinge from the reading, either way, in mm; none if the job has no reading that is used.
    // Derived: hinge = reading / 4 - caliper / 2, and the reading is the sum of four lengths that are read independently.
    pub fn hinge_uncertainty(&self) -> Option<f64> {
        if self.hinge.is_some() {
            return None;
        }
        self.reading?;
        let read = CORNERS.sqrt() * LENGTH_READ_MM / CORNERS;
        let card = self.caliper_spread() / 2.0;
        Some((read * read + card * card).sqrt())
    }

    /// How far the hinge can be outside its range if all four lengths and the thickness are off at once.
    fn reading_slack(&self) -> f64 {
        // Less than a thousandth of a millimetre is rounding.
        LENGTH_READ_MM + self.caliper_spread() / 2.0 + 1e-3
    }

    /// Error of the thickness, either way, in mm: as the list or the job states, else a twentieth of it.
    pub(crate) fn caliper_spread(&self) -> f64 {
        let unstated = UNSTATED * self.caliper.mm();
        self.tolerance.map_or(unstated, Length::mm)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(caliper: f64, reading: f64) -> Board {
        Board {
            reading: Some(Length::known(reading)),
            ..Board::plain(Length::known(caliper))
        }
    }

    // Derived: 1 mm board folded about a line a quarter of it off its middle has outer = 0.5 + 0.25; 4 × 0.75 = 3.
    #[test]
    fn a_reading_gives_the_hinge_and_its_uncertainty() {
        let board = read(1.0, 3.0);
        assert_eq!(board.read_hinge(), Some(ReadHinge::Inside(0.25)));
        assert_eq!(board.hinge(), 0.25);
        assert_eq!(
            board.possible_readings().map(Length::mm),
            [2.0, 4.0],
            "a hinge of 0 and one of half a millimetre"
        );
        // Derived: √(4 × 0.05²) / 4 = 0.025 and 0.05 / 2 = 0.025; √(0.025² + 0.025²) = 0.03536.
        let unsure = board.hinge_uncertainty().expect("it has a reading");
        assert!((unsure - 0.035_355).abs() < 1e-5, "{unsure}");
    }

    // Derived: of 0.3 mm card 0.6 to 1.2 are possible; four lengths off by 0.05 each and 0.015 of caliper move the hinge
    // by 0.0575, which is 0.23 of the reading.
    #[test]
    fn a_reading_just_beyond_the_card_counts_as_the_nearest() {
        for (reading, hinge) in [(0.4, 0.0), (1.4, 0.15)] {
            let found = read(0.3, reading).read_hinge();
            assert_eq!(found, Some(ReadHinge::Nearly(hinge)), "{reading}");
        }
        for reading in [0.36, 1.44, 100.0] {
            let found = read(0.3, reading).read_hinge();
            assert!(matches!(found, Some(ReadHinge::Impossible(_))), "{reading}");
        }
    }

    #[test]
    fn a_hinge_in_the_job_goes_before_a_reading() {
        let board = Board {
            hinge: Some(0.1),
            ..read(1.0, 3.0)
        };
        assert_eq!((board.hinge(), board.hinge_uncertainty()), (0.1, None));
        assert_eq!(Board::plain(Length::known(1.0)).hinge_uncertainty(), None);
    }
}
