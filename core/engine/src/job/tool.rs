//! The tool that creases and cuts a blank, and its accuracy.

use traywright_document::{Length, ToolKind};

/// The tool that creases and cuts a blank.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Tool {
    /// Whether a hand or a machine guides it.
    pub by: ToolKind,
    /// Maximum distance of a crease or a cut from its line, either way, if the job states it.
    pub accuracy: Option<Length>,
}

impl Tool {
    /// Maximum distance of a crease or a cut from its line, either way, in mm.
    // Source: core/CONTRACT.md, "Job file": by hand 0.5 mm, by machine 0.1 mm (common practice, none published).
    pub fn accuracy(&self) -> f64 {
        let usual = match self.by {
            ToolKind::Hand => 0.5,
            ToolKind::Machine => 0.1,
        };
        self.accuracy.map_or(usual, Length::mm)
    }
}
