//! The dimensions of a tray for its maker, one line each, in the maker's unit.
//!
//! **Input:** a checked job. **Output:** a table in 80 columns: the folded tray in its box, every opening, the walls,
//! the blank and the paper that holds it, then the style's own measures. A measure that was not computed is left out.

use traywright_engine::job::{Item, ReadHinge};
use traywright_engine::measure::{FieldMeasure, ItemMeasure, Measured, TrayMeasure};
use traywright_engine::wording::{length, size};

use crate::checked_job::CheckedJob;
use crate::report::paper::PaperFit;
use crate::report::sentence::paragraph;

/// The whole table.
pub fn table(checked_job: &CheckedJob) -> String {
    let mut lines = vec![outside(checked_job), clearance(checked_job)];
    lines.extend(openings(checked_job));
    lines.extend([
        deck(checked_job).filter(|_| checked_job.job.has_box()),
        walls(checked_job),
        fold_lines(checked_job),
        blank(checked_job),
        of_style(checked_job),
    ]);
    lines.into_iter().flatten().collect()
}

/// The main lines: the tray in its box, how each kind of item is held, where the card folds, and the paper.
pub fn short(checked_job: &CheckedJob) -> String {
    let mut lines = vec![outside(checked_job), clearance(checked_job)];
    let held = checked_job.report().proofs.iter();
    let held = held.filter(|passed| passed.name() == "items");
    let mut held: Vec<String> = held
        .flat_map(|passed| passed.parts(checked_job.job.unit))
        .collect();
    let more = held.len().saturating_sub(MOST_ITEMS);
    held.truncate(MOST_ITEMS);
    lines.extend(held.iter().map(|part| {
        let (item, words) = part.split_once(": ").unwrap_or(("", part));
        line(item, words)
    }));
    if more > 0 {
        lines.push(line("", &format!("and {more} more")));
    }
    lines.extend([fold_lines(checked_job), blank(checked_job)]);
    lines.into_iter().flatten().collect()
}

/// Maximum number of kinds of items with their own line in a short report.
// Source: a choice of this project: twelve lines in all.
const MOST_ITEMS: usize = 5;

/// The sheet that holds the blank in one piece: the job's page, or else the smallest possible one.
pub fn sheet(checked_job: &CheckedJob) -> Option<PaperFit> {
    let blank = blank_size(checked_job)?;
    let page = checked_job.job.output.paper.page();
    PaperFit::own(blank, page).or_else(|| PaperFit::smallest(blank, page, checked_job.job.unit))
}

fn line(label: &str, words: &str) -> Option<String> {
    Some(row(label, words))
}

/// A line of a table: its label, and the words, wrapped in their own column.
pub fn row(label: &str, words: &str) -> String {
    paragraph(&format!("  {label:<21} "), words)
}

fn blank_size(checked_job: &CheckedJob) -> Option<[f64; 2]> {
    let measure = |measure| checked_job.measure(measure);
    Some([
        measure(TrayMeasure::BlankLength)?,
        measure(TrayMeasure::BlankWidth)?,
    ])
}

fn outside(checked_job: &CheckedJob) -> Option<String> {
    let measure = |measure| checked_job.measure(measure);
    let outside = [
        measure(TrayMeasure::FoldedLength)?,
        measure(TrayMeasure::FoldedWidth)?,
        measure(TrayMeasure::FoldedDepth)?,
    ];
    line(
        "Folded tray, outside",
        &size(&outside, checked_job.job.unit),
    )
}

fn clearance(checked_job: &CheckedJob) -> Option<String> {
    let written = |measure| {
        let play = checked_job.measure(measure)?;
        Some(length(play, checked_job.job.unit))
    };
    let along = written(TrayMeasure::BoxClearanceLength)?;
    let across = written(TrayMeasure::BoxClearanceWidth)?;
    let up = written(TrayMeasure::BoxClearanceDepth)?;
    let words = format!(
        "{along} lengthwise and {across} widthwise, both sides together; {up} under the lid of the box"
    );
    line("Clearance in box", &words)
}

/// The openings, with one line for equal ones of one kind of item.
fn openings(checked_job: &CheckedJob) -> Vec<Option<String>> {
    let mut told: Vec<(String, String, usize)> = Vec::new();
    for (number, item) in checked_job.job.items.iter().enumerate() {
        let Some(words) = opening(checked_job, number, item) else {
            continue;
        };
        let is_repeat = item.number > 1;
        match told
            .last_mut()
            .filter(|(_, last, _)| is_repeat && *last == words)
        {
            Some((_, _, count)) => *count += 1,
            None => told.push((item.name.clone(), words, 1)),
        }
    }
    let label = |name: String, count: usize| match count {
        1 => name,
        _ => format!("{count} × {name}"),
    };
    told.into_iter()
        .map(|(name, words, count)| line(&label(name, count), &words))
        .collect()
}

