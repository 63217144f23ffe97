//! The findings about items in the standing tray.
//!
//! **Input:** how each item is held. **Output:** findings. Repeats of one item give one finding, the worst repeat's.

mod certainty;

use super::in_the_way::{How, InTheWay};
use super::pads::{Pads, SUNK_MM, enough_of_a_flap};
use super::{Beside, HeldItem, Hold, Holder};
use crate::finding::{Advice, BuiltIn, Change, Clause, Finding, Fix, Level, Mm, Place};
use crate::folded::{Folded, clearances};
use crate::geometry::TOUCH_MM;
use crate::job::{Cut, ItemId, Job};
use crate::tray::{Drawn, OpeningCut, Tray};
use crate::wording::exact_setting;

/// Minimum height of an item that must remain beside its stops when the item touches the lid.
// Source: a choice of this project.
const LEFT_MM: f64 = 2.0;

/// Maximum free height above the tray.
// Source: a choice of this project: more than the usual clearance, and less than what flaps of the least depth forgive.
const LIFT_MM: f64 = 3.0;

/// All findings about items.
pub(super) fn findings(
    folded: &Folded,
    items: &[HeldItem],
    in_the_way: Vec<Option<InTheWay>>,
) -> Vec<Finding> {
    let Drawn { job, tray, .. } = &folded.laid.drawn;
    let mut found: Vec<(ItemId, Finding)> = without_place(job, items);
    for (item, in_the_way) in items.iter().zip(in_the_way) {
        let about = About { job, tray, item };
        match in_the_way {
            Some(card) => found.push((item.id, about.in_the_way(card))),
            None => found.extend(about.all().into_iter().map(|finding| (item.id, finding))),
        }
    }
    let mut findings = one_a_kind(job, found);
    let [_, _, above] = clearances(job, &folded.folded);
    findings.extend((above > LIFT_MM + TOUCH_MM).then(|| {
        let found = Finding::new(BuiltIn::TrayCanLift, Place::Tray).measured(above, LIFT_MM);
        let spacer = above - job.fit.around_tray.mm();
        found.with_fix(if spacer > TOUCH_MM {
            Advice::SpacerOnTop { spacer: Mm(spacer) }
        } else {
            Advice::LessAirOnTop
        })
    }));
    findings
}

/// Items for which the tray has no opening, or only one in a panel that is not level.
fn without_place(job: &Job, items: &[HeldItem]) -> Vec<(ItemId, Finding)> {
    let has_place = |id: ItemId| items.iter().any(|item| item.id == id);
    let ids = ItemId::up_to(job.items.len());
    let without = ids.filter(|&id| !has_place(id));
    let found = |id: ItemId| {
        let name = job
            .item(id)
            .map_or_else(String::new, |item| item.name.clone());
        (
            id,
            Finding::new(BuiltIn::ItemWithoutPlace, Place::Item(name)),
        )
    };
    without.map(found).collect()
}

/// Merges findings with one code about repeats of one item into the worst of them.
fn one_a_kind(job: &Job, found: Vec<(ItemId, Finding)>) -> Vec<Finding> {
    let mut kinds: Vec<(ItemId, Finding, usize)> = Vec::new();
    let off =
        |finding: &Finding| (finding.value.unwrap_or(0.0) - finding.limit.unwrap_or(0.0)).abs();
    for (id, finding) in found {
        let same = |(other, known, _): &&mut (ItemId, Finding, usize)| {
            job.kind_of(*other) == job.kind_of(id)
                && known.code() == finding.code()
                && known.level == finding.level
        };
        match kinds.iter_mut().find(same) {
            Some((_, known, count)) => {
                *count += 1;
                if off(&finding) > off(known) + TOUCH_MM {
                    *known = finding;
                }
            }
            None => kinds.push((id, finding, 1)),
        }
    }
    let named = |(id, mut finding, count): (ItemId, Finding, usize)| {
        if let Some(name) = job.line_of(id).filter(|_| count > 1) {
            let name = name.to_owned();
            finding.place = Place::Repeats { name, count };
        }
        finding
    };
    kinds.into_iter().map(named).collect()
}

/// One item with its tray and its job.
struct About<'a> {
    job: &'a Job,
    tray: &'a Tray,
    item: &'a HeldItem,
}

