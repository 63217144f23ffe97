//! The sixth stage: the lines of the blank in the order of a machine.

use traywright_document::Toolpath;

use super::{ToolpathError, toolpaths};
use crate::blank::DrawnView;
use crate::finding::{Advice, BuiltIn, Finding, Mm, Place};
use crate::holding::Held;
use crate::tray::PanelId;

/// A tray with its toolpaths, seen from the drawn face.
#[derive(Clone, Debug)]
pub(crate) struct Cut {
    pub(crate) held: Held,
    pub(crate) toolpaths: Vec<Toolpath>,
}

impl Cut {
    /// Puts the lines into the machine's order.
    ///
    /// # Errors
    /// The finding that the kerf or the nicks are too large for the lines.
    pub(crate) fn of(held: Held) -> Result<Cut, Box<Finding>> {
        let laid = &held.folded().laid;
        let job = &laid.drawn.job;
        let flat = DrawnView(job.output.drawn_face).lines(&laid.blank);
        let options = job.output.machine;
        let toolpaths = toolpaths(&flat, &options).map_err(|why| {
            let root = Place::Panel(laid.drawn.tray.panels[PanelId::ROOT].name.clone());
            let (found, advice) = match why {
                ToolpathError::KerfTooWide(place) => {
                    let corner = flat.extent.least;
                    let found = BuiltIn::KerfTooWide {
                        kerf: Mm(options.kerf.mm()),
                        x: Mm(place.x - corner.x),
                        y: Mm(place.y - corner.y),
                    };
                    (found, Advice::NarrowerKerf)
                }
                ToolpathError::NoRoomForNicks => {
                    let nick = Mm(options.nicks.map_or(0.0, |nicks| nicks.length.mm()));
                    (BuiltIn::NoRoomForNicks { nick }, Advice::ShorterNicks)
                }
            };
            Box::new(Finding::new(found, root).with_fix(advice))
        })?;
        Ok(Cut { held, toolpaths })
    }
}
