//! The stage after the folds: how each item is held in the standing tray, along the box, across it and upwards.
//!
//! **Input:** the ordered tray. **Output:** the stops of each item, how far the item slides to them, and how far it can
//! rise. **Errors:** findings: an item slides, card is in its way, or it has no place. Items are modelled as upright
//! prisms and panels as rigid; friction, tilting and the spring of a crease are ignored.

mod in_the_way;
mod judge;
mod lying;
mod measures;
mod pads;
mod plan;
mod section;
mod standing;
mod travel;
mod unsure;

pub(crate) use lying::Beside;
pub(crate) use pads::Pads;
pub(crate) use unsure::unsure_under_lid;

use crate::folded::Folded;
use crate::geometry::TOUCH_MM;
use crate::job::{Item, ItemId};
use crate::order::Ordered;
use crate::stage::Judged;
use crate::tray::{Drawn, OpeningId, PanelId};
use lying::Lying;
use pads::PadRoom;
use standing::Standing;
use travel::{Push, Way};
use unsure::Unsure;

/// Card behind a flap or a fence makes it firm if it is at most this far from it, beyond the card's own thickness.
// Source: a choice of this project: the play of trapped layers, twice.
const CLOSE_BEHIND_MM: f64 = 1.0;

/// A tray with its items.
#[derive(Clone, Debug)]
pub(crate) struct Held {
    pub(crate) ordered: Ordered,
    /// The items that have a place, in the order of the openings.
    pub(crate) items: Vec<HeldItem>,
}

/// An item in the standing tray.
#[derive(Clone, Debug)]
pub(crate) struct HeldItem {
    pub(crate) id: ItemId,
    /// The item in its orientation in the opening.
    pub(crate) item: Item,
    pub(crate) opening: OpeningId,
    /// Height of the item's underside over the bare floor.
    pub(crate) rest: f64,
    /// Top of the panel around the item, over the bare floor.
    pub(crate) deck: Option<f64>,
    /// How far the item's top, and the top of its full outline, lie below the panel around it.
    pub(crate) below: Option<[f64; 2]>,
    /// The stops along the box and across it.
    pub(crate) holds: [Hold; 2],
    /// How far the item can rise.
    pub(crate) rise: f64,
    /// How much height of the risen item is still beside its stops.
    pub(crate) left: f64,
    /// How far the creases of the item's flaps lie below the top of the panel around it.
    hinge: f64,
    /// The panels at the item's ends and at its sides.
    pub(crate) beside: [Beside; 2],
    pub(crate) pads: Option<Pads>,
}

/// The stops of an item in both directions of one axis of the box.
#[derive(Clone, Debug)]
pub(crate) struct Hold {
    /// How far the item can move to and fro.
    pub(crate) travel: f64,
    /// The longest travel with which the item still counts as held.
    pub(crate) allowed: f64,
    /// Height of the contact between item and stop, on the side where it is smaller.
    pub(crate) bears: f64,
    /// Lowest and highest point of that contact, over the bare floor.
    pub(crate) heights: [f64; 2],
    /// The stop there.
    pub(crate) by: Holder,
    /// Whether the stop is rigid when the item pushes it.
    pub(crate) firm: bool,
    /// Uncertainty of the heights, either way (k = 2).
    pub(crate) unsure: f64,
}

/// The kinds of stop.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Holder {
    /// The edge of the panel around the item.
    Edge,
    Flaps,
    Fences,
    /// Another panel, by the name of its family.
    Panel(String),
    /// A wall of the box.
    Box,
}

impl Hold {
    /// Whether the item stays within its play.
    pub(crate) fn is_within_play(&self) -> bool {
        self.travel <= self.allowed
    }

    /// Whether two holds have the same kind of stop, rigidity, verdict and contact height.
    pub(crate) fn holds_like(&self, other: &Hold) -> bool {
        (&self.by, self.firm, self.is_within_play())
            == (&other.by, other.firm, other.is_within_play())
            && (self.bears - other.bears).abs() < TOUCH_MM
    }
}

impl Held {
    /// Places every item in the tray, pushes it and lifts it.
    pub(crate) fn hold(ordered: Ordered) -> Judged<Held> {
        let standing = Standing::finished(&ordered.folded);
        let Drawn { job, tray, .. } = &ordered.folded.laid.drawn;
        let lying = tray
            .openings
            .ids()
            .filter_map(|opening| Lying::of(&standing, tray, job, opening));
        let lying: Vec<Lying> = lying.collect();
        let in_the_way = in_the_way::judge(&standing, &ordered, &lying);
        let items = lying
            .iter()
            .map(|lying| HeldItem::of(&standing, &ordered, lying));
        let items: Vec<HeldItem> = items.collect();
        let findings = judge::findings(&ordered.folded, &items, in_the_way);
        let measures = measures::of_items(&items);
        Judged {
            stage: Held { ordered, items },
            findings,
            measures,
        }
    }

    pub(crate) fn folded(&self) -> &Folded {
        &self.ordered.folded
    }
}

impl HeldItem {
    /// Whether two items have like stops and rise equally far.
    pub(crate) fn is_held_like(&self, other: &HeldItem) -> bool {
        let mut axes = self.holds.iter().zip(&other.holds);
        axes.all(|(own, others)| own.holds_like(others))
            && (self.rise - other.rise).abs() < TOUCH_MM
    }

