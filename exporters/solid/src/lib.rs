//! Exports one document as one binary glTF 2.0 file: the folded tray as closed solids with the card's thickness.
//!
//! **Input:** the finished tray as plain data. **Output:** one solid for each panel and one for each bend, in metres and
//! with y up; a second scene adds items, pads and box. It knows no rule of folding: poses, hinges and angles are the
//! document's. A panel stands exactly where the document says; only the strip at each crease is replaced, by the bend.

mod bends;
mod gltf_file;
mod items;
mod panels;
mod profile;
mod scenes;
mod solid;

use traywright_document::plugin_api::File;
use traywright_document::{Document, ExportError};

traywright_document::exporter!(name: "solid", suffix: ".glb", export);

/// The file of a tray.
fn export(document: &Document) -> Result<Vec<File>, ExportError> {
    Ok(vec![File {
        suffix: ".glb".to_owned(),
        bytes: binary(document)?,
    }])
}

/// The bytes of a tray's file.
///
/// # Errors
/// A document that holds no tray, and a file that the library cannot write, with the reason.
pub fn binary(document: &Document) -> Result<Vec<u8>, ExportError> {
    if document.panels.is_empty() {
        return Err(ExportError::Refused(
            "a sheet of blanks is no folded tray".to_owned(),
        ));
    }
    scenes::binary(document)
}

#[cfg(test)]
mod tests;
