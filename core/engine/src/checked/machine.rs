//! What the maker asks of the files for machines: whether the lines allow it.
//!
//! Given a tray that fits, folds and holds; gives the runs of its lines, or the finding that the width of the cut or the
//! gaps that hold the piece are too large for them.

use traywright_document::Toolpath;

use super::{CheckedTray, finding};
use crate::cutting::{ToolpathError, toolpaths};
use crate::finding::{Finding, Level};
use crate::wording::length;

/// The runs in the order of the work.
pub(super) fn judge(checked: &CheckedTray) -> Result<Vec<Toolpath>, Box<Finding>> {
    let (flat, machine_options, unit) = (
        checked.lines(),
        checked.job.machine_options,
        checked.job.unit,
    );
    toolpaths(&flat, &machine_options).map_err(|why| {
        let name = &checked.tray.panels[0].name;
        let told = |code, message| finding(Level::Error, code, name.as_str(), message);
        Box::new(match why {
            ToolpathError::TooWide(place) => {
                let corner = flat.extent.least;
                let message = format!(
                    "a cut {} wide does not go into the notch or opening {} from the left and {} from the lower edge of the blank",
                    length(machine_options.cut_width, unit),
                    length(place.x - corner.x, unit),
                    length(place.y - corner.y, unit)
                );
                told("cut-too-wide", message)
                    .with_fix("a smaller `cut width`, or none: then your machine's program sees to it")
            }
            ToolpathError::NoPlaceToHold => {
                let gap = machine_options.hold.map_or(0.0, |hold| hold.gap);
                let message = format!(
                    "no two edges of the outline have room for a gap of {} with as much on both its sides",
                    length(gap, unit)
                );
                told("no-place-to-hold", message).with_fix("a smaller `gap` in `hold`")
            }
        })
    })
}
