//! Exports one document as one FOLD 1.2 file: the flat blank as a crease pattern, and the folded tray in space.
//!
//! **Input:** the finished tray as plain data. **Output:** its panels as faces that meet only at creases, for folding
//! programs and simulators. It knows no rule of folding: angles and poses are the document's. Curves become chords. If
//! the fold lines are off the middle of the card, the panels of the folded tray are separate.

mod chords;
mod edges;
mod faces;
mod folded;
mod frames;
mod mesh;
mod places;
mod slits;
mod text;

use traywright_document::plugin_api::File;
use traywright_document::{Document, ExportError};

use mesh::Mesh;

traywright_document::exporter!(name: "fold", suffix: ".fold", export);

/// The file of a tray.
fn export(document: &Document) -> Result<Vec<File>, ExportError> {
    Ok(vec![File {
        suffix: ".fold".to_owned(),
        bytes: pattern(document)?.into_bytes(),
    }])
}

/// The text of a tray's file.
///
/// # Refuses
/// A crease that is not between its two panels, and panels that come apart at one in the folded tray although its fold
/// line is in the middle of the card.
pub fn pattern(document: &Document) -> Result<String, ExportError> {
    let mesh = Mesh::new(document)?;
    frames::file(document, &mesh)
}

#[cfg(test)]
mod tests;
