//! Where the card folds, from what a folded strip measures.
//!
//! The maker measures the strip flat, folds it into a U, and measures the U: across it, and both legs from the outside.
//! What the three lengths are more than the flat one is the *reading*. Where the maker put the two creases cancels out of
//! it, so a crease that lies beside its line does no harm.

use traywright_document::Length;

use super::Board;

/// Outside corners that the three lengths of the folded strip count: one of each leg, two of the way across.
// Derived: across the U lie both of its folds, and each leg is measured to the outside of one of them.
const CORNERS: f64 = 4.0;

/// How far one length may be off that is read on digital calipers, either way.
// Source: common practice, none published: 0.03 mm of the tool and as much of the hand.
const LENGTH_READ_MM: f64 = 0.05;

/// What is taken for the spread of a caliper that nobody states, as a part of it.
// Source: common practice, none published.
const UNSTATED: f64 = 0.05;

/// What a reading says of the card.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum ReadHinge {
    /// The fold lines lie so far from the middle of the card, in mm.
    Inside(f64),
    /// The reading lies beyond what the card can give, and no farther than measuring is unsure. The nearest hinge is taken.
    Nearly(f64),
    /// No fold of this card gives such a reading. The nearest hinge stands for it until the tray is refused.
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
    /// What the strip says of this card; none where the job has no reading.
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

    /// The least and the most that a reading of this card can be.
    // Derived: 4 outer with a hinge of 0 and of half the caliper.
    pub fn possible_readings(&self) -> [Length; 2] {
        [2.0, 4.0].map(|calipers| Length::known(calipers * self.caliper.mm()))
    }

    /// How far the hinge that was read may be off, either way, in mm; none where the job has no reading that counts.
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

    /// How far the hinge may lie beyond the card if all four lengths and the caliper are off at once.
    fn reading_slack(&self) -> f64 {
        // What is less than a thousandth of a millimetre over is a rounding.
        LENGTH_READ_MM + self.caliper_spread() / 2.0 + 1e-3
    }

    /// How far the caliper may be off, either way, in mm: as the list or the job says, or else a twentieth of it.
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
