//! What a machine does, in order: every line of the blank once, in runs, and what the maker asks of the files.
//!
//! Given in the flat frame, as the blank is. A run is one stroke of a tool: it goes down at the start and up at the end.
//! Runs are in the order of the work: creases before cuts, inner cuts before the outline, near neighbours next. Along a
//! closed cut the piece lies on the left. Where the maker asks for a width of the cut or for gaps that hold the piece,
//! the runs have them already; [`Flat`](crate::Flat) and the panels keep the piece as it is meant to be.

use serde::{Deserialize, Deserializer, Serialize};

use crate::flat::{Contour, Flat, ProcessingStep};
use crate::open::Unknown;

/// One stroke of a tool.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Toolpath {
    /// What is done along it.
    pub step: ProcessingStep,
    /// What it is a part of.
    pub part: Part,
    /// Where it runs.
    pub contour: Contour,
}

/// What a run is a part of.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub enum Part {
    /// A crease.
    Crease {
        /// Index of the panel that it moves.
        panel: usize,
    },
    /// A cut that frees nothing by itself.
    Slit,
    /// A closed cut inside the blank.
    Hole,
    /// The outer edge: closed, or in runs between gaps that hold the piece.
    Outline,
    /// A part of a later release.
    #[serde(untagged, deserialize_with = "later_part")]
    Other(Unknown),
}

fn later_part<'de, D: Deserializer<'de>>(deserializer: D) -> Result<Unknown, D::Error> {
    Unknown::beside(&["crease", "slit", "hole", "outline"], deserializer)
}

impl Flat {
    /// The lines one by one as they stand, creases first: what the runs are before anybody has put them in order.
    pub fn toolpaths(&self) -> Vec<Toolpath> {
        let cut = |part| {
            move |contour: &Contour| Toolpath {
                step: ProcessingStep::Cutting,
                part,
                contour: contour.clone(),
            }
        };
        let creases = self.creases.iter().map(|crease| Toolpath {
            step: crease.step(),
            part: Part::Crease {
                panel: crease.panel,
            },
            contour: Contour::line(crease.from, crease.to),
        });
        creases
            .chain(self.open_cuts.iter().map(cut(Part::Slit)))
            .chain(self.holes.iter().map(cut(Part::Hole)))
            .chain([cut(Part::Outline)(&self.outline)])
            .collect()
    }
}