fn opening(checked_job: &CheckedJob, number: usize, item: &Item) -> Option<String> {
    let unit = checked_job.job.unit;
    let sides = |length, width| {
        let measure = |measure| checked_job.item_measure(number, measure);
        Some([measure(length)?, measure(width)?])
    };
    let slot = sides(ItemMeasure::SlotLength, ItemMeasure::SlotWidth)?;
    let mut words = format!("opening {} crease to crease", size(&slot, unit));
    // The measures of an item are in its orientation in the tray, so they show whether it was rotated.
    let turned = sides(ItemMeasure::ItemLength, ItemMeasure::ItemWidth);
    if turned.is_some() {
        words.push_str(" for the item rotated 90°");
    }
    if let Some([along, across]) = sides(ItemMeasure::ClearLength, ItemMeasure::ClearWidth) {
        let [length, width] = turned.unwrap_or([item.length.mm(), item.width.mm()]);
        let play = size(&[along - length, across - width], unit);
        words.push_str(&format!(
            "; {} clear once it is folded; clearance {play}",
            size(&[along, across], unit)
        ));
    }
    for measure in [
        ItemMeasure::BelowDeck,
        ItemMeasure::FlapDepth,
        ItemMeasure::FlapLimit,
    ] {
        let Some(value) = checked_job.item_measure(number, measure) else {
            continue;
        };
        let written = length(value.abs(), unit);
        let more = match measure {
            ItemMeasure::BelowDeck if value < 0.0 => format!("item top {written} above the deck"),
            ItemMeasure::BelowDeck => format!("item top {written} below the deck"),
            measure => format!("{} {}", spoken(measure.name()), length(value, unit)),
        };
        if measure == ItemMeasure::FlapLimit {
            words.push_str(&format!(
                " (at most {}, or it meets the floor)",
                length(value, unit)
            ));
        } else {
            words.push_str(&format!("; {more}"));
        }
    }
    Some(words)
}

fn deck(checked_job: &CheckedJob) -> Option<String> {
    let measure = |measure| checked_job.measure(measure);
    let deck = [
        measure(TrayMeasure::DeckLength)?,
        measure(TrayMeasure::DeckWidth)?,
    ];
    let label = match checked_job.has_floor {
        true => "Floor",
        false => "Deck",
    };
    line(
        label,
        &format!("{}, crease to crease", size(&deck, checked_job.job.unit)),
    )
}

fn walls(checked_job: &CheckedJob) -> Option<String> {
    let height = checked_job.wall_height()?;
    line(
        "Side walls",
        &format!("{} high, flat size", length(height, checked_job.job.unit)),
    )
}

/// Position of the fold lines, if a strip of the card was read.
fn fold_lines(checked_job: &CheckedJob) -> Option<String> {
    let (board, unit) = (&checked_job.job.board, checked_job.job.unit);
    let unsure = length(board.hinge_uncertainty()?, unit);
    if matches!(board.read_hinge(), Some(ReadHinge::Impossible(_))) {
        return None;
    }
    let hinge = length(board.hinge(), unit);
    line(
        "Fold lines",
        &format!(
            "{hinge} from the middle of the card towards the inside, ±{unsure}: read on the strip"
        ),
    )
}

fn blank(checked_job: &CheckedJob) -> Option<String> {
    let unit = checked_job.job.unit;
    let blank = blank_size(checked_job)?;
    let page = checked_job.job.output.paper.page();
    let paper = match sheet(checked_job) {
        Some(sheet) if sheet.name == page.name => format!("fits one sheet of {}", sheet.words()),
        Some(sheet) => format!(
            "prints on several {} sheets, or on one sheet of {}",
            page.name,
            sheet.words()
        ),
        None => format!("larger than {} and every built-in page size", page.name),
    };
    let margin = length(page.margin.mm(), unit);
    line(
        "Blank",
        &format!("{}: {paper} (margin {margin})", size(&blank, unit)),
    )
}

/// Measures that the style names, and those of the fields of openings.
fn of_style(checked_job: &CheckedJob) -> Option<String> {
    let measures = checked_job.report().measures.iter();
    let own: Vec<String> = measures
        .filter_map(|measure| {
            let name = match &measure.of {
                Measured::Style(name) if !measure.of.is_wall_height() => spoken(name),
                Measured::Field { opening, measure } => of_field(opening.as_deref(), *measure),
                Measured::Style(_) | Measured::Tray(_) | Measured::Item { .. } => return None,
            };
            Some(format!(
                "{name} {}",
                length(measure.value, checked_job.job.unit)
            ))
        })
        .collect();
    if own.is_empty() {
        None
    } else {
        let label = match checked_job.job.has_box() {
            true => "Other dimensions",
            false => "Measures",
        };
        line(label, &own.join("; "))
    }
}

/// The name of a length of the field in which openings are arranged, with the field's opening if there are several.
fn of_field(opening: Option<&str>, measure: FieldMeasure) -> String {
    let name = match measure {
        FieldMeasure::Length => "room for openings lengthwise",
        FieldMeasure::Width => "room for openings widthwise",
        FieldMeasure::LeastWeb => "narrowest web (card between openings)",
    };
    opening.map_or_else(|| name.to_owned(), |opening| format!("{opening}: {name}"))
}

fn spoken(name: &str) -> String {
    name.replace(['_', '-'], " ")
}
