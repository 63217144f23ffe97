//! The tool that creases and cuts the blank, and its accuracy.

use serde::{Deserialize, Serialize};

/// The tool that creases and cuts the blank.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Tool {
    /// Whether a hand or a machine guides it.
    pub by: ToolKind,
    /// Maximum distance of a crease or a cut from its line, either way, in mm.
    pub accuracy: f64,
}

/// The guidance of a tool.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum ToolKind {
    /// A hand, along a rule.
    #[default]
    Hand,
    /// A plotter, a laser or a cutting table.
    Machine,
}

impl Default for Tool {
    // Source: core/CONTRACT.md, "Job file" (common practice, none published).
    fn default() -> Self {
        Tool {
            by: ToolKind::Hand,
            accuracy: 0.5,
        }
    }
}
