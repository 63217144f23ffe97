//! What creases and cuts the blank, and how well.

use serde::{Deserialize, Serialize};

/// What creases and cuts the blank.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Tool {
    /// Who guides it.
    pub by: ToolKind,
    /// How far a crease or a cut may lie from its line, either way, in mm.
    pub accuracy: f64,
}

/// Who guides a tool.
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
