//! The table at the end of `make --keep-going`: what became of each job.
//!
//! **Input:** the jobs in the order of the call, with their figures. **Output:** a table for standard error.

use traywright_job::checked_job::CheckedJob;
use traywright_job::report::figures::Figures;
use traywright_job::report::table::{Column, table};

/// What became of a job.
#[derive(Clone, Debug)]
pub(crate) struct TableRow {
    job: String,
    verdict: &'static str,
    sheet: String,
    blank: String,
    /// Why its files were not written, or the warnings of a tray that fits.
    reasons: Vec<String>,
}

impl TableRow {
    /// The row of a job that was checked.
    pub(crate) fn of(checked: &CheckedJob) -> Self {
        let figures = Figures::of(checked);
        let unit = figures.unit.sign();
        TableRow {
            job: checked.path.clone(),
            verdict: figures.verdict_word(),
            sheet: figures.sheet_cell(),
            blank: match figures.blank {
                Some(_) => format!("{} {unit}", figures.blank_cell()),
                None => figures.blank_cell(),
            },
            reasons: figures.reasons().to_vec(),
        }
    }

    /// The row of a tray that fits, but whose files an exporter did not make.
    pub(crate) fn failed(&mut self, exporter: &str) {
        self.verdict = "not-made";
        self.reasons
            .push(format!("the exporter `{exporter}` failed"));
    }
}

/// The table of all jobs.
pub(crate) fn of(rows: &[TableRow]) -> String {
    let column = |heading: &str, cell: fn(&TableRow) -> &str| {
        Column::new(heading, rows.iter().map(|row| cell(row).to_owned()))
    };
    let columns = [
        column("job", |row| &row.job),
        column("verdict", |row| row.verdict),
        column("sheet", |row| &row.sheet),
        column("blank", |row| &row.blank),
    ];
    let below: Vec<String> = rows.iter().map(|row| row.reasons.join(", ")).collect();
    format!("\n{}", table(&columns, &below))
}
