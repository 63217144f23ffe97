//! Which exporters write sheets, and the documents that they get.

use std::path::PathBuf;

use traywright_document::Document;

use crate::commands::make::{self, NamedDocument};
use crate::error::CliError;
use crate::exporter_file::ExporterFile;
use crate::exporter_pool::EncodedDocument;

/// The exporters of lines, used if no list is given.
const LINES: [&str; 3] = ["svg", "pdf", "dxf"];
/// The exporters of the program that explain how one tray folds, which a sheet of blanks does not.
const OF_ONE_TRAY: [&str; 4] = ["booklet", "fold", "html", "solid"];

/// The requested exporters, or those of lines.
pub(super) fn exporters(
    formats: &[String],
    plugins: &[PathBuf],
) -> Result<Vec<ExporterFile>, Vec<CliError>> {
    if let Some(name) = formats
        .iter()
        .find(|name| OF_ONE_TRAY.contains(&name.as_str()))
    {
        return Err(CliError::sentence(format_args!(
            "`{name}` explains one tray and not a sheet of blanks: `traywright make` writes it; `nest` writes {}",
            LINES.join(", ")
        ))
        .into());
    }
    let mut chosen = make::chosen(formats, plugins)?;
    if formats.is_empty() {
        chosen.retain(|exporter| LINES.contains(&exporter.name.as_str()));
    }
    Ok(chosen)
}

/// The documents of sheets for the exporters, named after the first job and numbered.
pub(super) fn encoded(sheets: &[Document], stem: &str) -> Vec<NamedDocument> {
    let named = |(index, sheet)| {
        let name = format!("{stem}-nest-{}", index + 1);
        NamedDocument {
            label: name.clone(),
            stem: name,
            document: EncodedDocument::from(sheet),
        }
    };
    sheets.iter().enumerate().map(named).collect()
}
