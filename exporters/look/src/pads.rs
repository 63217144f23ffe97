//! The pads to cut, in the words of every file.
//!
//! **Input:** a kind of item on a pad, the number of its items, and the format of lengths. **Output:** a sentence with
//! the size of the pad: the outline of the item as it lies, and the thickness.

use serde::Deserialize;
use traywright_document::{Item, ItemShape, filled};

/// The sentences about pads.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PadWords {
    /// `item`, `size`.
    one: String,
    /// The sentence for several equal items: `count` as well.
    several: String,
    /// The size of a round pad: `diameter`, `thickness`.
    round: String,
    /// The size of an oval pad: the `size` of the rectangle around it.
    oval: String,
}

impl PadWords {
    /// Describes the pad of a kind of items; `write` formats lengths that make up one size.
    pub fn sentence(
        &self,
        (item, count): (&Item, usize),
        write: &dyn Fn(&[f64]) -> String,
    ) -> String {
        let around = write(&[item.length, item.width, item.pad]);
        let size = match item.shape {
            ItemShape::Round => {
                let [diameter, thickness] = [item.length, item.pad].map(|side| write(&[side]));
                let gaps = [("diameter", diameter.as_str()), ("thickness", &thickness)];
                filled(&self.round, &gaps)
            }
            ItemShape::Oval => filled(&self.oval, &[("size", &around)]),
            _ => around,
        };
        let count = count.to_string();
        let form = if count == "1" {
            &self.one
        } else {
            &self.several
        };
        let gaps = [
            ("item", item.name.as_str()),
            ("size", &size),
            ("count", &count),
        ];
        filled(form, &gaps)
    }
}
