//! The graph with numbers in it: every panel and opening that exists in this job, with its shape and where it hangs.
//!
//! Shapes are in the panels' own frames. A tray is drawn in [`drawing`], from the figures of a style and a job; here is
//! what it consists of, and what can be asked of it.

pub(crate) mod cuts;
mod drawing;

use crate::geometry::{Frame, Outline, Point};
use crate::numbers::{PanelShape, Rect};
use cuts::CutPlan;

/// A tray in numbers.
#[derive(Clone, Debug)]
pub(crate) struct Tray {
    /// Panels, the root first and every parent before its children; the job's flaps come last.
    pub(crate) panels: Vec<Panel>,
    pub(crate) openings: Vec<Opening>,
    pub(crate) caliper: f64,
    pub(crate) hinge: f64,
}

/// One panel.
#[derive(Clone, Debug)]
pub(crate) struct Panel {
    pub(crate) name: String,
    /// The name that it shares with its family.
    pub(crate) key: String,
    /// The style's entry, counted in its list; none for a flap of the job's cut.
    pub(crate) entry: Option<usize>,
    /// Flat, in its own frame.
    pub(crate) shape: PanelShape,
    pub(crate) hanging: Option<Hanging>,
}

/// How a panel hangs on its parent.
#[derive(Clone, Debug)]
pub(crate) struct Hanging {
    /// The panel that it hangs on, or in whose opening it hangs.
    pub(crate) parent: usize,
    /// What carries it: an edge of the parent, or an edge of an opening in it.
    pub(crate) on: HangsOn,
    /// The crease in the parent's frame, with the card that carries the panel on its left.
    pub(crate) crease: (Point, Point),
    /// Angle of the finished fold; positive folds the drawn face inwards.
    pub(crate) fold_deg: f64,
}

/// What a panel hangs on, by name or by its place in the tray.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum HangsOn {
    /// An edge of its parent's outline.
    Edge(String),
    /// An edge of an opening: the panel lies in the hole, or is cut out of the card around it.
    Opening { opening: usize, edge: String },
}

/// One opening.
#[derive(Clone, Debug)]
pub(crate) struct Opening {
    pub(crate) name: String,
    /// The opening's place in the graph of names.
    pub(crate) member: usize,
    /// The panel it lies in.
    pub(crate) panel: usize,
    /// The item it is for, counted from 0.
    pub(crate) item: Option<usize>,
    /// Where it lies, in the panel's frame.
    pub(crate) rect: Rect,
    pub(crate) cut: OpeningCut,
    /// Names of its lower, right, upper and left edge.
    pub(crate) edges: [String; 4],
}

/// What is cut at an opening.
#[derive(Clone, Debug)]
pub(crate) enum OpeningCut {
    /// The job's cut, with its flaps.
    Flaps(CutPlan),
    /// Clean, along this outline.
    Clean(Outline),
    /// Nothing: panels are cut out of the card around it.
    Uncut,
}

impl Hanging {
    /// The panel's own frame in the frame of its parent: origin in the middle of the crease, y away from it.
    pub(crate) fn frame(&self) -> Frame {
        let (from, to) = self.crease;
        Frame {
            origin: from.middle(to),
            x_axis: -(to - from).unit(),
        }
    }
}

impl Tray {
    /// The opening whose flap a panel is, if it is one of the job's flaps.
    pub(crate) fn flap_of(&self, panel: usize) -> Option<usize> {
        let panel = &self.panels[panel];
        match panel.hanging.as_ref()?.on {
            HangsOn::Opening { opening, .. } if panel.entry.is_none() => Some(opening),
            _ => None,
        }
    }

    /// The panels that hang on an edge of an opening.
    pub(crate) fn hung_on_opening<'t>(
        &'t self,
        opening: usize,
        edge: &'t str,
    ) -> impl Iterator<Item = &'t Panel> {
        self.panels.iter().filter(move |panel| {
            panel.hanging.as_ref().is_some_and(|hanging| {
                matches!(&hanging.on, HangsOn::Opening { opening: other, edge: there } if *other == opening && there == edge)
            })
        })
    }
}
