//! One document in, pages to print at true size out.
//!
//! Given the finished tray as plain data; gives a PDF whose pages carry the blank in as few sheets as it takes, bars that
//! check the scale, and crosses where sheets are joined. It knows no rule of folding, and the same document gives the
//! same bytes.

mod annotations;
mod bleed;
mod crosses;
mod forms;
mod free_space;
mod input;
mod made_texts;
mod marks;
mod measures;
mod pieces;
mod placement;
mod printed;
mod search;
mod sheets;
mod single;
mod single_page;
mod spread;
mod squares;
mod texts;
mod tiles;
mod whole;
mod window;
mod words;
mod words_sheet;

use traywright_document::plugin_api::{Exported, File};
use traywright_document::{Document, ExportError};

traywright_document::exporter!(name: "pdf", suffix: ".pdf", export);

/// The file of a tray.
fn export(document: &Document) -> Result<Exported, ExportError> {
    let printed = tiles::print(document)?;
    let files = vec![File {
        suffix: ".pdf".to_owned(),
        bytes: printed.bytes,
    }];
    let warnings = printed.warnings;
    Ok(Exported { files, warnings })
}

/// How many sheets of a tray carry lines; a last one that has words alone is not counted.
///
/// # Refuses
/// A page that leaves nothing to draw on, a blank that needs more than 400 sheets, and a font that cannot be used.
pub fn sheet_count(document: &Document) -> Result<usize, ExportError> {
    tiles::print(document).map(|printed| printed.sheets)
}
