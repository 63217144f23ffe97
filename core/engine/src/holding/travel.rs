//! How far an item slides along the box and across it, and its stop.
//!
//! Lengths in mm, in the frame of the standing tray. Travel is computed from each panel directly, not in steps. Other
//! items never stop an item; the walls of the box do.

use traywright_document::{Point, Vector};

use super::plan::Plan;
use super::section::{heights_over, seen_from_above};
use super::standing::{Piece, Standing};
use crate::tray::PanelId;

/// Contacts at most this much farther than the first count as simultaneous with it.
// Source: a choice of this project: card cut by hand is not truer.
const TOGETHER_MM: f64 = 0.05;

/// A direction in which an item is pushed.
#[derive(Clone, Copy, Debug)]
pub(super) struct Push {
    /// 0 along the box, 1 across it.
    pub(super) axis: usize,
    /// 1 or -1.
    pub(super) sense: f64,
}

/// How far an item moves in one direction, and its stop there.
#[derive(Clone, Debug)]
pub(super) struct Way {
    pub(super) far: f64,
    /// Of all simultaneous contacts, the one with the greatest contact height.
    pub(super) stop: Stop,
}

/// Something that stops an item.
#[derive(Clone, Debug)]
pub(super) struct Stop {
    /// The panel; none for a wall of the box.
    pub(super) panel: Option<PanelId>,
    /// Lowest and highest point of the contact with the item.
    pub(super) heights: [f64; 2],
}

impl Stop {
    /// Height of the contact with the item.
    pub(super) fn bears(&self) -> f64 {
        self.heights[1] - self.heights[0]
    }
}

impl Push {
    fn way(self) -> Vector {
        match self.axis {
            0 => Vector::new(self.sense, 0.0),
            _ => Vector::new(0.0, self.sense),
        }
    }

    /// Pushes an item, between these heights, until it is stopped; ignores some panels.
    pub(super) fn until_stopped(
        self,
        standing: &Standing,
        plan: &Plan,
        heights: [f64; 2],
        aside: impl Fn(PanelId) -> bool,
    ) -> Way {
        let way = self.way();
        let front = plan.reach(way)[1];
        let wall = standing.walls[self.axis][usize::from(self.sense > 0.0)] * self.sense - front;
        let corridor = self.corridor(plan);
        let mut ahead: Vec<(f64, &Piece)> = standing
            .between(heights)
            .filter(|piece| !aside(piece.panel) && piece.lies_over(corridor))
            .map(|piece| (self.nearest_end(piece) - front, piece))
            .collect();
        ahead.sort_by(|one, other| one.0.total_cmp(&other.0));
        let (mut far, mut met) = (wall.max(0.0), Vec::new());
        for (at_least, piece) in ahead {
            // Pieces farther away than the first stop are not checked.
            if at_least > far + TOGETHER_MM {
                break;
            }
            let seen = seen_from_above(&piece.solid, heights);
            if let Some(way) = seen.and_then(|polygon| plan.way_until(&polygon, way)) {
                far = far.min(way);
                met.push((way, piece));
            }
        }
        let nearest = met.iter().min_by(|one, other| one.0.total_cmp(&other.0));
        let together = met.iter().filter(|(way, _)| *way <= far + TOGETHER_MM);
        let there = plan.moved(way * (far + TOGETHER_MM)).corners();
        let strongest = strongest(together.map(|(_, piece)| *piece), &there, heights);
        let stop = strongest.unwrap_or_else(|| match nearest {
            // A contact too slight to measure has no height.
            Some((way, piece)) if *way < wall => Stop {
                panel: Some(piece.panel),
                heights: [heights[0]; 2],
            },
            _ => Stop {
                panel: None,
                heights,
            },
        });
        Way { far, stop }
    }

    /// Distance along the motion at which a piece begins, from the origin of the plan.
    fn nearest_end(self, piece: &Piece) -> f64 {
        match self.sense > 0.0 {
            true => piece.least[self.axis],
            false => -piece.most[self.axis],
        }
    }

    /// The rectangle of the plan through which an outline moves.
    fn corridor(self, plan: &Plan) -> [[f64; 2]; 2] {
        let mut corridor = plan.extent();
        let [least, most] = &mut corridor[self.axis];
        if self.sense > 0.0 {
            *most = f64::INFINITY;
        } else {
            *least = f64::NEG_INFINITY;
        }
        corridor
    }
}

/// Of the pieces that an outline has reached, the panel with the greatest contact height.
fn strongest<'p>(
    pieces: impl Iterator<Item = &'p Piece>,
    outline: &[Point],
    heights: [f64; 2],
) -> Option<Stop> {
    let mut stops: Vec<Stop> = Vec::new();
    for piece in pieces {
        let Some([low, high]) = heights_over(&piece.solid, outline, heights) else {
            continue;
        };
        let panel = Some(piece.panel);
        match stops.iter_mut().find(|stop| stop.panel == panel) {
            Some(Stop { heights, .. }) => *heights = [heights[0].min(low), heights[1].max(high)],
            None => stops.push(Stop {
                panel,
                heights: [low, high],
            }),
        }
    }
    let most = |one: &Stop, other: &Stop| one.bears().total_cmp(&other.bears());
    stops.into_iter().max_by(most)
}
