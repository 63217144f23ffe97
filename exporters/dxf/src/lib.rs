//! One document in, one DXF out: the lines of the blank in millimetres, y up, its lower left corner at 0, 0.
//!
//! Given the finished tray as plain data; gives the runs of its lines in the order of the work, closed cuts as closed
//! polylines with true arcs, and measures as text and lines. It knows no rule of folding, moves and joins nothing, and
//! writes the same bytes for the same document.

mod drawing;
mod groups;
mod handles;
mod lines;
mod structure;
mod tables;
mod words;

use traywright_document::plugin_api::File;
use traywright_document::{Document, ExportError};

traywright_document::exporter!(name: "dxf", suffix: ".dxf", export);

/// The file of a tray.
fn export(document: &Document) -> Result<Vec<File>, ExportError> {
    Ok(vec![File {
        suffix: ".dxf".to_owned(),
        bytes: file(document)?.into_bytes(),
    }])
}

/// The text of the file of a tray.
///
/// # Refuses
/// A drawing that the library cannot put into words, with its reason.
pub fn file(document: &Document) -> Result<String, ExportError> {
    let sheet = drawing::DxfDrawing::new(document)?;
    let raw = sheet.as_the_library_writes_it()?;
    Ok(structure::file(&raw, sheet.version(), sheet.extent()))
}

#[cfg(test)]
mod tests;
