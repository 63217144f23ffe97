//! The figures that a maker wants of a tray, a line each, in the maker's unit.
//!
//! Given a checked job, gives a table in 80 columns: the folded tray in its box, every opening, the walls, the blank and
//! the paper that holds it, then what the style reports of its own. A figure that was not reached is left out.

use traywright_engine::job::{Item, ReadHinge};
use traywright_engine::measure::{ItemMeasure, Measured, TrayMeasure};
use traywright_engine::wording::{length, size};

use crate::checked_job::CheckedJob;
use crate::report::paper::PaperFit;
use crate::report::sentence::paragraph;

/// The whole table.
pub fn table(checked_job: &CheckedJob) -> String {
    let mut lines = vec![outside(checked_job), clearance(checked_job)];
    lines.extend(
        checked_job
            .job
            .items
            .iter()
            .enumerate()
            .map(|(number, item)| opening(checked_job, number, item)),
    );
    lines.extend([
        deck(checked_job).filter(|_| checked_job.job.has_box()),
        walls(checked_job),
        fold_lines(checked_job),
        blank(checked_job),
        of_style(checked_job),
    ]);
    lines.into_iter().flatten().collect()
}

/// The sheet that holds the blank in one piece: the job's page, or else the smallest.
pub fn sheet(checked_job: &CheckedJob) -> Option<PaperFit> {
    let blank = blank_size(checked_job)?;
    let page = checked_job.job.output.paper.page();
    PaperFit::own(blank, page).or_else(|| PaperFit::smallest(blank, page, checked_job.job.unit))
}

fn line(label: &str, words: &str) -> Option<String> {
    Some(row(label, words))
}

/// A line of a table: what it is about, and the words, wrapped beside it.
pub fn row(label: &str, words: &str) -> String {
    paragraph(&format!("  {label:<17} "), words)
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
    line("Folded, outside", &size(&outside, checked_job.job.unit))
}

fn clearance(checked_job: &CheckedJob) -> Option<String> {
    let written = |measure| {
        let play = checked_job.measure(measure)?;
        Some(length(play, checked_job.job.unit))
    };
    let along = written(TrayMeasure::BoxClearanceLength)?;
    let across = written(TrayMeasure::BoxClearanceWidth)?;
    let up = written(TrayMeasure::BoxClearanceDepth)?;
    let words = format!("length {along}, width {across}, depth {up}: totals, not at each side");
    line("Play in the box", &words)
}

fn opening(checked_job: &CheckedJob, number: usize, item: &Item) -> Option<String> {
    let unit = checked_job.job.unit;
    let sides = |length, width| {
        let measure = |measure| checked_job.item_measure(number, measure);
        Some([measure(length)?, measure(width)?])
    };
    let slot = sides(ItemMeasure::SlotLength, ItemMeasure::SlotWidth)?;
    let mut words = format!("opening {}", size(&slot, unit));
    // Of an item that was turned the measures say how it lies.
    let turned = sides(ItemMeasure::ItemLength, ItemMeasure::ItemWidth);
    if turned.is_some() {
        words.push_str(" for the item turned a quarter round");
    }
    if let Some([along, across]) = sides(ItemMeasure::ClearLength, ItemMeasure::ClearWidth) {
        let [length, width] = turned.unwrap_or([item.length.mm(), item.width.mm()]);
        let play = size(&[along - length, across - width], unit);
        words.push_str(&format!(
            ", {} of it clear, so {play} to spare",
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
            ItemMeasure::BelowDeck if value < 0.0 => format!("{written} above the deck"),
            ItemMeasure::BelowDeck => format!("{written} below the deck"),
            measure => format!("{} {}", spoken(measure.name()), length(value, unit)),
        };
        words.push_str(&format!("; {more}"));
    }
    line(&item.name, &words)
}

fn deck(checked_job: &CheckedJob) -> Option<String> {
    let measure = |measure| checked_job.measure(measure);
    let deck = [
        measure(TrayMeasure::DeckLength)?,
        measure(TrayMeasure::DeckWidth)?,
    ];
    line(
        "Deck",
        &format!("{}, crease to crease", size(&deck, checked_job.job.unit)),
    )
}

fn walls(checked_job: &CheckedJob) -> Option<String> {
    let height = checked_job.wall_height()?;
    line(
        "Side walls",
        &format!("{} high, flat", length(height, checked_job.job.unit)),
    )
}

/// Where the card folds, if a strip of it was read.
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
            "too large for {}, fits one sheet of {}",
            page.name,
            sheet.words()
        ),
        None => format!(
            "too large for {} and every other page known here",
            page.name
        ),
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
    let own = measures.filter(|measure| match measure.of {
        Measured::Style(_) => !measure.of.is_wall_height(),
        Measured::Field { .. } => true,
        Measured::Tray(_) | Measured::Item { .. } => false,
    });
    let own: Vec<String> = own
        .map(|measure| {
            let name = spoken(&measure.of.to_string());
            format!("{name} {}", length(measure.value, checked_job.job.unit))
        })
        .collect();
    if own.is_empty() {
        None
    } else {
        let label = match checked_job.job.has_box() {
            true => "Other parts",
            false => "Measures",
        };
        line(label, &own.join("; "))
    }
}

fn spoken(name: &str) -> String {
    name.replace(['_', '-'], " ")
}
