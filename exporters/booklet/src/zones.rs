//! The stretches of a section that are drawn side by side: a long deck is broken, its height never.
//!
//! **Input:** how far the section reaches, what must be seen of it, and the room on paper. **Output:** places on paper at
//! one scale; what lies between two stretches is left out. Lengths across are mm of the tray on one side, mm of paper on
//! the other.

use crate::visible::{Seen, kept};

/// White between two stretches, on paper.
const BREAK: f64 = 3.0;
/// Less than this on paper is not worth a break.
const LEAST_SAVED: f64 = 8.0;

/// The stretches.
#[derive(Clone, Debug)]
pub(crate) struct Zones {
    /// Millimetres on paper for one of the tray.
    pub(crate) factor: f64,
    zones: Vec<Zone>,
}

/// A stretch.
#[derive(Clone, Copy, Debug)]
struct Zone {
    from: f64,
    to: f64,
    /// Where it begins on paper.
    left: f64,
}

impl Zones {
    /// The stretches at a scale, in a row; the whole in one where it is no wider than the room. None where not even what
    /// must be seen has room.
    pub(crate) fn of(
        whole: [f64; 2],
        needed: &[[f64; 2]; 3],
        factor: f64,
        widest: f64,
    ) -> Option<Zones> {
        let fits = |zones: &Zones| zones.width() <= widest;
        let one = Zones::in_a_row(&[whole], factor);
        if fits(&one) {
            return Some(one);
        }
        let mut kept: Vec<[f64; 2]> = Vec::new();
        for [from, to] in needed {
            match kept.last_mut() {
                Some(last) if (from - last[1]) * factor < LEAST_SAVED => last[1] = last[1].max(*to),
                _ => kept.push([*from, *to]),
            }
        }
        Some(Zones::in_a_row(&kept, factor)).filter(fits)
    }

    fn in_a_row(kept: &[[f64; 2]], factor: f64) -> Zones {
        let mut left = 0.0;
        let zone = |&[from, to]: &[f64; 2]| {
            let zone = Zone { from, to, left };
            left += (to - from) * factor + BREAK;
            zone
        };
        Zones {
            factor,
            zones: kept.iter().map(zone).collect(),
        }
    }

    /// Width on paper.
    pub(crate) fn width(&self) -> f64 {
        self.zones
            .last()
            .map_or(0.0, |zone| zone.right(self.factor))
    }

    /// Where each stretch begins and ends on paper.
    pub(crate) fn stretches(&self) -> impl Iterator<Item = [f64; 2]> {
        let ends = |zone: &Zone| [zone.left, zone.right(self.factor)];
        self.zones.iter().map(ends)
    }

    /// Where a place of the section stands on paper; a place that is left out stands at the break.
    pub(crate) fn place(&self, along: f64) -> f64 {
        let zone = self.zones.iter().rfind(|zone| zone.from <= along);
        let zone = zone.unwrap_or(&self.zones[0]);
        zone.left + (along.min(zone.to) - zone.from) * self.factor
    }

    /// The parts of a convex polygon, across in mm of paper and up as it was.
    pub(crate) fn polygon(&self, ring: &[Seen]) -> Vec<Vec<Seen>> {
        let parts = self.zones.iter().map(|zone| {
            let right_of = kept(ring, &|place: &Seen| place[0] - zone.from);
            let within = kept(&right_of, &|place: &Seen| zone.to - place[0]);
            let on_paper = |[along, up]: Seen| [zone.on_paper(along, self.factor), up];
            within.into_iter().map(on_paper).collect::<Vec<Seen>>()
        });
        parts.filter(|part| part.len() > 2).collect()
    }

    /// The parts of a line, in the same way.
    pub(crate) fn line(&self, [from, to]: [Seen; 2]) -> Vec<[Seen; 2]> {
        let parts = self.zones.iter().filter_map(|zone| {
            let (mut start, mut end) = (0.0_f64, 1.0_f64);
            let way = to[0] - from[0];
            if way == 0.0 {
                (zone.from..=zone.to).contains(&from[0]).then_some(())?;
            } else {
                let cuts = [zone.from, zone.to].map(|side| (side - from[0]) / way);
                start = start.max(cuts[0].min(cuts[1]));
                end = end.min(cuts[0].max(cuts[1]));
            }
            let place = |part: f64| {
                let along = from[0] + way * part;
                [
                    zone.on_paper(along, self.factor),
                    from[1] + (to[1] - from[1]) * part,
                ]
            };
            (start < end).then(|| [place(start), place(end)])
        });
        parts.collect()
    }
}

impl Zone {
    fn right(&self, factor: f64) -> f64 {
        self.on_paper(self.to, factor)
    }

    fn on_paper(&self, along: f64, factor: f64) -> f64 {
        self.left + (along - self.from) * factor
    }
}

#[cfg(test)]
mod tests {
    use super::Zones;

    /// Source: by hand: a box of 200 at half size is 100 wide; walls of 10, an item of 60 between 70 and 130.
    const NEEDED: [[f64; 2]; 3] = [[0.0, 10.0], [70.0, 130.0], [190.0, 200.0]];

    #[test]
    fn a_deck_is_broken_only_where_the_whole_has_no_room() {
        let whole = Zones::of([0.0, 200.0], &NEEDED, 0.5, 100.0).expect("it fits");
        assert_eq!(whole.stretches().collect::<Vec<_>>(), [[0.0, 100.0]]);
        let broken = Zones::of([0.0, 200.0], &NEEDED, 0.5, 99.0).expect("it fits broken");
        // 5 for a wall, 3 of white, 30 for the item, 3, and 5.
        let stretches: Vec<[f64; 2]> = broken.stretches().collect();
        assert_eq!(stretches, [[0.0, 5.0], [8.0, 38.0], [41.0, 46.0]]);
        assert!(Zones::of([0.0, 200.0], &NEEDED, 0.5, 45.0).is_none());
    }

    #[test]
    fn a_line_through_all_stretches_is_left_out_between_them() {
        let broken = Zones::of([0.0, 200.0], &NEEDED, 0.5, 99.0).expect("it fits broken");
        let parts = broken.line([[0.0, 7.0], [200.0, 7.0]]);
        let expected = [[0.0, 5.0], [8.0, 38.0], [41.0, 46.0]];
        assert_eq!(parts, expected.map(|ends| ends.map(|across| [across, 7.0])));
        let card = broken.polygon(&[[60.0, 0.0], [80.0, 0.0], [80.0, 1.0], [60.0, 1.0]]);
        assert_eq!(card.len(), 1);
        let across = card[0].iter().map(|place| place[0]);
        assert_eq!(across.clone().fold(f64::INFINITY, f64::min), 8.0);
        assert_eq!(across.fold(0.0, f64::max), 13.0);
    }
}
