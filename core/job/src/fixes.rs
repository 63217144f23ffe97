//! Fixes that were tried: sets of changes of a job with which its tray was checked again.
//!
//! **Input:** a checked job and its text. **Output:** at most three fixes, the best first. Each was written into the
//! text, read and checked. The search first tries the proposals of findings, then other changes that a maker can make:
//! a lower tray, settings of the style, other card; and the box only if nothing else helps. The number of checks is
//! limited.

mod levers;
mod search;
mod trial;

use traywright_engine::Style;
use traywright_engine::finding::{Change, changes_in_words};
use traywright_engine::job::Unit;

use crate::checked_job::{CheckedJob, TriedFix};
use crate::lengths::as_people_write;
use crate::library::Boards;
use search::{Found, Search};
use trial::{Outcome, Trial};

/// Maximum number of fixes in a report.
// Source: core/CONTRACT.md, "check --format json".
const MOST: usize = 3;

/// The changes that help a job, the best first, at most three.
///
/// If the tray does not fit, a fix reduces the number of errors. If it fits, a fix removes a warning and causes no
/// error.
pub fn tried(checked: &CheckedJob, style: &Style, boards: &Boards) -> Vec<TriedFix> {
    let now = Outcome::of(checked.report());
    if now.is_clean() {
        return Vec::new();
    }
    let trial = Trial::new(checked, style, boards);
    let found = Search::new(&checked.job, &trial, now).run();
    let fix = |found: Found| TriedFix {
        says: changes_in_words(&found.changes),
        leaves: found.leaves,
        warnings: found.warnings,
        changes: found.changes,
    };
    found.into_iter().take(MOST).map(fix).collect()
}

/// What a maker would rather change: the lower, the better.
// Source: the project's plan: pad, height of the tray, cut, clearance, web, card, arrangement; box and item last.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Effort {
    Pad,
    Height,
    Cut,
    Clearance,
    /// A pad that is thicker than most available card.
    ThickPad,
    Web,
    Card,
    Arrangement,
    Setting,
    Box,
    Item,
}

impl Effort {
    /// The effort of one change.
    fn of(change: &Change) -> Effort {
        match (change.node, change.key.as_str()) {
            ("item", "pad") if is_thick(&change.to) => Effort::ThickPad,
            ("item", "pad") => Effort::Pad,
            ("tray", _) => Effort::Height,
            ("item", "cut" | "finger") | ("slot", _) => Effort::Cut,
            ("fit" | "board", "hinge" | "box" | "item" | "play") => Effort::Clearance,
            ("set", "web" | "edge-web") => Effort::Web,
            ("board", _) => Effort::Card,
            ("item", "turn") => Effort::Arrangement,
            ("box", _) => Effort::Box,
            ("item", _) => Effort::Item,
            _ => Effort::Setting,
        }
    }

    /// The effort of a set of changes: that of the hardest.
    fn of_all(changes: &[Change]) -> Effort {
        let efforts = changes.iter().map(Effort::of);
        efforts.max().unwrap_or(Effort::Pad)
    }
}

/// Whether a length, as a job writes it, is more than a usual pad.
// Source: a choice of this project: 10 mm, about 3/8 in.
fn is_thick(length: &str) -> bool {
    let (unit, figure) = length
        .trim_start_matches('(')
        .split_once(')')
        .unwrap_or_default();
    let written = format!("{} {unit}", figure.trim_matches('"'));
    as_people_write(&written, Unit::Millimetre).is_some_and(|length| length.mm > 10.0)
}

#[cfg(test)]
mod tests {
    use super::is_thick;

    #[test]
    fn a_pad_is_thick_above_ten_millimetres_in_either_unit() {
        // Derived: 3/8 in is 9.525 mm, 13/32 in is 10.319 mm.
        for (written, thick) in [
            ("(mm)10", false),
            ("(mm)10.5", true),
            ("(in)\"3/8\"", false),
            ("(in)\"13/32\"", true),
            ("(in)\"1 1/8\"", true),
            ("(in)0.3127", false),
        ] {
            assert_eq!(is_thick(written), thick, "{written}");
        }
    }
}
