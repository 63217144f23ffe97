//! The result of each check that a tray has passed.
//!
//! **Input:** a tray that passed them all, what holds its walls, and its clearances. **Output:** the results in the order
//! in which the checks were made. **Does not** check.

use super::tolerance::{Clearance, passed, uncertainty};
use crate::finding::{Clause, FineDegrees, Mm, PassedCheck, Size};
use crate::holding::{Held, HeldItem, Hold, Holder};
use crate::order::{ActionKind, FoldOrder, WallSupport};
use crate::tray::{Drawn, engaged};

/// All checks that a tray has passed.
pub(super) fn of(held: &Held, clearances: &[Clearance]) -> Vec<PassedCheck> {
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
    results.extend(job.has_box().then(|| PassedCheck::Walls {
        walls: ordered.support.iter().map(wall).collect(),
    }));
    let tongues: Vec<Clause> = engaged(tray).into_iter().map(tongue).collect();
    results.extend((!tongues.is_empty()).then_some(PassedCheck::Tongues { tongues }));
    // What takes no item goes into no box, so nothing is held and nothing has a clearance.
    if job.has_box() {
        results.push(PassedCheck::Items { items: items(held) });
        results.extend(clearances.iter().map(|clearance| passed(job, clearance)));
        results.push(uncertainty(job, clearances));
    }
    results
}

fn folding(order: &FoldOrder) -> PassedCheck {
    let actions = &order.actions;
    let folds = actions.iter().map(|action| match &action.kind {
        ActionKind::Fold(panels) => panels.len(),
        _ => 0,
    });
    PassedCheck::Folding {
        folds: folds.sum(),
        actions: actions.len(),
    }
}

fn tongue((tongue, into, deep, count): (&str, &str, f64, usize)) -> Clause {
    let (tongue, into, deep) = (tongue.to_owned(), into.to_owned(), Mm(deep));
    match count {
        1 => Clause::TongueEngages { tongue, into, deep },
        _ => Clause::TonguesEngage {
            count,
            tongue,
            into,
            deep,
        },
    }
}

/// How each item is held, repeats that are held alike told once.
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
    let called = |(item, count): (&HeldItem, usize)| match (count, lines.get(kind(item))) {
        (2.., Some(line)) => said(item, format!("{count} × {line}")),
        _ => said(item, item.item.name.clone()),
    };
    told.into_iter().map(called).collect()
}

fn said(held: &HeldItem, item: String) -> Clause {
    let [along, across] = &held.holds;
    let rise = Mm(held.rise);
    if along.holds_like(across) {
        return Clause::ItemHeldAlike {
            item,
            by: Box::new(by(along)),
            rise,
        };
    }
    Clause::ItemHeld {
        item,
        along: Box::new(by(along)),
        across: Box::new(by(across)),
        rise,
    }
}

fn by(hold: &Hold) -> Clause {
    let height = Mm(hold.bears);
    match &hold.by {
        _ if !hold.is_within_play() => Clause::ByNothing,
        Holder::Edge => Clause::ByEdge { height },
        Holder::Flaps if hold.firm => Clause::ByFirmFlaps { height },
        Holder::Flaps => Clause::ByFlaps { height },
        Holder::Fences if hold.firm => Clause::ByFirmFences { height },
        Holder::Fences => Clause::ByFences { height },
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
