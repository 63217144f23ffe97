//! The tray whose outline the tool can follow: reliefs and steps that are too small for it are widened or slanted.
//!
//! **Input:** a tray, and the smallest edge that the job's tool follows. **Output:** a tray with card removed at such
//! places; all later stages see this tray. A change stays only if the blank is still one piece without overlaps, has
//! fewer short edges than before, and leaves the least web beside slits and openings. **Does not** report edges that stay short: the toolpaths are measured for that.

use super::Blank;
use super::flat_check::flaws;
use super::short::{Move, ShortEdge, Tool, short_edges};
use crate::geometry::{Outline, Point, TOUCH_MM};
use crate::tray::Tray;
use traywright_document::{Chords, Edge};

/// How many changes are tried at most.
// Derived: the shipped trays need fewer than 20; each try lays the blank once.
const TRIES: usize = 400;

/// How many panels are laid at most in all tries together.
// Derived: TRIES for a tray of 20 panels; a larger tray gets fewer tries, so that its check takes no longer.
const PANELS_LAID: usize = 20 * TRIES;

/// Angle of the chords that stand for an arc when its distance is measured.
// Derived: on an arc of 10 mm they are off by 0.05 mm.
const CHORD_DEG: f64 = 360.0 / 32.0;

/// A tray with an outline that the tool can follow.
pub(super) struct Followable {
    pub(super) tray: Tray,
    /// The lengths of the edges that were too short and have changed, as they were before.
    pub(super) changed: Vec<f64>,
}

/// The tray with as many short edges mended as possible, none of them with less than `web` of card beside a slit or an
/// opening that had more before.
pub(super) fn followable(tray: &Tray, tool: &Tool, web: f64) -> Followable {
    let mut best = Tried::of(tray.clone(), tool);
    let before = best.short.clone();
    // A tray with a flaw is refused whatever its corners are.
    let mut tries = match best.is_sound() {
        true => TRIES.min(PANELS_LAID / tray.panels.len().max(1)),
        false => 0,
    };
    while !best.short.is_empty() && tries > 0 {
        tries -= 1;
        let Some(next) = best
            .all_together(tool, web)
            .or_else(|| best.one(tool, web, &mut tries))
        else {
            break;
        };
        best = next;
    }
    let stays = |short: &ShortEdge| {
        let mut edges = best.blank.outline.edges();
        edges.any(|edge| edge.from.touches(short.edge.from) && edge.to.touches(short.edge.to))
    };
    let changed = before.iter().filter(|short| !stays(short));
    Followable {
        changed: changed.map(|short| short.edge.length()).collect(),
        tray: best.tray,
    }
}

/// A tray with its blank and the short edges of its outline.
struct Tried {
    tray: Tray,
    blank: Blank,
    short: Vec<ShortEdge>,
}

impl Tried {
    fn of(tray: Tray, tool: &Tool) -> Tried {
        let blank = Blank::lay(&tray);
        let short = short_edges(&blank.outline, &tray.creases(), tool);
        Tried { tray, blank, short }
    }

    fn is_sound(&self) -> bool {
        flaws(&self.tray, &self.blank).is_empty()
    }

    /// The best move of every short edge, as far as they do not share corners.
    fn all_together(&self, tool: &Tool, web: f64) -> Option<Tried> {
        let mut moves: Vec<Move> = Vec::new();
        for first in self.short.iter().filter_map(|short| short.moves.first()) {
            let near = |other: &Move| {
                other
                    .places()
                    .any(|there| first.places().any(|here| here.touches(there)))
            };
            if !moves.iter().any(near) {
                moves.push(*first);
            }
        }
        self.with(&moves, tool, web)
    }

    /// The first single move that helps.
    fn one(&self, tool: &Tool, web: f64, tries: &mut usize) -> Option<Tried> {
        let moves = self.short.iter().flat_map(|short| &short.moves);
        let mut tried = moves.take(*tries).inspect(|_| *tries -= 1);
        tried.find_map(|one| self.with(&[*one], tool, web))
    }

    /// The tray after moves; none if it is no better.
    fn with(&self, moves: &[Move], tool: &Tool, web: f64) -> Option<Tried> {
        if moves.iter().any(|one| self.weakens(one, web)) {
            return None;
        }
        let mut tray = self.tray.clone();
        for one in moves {
            for beside in one.beside {
                tray.add_corner_beside(one.corner, beside);
            }
            if one.to.is_none() {
                tray.drop_corner(one.corner);
            }
        }
        let moved = |place: Point| {
            let one = moves.iter().find(|one| one.corner.touches(place));
            one.and_then(|one| one.to).unwrap_or(place)
        };
        let next = Tried::of(tray.moved(&moved), tool);
        (next.short.len() < self.short.len() && next.is_sound()).then_some(next)
    }

    /// Whether a move leaves less card than the least web beside a slit or an opening that had more.
    fn weakens(&self, one: &Move, web: f64) -> bool {
        let [before, after] = one.beside;
        let run = |corner: Option<Point>| match corner {
            Some(corner) => vec![
                Edge::straight(before, corner),
                Edge::straight(corner, after),
            ],
            None => vec![Edge::straight(before, after)],
        };
        let (old, new) = (run(Some(one.corner)), run(one.to));
        let apart = |edges: &[Edge], cut: &Edge| {
            let distances = edges.iter().map(|edge| edge.apart(cut));
            distances.fold(f64::INFINITY, f64::min)
        };
        self.inner_cuts().iter().any(|cut| {
            let left = apart(&new, cut);
            left < web - TOUCH_MM && left < apart(&old, cut) - TOUCH_MM
        })
    }

    /// The slits and openings of the blank in straight pieces.
    fn inner_cuts(&self) -> Vec<Edge> {
        let holes = self.blank.holes.iter().flat_map(Outline::edges);
        let slits = self.blank.open_cuts.iter().flat_map(|run| {
            let pieces = run.windows(2);
            pieces.map(|ends| Edge {
                from: ends[0].at,
                to: ends[1].at,
                bulge: ends[0].bulge,
            })
        });
        holes
            .chain(slits)
            .flat_map(|edge| edge.pieces(Chords::Spanning(CHORD_DEG)))
            .collect()
    }
}

impl Move {
    fn places(&self) -> impl Iterator<Item = Point> {
        let [before, after] = self.beside;
        [before, self.corner, after].into_iter()
    }
}
