//! The second stage: the drawn tray laid flat.

use super::Blank;
use super::flat_check::{FlatError, flaws};
use crate::finding::{Advice, BuiltIn, Finding, Place, SquareMm};
use crate::stage::Judged;
use crate::tray::{Drawn, PanelId, Tray};

/// A tray with its blank.
#[derive(Clone, Debug)]
pub(crate) struct Laid {
    pub(crate) drawn: Drawn,
    pub(crate) blank: Blank,
}

impl Laid {
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
