//! An exporter that breaks a rule of its own.
//!
//! Given any document, it panics; the door turns that into a refusal with the words of the panic.

use traywright_document::Document;
use traywright_document::plugin_api::File;

traywright_document::exporter!(name: "panics", suffix: ".txt", export);

fn export(document: &Document) -> Result<Vec<File>, String> {
    panic!("a tray of style {} has no pens", document.style);
}
