//! The clearances of tray, items and pockets, each with its tolerance chain.
//!
//! **Input:** the folded tray, and how each item is held. **Output:** clearances in the order of a report. **Does not**
//! check. In mm.

use super::pockets;
use crate::finding::Place;
use crate::folded::{Folded, Reach, clearances};
use crate::holding::{Held, HeldItem, unsure_under_lid};
use crate::job::{Item, Job};
use crate::tolerance::{Chain, Limits, Sum};
use crate::tray::{Drawn, OpeningId, clear, place_of_opening};
use traywright_document::Grain;

/// Growth of card in damp air, across its grain and along it, as a part of its length.
// Source: tests/facts/folding.md H1.
const GROWS_ACROSS: f64 = 0.004;
const GROWS_ALONG: f64 = 0.002;

/// A clearance with its name.
#[derive(Clone, Debug)]
pub(crate) struct Clearance {
    /// The part that has the clearance.
    pub(crate) place: Place,
    /// The setting of `fit` that widens it; none if only other lengths do.
    pub(crate) fit: Option<&'static str>,
    pub(crate) asked: f64,
    pub(crate) value: f64,
    pub(crate) sum: Sum,
    /// The reduction by damp air: one cause for the whole length, so it is added and not squared.
    pub(crate) damp: f64,
    /// The length on the card that the clearance depends on, which a print with a wrong scale stretches.
    pub(crate) along: f64,
    /// The opening with this clearance, as findings name it.
    pub(crate) opening: Option<Place>,
}

impl Clearance {
    /// Expanded uncertainty, k = 2.
    pub(crate) fn expanded(&self) -> f64 {
        self.sum.expanded() + self.damp
    }

    /// Probability that it is below zero.
    pub(crate) fn chance(&self) -> f64 {
        self.sum.chance_below_nothing(self.value - self.damp)
    }

    /// The clearances of the folded tray: in its box, under its lid, and of each item in its opening.
    pub(crate) fn all(folded: &Folded) -> Vec<Clearance> {
        let Drawn { job, tray, .. } = &folded.laid.drawn;
        let limits = Limits::of(job);
        let mut all = around_the_tray(folded, job, &limits);
        for (id, opening) in tray.openings.enumerated() {
            let Some(item) = opening.item_as_it_lies(job) else {
                continue;
            };
            all.push(Clearance {
                place: Place::ItemInOpening(item.name.clone()),
                fit: Some("item"),
                asked: job.fit.around_item.mm(),
                value: clear(tray, id).play(&item),
                sum: in_opening(folded, id, &item).sum(&limits),
                damp: 0.0,
                along: item.length.mm().max(item.width.mm()),
                opening: Some(place_of_opening(opening, &item)),
            });
        }
        all
    }

    /// The clearances of the items under the lid.
    pub(super) fn under_lid(held: &Held) -> Vec<Clearance> {
        let job = &held.folded().laid.drawn.job;
        let of = |item: &HeldItem| Clearance {
            place: Place::ItemUnderLid(item.item.name.clone()),
            fit: None,
            asked: 0.0,
            value: item.rise,
            sum: unsure_under_lid(item.deck.is_some()).sum(&Limits::of(job)),
            damp: 0.0,
            along: 0.0,
            opening: None,
        };
        held.items.iter().map(of).collect()
    }

    /// The clearances of the pockets.
    pub(super) fn of_pockets(folded: &Folded) -> Vec<Clearance> {
        let Drawn { job, tray, .. } = &folded.laid.drawn;
        let pockets = pockets::of(tray, &folded.folded).into_iter();
        let of = |pocket: pockets::Pocket| Clearance {
            place: Place::Pocket {
                layers: pocket.layers,
                walls: Box::new(pocket.walls),
            },
            fit: Some("play"),
            asked: job.fit.play.mm(),
            value: pocket.play,
            sum: pocket.chain.sum(&Limits::of(job)),
            damp: 0.0,
            along: 0.0,
            opening: None,
        };
        pockets.map(of).collect()
    }
}

/// The clearances of the tray under the lid and, in the less certain direction, between the walls of its box.
fn around_the_tray(folded: &Folded, job: &Job, limits: &Limits) -> Vec<Clearance> {
    let sizes = &job.box_size;
    let inside = [sizes.length, sizes.width, sizes.depth].map(|side| side.mm());
    let values = clearances(job, &folded.folded);
    let of = |axis: usize, place: Place| Clearance {
        place,
        fit: Some("box"),
        asked: job.fit.around_tray.mm(),
        value: values[axis],
        sum: across_the_tray(folded, axis).sum(limits),
        damp: damp(job, axis, inside[axis]),
        along: inside[axis],
        opening: None,
    };
    let (along, across) = (of(0, Place::TrayInBox), of(1, Place::TrayInBox));
    let left = |clearance: &Clearance| clearance.value - clearance.expanded();
    let least = if left(&across) < left(&along) - 1e-9 {
        across
    } else {
        along
    };
    vec![least, of(2, Place::TrayUnderLid)]
}

/// The chain of a clearance of the tray: the box, and everything between the tray's two outermost points.
fn across_the_tray(folded: &Folded, axis: usize) -> Chain {
    let (tray, folded) = (folded.tray(), &folded.folded);
    let way = |sense: f64| std::array::from_fn(|at| if at == axis { sense } else { 0.0 });
    let far = Reach::farthest(tray, folded, way(1.0));
    let near = Reach::farthest(tray, folded, way(-1.0));
    Chain::measured(1).and(far.from(&near.reversed()))
}

/// The chain of an item's clearance in its opening, in the tighter direction.
fn in_opening(folded: &Folded, id: OpeningId, item: &Item) -> Chain {
    let tray = folded.tray();
    let clear = clear(tray, id);
    let edges = if clear.length - item.length.mm() <= clear.width - item.width.mm() {
        [1, 3]
    } else {
        [0, 2]
    };
    let names = &tray.openings[id].edges;
    let hung = |side: &&usize| tray.hung_on_opening(id, &names[**side]).next().is_some();
    let flaps = edges.iter().filter(hung).count() as f64;
    // Each flap takes half the card and the height of its fold from the opening.
    Chain {
        measured: 1,
        lines: vec![1.0; 2],
        hinges: flaps,
        calipers: flaps / 2.0,
    }
}

/// The reduction of a clearance of the tray by damp air, along an axis of its box; 0 unless it exceeds the fit.
// Source: tests/facts/folding.md H2: it matters from the length whose growth is the whole fit.
fn damp(job: &Job, axis: usize, inside: f64) -> f64 {
    let part = match (job.board.grain, axis) {
        (_, 2) => return 0.0,
        (Some(Grain::Length), 0) | (Some(Grain::Width), 1) => GROWS_ALONG,
        _ => GROWS_ACROSS,
    };
    let grows = part * inside;
    if grows > job.fit.around_tray.mm() + 1e-9 {
        grows
    } else {
        0.0
    }
}
