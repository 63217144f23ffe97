//! A comparison of variations of one job: for people, for programs and for a spreadsheet.
//!
//! **Input:** the values of each variation, and its figures. **Output:** one table in 80 columns, an array in JSON, or
//! lines of comma-separated values. What does not vary is said once. Lengths in JSON and CSV are mm.

use serde::Serialize;

use super::figures::{Figures, missing};
use super::json::number;
use super::sentence::paragraph;
use super::table::{Column, WIDTH, table, width};
use crate::checked_job::{CheckedJob, TrayVerdict};
use crate::vary::Combination;

/// One variation with what came of it.
#[derive(Clone, Debug, PartialEq)]
pub struct Variant {
    combination: Combination,
    figures: Figures,
    /// What holds each item.
    holds: Vec<String>,
}

impl Variant {
    /// What came of a variation.
    pub fn of(combination: &Combination, checked: &CheckedJob) -> Variant {
        let proofs = checked.report().proofs.iter();
        let items = proofs.filter(|passed| passed.name() == "items");
        Variant {
            combination: combination.clone(),
            figures: Figures::of(checked),
            holds: items
                .flat_map(|passed| passed.parts(checked.job.unit))
                .collect(),
        }
    }

    /// Whether its tray fits.
    pub fn fits(&self) -> bool {
        !matches!(self.figures.verdict, TrayVerdict::DoesNotFit)
    }

    fn verdict(&self) -> String {
        match self.figures.verdict {
            TrayVerdict::Fits => "fits".to_owned(),
            TrayVerdict::Watch(_) => "watch".to_owned(),
            TrayVerdict::DoesNotFit => "no".to_owned(),
        }
    }

    fn length(&self, mm: Option<f64>) -> String {
        mm.map_or_else(missing, |mm| self.figures.unit.figure(mm))
    }
}

/// The table for people.
pub fn text(job: &str, variants: &[Variant]) -> String {
    let Some(first) = variants.first() else {
        return String::new();
    };
    let varied = (0..first.combination.values.len()).map(|place| {
        let value = |variant: &Variant| variant.combination.values[place].1.clone();
        Column::new(
            &first.combination.values[place].0,
            variants.iter().map(value),
        )
    });
    let (same, mut columns): (Vec<Column>, Vec<Column>) = varied
        .chain(figures(variants))
        .partition(|column| variants.len() > 1 && column.same().is_some());
    let mut left_out = Vec::new();
    while width(&columns) > WIDTH && columns.len() > 1 {
        left_out.extend(columns.pop().map(|column| column.heading));
    }
    let reasons: Vec<String> = variants
        .iter()
        .map(|variant| variant.figures.reasons().join(", "))
        .collect();
    let mut said = paragraph("", &headline(job, variants));
    said.push('\n');
    said.push_str(&table(&columns, &reasons));
    said.push('\n');
    if !same.is_empty() {
        said.push_str(&paragraph(
            "",
            &format!("The same in all: {}.", alike(&same)),
        ));
    }
    if !left_out.is_empty() {
        left_out.reverse();
        let words = format!(
            "No room for {}: `--format csv` has every column.",
            left_out.join(", ")
        );
        said.push_str(&paragraph("", &words));
    }
    said.push_str(&paragraph("", &legend(first)));
    said
}

/// How many variations there are, and how many of them fit.
fn headline(job: &str, variants: &[Variant]) -> String {
    let count = |wanted: &str| {
        let found = variants
            .iter()
            .filter(|variant| variant.verdict() == wanted);
        found.count()
    };
    format!(
        "{job}: {} variations. Verdict fits: {}; watch (fits, with warnings): {}; no (does not fit): {}.",
        variants.len(),
        count("fits"),
        count("watch"),
        count("no")
    )
}

fn figures(variants: &[Variant]) -> Vec<Column> {
    let column = |heading: &str, cell: &dyn Fn(&Variant) -> String| {
        Column::new(heading, variants.iter().map(cell))
    };
    let length = |heading: &str, of: fn(&Figures) -> Option<f64>| {
        column(heading, &|variant| variant.length(of(&variant.figures)))
    };
    vec![
        column("verdict", &Variant::verdict),
        column("blank", &|variant| variant.figures.blank_cell()),
        column("sheet", &|variant| variant.figures.sheet_cell()),
        length("play", |figures| figures.play),
        length("bears", |figures| figures.bears),
        length("rise", |figures| figures.rise),
        length("travel", |figures| figures.travel),
        length("in box", |figures| figures.box_clearance),
    ]
}

fn alike(same: &[Column]) -> String {
    let said = |column: &Column| format!("{} {}", column.heading, column.same().unwrap_or("-"));
    same.iter().map(said).collect::<Vec<_>>().join("; ")
}

