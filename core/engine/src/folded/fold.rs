//! The third stage: the blank folded into a tray of thick panels.

use super::solids::PanelSolids;
use super::{FoldedTray, collisions, fits, places};
use crate::blank::Laid;
use crate::job::Job;
use crate::measure::{Measure, TrayMeasure};
use crate::stage::Judged;
use crate::tray::Tray;
use crate::tray::poses::CreaseTurns;
use traywright_document::Extent;

/// A tray folded, with its panels as solids.
#[derive(Clone, Debug)]
pub(crate) struct Folded {
    pub(crate) laid: Laid,
    pub(crate) folded: FoldedTray,
    pub(crate) solids: PanelSolids,
    pub(crate) turns: CreaseTurns,
    pub(crate) exactness: Exactness,
}

/// How exactly a tray's corners are in their nominal positions.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Exactness {
    /// At the positions computed from the style.
    Drawn,
    /// Rounded to the marks of a ruler: panels may overlap by this depth.
    Rounded(f64),
}

/// Maximum penetration depth of two panels of an exact tray that counts as touching.
// Source: common practice, none published: a hundredth of thin card, and far above all rounding of arithmetic.
const TOUCH_DEPTH_MM: f64 = 1e-3;

impl Folded {
    /// Folds the tray and checks that no two panels overlap; an exact tray must also fit its box, and its blank the
    /// job's card.
    pub(crate) fn fold(laid: Laid, exactness: Exactness) -> Judged<Folded> {
        let (drawn, blank) = (&laid.drawn, &laid.blank);
        let folded = FoldedTray::fold(&drawn.tray, blank);
        let solids = PanelSolids::of(&drawn.tray, blank);
        let turns = CreaseTurns::of(&drawn.tray);
        let touch = match exactness {
            Exactness::Drawn => TOUCH_DEPTH_MM,
            Exactness::Rounded(touch) => touch,
        };
        let mut findings = Vec::new();
        if exactness == Exactness::Drawn {
            findings.extend(fits::judge(drawn, blank, &folded));
        }
        findings.extend(collisions::judge(&drawn.tray, &solids, &folded, touch));
        if exactness == Exactness::Drawn {
            findings.extend(places::judge(drawn, blank, &folded));
        }
        let measures = measures(&drawn.job, blank.extent(), &folded);
        Judged {
            stage: Folded {
                laid,
                folded,
                solids,
                turns,
                exactness,
            },
            findings,
            measures,
        }
    }

    pub(crate) fn tray(&self) -> &Tray {
        &self.laid.drawn.tray
    }
}

/// Measures of the folded tray in its box, and of the blank.
fn measures(job: &Job, blank: Extent, folded: &FoldedTray) -> Vec<Measure> {
    let [length, width, depth] = folded.outside();
    let [along, across, up] = fits::clearances(job, folded);
    let Extent { least, most } = blank;
    let measures = [
        (TrayMeasure::FoldedLength, length),
        (TrayMeasure::FoldedWidth, width),
        (TrayMeasure::FoldedDepth, depth),
        (TrayMeasure::BoxClearanceLength, along),
        (TrayMeasure::BoxClearanceWidth, across),
        (TrayMeasure::BoxClearanceDepth, up),
        (TrayMeasure::BlankLength, most.x - least.x),
        (TrayMeasure::BlankWidth, most.y - least.y),
    ];
    let of_the_box = [
        TrayMeasure::BoxClearanceLength,
        TrayMeasure::BoxClearanceWidth,
        TrayMeasure::BoxClearanceDepth,
    ];
    measures
        .into_iter()
        .filter(|(measure, _)| job.has_box() || !of_the_box.contains(measure))
        .map(|(measure, value)| Measure::of_tray(measure, value))
        .collect()
}
