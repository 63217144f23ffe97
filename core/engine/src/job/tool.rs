//! What creases and cuts a blank, and how well.

use traywright_document::{Length, ToolKind};

/// What creases and cuts a blank.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Tool {
    /// Who guides it.
    pub by: ToolKind,
    /// How far a crease or a cut may lie from its line, either way, if the job says it.
    pub accuracy: Option<Length>,
}

impl Tool {
    /// How far a crease or a cut may lie from its line, either way, in mm.
    // Source: core/CONTRACT.md, "Job file": by hand 0.5 mm, by machine 0.1 mm (common practice, none published).
    pub fn accuracy(&self) -> f64 {
        let usual = match self.by {
            ToolKind::Hand => 0.5,
            ToolKind::Machine => 0.1,
        };
        self.accuracy.map_or(usual, Length::mm)
    }
}
