//! The result of each check that a tray has passed.
//!
//! **Input:** a tray that passed them all, what holds its walls, and its clearances. **Output:** the results in the order
//! in which the checks were made. **Does not** check.

use super::tolerance::{Clearance, passed, uncertainty};
use crate::finding::{Clause, FineDegrees, Mm, PassedCheck, Size};
use crate::order::{ActionKind, FoldOrder, Ordered, WallSupport};
use crate::tray::{Drawn, engaged};

/// All checks that a tray has passed.
pub(super) fn of(ordered: &Ordered, clearances: &[Clearance]) -> Vec<PassedCheck> {
    let Drawn { job, tray, .. } = &ordered.folded.laid.drawn;
    let panels = tray.panels.len();
    let mut results = vec![
        PassedCheck::Flat { panels },
        PassedCheck::Folded {
            outside: Size(ordered.folded.folded.outside()),
            panels,
        },
        folding(&ordered.order),
        PassedCheck::Walls {
            walls: ordered.support.iter().map(wall).collect(),
        },
    ];
    let tongues: Vec<Clause> = engaged(tray).into_iter().map(tongue).collect();
    results.extend((!tongues.is_empty()).then_some(PassedCheck::Tongues { tongues }));
    results.extend(clearances.iter().map(|clearance| passed(job, clearance)));
    results.push(uncertainty(job, clearances));
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
