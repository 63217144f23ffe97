//! Toolpaths: every line of the blank once, as strokes in the order of a machine, with the job's kerf and nicks.
//!
//! In the flat frame, as the blank. A stroke is one movement of a tool, lowered at its start and raised at its end.
//! Strokes are in the machine's order: creases before cuts, inner cuts before the outline, nearest first. Along a
//! closed cut the piece is on the left. If the job asks for a kerf or nicks, the strokes include them;
//! [`Flat`](crate::Flat) and the panels keep the nominal piece.

use serde::{Deserialize, Deserializer, Serialize};

use crate::flat::{Contour, Flat, ProcessingStep};
use crate::open::Unknown;

/// One stroke of a tool.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Toolpath {
    /// The processing step.
    pub step: ProcessingStep,
    /// The part of the blank that it makes.
    pub part: Part,
    /// Its line.
    pub contour: Contour,
}

/// The parts of the blank.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub enum Part {
    /// A crease.
    Crease {
        /// Index of the panel that moves at it.
        panel: usize,
    },
    /// An open cut, which frees no piece by itself.
    Slit,
    /// A closed cut inside the blank.
    Hole,
    /// The outer edge: closed, or in strokes between nicks.
    Outline,
    /// A part of a later release.
    #[serde(untagged, deserialize_with = "later_part")]
    Other(Unknown),
}

fn later_part<'de, D: Deserializer<'de>>(deserializer: D) -> Result<Unknown, D::Error> {
    Unknown::beside(&["crease", "slit", "hole", "outline"], deserializer)
}

impl Flat {
    /// The lines one by one in the blank's order, creases first: the strokes before they are ordered.
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
