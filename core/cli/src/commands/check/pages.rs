//! Whether the pages that `make` would print can be printed.
//!
//! **Input:** a tray that fits, and the exporters that `make` would use. **Output:** the error with which `make` would
//! end. Only a page or blank of unusual size is given to an exporter; all others print for certain, so a usual `check`
//! costs nothing more. **Does not** keep a file.

use std::path::PathBuf;

use traywright_document::Paper;
use traywright_engine::measure::TrayMeasure;
use traywright_job::checked_job::CheckedJob;

use crate::commands::make;
use crate::error::CliError;
use crate::exporter_file::ExporterFile;
use crate::exporter_pool::ExporterPool;
use crate::exporters;

/// The exporters that print on the page of the job; the booklet takes another page where that one is too small.
const PRINT_PAGES: [&str; 1] = ["pdf"];

/// Room between the margins, in mm, that has a place for both check bars for certain: they are 100 mm or 4 in long.
// Source: a choice of this project: a bar, and as much again as its name is high.
const ROOM_FOR_BARS: f64 = 120.0;
/// A page with sides up to this length, in mm, is not too long for certain, with what stands beside a blank on it.
// Source: a choice of this project: 1 m below the 5080 mm of ISO 32000-1, annex C.2.
const NOT_TOO_LONG: f64 = 4000.0;
/// So many sheets, counted without skill, are below the maximum of 400 for certain.
const FEW_SHEETS: f64 = 200.0;

/// The exporters that `make` would use, as far as they print on the page of the job.
///
/// # Refuses
/// A name that no exporter has. Without a list, a program without exporters prints nothing.
pub(super) fn printing(
    formats: &[String],
    plugins: &[PathBuf],
) -> Result<Vec<ExporterFile>, Vec<CliError>> {
    if formats.is_empty() && exporters::find(plugins)?.is_empty() {
        return Ok(Vec::new());
    }
    let mut chosen = make::chosen(formats, plugins)?;
    chosen.retain(|exporter| PRINT_PAGES.contains(&exporter.name.as_str()));
    Ok(chosen)
}

/// The errors with which `make` would end because of the job's page.
pub(super) fn errors(checked: &CheckedJob, pool: &ExporterPool) -> Vec<CliError> {
    let Ok(tray) = &checked.tray else {
        return Vec::new();
    };
    if pool.exporters().is_empty() || prints_for_certain(checked) {
        return Vec::new();
    }
    let document = make::encoded(tray, pool.exporters());
    let exported = pool.each(|exporter| pool.export(exporter, &document));
    let errors = exported.into_iter().filter_map(Result::err);
    errors
        .map(|error| CliError::from(error.on(&checked.path)))
        .collect()
}

/// Whether page and blank are of usual sizes.
fn prints_for_certain(checked: &CheckedJob) -> bool {
    let blank = [TrayMeasure::BlankLength, TrayMeasure::BlankWidth]
        .map(|side| checked.measure(side).unwrap_or(f64::INFINITY));
    let paper = &checked.job.output.paper;
    let page = paper.page();
    if page.bar_across.is_some() || page.bar_down.is_some() {
        return false;
    }
    let sides = [page.width.mm(), page.height.mm()];
    let between = sides[0].min(sides[1]) - 2.0 * page.margin.mm();
    let pitch = between - page.overlap.mm();
    let sheets: f64 = blank
        .iter()
        .map(|side| (side / pitch.max(0.0)).ceil() + 1.0)
        .product();
    match paper {
        Paper::Whole { .. } => blank[0].max(blank[1]) <= NOT_TOO_LONG,
        Paper::Sheets(_) => {
            between >= ROOM_FOR_BARS
                && sides[0].max(sides[1]) <= NOT_TOO_LONG
                && sheets <= FEW_SHEETS
        }
    }
}
