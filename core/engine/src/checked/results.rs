//! The result of each check that a tray has passed.
//!
//! **Input:** a tray that passed all checks, the support of its walls, and its clearances. **Output:** the results, in
//! the order of the checks. **Does not** check.

use super::tolerance::{limits, passed, passed_lock};
use super::{Chains, Clearance, Lock, locks::Part};
use crate::finding::{Clause, FineDegrees, Mm, PassedCheck, Place, Size};
use crate::geometry::TOUCH_MM;
use crate::holding::{Held, HeldItem, Hold, Holder};
use crate::job::{CreaseKind, ItemId, Job};
use crate::order::{ActionKind, FoldOrder, WallSupport};
use crate::tray::{Drawn, engaged};

/// All checks that a tray has passed.
pub(super) fn of(held: &Held, chains: &Chains) -> Vec<PassedCheck> {
    let ordered = &held.ordered;
    let Drawn { job, tray, .. } = &ordered.folded.laid.drawn;
    let panels = tray.panels.len();
    let mut results = vec![
        PassedCheck::Flat { panels },
        PassedCheck::Folded {
            outside: Size(ordered.folded.folded.outside()),
            panels,
        },
        folding(&ordered.order),
    ];
    // A piece for no item goes into no box, so nothing is held and nothing has a clearance.
    let has_box = job.has_box();
    results.extend(has_box.then(|| PassedCheck::Walls {
        walls: ordered.support.iter().map(wall).collect(),
    }));
    let tongue = |engaged| tongue(job, &chains.locks, engaged);
    let tongues: Vec<Clause> = engaged(tray).into_iter().map(tongue).collect();
    results.extend((!tongues.is_empty()).then_some(PassedCheck::Tongues { tongues }));
    results.extend(has_box.then(|| PassedCheck::Items { items: items(held) }));
    // Before the first clearance, because it explains their words.
    results.extend(has_box.then(|| limits(job, &chains.clearances)));
    let told = once_a_kind(held, &chains.clearances);
    results.extend(told.iter().map(passed));
    let unsure = chains.under_lid.iter();
    let unsure = unsure.filter(|clearance| clearance.value < clearance.expanded());
    results.extend(unsure.map(passed));
    results.extend(chains.pockets.iter().map(passed));
    results.extend(chains.locks.iter().map(passed_lock));
    results
}

/// Clearances, with one entry for like repeats of an item.
fn once_a_kind(held: &Held, clearances: &[Clearance]) -> Vec<Clearance> {
    let job = &held.folded().laid.drawn.job;
    let line = |clearance: &Clearance| {
        let Place::ItemInOpening(name) = &clearance.place else {
            return None;
        };
        let ids = ItemId::up_to(job.items.len());
        let mut own = ids.filter(|&id| job.item(id).is_some_and(|item| item.name == *name));
        own.next().and_then(|id| job.line_of(id))
    };
    let mut told: Vec<(Clearance, usize)> = Vec::new();
    for clearance in clearances {
        let same = |(other, _): &&mut (Clearance, usize)| {
            line(clearance).is_some()
                && line(other) == line(clearance)
                && other.sum == clearance.sum
                && (other.value - clearance.value).abs() < TOUCH_MM
        };
        match told.iter_mut().find(same) {
            Some((_, count)) => *count += 1,
            None => told.push((clearance.clone(), 1)),
        }
    }
    let named = |(clearance, count): (Clearance, usize)| match line(&clearance) {
        Some(line) if count > 1 => Clearance {
            place: Place::ItemInOpening(format!("{count} × {line}")),
            ..clearance
        },
        _ => clearance,
    };
    told.into_iter().map(named).collect()
}

fn folding(order: &FoldOrder) -> PassedCheck {
    let actions = &order.actions;
    let folds = actions.iter().map(|action| match &action.kind {
        ActionKind::Fold(panels) => panels.len(),
        _ => 0,
    });
    PassedCheck::Folding { folds: folds.sum() }
}

