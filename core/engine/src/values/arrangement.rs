//! How the openings of a slot are arranged on its panel: in rows, or packed if rows do not fit.
//!
//! **Input:** the slot's openings, their field and the web. **Output:** a position for each. If nothing fits, the
//! openings are placed all the same, beyond the field, with the missing length; `tray/checks` reports it.

use std::rc::Rc;

use super::openings::Rect;
use super::rows;
use super::{EvalError, Values};
use crate::finding::SourceError;
use crate::geometry::{Point, TOUCH_MM, Vector};
use crate::packing::{MOST_PIECES, Packing, Piece, PlacedRect, pack};
use crate::style::graph::{MemberId, OpeningMemberId};
use crate::style::text::{SlotEntry, SlotPlace};

/// Step limit of the search for a packing.
// Derived: a step takes one to two microseconds, so that a search ends within half a second on a slow machine.
pub(crate) const MOST_STEPS: usize = 200_000;

/// The openings of one slot on one panel.
#[derive(Clone, Debug)]
pub(crate) struct Arrangement {
    pub(crate) openings: Vec<Placed>,
    /// The field of the openings; none on a panel with an inner corner, where only one opening can be placed.
    pub(crate) field: Option<Rect>,
    pub(crate) outcome: ArrangementResult,
}

/// An opening at its position.
#[derive(Clone, Debug)]
pub(crate) struct Placed {
    pub(crate) opening: OpeningMemberId,
    pub(crate) rect: Rect,
    /// Whether its item's length lies along the panel's y.
    pub(crate) turned: bool,
}

/// The kinds of arrangement.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum ArrangementResult {
    /// In rows, in the order of the job.
    InRows,
    /// Packed, in another order.
    Packed,
    /// Not at all: the length missing to the best rows, along the field's length and its width.
    DoesNotFit {
        lacks: [f64; 2],
        search: SearchVerdict,
    },
}

/// The result of the packing search after rows do not fit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum SearchVerdict {
    /// No other arrangement fits either.
    Impossible,
    /// The search ended at this step limit.
    StepLimit(usize),
    /// There are too many openings to search.
    TooManyItems,
}

/// The openings to arrange.
struct Task {
    openings: Vec<OpeningMemberId>,
    /// The card for each, finger notches included, with the item's length and width as the job writes them.
    pieces: Vec<Piece>,
    /// The openings' own sizes, with the item's length and width as the job writes them.
    sizes: Vec<[f64; 2]>,
    field: Rect,
    web: f64,
}

impl<'a> Values<'a> {
    /// The arrangement that an opening belongs to, if the engine places it.
    pub(crate) fn arrangement(
        &self,
        opening: OpeningMemberId,
    ) -> Result<Option<Rc<Arrangement>>, EvalError> {
        let slot = self.slot_entry(opening);
        let in_rows = |slot: &&SlotEntry| slot.place == Some(SlotPlace::Rows) && slot.at.is_none();
        let Some(slot) = slot.filter(in_rows) else {
            return Ok(None);
        };
        let member = &self.graph.openings[opening];
        let (entry, panel) = (member.entry, member.on);
        let mut openings = Vec::new();
        for other in self.graph.openings_of(entry) {
            if self.graph.openings[other].on == panel && self.opening_exists(other)? {
                openings.push(other);
            }
        }
        let Some(&first) = openings.first() else {
            return Ok(None);
        };
        let arrangement = self.get_or_compute(&self.memo.arrangements, first, || {
            self.arrange(slot, panel, openings).map(Rc::new)
        })?;
        Ok(Some(arrangement))
    }

