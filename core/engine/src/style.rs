//! A tray style as data: a graph of panels with formulas, read from RON and checked before any job is known.
//!
//! **Input:** the text of a style's file. **Output:** a [`Style`] in which every name is known, every formula is
//! readable and all kinds agree. **Errors:** all errors at once, with their source spans. Computes no value and knows
//! no job.

mod check;
pub(crate) mod either;
pub(crate) mod formulas;
pub(crate) mod graph;
mod kinds;
pub(crate) mod names;
mod naming;
mod reading;
pub(crate) mod text;
mod tokens;
pub(crate) mod written;

pub(crate) use kinds::in_the_text;
pub(crate) use naming::BUILT_IN_NAMES;

use crate::finding::SourceError;
use graph::Graph;
use text::{OpeningEntry, Orientation, SlotCut, StyleFile};
use tokens::Tokens;

/// Maximum number of items of a job and of a style.
// Source: core/CONTRACT.md, "Job file": at most 64 openings.
pub(crate) const MOST_ITEMS: usize = 64;

/// Settings that every style with a slot has, unless it redefines them.
// Source: common practice, none published: choices, adjustable in each job.
// Derived: two flaps folded beside one web stand half a caliper in it each.
const BUILT_IN_SETTINGS: &str = r#"{
    "edge-web": Length(default: "3mm", min: "0.5mm", max: "100mm",
        question: "Minimum card between an opening and the walls or layers next to it."),
    "web": Length(default: "6mm", min: "max(0.5mm, caliper)", max: "max(100mm, caliper)",
        question: "Minimum card between two openings."),
    "floor-air": Length(default: "0.5mm", min: "0mm", max: "20mm",
        question: "Minimum gap between the flaps and the floor of the box."),
    "doors-on": Choice(default: "long", of: ["long", "short"],
        question: "The edges of an opening that carry its doors: long or short."),
}"#;

/// A style that has been read.
#[derive(Clone, Debug)]
pub struct Style {
    name: String,
    pub(crate) sheet: StyleFile,
}

impl Style {
    /// Maximum size of a style's file.
    // Source: common practice, none published; the largest shipped style has 12 KiB.
    pub const MOST_BYTES: usize = 256 * 1024;

    /// Reads a style from its text; the style's name is the stem of its file name.
    ///
    /// # Refuses
    /// A text that is not a style, with source spans: an error of RON syntax alone, else all errors at once.
    pub fn read(name: &str, text: &str) -> Result<Style, Vec<SourceError>> {
        Style::read_and_ask(name, text, |_, _| Vec::new())
    }

    /// Reads a style that `lint` checks over its whole range, so it must also keep the promises of every style.
    ///
    /// # Refuses
    /// As [`Style::read`], and a style without the measure `wall_height`.
    pub(crate) fn read_strictly(name: &str, text: &str) -> Result<Style, Vec<SourceError>> {
        Style::read_and_ask(name, text, naming::promised)
    }

    fn read_and_ask(
        name: &str,
        text: &str,
        more: fn(&StyleFile, &Tokens) -> Vec<SourceError>,
    ) -> Result<Style, Vec<SourceError>> {
        let text = text.strip_prefix('\u{feff}').unwrap_or(text);
        if text.len() > Style::MOST_BYTES {
            let label = format!("at most {} KiB", Style::MOST_BYTES / 1024);
            return Err(vec![SourceError::new(
                0..0,
                format!("the style has {} KiB", text.len().div_ceil(1024)),
                label,
            )]);
        }
        let mut sheet: StyleFile = reading::read(text)?;
        let tokens = Tokens::of(text);
        let mut faults = naming::check(&sheet, &tokens);
        faults.extend(more(&sheet, &tokens));
        if sheet
            .openings
            .iter()
            .any(|(_, opening)| matches!(opening, OpeningEntry::Slot(_)))
        {
            let built_in = reading::read(BUILT_IN_SETTINGS)?;
            faults.extend(check::add_built_in_settings(&mut sheet.settings, built_in));
        }
        let items = sheet.items.min.min(MOST_ITEMS);
        let (graph, drawn) = Graph::draw(&sheet, items);
        faults.extend(drawn);
        if !graph.members.is_empty() {
            faults.extend(check::entries(&sheet, &graph));
            faults.extend(kinds::check(&sheet, &graph));
        }
        faults.sort_by_key(|fault| fault.place.start);
        if faults.is_empty() {
            Ok(Style {
                name: name.to_owned(),
                sheet,
            })
        } else {
            Err(faults)
        }
    }

    /// Its name.
    pub fn name(&self) -> &str {
        &self.name
    }

    /// One sentence for the list of styles.
    pub fn about(&self) -> &str {
        &self.sheet.about
    }

    /// Whether its folded tray has the root panel as a floor, which shows its inside face.
    pub fn has_floor(&self) -> bool {
        self.sheet.stands == Orientation::RootDown
    }

    /// Whether the job's `slot` line cuts one of its openings.
    pub fn takes_slot(&self) -> bool {
        let mut openings = self.sheet.openings.iter();
        openings.any(
            |(_, opening)| matches!(opening, OpeningEntry::Slot(slot) if slot.cut == SlotCut::Job),
        )
    }

    /// How many items it takes, minimum and maximum.
    pub fn items(&self) -> (usize, usize) {
        (self.sheet.items.min, self.sheet.items.max)
    }
}
