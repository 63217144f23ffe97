//! `exporters`: every exporter found, and whether its library can be loaded.
//!
//! **Input:** the folders of `--plugins` and a time limit. **Output:** the list as text. Each library is opened in its
//! own process, where its constructors run, so that a broken one costs only a line. A broken exporter is not an error of this command.

use std::path::PathBuf;
use std::time::Duration;

use traywright_job::report::sentence::paragraph;

use crate::error::CliError;
use crate::exporter_file::ExporterFile;
use crate::exporter_host::{ExporterError, ExporterStatus, Failure, Running};
use crate::exporters;

const HEADINGS: [&str; 5] = ["NAME", "SUFFIX", "SCHEMA", "HEALTH", "FILE"];

/// The list of exporters: name, suffix, schema, status and file in columns; below, errors and what its process cannot do.
///
/// # Refuses
/// The errors of [`exporters::find`].
pub(crate) fn list(plugins: &[PathBuf], time_limit: Duration) -> Result<String, CliError> {
    let found = exporters::find(plugins)?;
    if found.is_empty() {
        return Ok(paragraph("", &exporters::nothing_found()));
    }
    let mut rows = vec![(HEADINGS.map(str::to_owned), None)];
    for exporter in &found {
        rows.push(row(exporter, time_limit)?);
    }
    let width = |column: usize| {
        let cells = rows.iter().map(|(cells, _)| cells[column].chars().count());
        cells.max().unwrap_or_default()
    };
    let widths = [width(0), width(1), width(2), width(3)];
    let mut text = String::new();
    for (cells, details) in &rows {
        for (cell, width) in cells.iter().zip(widths) {
            text.push_str(&format!("{cell:width$}  "));
        }
        text.push_str(&cells[4]);
        text.push('\n');
        if let Some(Details {
            fault,
            restrictions,
        }) = details
        {
            let fault = fault.as_ref().map(|fault| format!("it {fault}"));
            for line in fault.iter().chain(restrictions) {
                text.push_str(&paragraph("    ", line));
            }
        }
    }
    Ok(text)
}

/// What stands below the row of an exporter.
struct Details {
    fault: Option<Failure>,
    /// What is in force for its process, in words.
    restrictions: Option<String>,
}

type Row = ([String; 5], Option<Details>);

fn row(exporter: &ExporterFile, time_limit: Duration) -> Result<Row, CliError> {
    let ExporterStatus {
        description,
        fault,
        restrictions,
    } = Running::start(exporter, None, time_limit)
        .map_err(|cause| ExporterError::new(exporter, cause))?
        .describe();
    let unknown = || "-".to_owned();
    let schema = description.as_ref().map(|known| known.schema.to_string());
    let suffix = description.and_then(|known| known.suffix);
    let health = if fault.is_none() { "loads" } else { "broken" };
    let cells = [
        exporter.name.clone(),
        suffix.unwrap_or_else(unknown),
        schema.unwrap_or_else(unknown),
        health.to_owned(),
        exporter.path.display().to_string(),
    ];
    let details = Details {
        fault,
        restrictions: restrictions.map(|restrictions| restrictions.to_string()),
    };
    Ok((cells, Some(details)))
}
