//! One document in, one page out: the finished tray, which a browser folds step by step.
//!
//! **Input:** the finished tray. **Output:** a file that needs no other file and no network: the tray as data ([`scene`]),
//! the scripts that draw it, and words in the language of the job. It knows no rule of folding: angles, poses and steps
//! are the document's.

mod page;
mod scene;
mod scene_pictures;
mod scripts;
mod steps;
mod triangles;
mod words;

use traywright_document::plugin_api::File;
use traywright_document::{Document, ExportError};

use words::WordsFile;

traywright_document::exporter!(name: "html", suffix: ".html", export);

/// The file of a tray.
fn export(document: &Document) -> Result<Vec<File>, ExportError> {
    Ok(vec![File {
        suffix: ".html".to_owned(),
        bytes: page(document)?.into_bytes(),
    }])
}

/// The text of a tray's page.
///
/// # Errors
/// A language without words.
pub fn page(document: &Document) -> Result<String, ExportError> {
    let file = WordsFile::of(&document.output.language)?;
    page::page(document, &file)
}

/// What the scripts draw of a tray, as JSON: its panels as triangles with their creases, the items, the box, and the
/// steps in words of the job's language.
///
/// # Errors
/// A language without words.
pub fn scene(document: &Document) -> Result<String, ExportError> {
    let file = WordsFile::of(&document.output.language)?;
    scene::scene(document, &file)
}

#[cfg(test)]
mod tests;