    fn arrange(
        &self,
        slot: &'a SlotEntry,
        panel: MemberId,
        openings: Vec<OpeningMemberId>,
    ) -> Result<Arrangement, EvalError> {
        let web = self.built_in_length("web")?;
        let field = self.field(slot, panel, &openings)?;
        let (mut pieces, mut sizes) = (Vec::new(), Vec::new());
        for &opening in &openings {
            let size = self.size_as_written(opening)?;
            let (length, width) = self.size_with_notches(opening, size);
            pieces.push(Piece {
                length,
                width,
                // The notches of a square opening stay where they are.
                turns: self.may_turn(opening) && size.0 != size.1,
            });
            sizes.push([size.0, size.1]);
        }
        if let ([opening], [piece], [size]) = (&openings[..], &pieces[..], &sizes[..]) {
            let turned = must_turn(*piece, field);
            let placed = Placed {
                opening: *opening,
                rect: upright(self.middle(panel)?, *size, turned),
                turned,
            };
            return Ok(Arrangement {
                openings: vec![placed],
                field,
                outcome: ArrangementResult::InRows,
            });
        }
        let Some(field) = field else {
            let message = "rows of openings need a panel without an inner corner";
            let label = "give each item a slot of its own, with `at`";
            let place = slot.on.place.clone();
            return Err(EvalError::fault(SourceError::new(place, message, label)));
        };
        let task = Task {
            openings,
            pieces,
            sizes,
            field,
            web,
        };
        Ok(task.set_out(self.search_steps))
    }

    /// Whether an opening's item may be rotated by 90°.
    fn may_turn(&self, opening: OpeningMemberId) -> bool {
        let item = self.graph.openings[opening].item;
        item.and_then(|item| self.job.item(item))
            .is_some_and(|item| item.turns)
    }

    /// Whether an opening's item is rotated by 90° from how the job writes it.
    pub(crate) fn is_turned(&self, opening: OpeningMemberId) -> Result<bool, EvalError> {
        if !self.may_turn(opening) {
            return Ok(false);
        }
        let arrangement = self.arrangement(opening)?;
        let placed = arrangement.as_ref().and_then(|them| them.place_of(opening));
        Ok(placed.is_some_and(|placed| placed.turned))
    }
}

impl Arrangement {
    /// The position of an opening, if it is in this arrangement.
    pub(crate) fn place_of(&self, opening: OpeningMemberId) -> Option<&Placed> {
        let mut openings = self.openings.iter();
        openings.find(|placed| placed.opening == opening)
    }

    /// Whether an opening is in this arrangement.
    pub(crate) fn has(&self, opening: OpeningMemberId) -> bool {
        self.place_of(opening).is_some()
    }

    /// Whether several openings do not fit. For a single opening the webs give a better finding.
    pub(crate) fn fails(&self) -> bool {
        matches!(self.outcome, ArrangementResult::DoesNotFit { .. })
    }
}

/// Whether one opening, in the middle of its panel, fits only if it is rotated.
fn must_turn(piece: Piece, field: Option<Rect>) -> bool {
    let fits = |length: f64, width: f64| {
        field.is_none_or(|field| {
            length <= field.length + TOUCH_MM && width <= field.width + TOUCH_MM
        })
    };
    let Piece { length, width, .. } = piece;
    piece.turns && !fits(length, width) && fits(width, length)
}

fn upright(centre: Point, [length, width]: [f64; 2], turned: bool) -> Rect {
    let (length, width) = if turned {
        (width, length)
    } else {
        (length, width)
    };
    Rect {
        centre,
        length,
        width,
    }
}

impl Task {
    fn set_out(&self, most_steps: usize) -> Arrangement {
        let size = [self.field.length, self.field.width];
        let sizes: Vec<[f64; 2]> = self
            .pieces
            .iter()
            .map(|piece| [piece.length, piece.width])
            .collect();
        let rows = rows::lay(&sizes, size, self.web);
        if rows.lacks == [0.0; 2] {
            return self.in_rows(&rows.middles, ArrangementResult::InRows);
        }
        let search = match self.pack(most_steps) {
            Some(Packing::Found(laid)) => return self.packed(&laid),
            Some(Packing::Impossible) => SearchVerdict::Impossible,
            Some(Packing::Unsettled) => SearchVerdict::StepLimit(most_steps),
            None => SearchVerdict::TooManyItems,
        };
        let outcome = ArrangementResult::DoesNotFit {
            lacks: rows.lacks,
            search,
        };
        self.in_rows(&rows.middles, outcome)
    }

