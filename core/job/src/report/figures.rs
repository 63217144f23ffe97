//! The figures by which trays are compared.
//!
//! **Input:** a checked job. **Output:** its verdict, blank and sheet, and of all its items the least or the most that
//! matters. A measure that was not computed is left out.

use traywright_engine::Level;
use traywright_engine::job::Unit;
use traywright_engine::measure::{ItemMeasure, Measured, TrayMeasure};

use super::dimensions;
use super::json::word;
use crate::checked_job::{CheckedJob, TrayVerdict};

/// The figures of one tray. Lengths are in mm.
#[derive(Clone, Debug, PartialEq)]
pub struct Figures {
    /// The verdict.
    pub verdict: TrayVerdict,
    /// The unit in which the maker reads lengths.
    pub unit: Unit,
    /// The blank along the box's length and width.
    pub blank: Option<[f64; 2]>,
    /// The sheet of paper that holds the blank in one piece: the job's page, or else the smallest.
    pub sheet: Option<String>,
    /// What the tray has to spare in its box, in the direction where that is least.
    pub box_clearance: Option<f64>,
    /// What an item has to spare between the folded flaps, where that is least.
    pub play: Option<f64>,
    /// How far an item goes along the box or across it, to and fro, where that is most.
    pub travel: Option<f64>,
    /// The height that an item shares with what stops it, where that is least; 0 where it slides.
    pub bears: Option<f64>,
    /// How far an item can rise, where that is most.
    pub rise: Option<f64>,
    /// The codes of the errors.
    pub errors: Vec<String>,
    /// The codes of the warnings.
    pub warnings: Vec<String>,
}

impl Figures {
    /// The figures of a checked job.
    pub fn of(checked: &CheckedJob) -> Figures {
        let of_tray = |measure| checked.measure(measure);
        let blank = of_tray(TrayMeasure::BlankLength).zip(of_tray(TrayMeasure::BlankWidth));
        let clearances = [
            TrayMeasure::BoxClearanceLength,
            TrayMeasure::BoxClearanceWidth,
            TrayMeasure::BoxClearanceDepth,
        ];
        let of_items = |wanted: &[ItemMeasure]| of_items(checked, wanted);
        let travel = of_items(&[ItemMeasure::TravelLength, ItemMeasure::TravelWidth]);
        let bears = of_items(&[ItemMeasure::BearsLength, ItemMeasure::BearsWidth]);
        Figures {
            verdict: checked.verdict(),
            unit: checked.job.unit,
            blank: blank.map(|(length, width)| [length, width]),
            sheet: dimensions::sheet(checked).map(|sheet| sheet.name),
            box_clearance: least(clearances.into_iter().filter_map(of_tray)),
            play: least(of_items(&[ItemMeasure::Play]).into_iter()),
            travel: most(travel.into_iter()),
            bears: least(bears.into_iter()),
            rise: most(of_items(&[ItemMeasure::Rise]).into_iter()),
            errors: codes(checked, Level::Error),
            warnings: codes(checked, Level::Warning),
        }
    }

    /// The verdict as programs read it.
    pub fn verdict_word(&self) -> &'static str {
        word(self.verdict)
    }

    /// The codes of what is wrong: of the errors, or if there are none, of the warnings.
    pub fn reasons(&self) -> &[String] {
        match self.errors.is_empty() {
            false => &self.errors,
            true => &self.warnings,
        }
    }

    /// The blank in the maker's unit, without its sign.
    pub fn blank_cell(&self) -> String {
        let side = |mm: f64| self.unit.figure(mm);
        let blank = self.blank.map(|sides| sides.map(side).join(" × "));
        blank.unwrap_or_else(missing)
    }

    /// The sheet, or a sign that there is none.
    pub fn sheet_cell(&self) -> String {
        self.sheet.clone().unwrap_or_else(missing)
    }
}

/// The cell of a value that was not computed.
pub(super) fn missing() -> String {
    "-".to_owned()
}

fn of_items(checked: &CheckedJob, wanted: &[ItemMeasure]) -> Vec<f64> {
    let measures = checked.report().measures.iter();
    measures
        .filter(|measure| matches!(&measure.of, Measured::Item { measure, .. } if wanted.contains(measure)))
        .map(|measure| measure.value)
        .collect()
}

fn least(values: impl Iterator<Item = f64>) -> Option<f64> {
    values.reduce(f64::min)
}

fn most(values: impl Iterator<Item = f64>) -> Option<f64> {
    values.reduce(f64::max)
}

/// Each code once, in the order of the report.
fn codes(checked: &CheckedJob, level: Level) -> Vec<String> {
    let mut codes: Vec<String> = Vec::new();
    for finding in checked.findings(level) {
        if !codes.iter().any(|code| code == finding.code()) {
            codes.push(finding.code().to_owned());
        }
    }
    codes
}
