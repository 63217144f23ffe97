//! Uncertainty of the heights at which an item is held.
//!
//! **Input:** the folded tray and an item in it. **Output:** the uncertainty of the stop's height relative to the
//! item's top, and of the space under the lid, from measuring, creasing and cutting, in mm (k = 2). A pad counts as
//! exact, because felt and foam compress by more than the error of measuring them.

use super::lying::{Beside, Lying};
use crate::folded::{Folded, Reach};
use crate::tolerance::{Chain, Limits};
use crate::tray::PanelId;

/// The uncertainties of an item, in mm, either way.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Unsure {
    /// Of the stops along the box and across it.
    pub(super) stops: [f64; 2],
    /// Of the space under the lid.
    pub(super) lid: f64,
}

impl Unsure {
    pub(super) fn of(folded: &Folded, lying: &Lying) -> Unsure {
        let limits = Limits::of(&folded.laid.drawn.job);
        let stop = |axis: usize| match (lying.deck, lying.beside[axis]) {
            (None, _) => fence(),
            (Some(_), Beside::Flaps(_)) => deck(folded, lying).and(flap()),
            (Some(_), _) => deck(folded, lying),
        };
        Unsure {
            stops: [0, 1].map(|axis| stop(axis).sum(&limits).expanded()),
            lid: unsure_under_lid(lying.deck.is_some())
                .sum(&limits)
                .expanded(),
        }
    }
}

/// The chain of the space over an item: its own depth, and either the box's depth if the box's lid closes over it, or
/// the two creases between the floor and the tray's own lid.
pub(crate) fn unsure_under_lid(of_the_box: bool) -> Chain {
    match of_the_box {
        true => Chain::measured(2),
        false => Chain {
            lines: vec![1.0; 2],
            ..Chain::measured(1)
        },
    }
}

/// The chain from the top of an item to that of the panel around it: the item, and all lengths from that panel to the
/// floor.
fn deck(folded: &Folded, lying: &Lying) -> Chain {
    let (tray, panel) = (folded.tray(), folded.tray().openings[lying.opening].panel);
    let top = folded.folded.motions[PanelId::ROOT].turn([0.0, 0.0, 1.0]);
    // The drawn face is inside, so the tray stands on the part of its root's side that is farthest out.
    let foot = Reach::farthest(tray, &folded.folded, top);
    let deck = Reach::of(tray, &folded.folded, panel, top).ending(0.0, -0.5);
    Chain::measured(1).and(foot.from(&deck))
}

/// The chain of a flap: its crease, its tip and its fold.
fn flap() -> Chain {
    Chain {
        lines: vec![1.0; 2],
        hinges: 1.0,
        ..Chain::default()
    }
}

/// The chain of a fence beside an item on the same floor: its crease, its tip and its fold.
fn fence() -> Chain {
    flap()
}
