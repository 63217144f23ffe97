//! What the maker asks of the files for machines: whether the lines allow it.
//!
//! Given a tray that fits, folds and holds; gives the runs of its lines, or the finding that the width of the cut or the
//! gaps that hold the piece are too large for them.

use traywright_document::Run;

use super::{CheckedTray, finding};
use crate::cutting::{NoWork, work};
use crate::finding::{Finding, Level};
use crate::wording::length;

/// The runs in the order of the work.
pub(super) fn judge(checked: &CheckedTray) -> Result<Vec<Run>, Box<Finding>> {
    let (flat, wishes, unit) = (checked.lines(), checked.job.wishes, checked.job.unit);
    work(&flat, &wishes).map_err(|why| {
        let name = &checked.tray.panels[0].name;
        let told = |code, message| finding(Level::Error, code, name.as_str(), message);
        Box::new(match why {
            NoWork::TooWide(place) => {
                let corner = flat.extent.least;
                let message = format!(
                    "a cut {} wide does not go into the notch or opening {} from the left and {} from the lower edge of the blank",
                    length(wishes.cut_width, unit),
                    length(place.x - corner.x, unit),
                    length(place.y - corner.y, unit)
                );
                told("cut-too-wide", message)
                    .cured_by("a smaller `cut width`, or none: then your machine's program sees to it")
            }
            NoWork::NoPlaceToHold => {
                let gap = wishes.hold.map_or(0.0, |hold| hold.gap);
                let message = format!(
                    "no two edges of the outline have room for a gap of {} with as much on both its sides",
                    length(gap, unit)
                );
                told("no-place-to-hold", message).cured_by("a smaller `gap` in `hold`")
            }
        })
    })
}
