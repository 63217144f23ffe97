//! The second stage: the drawn tray laid flat.

use super::Blank;
use super::flat_check::{FlatError, flaws};
use super::followable::followable;
use super::short::Tool;
use crate::finding::{Advice, BuiltIn, Finding, Place, SquareMm};
use crate::stage::Judged;
use crate::tray::{Drawn, PanelId, Tray, least_web};

/// A tray with its blank.
#[derive(Clone, Debug)]
pub(crate) struct Laid {
    pub(crate) drawn: Drawn,
    pub(crate) blank: Blank,
}

impl Laid {
    /// Lays the tray flat once its outline is such that the job's tool can follow it.
    pub(crate) fn for_tool(mut drawn: Drawn) -> Judged<Laid> {
        let machine = drawn.job.output.machine;
        let (Some(tool), Some(smallest)) = (Tool::of(&machine), machine.smallest) else {
            return Laid::lay(drawn);
        };
        let followable = followable(&drawn.tray, &tool, least_web(&drawn.job));
        drawn.tray = followable.tray;
        let mut laid = Laid::lay(drawn);
        let changed = followable.changed;
        if !changed.is_empty() {
            let count = changed.len();
            let shortest = changed.into_iter().fold(f64::INFINITY, f64::min);
            let found = Finding::new(BuiltIn::OutlineWidened { count }, Place::Tray);
            let found = found.measured(shortest, smallest.mm());
            laid.findings.push(found);
        }
        laid
    }

    /// Lays the tray flat and checks that it is one piece of card without overlaps.
    pub(crate) fn lay(drawn: Drawn) -> Judged<Laid> {
        let blank = Blank::lay(&drawn.tray);
        let found = judge(&drawn.tray, &blank);
        Judged::new(Laid { drawn, blank }, found.into_iter().collect())
    }
}

/// The error in the blank as one flat piece; at most one finding, because one overlap causes others.
fn judge(tray: &Tray, blank: &Blank) -> Option<Finding> {
    let name = |panel: PanelId| tray.panels[panel].name.clone();
    let found = |found, panel| Finding::new(found, Place::Panel(name(panel)));
    Some(match flaws(tray, blank).into_iter().next()? {
        FlatError::Openings { panel, area } => {
            let words = SquareMm(area);
            let overlap = if tray.is_cut_for_items(panel) {
                BuiltIn::ItemOpeningsRunTogether { area: words }
            } else {
                BuiltIn::OpeningsRunTogether { area: words }
            };
            found(overlap, panel)
                .measured(area, 0.0)
                .with_fix(Advice::OpeningsSmallerOrApart)
        }
        FlatError::Overlap { one, other, area } => {
            let overlap = BuiltIn::PanelsOverlap {
                other: name(other),
                area: SquareMm(area),
            };
            found(overlap, one)
                .measured(area, 0.0)
                .with_fix(Advice::LargerBoxOrSettings)
        }
        FlatError::Broken { area, pieces } => {
            let broken = BuiltIn::OutlineBroken {
                pieces,
                area: SquareMm(area),
            };
            found(broken, PanelId::ROOT).measured(area, 0.0)
        }
        FlatError::OffEdge { panel } => found(BuiltIn::CreaseOffEdge, panel),
    })
}
