//! The sixth stage: the lines of the blank in the order of a machine.

use traywright_document::{Edge, Machine, Point, ProcessingStep, Toolpath};

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

/// A cut this much shorter than the shortest still counts as long enough: noise of arithmetic.
const NOISE_MM: f64 = 1e-6;

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
        let corner = flat.extent.least;
        let toolpaths = toolpaths(&flat, &options).map_err(|why| {
            let root = Place::Panel(laid.drawn.tray.panels[PanelId::ROOT].name.clone());
            let root = match why {
                ToolpathError::CreaseTooShort { panel, .. } => {
                    Place::Panel(laid.drawn.tray.panels[PanelId::at(panel)].name.clone())
                }
                _ => root,
            };
            Box::new(refused(&why, &options, corner, root))
        })?;
        Ok(Cut { held, toolpaths })
    }

    /// The warning about cuts that the tool cannot follow.
    pub(crate) fn too_short(&self) -> Option<Finding> {
        let laid = &self.held.folded().laid;
        let job = &laid.drawn.job;
        let smallest = job.output.machine.smallest?.mm();
        let cuts = self.toolpaths.iter();
        let cuts = cuts.filter(|path| path.step == ProcessingStep::Cutting);
        let edges = cuts.flat_map(|path| path.contour.edges());
        let short: Vec<Edge> = edges
            .filter(|edge| edge.length() < smallest - NOISE_MM)
            .collect();
        let length = |edge: &&Edge| edge.length();
        let shortest = short
            .iter()
            .min_by(|one, other| length(one).total_cmp(&length(other)))?;
        let corner = DrawnView(job.output.drawn_face)
            .extent(laid.blank.outline.points())
            .least;
        let found = BuiltIn::CutTooShort {
            count: short.len(),
            x: Mm(shortest.from.x - corner.x),
            y: Mm(shortest.from.y - corner.y),
        };
        let found = Finding::new(found, Place::Tray).measured(shortest.length(), smallest);
        Some(found.with_fix(Advice::ShorterSmallest))
    }
}

/// Why there are no toolpaths, in numbers: positions count from the blank's lower left corner.
fn refused(why: &ToolpathError, options: &Machine, corner: Point, root: Place) -> Finding {
    let kerf = options.kerf.mm();
    let from_corner = |at: &Point| (Mm(at.x - corner.x), Mm(at.y - corner.y));
    match why {
        ToolpathError::KerfTooWide { at, width } => {
            let (x, y) = from_corner(at);
            Finding::new(BuiltIn::KerfTooWide { x, y }, root)
                .measured(*width, kerf)
                .with_fix(Advice::NarrowerKerf)
        }
        ToolpathError::KerfTakesWeb { at, width, taken } => {
            let (x, y) = from_corner(at);
            let kerf = Mm(kerf);
            Finding::new(BuiltIn::KerfTakesWeb { kerf, x, y }, root)
                .measured(*width, *taken)
                .with_fix(Advice::NarrowerKerf)
        }
        ToolpathError::NoRoomForNicks => {
            let nick = options.nicks.map_or(0.0, |nicks| nicks.length.mm());
            no_room(
                nick,
                options.smallest.map_or(0.0, |length| length.mm()),
                root,
            )
        }
        ToolpathError::CreaseTooShort { length, .. } => {
            let perforation = options.perforation.unwrap_or_default();
            let (cut, gap) = (Mm(perforation.cut.mm()), Mm(perforation.gap.mm()));
            Finding::new(BuiltIn::CreaseTooShort { cut, gap }, root)
                .measured(*length, perforation.shortest_crease())
                .with_fix(Advice::ShorterPerforation)
        }
    }
}

/// The outline has no room for nicks of that length with the tool's shortest cut on either side.
fn no_room(nick: f64, smallest: f64, root: Place) -> Finding {
    if smallest <= nick {
        let found = BuiltIn::NoRoomForNicks { nick: Mm(nick) };
        return Finding::new(found, root).with_fix(Advice::ShorterNicks);
    }
    let found = BuiltIn::NoRoomBesideNicks {
        nick: Mm(nick),
        smallest: Mm(smallest),
        needed: Mm(nick + 2.0 * smallest),
    };
    Finding::new(found, root).with_fix(Advice::ShorterSmallestForNicks)
}
