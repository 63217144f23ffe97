//! The table of sheets, and what is said after the files are written.

use std::path::PathBuf;

use traywright_document::Extent;
use traywright_job::report::sentence::paragraph;
use traywright_nest::{Nesting, Sheet};

use super::{NestedTray, pieces};
use crate::args::NestArguments;

/// The table: a row for each sheet, and the sum.
pub(super) fn of(nesting: &Nesting, trays: &[NestedTray], asked: &NestArguments) -> String {
    let mut rows = vec![["sheet", "cut", "use", "largest rest", "blanks"].map(str::to_owned)];
    for (index, sheet) in nesting.sheets.iter().enumerate() {
        rows.push([
            (index + 1).to_string(),
            format!("{} x", sheet.copies),
            percent(sheet.use_share),
            rest(&sheet.left_over, asked),
            blanks(sheet, trays),
        ]);
    }
    let widths: Vec<usize> = (0..4)
        .map(|column| {
            rows.iter()
                .map(|row| row[column].chars().count())
                .max()
                .unwrap_or(0)
        })
        .collect();
    let mut text = String::new();
    for [sheet, cut, used, rest, blanks] in &rows {
        text.push_str(&format!(
            "{sheet:>0$}  {cut:>1$}  {used:>2$}  {rest:>3$}  {blanks}\n",
            widths[0], widths[1], widths[2], widths[3]
        ));
    }
    text + "\n" + &sum(nesting, trays, asked)
}

/// How many sheets to buy, and how much of them is used.
fn sum(nesting: &Nesting, trays: &[NestedTray], asked: &NestArguments) -> String {
    let sheets = nesting.sheet_count();
    let blanks: usize = trays.iter().map(|tray| tray.count).sum();
    let used = nesting
        .sheets
        .iter()
        .map(|sheet| sheet.use_share * sheet.copies as f64);
    let share = used.sum::<f64>() / sheets.max(1) as f64;
    let [sheets, blanks] = [(sheets, "sheet"), (blanks, "blank")]
        .map(|(count, word)| format!("{count} {word}{}", if count == 1 { "" } else { "s" }));
    let words = format!(
        "{blanks} on {sheets} of {}: the blanks are {} of the card.",
        asked.stock.name,
        percent(share)
    );
    paragraph("", &words)
}

/// The blanks of a sheet by job.
pub(super) fn blanks(sheet: &Sheet, trays: &[NestedTray]) -> String {
    let counted = trays.iter().enumerate().filter_map(|(piece, tray)| {
        let count = sheet
            .blanks
            .iter()
            .filter(|blank| blank.piece == piece)
            .count();
        (count > 0).then(|| format!("{count} {}", tray.name))
    });
    counted.collect::<Vec<_>>().join(", ")
}

fn percent(share: f64) -> String {
    format!("{:.1} %", 100.0 * share)
}

/// The largest rectangle that is left, in whole millimetres or tenths of an inch, rounded down.
fn rest(left: &Extent, asked: &NestArguments) -> String {
    let unit = pieces::unit(asked);
    let step = match unit {
        traywright_document::Unit::Millimetre => 1.0,
        traywright_document::Unit::Inch => 2.54,
    };
    let [length, width] = left
        .size()
        .map(|side| unit.figure((side / step).floor() * step));
    format!("{length} x {width} {}", unit.sign())
}

/// What the maker has to know beside the table, the files, and what to do next.
pub(super) fn after(
    trays: &[NestedTray],
    asked: &NestArguments,
    warnings: &[String],
    written: &[PathBuf],
) -> String {
    let mut said = String::new();
    let with_grain = trays.iter().any(|tray| tray.document.board.grain.is_some());
    if with_grain && asked.grain.is_none() {
        said.push_str(&paragraph(
            "",
            "The grain of the stock is taken to run along its length, the first number of its size; if it does not, add `--grain width`.",
        ));
    }
    if !with_grain && asked.grain.is_some() {
        said.push_str(&paragraph(
            "",
            "`--grain` has no effect: no job states the grain of its card, as in `board grain=\"length\"`.",
        ));
    }
    for warning in warnings {
        said.push_str(&paragraph("", warning));
    }
    let names: Vec<String> = written
        .iter()
        .map(|file| file.display().to_string())
        .collect();
    said.push_str(&paragraph("", &format!("Wrote {}.", names.join(", "))));
    let next = if pieces::by_machine(trays) {
        "Next: lay the card with its lower left corner at the machine's origin; cut each sheet as often as the table says."
    } else {
        "Next: cut each sheet as often as the table says. `traywright make` writes the booklet of each tray, with its folds."
    };
    said.push_str(&paragraph("", next));
    said
}