impl About<'_> {
    fn found(&self, found: BuiltIn) -> Finding {
        Finding::new(found, Place::Item(self.item.item.name.clone()))
    }

    fn in_the_way(&self, card: InTheWay) -> Finding {
        let InTheWay { panel, depth, how } = card;
        let reach = Mm(depth);
        let found = match how {
            How::InPlace => BuiltIn::ItemInTheWay {
                panel,
                depth: reach,
            },
            How::Leaning => BuiltIn::FlapInTheWay {
                panel,
                depth: reach,
            },
            How::Above => BuiltIn::ItemBlocked {
                panel,
                depth: reach,
            },
        };
        self.found(found)
            .measured(depth, 0.0)
            .with_fix(Advice::SmallerItemOrOtherStyle)
    }

    fn all(&self) -> Vec<Finding> {
        let mut findings = Vec::new();
        if self.item.rise < -TOUCH_MM {
            let depth = self.item.rest + self.item.item.depth.mm();
            let found = self.found(BuiltIn::ItemTooDeep { pad: self.pad() });
            return vec![found.measured(depth, depth + self.item.rise)];
        }
        match self.slides() {
            Some(slides) => findings.push(slides),
            None => {
                let weak = [self.held_by_tips(), self.at_the_edge()];
                findings.extend(weak.into_iter().flatten());
                if findings.is_empty() && !self.item.item.loose {
                    findings.extend(self.uncertain());
                }
                findings.extend(self.can_leave());
            }
        }
        findings.extend(self.height());
        findings
    }

    /// The clause about the pad under the item, if it has one.
    fn pad(&self) -> Option<Clause> {
        let (depth, pad) = (self.item.item.depth.mm(), self.item.item.pad.mm());
        (pad > 0.0).then_some(Clause::WithPad {
            depth: Mm(depth),
            pad: Mm(pad),
        })
    }

    /// The item slides further than its clearance.
    fn slides(&self) -> Option<Finding> {
        let mut loose: Vec<usize> = vec![0, 1];
        let holds = &self.item.holds;
        loose.retain(|&axis| !holds[axis].is_within_play());
        loose.sort_by(|&one, &other| holds[other].travel.total_cmp(&holds[one].travel));
        let (&worst, also) = loose.split_first()?;
        let Hold {
            travel, allowed, ..
        } = holds[worst];
        if self.nothing_could_hold() {
            let nothing = self.found(BuiltIn::OpeningHoldsNothing { far: Mm(travel) });
            return Some(nothing.measured(travel, allowed));
        }
        let also = also.first().map(|&axis| Clause::AndAlso {
            axis: Box::new(direction(axis)),
            far: Mm(holds[axis].travel),
            why: Box::new(self.why_loose(axis)),
        });
        let slides = BuiltIn::ItemSlides {
            axis: direction(worst),
            far: Mm(travel),
            why: self.why_loose(worst),
            also,
        };
        let mut found = self.found(slides).measured(travel, allowed);
        if self.item.item.loose {
            found.level = Level::Warning;
        }
        Some(match self.ways_to_hold() {
            Some(fix) => found.with_fix(fix),
            None => found,
        })
    }

    /// Whether the item has no flap, fence or edge to which a pad could raise it.
    fn nothing_could_hold(&self) -> bool {
        let bare = self.item.beside == [Beside::Bare; 2];
        let cut = !matches!(self.tray.openings[self.item.opening].cut, OpeningCut::Uncut);
        bare && !cut
    }

    fn why_loose(&self, axis: usize) -> Clause {
        let where_ = Box::new(pair(axis));
        let Some([_, below]) = self.item.below else {
            return match self.item.beside[axis] {
                Beside::Fences(_) => Clause::FencesMiss { pair: where_ },
                _ => Clause::NothingBeside { pair: where_ },
            };
        };
        let top = Box::new(if self.item.item.tapers() {
            Clause::StraightPart
        } else {
            Clause::ItsTop
        });
        match self.item.beside[axis] {
            Beside::Flaps(depth) => {
                let gap = below - self.item.hinge - depth;
                if gap > 0.0 {
                    return Clause::FlapsStopAbove {
                        pair: where_,
                        gap: Mm(gap),
                    };
                }
                Clause::FlapsMiss { pair: where_ }
            }
            _ if below > TOUCH_MM => Clause::NoFlapHangs {
                top,
                below: Mm(below),
                pair: where_,
            },
            _ => Clause::NothingBeside { pair: where_ },
        }
    }

    /// Changes that would hold the item: a pad, or a cut with flaps on all edges.
    fn ways_to_hold(&self) -> Option<Fix> {
        let mut ways = Vec::new();
        let pads = self.item.pads;
        let named = pads.and_then(|pads| pads.named);
        ways.extend(named.map(|pad| vec![self.pad_of(pad)]));
        ways.extend(self.crossed());
        if ways.is_empty() {
            return None;
        }
        let says = match pads.filter(|_| named.is_some()) {
            Some(pads) => pad_between(pads),
            None => Advice::Change,
        };
        Some(Fix { says, ways })
    }

    /// A cross cut, which has flaps on all edges, if the item may have one.
    fn crossed(&self) -> Option<Vec<Change>> {
        let item = &self.item.item;
        // Finger notches need an open cut.
        let may_be_crossed = item.finger.is_none() && self.job.cut_of(item) != Cut::Cross;
        (self.item.below.is_some() && may_be_crossed)
            .then(|| vec![self.change("cut", "\"cross\"".to_owned())])
    }

    fn pad_of(&self, pad: f64) -> Change {
        self.change("pad", exact_setting(pad, self.job.unit))
    }

    /// A change of the item's line in the job.
    fn change(&self, key: &str, to: String) -> Change {
        let line = self.job.line_of(self.item.id);
        Change {
            item: line.map(str::to_owned),
            ..Change::to("item", key, to)
        }
    }

    /// Too little of the flaps reaches down beside the item: the worst pair, and the other pair if it is short as well.
    fn held_by_tips(&self) -> Option<Finding> {
        let mut tips: Vec<(usize, f64, f64)> = [0, 1]
            .into_iter()
            .filter_map(|axis| self.tips(axis))
            .collect();
        tips.sort_by(|one, other| (one.1 - one.2).total_cmp(&(other.1 - other.2)));
        let (&(axis, bears, enough), others) = tips.split_first()?;
        let found = BuiltIn::ItemHeldByTips {
            pair: pair(axis),
            also: others.first().map(|&(axis, bears, _)| Clause::TipsToo {
                height: Mm(bears),
                pair: Box::new(pair(axis)),
            }),
        };
        Some(self.with_pad(self.found(found).measured(bears, enough)))
    }

    /// For a pair of flaps that holds too little: axis, contact height and sufficient contact height. An item level
    /// with the deck is held at the crease over its whole height.
    fn tips(&self, axis: usize) -> Option<(usize, f64, f64)> {
        let Beside::Flaps(depth) = self.item.beside[axis] else {
            return None;
        };
        let [_, below] = self.item.below?;
        let (hold, enough) = (&self.item.holds[axis], enough_of_a_flap(depth));
        let by_tips =
            hold.by == Holder::Flaps && hold.bears < enough - TOUCH_MM && below > TOUCH_MM;
        by_tips.then_some((axis, hold.bears, enough))
    }

    fn at_the_edge(&self) -> Option<Finding> {
        let [_, below] = self.item.below?;
        let bare = self.item.holds.iter().any(|hold| hold.by == Holder::Edge);
        (bare && below > TOUCH_MM).then(|| {
            let part = match self.item.item.tapers() {
                true => Clause::TheStraightPart,
                false => Clause::TheTop,
            };
            let found = self.found(BuiltIn::ItemAtTheEdge { part });
            self.with_pad(found.measured(below, 0.0))
        })
    }

    fn with_pad(&self, finding: Finding) -> Finding {
        match self.item.pads.and_then(|pads| Some((pads, pads.named?))) {
            Some((pads, named)) => finding.with_fix(pad_between(pads).by(self.pad_of(named))),
            None => finding,
        }
    }

    fn can_leave(&self) -> Option<Finding> {
        let HeldItem { rise, left, .. } = *self.item;
        (rise > TOUCH_MM && left < LEFT_MM - TOUCH_MM).then(|| {
            let found = if left > 0.0 {
                BuiltIn::ItemBarelyHeldAtLid { rise: Mm(rise) }
            } else {
                BuiltIn::ItemCanLeave { rise: Mm(rise) }
            };
            let found = self.found(found).measured(left, LEFT_MM);
            found.with_fix(Advice::CardAboveItem)
        })
    }

    /// The item's top relative to the panel around it.
    fn height(&self) -> Option<Finding> {
        let [below, _] = self.item.below?;
        if below > SUNK_MM + TOUCH_MM {
            let sunk = self.found(BuiltIn::ItemSunk).measured(below, SUNK_MM);
            return Some(self.with_pad(sunk));
        }
        (below < -TOUCH_MM).then(|| {
            let (above, air) = (-below, self.item.rise - below);
            let proud = BuiltIn::ItemProud {
                above: Mm(above),
                rise: Mm(self.item.rise),
            };
            self.found(proud).measured(above, air)
        })
    }
}

/// The advice to add a pad, with its range of thickness.
fn pad_between(pads: Pads) -> Advice {
    Advice::PadBetween {
        least: Mm(pads.least),
        most: Mm(pads.most),
    }
}

fn direction(axis: usize) -> Clause {
    if axis == 0 {
        Clause::AlongTheBox
    } else {
        Clause::AcrossTheBox
    }
}

/// The two edges of an opening that stop an item along an axis.
fn pair(axis: usize) -> Clause {
    if axis == 0 {
        Clause::Ends
    } else {
        Clause::Sides
    }
}
