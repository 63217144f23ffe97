//! The styles offered in the conversation, with a picture each.

use std::ops::RangeInclusive;

use traywright_job::library::Styles;

use crate::commands::styles::small_picture;

/// Width of a picture with its number, so that two of them fit in a line of a terminal.
const COLUMN: usize = 38;

/// A style to choose.
pub(in super::super) struct StyleChoice {
    pub(super) name: String,
    /// The number of items it takes.
    pub(super) takes: RangeInclusive<usize>,
    picture: Vec<String>,
}

/// All styles that can be read; `styles` reports the errors of the others.
pub(in super::super) fn choices(styles: &Styles) -> Vec<StyleChoice> {
    let readable = styles.all().iter().filter_map(|text| text.read().ok());
    readable
        .map(|style| {
            let (min, max) = style.items();
            StyleChoice {
                name: style.name().to_owned(),
                takes: min..=max,
                picture: small_picture(&style),
            }
        })
        .collect()
}

/// Numbered names with their pictures, two in a row.
pub(super) fn pictures<'a>(styles: impl Iterator<Item = &'a StyleChoice>) -> String {
    let blocks: Vec<Vec<String>> = styles
        .enumerate()
        .map(|(at, style)| {
            let head = format!("  {}  {}", at + 1, style.name);
            std::iter::once(head)
                .chain(style.picture.iter().cloned())
                .collect()
        })
        .collect();
    let mut text = String::new();
    for pair in blocks.chunks(2) {
        let rows = pair.iter().map(Vec::len).max().unwrap_or_default();
        for row in 0..rows {
            let cells = pair
                .iter()
                .map(|block| block.get(row).map_or("", String::as_str));
            let line: String = cells.map(|cell| format!("{cell:<COLUMN$}")).collect();
            text.push_str(line.trim_end());
            text.push('\n');
        }
    }
    text
}