fn tongue(job: &Job, locks: &[Lock], engaged: (&str, &str, f64, usize)) -> Clause {
    let (tongue, into, deep, count) = engaged;
    let own = |lock: &&Lock| lock.part == Part::Tongue(tongue.to_owned()) && lock.other == into;
    let friction = locks.iter().find(own);
    let friction = friction.filter(|lock| lock.is_friction(job)).map(|_| {
        Box::new(Clause::Friction {
            line: Mm(job.tool.accuracy()),
        })
    });
    let (tongue, into, deep) = (tongue.to_owned(), into.to_owned(), Mm(deep));
    match count {
        1 => Clause::TongueEngages {
            tongue,
            into,
            deep,
            friction,
        },
        _ => Clause::TonguesEngage {
            count,
            tongue,
            into,
            deep,
            friction,
        },
    }
}

/// How each item is held, with one entry for repeats that are held alike.
fn items(held: &Held) -> Vec<Clause> {
    let job = &held.folded().laid.drawn.job;
    let kind = |item: &HeldItem| job.kind_of(item.id);
    let mut told: Vec<(&HeldItem, usize)> = Vec::new();
    for item in &held.items {
        let same = |(other, _): &&mut (&HeldItem, usize)| {
            kind(other) == kind(item) && other.is_held_like(item)
        };
        match told.iter_mut().find(same) {
            Some((_, count)) => *count += 1,
            None => told.push((item, 1)),
        }
    }
    let lines = job.items.iter().filter(|item| item.number == 1);
    let lines: Vec<&str> = lines.map(|item| item.name.as_str()).collect();
    let crease = job.board.crease();
    let called = |(item, count): (&HeldItem, usize)| match (count, lines.get(kind(item))) {
        (2.., Some(line)) => said(item, format!("{count} × {line}"), crease),
        _ => said(item, item.item.name.clone(), crease),
    };
    told.into_iter().map(called).collect()
}

fn said(held: &HeldItem, item: String, crease: CreaseKind) -> Clause {
    let [along, across] = &held.holds;
    let rise = Mm(held.rise);
    if along.holds_like(across) {
        return Clause::ItemHeldAlike {
            item,
            by: Box::new(by(along, crease)),
            rise,
        };
    }
    Clause::ItemHeld {
        item,
        along: Box::new(by(along, crease)),
        across: Box::new(by(across, crease)),
        rise,
    }
}

/// The stop of an item along one axis. Card springs back at a pressed crease; a half-cut crease springs little.
fn by(hold: &Hold, crease: CreaseKind) -> Clause {
    let (height, unsure) = (Mm(hold.bears), Mm(hold.unsure));
    let is_limp = crease == CreaseKind::HalfCut;
    match &hold.by {
        _ if !hold.is_within_play() => Clause::ByNothing,
        Holder::Edge => Clause::ByEdge { height, unsure },
        Holder::Flaps if hold.firm => Clause::ByFirmFlaps { height, unsure },
        Holder::Flaps if is_limp => Clause::ByLimpFlaps { height, unsure },
        Holder::Flaps => Clause::ByFlaps { height, unsure },
        Holder::Fences if hold.firm => Clause::ByFirmFences { height, unsure },
        Holder::Fences if is_limp => Clause::ByLimpFences { height, unsure },
        Holder::Fences => Clause::ByFences { height, unsure },
        Holder::Panel(name) => Clause::ByPanel {
            panel: name.clone(),
            height,
        },
        Holder::Box => Clause::ByBox,
    }
}

fn wall(support: &WallSupport) -> Clause {
    let wall = support.key.clone();
    match &support.stop {
        Some((angle, other)) => Clause::WallStopped {
            wall,
            angle: FineDegrees(*angle),
            other: other.clone(),
        },
        None => Clause::WallInBox { wall },
    }
}
