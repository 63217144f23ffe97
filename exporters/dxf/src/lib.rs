//! Exports one document as one DXF: the lines of the blank in mm, y up, its lower left corner at 0, 0.
//!
//! **Input:** the finished tray as plain data. **Output:** its toolpaths in their order, closed cuts as closed
//! polylines with true arcs, and dimensions. It knows no rule of folding, moves and joins nothing,
//! and writes the same bytes for the same document.

mod dimensions;
mod drawing;
mod groups;
mod handles;
mod lines;
mod structure;
mod tables;
mod words;

use traywright_document::plugin_api::File;
use traywright_document::{Document, ExportError};
use traywright_look::DrawingFile;

use drawing::DxfDrawing;

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
/// A language without words, and a drawing that the library cannot write, with the reason.
pub fn file(document: &Document) -> Result<String, ExportError> {
    let file = DrawingFile::of(&document.output.language)?;
    let mut drawing = DxfDrawing::new(document);
    lines::draw(&mut drawing);
    if !document.has_bare_lines() {
        dimensions::draw(&file, &mut drawing);
        words::draw(&file, &mut drawing);
    }
    let raw = drawing.as_the_library_writes_it()?;
    Ok(structure::file(&raw, drawing.version(), drawing.extent()))
}

#[cfg(test)]
mod tests;
