//! The possible positions of a dimension, and the best free one.
//!
//! **Input:** a length and the sheet. It tries dimension lines at many distances across the axis, and words at several
//! spots of each. **Output:** the position without collisions that disturbs the drawing least: short leads, few
//! crossings, a clear distance to parallel lines, in line with other dimensions. Draws nothing.

use std::collections::{BTreeMap, BTreeSet};

use traywright_document::Extent;

use super::Axis;
use super::drawing::{Drawing, END_FREE, FIRST, GAP, HEAD_HALF, NEXT, WORDS_OFF, leads, spots};
use super::room::Room;
use super::span::{End, Span};

/// Millimetres of lead that count as one unit of cost.
const LEAD_PER_COST: f64 = 2.0;
/// Cost of not being in line with a dimension drawn before.
const OUT_OF_LINE: f64 = 1.5;
/// Cost of a lead across a line of the blank.
const CROSSING: f64 = 6.0;
/// Cost of a lead close beside a line of the blank, over its length.
const BESIDE: f64 = 25.0;
/// A line of the blank with more than this within 1.3 mm of a lead runs beside it, at less than 22 degrees.
const ALONGSIDE: f64 = 7.0;
/// A position with a higher cost confuses more than the dimension helps; the size of the whole blank is placed at any
/// cost.
const MOST: f64 = 150.0;

/// Farther from the blank than any dimension.
const FAR: f64 = 1e5;

/// The choice between two equally good positions.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Tie {
    /// The one further down or left.
    Low,
    /// The one further up or right.
    High,
}

/// The data shared by all dimensions of a sheet.
pub(super) struct Placing {
    extent: Extent,
    /// Distance between neighbouring lines along y, which have words beside them.
    pitch_beside: f64,
    /// For each length: the levels, in hundredths of a millimetre across its axis, that are candidates whatever else is
    /// drawn.
    levels: Vec<BTreeSet<i64>>,
    /// For each length: the cost of a level's effect on the blank's lines, for the levels computed so far.
    nuisance: Vec<BTreeMap<i64, Option<f64>>>,
}

impl Placing {
    /// For the lengths of a blank of this extent.
    pub(super) fn new(extent: Extent, spans: &[Span], room: &Room) -> Placing {
        let widest = spans.iter().map(|span| span.text_width).fold(0.0, f64::max);
        let mut placing = Placing {
            extent,
            pitch_beside: NEXT.max((widest + 2.0 * WORDS_OFF + HEAD_HALF).ceil()),
            levels: Vec::new(),
            nuisance: vec![BTreeMap::new(); spans.len()],
        };
        let tiers = spans.len().min(24);
        for span in spans {
            let mut levels = placing.outside(span.axis, tiers);
            if !placing.is_overall(span) {
                levels.extend(placing.inside(span, room));
            }
            placing
                .levels
                .push(levels.into_iter().map(hundredths).collect());
        }
        placing
    }

    /// The best free position of the length with this index, if there is one, and its cost.
    pub(super) fn best(
        &mut self,
        index: usize,
        span: &Span,
        room: &Room,
        tie: Tie,
    ) -> Option<(f64, Drawing)> {
        let mut levels = self.by_distance(index, span, room);
        if tie == Tie::High {
            levels.reverse();
        }
        levels.sort_by(|one, other| one.0.total_cmp(&other.0));
        let most = if self.is_overall(span) {
            f64::INFINITY
        } else {
            MOST
        };
        let mut best: Option<(f64, Drawing)> = None;
        for (distance, level) in levels {
            let least = best.as_ref().map_or(most, |(cost, _)| *cost);
            if distance >= least {
                break;
            }
            let across = level as f64 / 100.0;
            let known = self.nuisance[index].entry(level);
            let Some(nuisance) = *known.or_insert_with(|| nuisance(span, across, room)) else {
                continue;
            };
            for spot in spots(span, across) {
                let total = distance + nuisance + spot.cost;
                if total >= best.as_ref().map_or(most, |(cost, _)| *cost) {
                    continue;
                }
                let drawing = Drawing::new(span, across, spot);
                if drawing.is_beside(self.extent) && drawing.is_free(room) {
                    best = Some((total, drawing));
                }
            }
        }
        best
    }

