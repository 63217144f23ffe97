//! The line groups: what is cut, and what is creased which way.
//!
//! Given the runs of the blank; gives one group per processing step with nothing but paths in it, present even when
//! empty, so that a cutter or a drawing program finds them by name. Groups and paths stand in the order of the work, and
//! no line stands in two places.

use std::collections::BTreeSet;

use svg::node::element::Group;
use traywright_document::{Document, ProcessingStep};

use crate::drawing_area::DrawingArea;
use crate::names::Names;
use crate::path;

/// How a kind of line looks: the pattern says what it is, the colour repeats it.
#[derive(Clone, Copy)]
pub(crate) struct LineStyle {
    /// Identifier of its group.
    // Source: ISO 19593-1, names of processing steps, in lower case with hyphens.
    pub(crate) id: &'static str,
    colour: &'static str,
    width: &'static str,
    dashes: Option<&'static str>,
}

/// Cut through.
pub(crate) const CUTTING: LineStyle = LineStyle {
    id: "cutting",
    colour: "#000000",
    width: "0.35",
    dashes: None,
};
/// Creased, the drawn face inwards. Two such lines 1 mm apart are still told apart from one thick line.
// Source: Okabe and Ito, reddish purple; dashes for valleys by the custom of folding diagrams.
pub(crate) const CREASING: LineStyle = LineStyle {
    id: "creasing",
    colour: "#CC79A7",
    width: "0.3",
    dashes: Some("2.4 1.2"),
};
/// Creased, the drawn face outwards.
// Source: Okabe and Ito, bluish green; dash and dot for mountains by the custom of folding diagrams.
pub(crate) const REVERSE_CREASING: LineStyle = LineStyle {
    id: "reverse-creasing",
    colour: "#009E73",
    width: "0.3",
    dashes: Some("4 1 0.5 1"),
};
/// Not made at all: measures for the reader. Words in this grey keep a contrast of 5.7 on white.
pub(crate) const DIMENSIONS: LineStyle = LineStyle {
    id: "dimensions",
    colour: "#666666",
    width: "0.18",
    dashes: None,
};

impl LineStyle {
    /// An empty group that draws its paths so.
    pub(crate) fn group(self, id: &str) -> Group {
        let group = Group::new()
            .set("id", id)
            .set("fill", "none")
            .set("stroke", self.colour)
            .set("stroke-width", self.width)
            .set("stroke-linecap", "butt")
            .set("stroke-linejoin", "round");
        match self.dashes {
            Some(dashes) => group.set("stroke-dasharray", dashes),
            None => group,
        }
    }

    /// Its colour, for what is filled.
    pub(crate) fn colour(self) -> &'static str {
        self.colour
    }
}

/// The looks of the creases and what is drawn so.
pub(crate) const CREASES: [(LineStyle, ProcessingStep); 2] = [
    (CREASING, ProcessingStep::Creasing),
    (REVERSE_CREASING, ProcessingStep::ReverseCreasing),
];

/// The three groups of lines that hands or machines work along, in the order of the work.
pub(crate) fn line_groups(document: &Document, area: &DrawingArea) -> Vec<Group> {
    let runs = document.work();
    let mut names = Names::new(document);
    let mut seen = BTreeSet::new();
    for run in runs.iter().filter(|run| run.contour.closed) {
        path::unseen(path::strokes(&run.contour, area), &mut seen);
    }
    let kinds = CREASES
        .into_iter()
        .chain([(CUTTING, ProcessingStep::Cutting)]);
    let group = |(look, step): (LineStyle, ProcessingStep)| {
        let mut group = look.group(look.id);
        for run in runs.iter().filter(|run| run.step == step) {
            let strokes = path::strokes(&run.contour, area);
            let data = if run.contour.closed {
                path::closed(&strokes)
            } else {
                path::open(&path::unseen(strokes, &mut seen))
            };
            if data.starts_with('M') {
                group = group.add(names.path(run.part, data));
            }
        }
        group
    };
    kinds.map(group).collect()
}