    fn of(standing: &Standing, ordered: &Ordered, lying: &Lying) -> HeldItem {
        let job = &ordered.folded.laid.drawn.job;
        let rise = standing.lift(lying);
        let unsure = Unsure::of(&ordered.folded, lying);
        let holds = [0, 1].map(|axis| Hold {
            unsure: unsure.stops[axis],
            ..hold(standing, ordered, lying, axis)
        });
        let below = lying
            .deck
            .map(|deck| [deck - lying.top(), deck - lying.upright()[1]]);
        let pads = below.and_then(|[below, upright_below]| {
            let flaps = lying.beside.map(|beside| match beside {
                Beside::Flaps(depth) => Some(depth),
                _ => None,
            });
            let room = PadRoom {
                below: below + lying.item.pad.mm(),
                upright_below: upright_below + lying.item.pad.mm(),
                air: rise - below,
                hinge: lying.hinge,
                flaps,
                caliper: ordered.folded.tray().caliper,
                unsure,
            };
            Pads::of(room, job.unit)
        });
        HeldItem {
            id: lying.id,
            item: lying.item.clone(),
            opening: lying.opening,
            rest: lying.base() - lying.bare,
            deck: lying.deck.map(|deck| deck - lying.bare),
            below,
            left: left(standing, lying, rise),
            hinge: lying.hinge,
            holds,
            rise,
            beside: lying.beside,
            pads,
        }
    }
}

/// Pushes an item in both directions of an axis.
fn hold(standing: &Standing, ordered: &Ordered, lying: &Lying, axis: usize) -> Hold {
    let heights = lying.upright();
    let push = |sense: f64, aside: Option<PanelId>| {
        let push = Push { axis, sense };
        push.until_stopped(standing, &lying.plan, heights, |panel| Some(panel) == aside)
    };
    let ways = [-1.0, 1.0].map(|sense| (push(sense, None), sense));
    let travel = ways[0].0.far + ways[1].0.far;
    let (weaker, sense) = if ways[0].0.stop.bears() <= ways[1].0.stop.bears() {
        &ways[0]
    } else {
        &ways[1]
    };
    let by = holder(ordered, lying, weaker.stop.panel);
    let behind = |panel| push(*sense, Some(panel)).far - weaker.far;
    Hold {
        travel,
        allowed: lying.allowed(axis),
        bears: weaker.stop.bears(),
        heights: weaker.stop.heights.map(|height| height - lying.bare),
        firm: is_firm(ordered, lying, weaker, &by, behind),
        by,
        unsure: 0.0,
    }
}

/// The kind of stop that a panel, or the box, is for an item.
fn holder(ordered: &Ordered, lying: &Lying, panel: Option<PanelId>) -> Holder {
    let tray = ordered.folded.tray();
    let Some(panel) = panel else {
        return Holder::Box;
    };
    let own = |edge: &String| {
        tray.hung_on_opening(lying.opening, edge)
            .any(|hung| hung == panel)
    };
    let opening = &tray.openings[lying.opening];
    if panel == opening.panel {
        return Holder::Edge;
    }
    match (opening.edges.iter().any(own), lying.deck) {
        (false, _) => Holder::Panel(tray.panels[panel].key.clone()),
        (true, Some(_)) => Holder::Flaps,
        (true, None) => Holder::Fences,
    }
}

/// Whether a stop is rigid: an edge, a held wall, a flap pushed at its crease, or a panel with card close behind it.
fn is_firm(
    ordered: &Ordered,
    lying: &Lying,
    way: &Way,
    by: &Holder,
    behind: impl Fn(PanelId) -> f64,
) -> bool {
    let tray = ordered.folded.tray();
    match (by, way.stop.panel) {
        (Holder::Edge | Holder::Box, _) | (_, None) => true,
        (Holder::Panel(key), _) => {
            let mut walls = ordered.support.iter();
            walls.any(|wall| wall.key == *key && wall.stop.is_some())
        }
        (Holder::Flaps | Holder::Fences, Some(panel)) => {
            let at_its_crease = lying.deck.is_some_and(|deck| {
                *by == Holder::Flaps && deck - lying.upright()[1] <= 2.0 * lying.hinge
            });
            at_its_crease || behind(panel) <= tray.caliper + CLOSE_BEHIND_MM
        }
    }
}

/// How much height of an item at its full rise is still beside its stops, at the lowest of them.
fn left(standing: &Standing, lying: &Lying, rise: f64) -> f64 {
    let lifted = lying.upright().map(|height| height + rise);
    let of_axis = |axis: usize| {
        let ways = [-1.0, 1.0].map(|sense| {
            Push { axis, sense }.until_stopped(standing, &lying.plan, lifted, |_| false)
        });
        let crease = match (lying.deck, lying.beside[axis]) {
            (Some(deck), Beside::Flaps(_)) => Some(deck - lying.hinge),
            (deck, _) => deck,
        };
        let within = ways[0].far + ways[1].far <= lying.allowed(axis);
        let ends = ways.map(|way| way.stop.heights[1]);
        let end = crease.unwrap_or(ends[0].min(ends[1]));
        if within {
            end - lifted[0]
        } else {
            (end - lifted[0]).min(0.0)
        }
    };
    of_axis(0).min(of_axis(1))
}