    /// The possible levels of a length on this sheet, lowest first, each with the cost of its distance.
    fn by_distance(&self, index: usize, span: &Span, room: &Room) -> Vec<(f64, i64)> {
        let pitch = self.pitch(span.axis);
        let overall = self.is_overall(span);
        let mut levels = self.levels[index].clone();
        let mut in_line = BTreeSet::new();
        for level in room.levels(span.axis) {
            in_line.insert(hundredths(level));
            let near = [level, level - pitch, level + pitch];
            let fits = |level: &&f64| !overall || self.is_outside(span.axis, **level);
            levels.extend(near.iter().filter(fits).map(|level| hundredths(*level)));
        }
        let cost = |level: i64| {
            let away = span.ends.map(|end| end.away(level as f64 / 100.0));
            // A lead shorter than this would not be recognised as one.
            if away.iter().any(|away| *away > 0.0 && *away < 3.0 * GAP) {
                return None;
            }
            let aside = if in_line.contains(&level) {
                0.0
            } else {
                OUT_OF_LINE
            };
            Some(((away[0] + away[1]) / LEAD_PER_COST + aside, level))
        };
        levels.into_iter().filter_map(cost).collect()
    }

    /// Levels below the blank, or right of it.
    fn outside(&self, axis: Axis, tiers: usize) -> Vec<f64> {
        let (edge, outwards) = match axis {
            Axis::AlongX => (self.extent.least.y, -1.0),
            Axis::AlongY => (self.extent.most.x, 1.0),
        };
        let pitch = self.pitch(axis);
        let away = |tier: usize| FIRST + pitch * tier as f64;
        (0..tiers)
            .map(|tier| edge + outwards * away(tier))
            .collect()
    }

    /// Whether a level is at least a first distance below the blank, or right of it.
    fn is_outside(&self, axis: Axis, level: f64) -> bool {
        match axis {
            Axis::AlongX => level <= self.extent.least.y - FIRST,
            Axis::AlongY => level >= self.extent.most.x + FIRST,
        }
    }

    /// Levels within the blank: at the first distance from lines that run beside them, and at some other positions.
    fn inside(&self, span: &Span, room: &Room) -> Vec<f64> {
        let axis = span.axis;
        let [low, high] = [self.extent.least, self.extent.most].map(|corner| axis.across(corner));
        let mut levels: Vec<f64> = (1..32)
            .map(|step| low + (high - low) * f64::from(step) / 32.0)
            .collect();
        let parallel = room.blank().iter().filter_map(|[from, to]| {
            let level = axis.across(*from);
            ((axis.across(*to) - level).abs() < 0.01).then_some(level)
        });
        let edges = parallel.chain(span.ends.iter().flat_map(|end| end.reach));
        levels.extend(edges.flat_map(|edge| [edge - FIRST, edge + FIRST]));
        levels
    }

    fn pitch(&self, axis: Axis) -> f64 {
        match axis {
            Axis::AlongX => NEXT,
            Axis::AlongY => self.pitch_beside,
        }
    }

    /// The future leads of a length over the whole blank, however far outside its dimension line will be.
    pub(super) fn way_out(span: &Span) -> Vec<Extent> {
        let way = |end: &End| {
            let range = match span.axis {
                Axis::AlongX => [end.reach[0] - FAR, end.reach[0]],
                Axis::AlongY => [end.reach[1], end.reach[1] + FAR],
            };
            span.axis.rect([end.along - 0.1, end.along + 0.1], range)
        };
        span.ends.iter().map(way).collect()
    }

    /// Whether a length extends over the whole blank; its dimension is then outside, whatever the space inside.
    pub(super) fn is_overall(&self, span: &Span) -> bool {
        let [low, high] =
            [self.extent.least, self.extent.most].map(|corner| span.axis.along(corner));
        span.ends[0].along < low + 0.01 && span.ends[1].along > high - 0.01
    }
}

fn hundredths(level: f64) -> i64 {
    (level * 100.0).round() as i64
}

/// Cost of a dimension line's effect on the blank's own lines; none if it cannot be there.
fn nuisance(span: &Span, across: f64, room: &Room) -> Option<f64> {
    let [low, high] = span.ends.map(|end| end.along);
    let line_end = END_FREE.min((high - low) / 4.0);
    let near_blank = |distance: f64| {
        let along = [low + line_end, high - line_end];
        room.has_blank(
            span.axis
                .rect(along, [across - distance, across + distance]),
        )
    };
    if near_blank(HEAD_HALF) {
        return None;
    }
    let mut cost = 0.0;
    for (distance, price) in [(FIRST - 0.1, 3.0), (6.0, 8.0), (3.0, 30.0)] {
        if !near_blank(distance) {
            break;
        }
        cost += price;
    }
    for [from, to] in leads(span, across) {
        let lead = Axis::AlongX.rect([from.x, to.x], [from.y, to.y]);
        cost += CROSSING * room.blank_in(lead).count() as f64;
        let near = room
            .blank_in(lead.wider(1.3, 1.3))
            .filter(|length| *length > ALONGSIDE);
        cost += near.map(|length| BESIDE + length).sum::<f64>();
    }
    Some(cost)
}