fn legend(first: &Variant) -> String {
    format!(
        "Lengths in {}. sheet: the paper that holds the blank in one piece. Of the items: play, the least that one has \
         to spare between its flaps; bears, the least height that it shares with what stops it; rise and travel, how far \
         one can rise and slide. in box: the least that the tray has to spare in its box. Below a row: the codes of what \
         is wrong.",
        first.figures.unit.sign()
    )
}

/// One variation for programs.
// Source: core/CONTRACT.md, "check --vary".
#[derive(Serialize)]
struct JsonVariant<'a> {
    values: Vec<JsonValue<'a>>,
    fits: bool,
    verdict: &'static str,
    blank_length: Option<f64>,
    blank_width: Option<f64>,
    sheet: Option<&'a str>,
    box_clearance: Option<f64>,
    play: Option<f64>,
    bears: Option<f64>,
    rise: Option<f64>,
    travel: Option<f64>,
    holds: &'a [String],
    errors: &'a [String],
    warnings: &'a [String],
}

#[derive(Serialize)]
struct JsonValue<'a> {
    node: &'a str,
    item: Option<&'a str>,
    key: &'a str,
    to: &'a str,
}

impl<'a> JsonVariant<'a> {
    fn of(variant: &'a Variant) -> Self {
        let figures = &variant.figures;
        let values = variant.combination.changes.iter().map(|change| JsonValue {
            node: change.node,
            item: change.item.as_deref(),
            key: &change.key,
            to: &change.to,
        });
        JsonVariant {
            values: values.collect(),
            fits: variant.fits(),
            verdict: figures.verdict_word(),
            blank_length: figures.blank.and_then(|blank| number(blank[0])),
            blank_width: figures.blank.and_then(|blank| number(blank[1])),
            sheet: figures.sheet.as_deref(),
            box_clearance: figures.box_clearance.and_then(number),
            play: figures.play.and_then(number),
            bears: figures.bears.and_then(number),
            rise: figures.rise.and_then(number),
            travel: figures.travel.and_then(number),
            holds: &variant.holds,
            errors: &figures.errors,
            warnings: &figures.warnings,
        }
    }
}

/// The array for programs.
pub fn json(variants: &[Variant]) -> String {
    let all: Vec<JsonVariant<'_>> = variants.iter().map(JsonVariant::of).collect();
    super::json::written(&all) + "\n"
}

/// The names of the columns behind the places.
// Source: core/CONTRACT.md, "check --vary".
const CSV_COLUMNS: [&str; 12] = [
    "verdict",
    "blank_length",
    "blank_width",
    "sheet",
    "box_clearance",
    "play",
    "bears",
    "rise",
    "travel",
    "holds",
    "errors",
    "warnings",
];

/// The lines for a spreadsheet, with a line of names first.
// Source: RFC 4180 for commas and quotes; lines end as in all other output.
pub fn csv(variants: &[Variant]) -> String {
    let Some(first) = variants.first() else {
        return String::new();
    };
    let places = first
        .combination
        .values
        .iter()
        .map(|(place, _)| place.as_str());
    let mut text = csv_line(places.chain(CSV_COLUMNS).map(str::to_owned));
    for variant in variants {
        let figures = &variant.figures;
        let values = variant
            .combination
            .values
            .iter()
            .map(|(_, value)| value.clone());
        let length = |mm: Option<f64>| mm.and_then(number).map(|mm| mm.to_string());
        let lengths = [
            figures.box_clearance,
            figures.play,
            figures.bears,
            figures.rise,
            figures.travel,
        ];
        let mut cells = vec![
            figures.verdict_word().to_owned(),
            length(figures.blank.map(|blank| blank[0])).unwrap_or_default(),
            length(figures.blank.map(|blank| blank[1])).unwrap_or_default(),
            figures.sheet.clone().unwrap_or_default(),
        ];
        cells.extend(lengths.map(|mm| length(mm).unwrap_or_default()));
        cells.push(variant.holds.join("; "));
        cells.push(figures.errors.join(" "));
        cells.push(figures.warnings.join(" "));
        text.push_str(&csv_line(values.chain(cells)));
    }
    text
}

fn csv_line(cells: impl Iterator<Item = String>) -> String {
    let cell = |cell: String| match cell.contains([',', '"', '\n']) {
        true => format!("\"{}\"", cell.replace('"', "\"\"")),
        false => cell,
    };
    cells.map(cell).collect::<Vec<_>>().join(",") + "\n"
}

#[cfg(test)]
mod tests {
    use super::csv_line;

    // Source: RFC 4180, section 2, rules 5 to 7.
    #[test]
    fn a_cell_with_a_comma_or_a_quote_stands_in_quotes() {
        let cells = ["plain", "lengthwise, widthwise", "3 \"of\" 4", ""].map(str::to_owned);
        assert_eq!(
            csv_line(cells.into_iter()),
            "plain,\"lengthwise, widthwise\",\"3 \"\"of\"\" 4\",\n"
        );
    }
}
