//! What the maker asks of the files for machines: whether the lines allow it.
//!
//! Given a tray that fits, folds and holds; gives the runs of its lines, or the finding that the width of the cut or the
//! gaps that hold the piece are too large for them.

use traywright_document::Toolpath;

use super::CheckedTray;
use crate::cutting::{ToolpathError, toolpaths};
use crate::finding::{Advice, BuiltIn, Finding, Mm, Place};

/// The runs in the order of the work.
pub(super) fn judge(checked: &CheckedTray) -> Result<Vec<Toolpath>, Box<Finding>> {
    let (flat, options) = (checked.lines(), checked.job.machine_options);
    toolpaths(&flat, &options).map_err(|why| {
        let root = Place::Panel(checked.tray.panels[0].name.clone());
        let (found, advice) = match why {
            ToolpathError::KerfTooWide(place) => {
                let corner = flat.extent.least;
                let found = BuiltIn::KerfTooWide {
                    kerf: Mm(options.kerf_width),
                    x: Mm(place.x - corner.x),
                    y: Mm(place.y - corner.y),
                };
                (found, Advice::NarrowerKerf)
            }
            ToolpathError::NoRoomForNicks => {
                let nick = Mm(options.nicks.map_or(0.0, |nicks| nicks.length));
                (BuiltIn::NoRoomForNicks { nick }, Advice::ShorterNicks)
            }
        };
        Box::new(Finding::new(found, root).with_fix(advice))
    })
}
