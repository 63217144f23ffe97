//! What a machine does, in order: every line of the blank once, in runs, and what the maker asks of the files.
//!
//! Given in the flat frame, as the blank is. A run is one stroke of a tool: it goes down at the start and up at the end.
//! Runs are in the order of the work: creases before cuts, inner cuts before the outline, near neighbours next. Along a
//! closed cut the piece lies on the left. Where the maker asks for a width of the cut or for gaps that hold the piece,
//! the runs have them already; [`Flat`](crate::Flat) and the panels keep the piece as it is meant to be.

use serde::{Deserialize, Serialize};

use crate::flat::{Contour, Flat, ProcessingStep};

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
}

/// What the maker asks of the files, beside the tray itself.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct MachineOptions {
    /// Width of the kerf, which is what the tool removes; closed cuts of the runs stand off the piece by half of it. 0 where the
    /// machine's own program sees to it.
    pub kerf_width: f64,
    /// Nicks, if asked for.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub nicks: Option<Nicks>,
    /// The kind of DXF.
    pub dxf: DxfVersion,
    /// One page trimmed to the blank, with a bleed of so much around it, instead of sheets.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub whole_page: Option<f64>,
}

/// Nicks: gaps in the outline that keep the piece in its sheet.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Nicks {
    /// Length of one.
    pub length: f64,
    /// The most, about, from one nick to the next along the outline.
    pub every: f64,
}

/// A kind of DXF.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum DxfVersion {
    /// Release 2000: the file says that its unit is the millimetre.
    #[default]
    R2000,
    /// Release 12: for older programs; the file has no unit.
    R12,
}

impl Flat {
    /// The lines one by one as they stand, creases first: what the runs are before anybody has put them in order.
    pub fn runs(&self) -> Vec<Toolpath> {
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
