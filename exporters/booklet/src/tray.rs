//! What every section of the booklet is given: the tray, the words, and how lengths are written.
//!
//! It also finds figures of the report by name, and names the items as people would.

use traywright_document::{Document, Item, Orientation, Unit};
use traywright_look::filled;

use crate::wording::{Booklet, File};
use traywright_look::Lengths;

/// A tray to tell about.
#[derive(Clone, Copy)]
pub(crate) struct BookletInput<'a> {
    /// The tray, its like steps joined.
    pub(crate) document: &'a Document,
    /// How often each step is done.
    pub(crate) times: &'a [usize],
    pub(crate) file: &'a File,
}

/// More items than this are not named one by one.
const MOST_NAMED: usize = 6;

impl<'a> BookletInput<'a> {
    /// Its sentences.
    pub(crate) fn words(&self) -> &'a Booklet {
        &self.file.booklet
    }

    /// What the style says, in the language of the job where that knows it, otherwise as the style has it.
    pub(crate) fn said(&self, sentence: &'a str) -> &'a str {
        let told = self.words().styles.get(sentence);
        told.map_or(sentence, String::as_str)
    }

    /// What the check warns of, in the language of the job where that knows it.
    pub(crate) fn warned(&self, warning: &'a str) -> &'a str {
        let told = self.words().warnings.get(warning);
        told.map_or(warning, String::as_str)
    }

    /// Whether its items stand on a floor of its own, between fences, and not on the floor of the box.
    pub(crate) fn has_floor(&self) -> bool {
        self.document.stands == Orientation::RootDown
    }

    /// How its lengths are written.
    pub(crate) fn lengths(&self) -> Lengths {
        Lengths {
            unit: self.document.unit,
            decimal: self.file.decimal,
        }
    }

    /// A figure of the report.
    pub(crate) fn measure(&self, name: &str) -> Option<f64> {
        measure(self.document, name)
    }

    /// Outside of the folded tray, as far as it is reported.
    pub(crate) fn outside(&self) -> Vec<f64> {
        ["folded_length", "folded_width", "folded_depth"]
            .iter()
            .filter_map(|name| self.measure(name))
            .collect()
    }

    /// Length and width of the blank.
    pub(crate) fn blank(&self) -> [f64; 2] {
        let extent = self.document.flat.extent;
        [
            extent.most.x - extent.least.x,
            extent.most.y - extent.least.y,
        ]
    }

    /// The same as a ruler reads it: to half a millimetre.
    pub(crate) fn drawn_size(&self) -> String {
        let read = self.blank().map(|side| match self.document.unit {
            Unit::Millimetre => (2.0 * side).round() / 2.0,
            Unit::Inch => side,
        });
        self.lengths().size(&read)
    }

    /// A sheet of card that holds the blank, as a maker measures one.
    pub(crate) fn sheet(&self) -> [f64; 2] {
        let part = match self.document.unit {
            Unit::Millimetre => 1.0,
            Unit::Inch => 25.4 / 8.0,
        };
        // What is less than a thousandth over is a rounding.
        self.blank().map(|side| (side / part - 1e-3).ceil() * part)
    }

    /// The items, repeats counted: each with how many there are.
    pub(crate) fn kinds(&self) -> Vec<(&'a Item, usize)> {
        self.document.kinds().collect()
    }

    /// The items by name, in a row.
    pub(crate) fn item_names(&self) -> String {
        self.named(&self.kinds())
    }

    /// Kinds of items by name, in a row.
    pub(crate) fn named(&self, kinds: &[(&Item, usize)]) -> String {
        let name = |(item, count): &(&Item, usize)| match count {
            1 => item.name.clone(),
            _ => format!("{count}\u{a0}×\u{a0}{}", item.name),
        };
        let mut names: Vec<String> = kinds.iter().take(MOST_NAMED).map(name).collect();
        if kinds.len() > MOST_NAMED {
            let more = (kinds.len() - MOST_NAMED).to_string();
            names.push(filled(&self.words().and_more, &[("count", &more)]));
        }
        names.join(", ")
    }
}

/// A figure of the report.
pub(crate) fn measure(document: &Document, name: &str) -> Option<f64> {
    let mut measures = document.measures.iter();
    let found = measures.find(|measure| measure.name == name);
    found.map(|measure| measure.value)
}
