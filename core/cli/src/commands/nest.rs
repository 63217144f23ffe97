//! `nest`: blanks on sheets of stock, a file for each sheet; all files, or none.
//!
//! Checks every job's tray as `make` does, lays the blanks, and writes the lines of each sheet with the exporters of
//! lines. Prints a table of the sheets. Blanks of different card do not share a sheet.

mod agreement;
mod files;
mod pieces;
mod search;
mod table;

use traywright_document::Document;
use traywright_document::sheet::{self, LaidBlank};
use traywright_job::checked_job::{CheckedJob, Checker};
use traywright_job::report::sentence::paragraph;
use traywright_job::report::text;
use traywright_nest::{NestError, Nesting, Sheet};

use super::make::{export_documents, inputs, jobs_with_equal_stems, stem_of};
use crate::Verdict;
use crate::args::{GlobalOptions, NestArguments};
use crate::check_jobs::{Fixes, check_each};
use crate::error::CliError;
use crate::exporter_file::ExporterFile;
use crate::report::Output;
use crate::style_folders::styles;
use crate::write_files::write_all_or_nothing;

/// A tray whose blanks are laid.
pub(crate) struct NestedTray {
    /// The stem of its job's file, by which `--count` and the table call it.
    name: String,
    document: Document,
    count: usize,
}

/// Lays blanks on sheets and writes the files of the sheets.
pub(crate) fn run(
    asked: &NestArguments,
    everywhere: &GlobalOptions,
    output: &Output,
) -> Result<Verdict, Vec<CliError>> {
    let styles = styles(&everywhere.styles)?;
    let (mut checked, mut errors) = (Vec::new(), Vec::new());
    let checker = Checker::new(&styles);
    check_each(
        &asked.jobs,
        &checker,
        Fixes::OfRefused,
        |_, tray| tray,
        |tray| match tray {
            Ok(tray) => checked.push(tray),
            Err(found) => errors.extend(found),
        },
    );
    errors.extend(jobs_with_equal_stems(&asked.jobs));
    errors.extend(pieces::unknown_names(asked));
    let exporters = files::exporters(&asked.files.formats, &everywhere.plugins);
    let exporters = exporters.unwrap_or_else(|found| {
        errors.extend(found);
        Vec::new()
    });
    for tray in checked.iter().filter(|tray| !tray.fits()) {
        output.finding(&text::refusal(tray));
    }
    if !errors.is_empty() {
        return Err(errors);
    }
    if !checked.iter().all(CheckedJob::fits) {
        output.print_info(&paragraph("", "Nothing was written."));
        return Ok(Verdict::DoesNotFit);
    }
    lay(&checked, asked, everywhere, &exporters, output)
}

/// Lays the blanks of trays that fit.
fn lay(
    checked: &[CheckedJob],
    asked: &NestArguments,
    everywhere: &GlobalOptions,
    exporters: &[ExporterFile],
    output: &Output,
) -> Result<Verdict, Vec<CliError>> {
    let trays = pieces::trays(checked, asked)?;
    agreement::check(&trays)?;
    let nesting = match search::nest(&trays, asked) {
        Ok(nesting) => nesting,
        Err(NestError::NotApart {
            pieces: [one, other],
        }) => {
            return Err(pieces::not_apart(&trays[one], &trays[other]).into());
        }
        Err(error) => {
            output.finding(&paragraph("", &pieces::too_large(&error, &trays, asked)));
            output.print_info(&paragraph("", "Nothing was written."));
            return Ok(Verdict::DoesNotFit);
        }
    };
    let inputs = inputs(&asked.jobs, &everywhere.styles, checked, exporters)?;
    let stem = stem_of(&asked.jobs[0])?;
    let sheets = files::encoded(&documents(&nesting, &trays, asked), stem);
    let made = export_documents(&sheets, exporters, asked.files.patience.exporter_seconds)?;
    let into = asked.files.folder();
    let written = write_all_or_nothing(into, made.files, &inputs, *output)?;
    output.print_result(&table::of(&nesting, &trays, asked))?;
    output.print_info(&table::after(&trays, asked, &made.warnings, &written));
    Ok(Verdict::Done)
}

/// The document of each sheet.
fn documents(nesting: &Nesting, trays: &[NestedTray], asked: &NestArguments) -> Vec<Document> {
    let count = nesting.sheets.len();
    let document = |(index, sheet): (usize, &Sheet)| {
        let laid: Vec<LaidBlank> = sheet
            .blanks
            .iter()
            .map(|blank| LaidBlank {
                tray: &trays[blank.piece].document,
                placement: blank.placement,
            })
            .collect();
        let title = format!("{}/{count}: {}", index + 1, table::blanks(sheet, trays));
        sheet::document(title, asked.stock.sides, &laid)
    };
    nesting
        .sheets
        .iter()
        .enumerate()
        .filter_map(document)
        .collect()
}
