//! The arguments of `nest`, and how its sizes and counts are written.

use std::path::PathBuf;
use std::str::FromStr;
use std::time::Duration;

use clap::{Args, ValueEnum};
use traywright_document::{Length, Unit};
use traywright_job::job_file::page_named;
use traywright_job::lengths::as_people_write;

use super::{FilesArguments, seconds};

/// The most blanks of one kind.
const MOST: usize = 10_000;

/// `nest`
#[derive(Args, Debug)]
pub(crate) struct NestArguments {
    /// The job files, one tray each
    #[arg(value_name = "JOB.kdl", required = true)]
    pub(crate) jobs: Vec<PathBuf>,
    /// Size of one sheet of stock: "1000x700 mm", "40x28 in", or the name of a page such as A1
    #[arg(long, value_name = "SIZE")]
    pub(crate) stock: StockSize,
    /// How many blanks of each job, or of one: 10 or barometer=10 (repeatable)
    #[arg(long, value_name = "[NAME=]N", default_value = "1")]
    pub(crate) count: Vec<Count>,
    /// Least distance between two blanks: 3mm or 1/8in
    #[arg(long, value_name = "LENGTH", default_value = "3mm", value_parser = from_zero)]
    pub(crate) gap: Length,
    /// What stays free along the edges of the sheet
    #[arg(long, value_name = "LENGTH", default_value = "5mm", value_parser = from_zero)]
    pub(crate) margin: Length,
    /// The side of the stock along which its grain runs, for jobs with `board grain=…` [default: length]
    #[arg(long, value_enum)]
    pub(crate) grain: Option<StockGrain>,
    /// Search for N seconds instead of a fixed number of steps; without this the same call gives the same files
    #[arg(long, value_name = "N", value_parser = seconds, allow_negative_numbers = true)]
    pub(crate) seconds: Option<Duration>,
    /// The files to write.
    #[command(flatten)]
    pub(crate) files: FilesArguments,
}

/// A side of the stock: its length is the first number of its size.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum StockGrain {
    /// Along the first number of the size
    Length,
    /// Along the second number of the size
    Width,
}

/// A sheet of stock.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct StockSize {
    /// Its size or name as written.
    pub(crate) name: String,
    /// Length and width.
    pub(crate) sides: [Length; 2],
    /// The unit of the written size.
    pub(crate) unit: Unit,
}

/// How many blanks.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Count {
    /// Of the job of this name; without one, of every job.
    pub(crate) name: Option<String>,
    /// So many.
    pub(crate) number: usize,
}

impl FromStr for StockSize {
    type Err = String;

    fn from_str(text: &str) -> Result<StockSize, String> {
        let page = page_named(text.trim()).map_err(|error| {
            let hint = error.hint.map(|hint| format!("; {hint}"));
            format!(
                "{}: {}{}",
                error.message,
                error.fix,
                hint.unwrap_or_default()
            )
        })?;
        let is_inch = page.name.trim_end().ends_with("in");
        Ok(StockSize {
            name: page.name,
            sides: [page.width, page.height],
            unit: if is_inch {
                Unit::Inch
            } else {
                Unit::Millimetre
            },
        })
    }
}

impl FromStr for Count {
    type Err = String;

    fn from_str(text: &str) -> Result<Count, String> {
        let (name, number) = match text.rsplit_once('=') {
            Some((name, number)) => (Some(name.trim().to_owned()), number),
            None => (None, text),
        };
        match number.trim().parse() {
            Ok(number) if (1..=MOST).contains(&number) => Ok(Count { name, number }),
            _ => Err(format!(
                "give a number from 1 to {MOST}, as in 10, or in barometer=10 for one job"
            )),
        }
    }
}

/// A length from 0 to 1000 mm with its unit.
fn from_zero(text: &str) -> Result<Length, String> {
    let has_unit = text.contains(|letter: char| letter.is_alphabetic() || letter == '"');
    let written = as_people_write(text, Unit::Millimetre).filter(|_| has_unit);
    let length = written.filter(|written| written.mm <= 1000.0);
    let length = length.and_then(|written| Length::new(written.mm).ok());
    length.ok_or_else(|| {
        "give a length from 0 to 1000 mm with its unit, as in 3mm or 1/8in".to_owned()
    })
}