    fn in_rows(&self, middles: &[Vector], outcome: ArrangementResult) -> Arrangement {
        let corner = self.field.corners()[0];
        let places = self.openings.iter().zip(&self.sizes).zip(middles);
        let placed = places.map(|((&opening, &size), &middle)| Placed {
            opening,
            rect: upright(corner + middle, size, false),
            turned: false,
        });
        Arrangement {
            openings: placed.collect(),
            field: Some(self.field),
            outcome,
        }
    }

    /// Searches for a packing; with the web added to each opening and to the field, they may touch.
    fn pack(&self, most_steps: usize) -> Option<Packing> {
        if self.pieces.len() > MOST_PIECES {
            return None;
        }
        let grown: Vec<Piece> = self
            .pieces
            .iter()
            .map(|piece| Piece {
                length: piece.length + self.web,
                width: piece.width + self.web,
                turns: piece.turns,
            })
            .collect();
        let field = [self.field.length + self.web, self.field.width + self.web];
        Some(pack(&grown, field, most_steps))
    }

    fn packed(&self, laid: &[PlacedRect]) -> Arrangement {
        let turned = |(piece, laid): (&Piece, &PlacedRect)| {
            upright(Point::ORIGIN, [piece.length, piece.width], laid.turned)
        };
        let taken: Vec<Rect> = self.pieces.iter().zip(laid).map(turned).collect();
        let runs = |begin: fn(&PlacedRect) -> f64, size: fn(&Rect) -> f64| -> Vec<RowSegment> {
            let run = |(laid, rect)| RowSegment {
                begin: begin(laid),
                length: size(rect) + self.web,
            };
            laid.iter().zip(&taken).map(run).collect()
        };
        let along = evened(
            &runs(|laid| laid.x, |rect| rect.length),
            self.field.length + self.web,
        );
        let across = evened(
            &runs(|laid| laid.y, |rect| rect.width),
            self.field.width + self.web,
        );
        let corner = self.field.corners()[0];
        let places = self.openings.iter().enumerate().map(|(index, &opening)| {
            let taken = taken[index];
            let middle = Vector::new(
                along[index] + taken.length / 2.0,
                across[index] + taken.width / 2.0,
            );
            let turned = laid[index].turned;
            Placed {
                opening,
                rect: upright(corner + middle, self.sizes[index], turned),
                turned,
            }
        });
        Arrangement {
            openings: places.collect(),
            field: Some(self.field),
            outcome: ArrangementResult::Packed,
        }
    }
}

/// The extent of a piece along one direction.
struct RowSegment {
    begin: f64,
    length: f64,
}

/// Starts of segments with the free length shared out between them, keeping their order along the direction.
// Derived: each run may begin from `least` (all before it pushed to the start) to `most` (all after it pushed to the end);
// of two in a chain the later one takes the larger part of its way, so that their distance only grows.
fn evened(runs: &[RowSegment], room: f64) -> Vec<f64> {
    let before = |one: usize, other: usize| {
        runs[one].begin + runs[one].length <= runs[other].begin + TOUCH_MM
    };
    let mut order: Vec<usize> = (0..runs.len()).collect();
    order.sort_by(|&one, &other| runs[one].begin.total_cmp(&runs[other].begin));
    let mut least = vec![(0.0_f64, 1_usize); runs.len()];
    for (place, &run) in order.iter().enumerate() {
        for &other in order[..place].iter().filter(|&&other| before(other, run)) {
            let (begin, rank) = least[other];
            least[run].0 = least[run].0.max(begin + runs[other].length);
            least[run].1 = least[run].1.max(rank + 1);
        }
    }
    let mut most: Vec<(f64, usize)> = runs.iter().map(|run| (room - run.length, 1)).collect();
    for (place, &run) in order.iter().enumerate().rev() {
        for &other in order[place + 1..]
            .iter()
            .filter(|&&other| before(run, other))
        {
            let (begin, rank) = most[other];
            most[run].0 = most[run].0.min(begin - runs[run].length);
            most[run].1 = most[run].1.max(rank + 1);
        }
    }
    let share = |(&(least, rank), &(most, rest)): (&(f64, usize), &(f64, usize))| {
        least + (most - least) * rank as f64 / (rank + rest) as f64
    };
    least.iter().zip(&most).map(share).collect()
}
