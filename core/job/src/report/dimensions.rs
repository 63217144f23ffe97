//! The figures that a maker wants of a tray, a line each, in the maker's unit.
//!
//! Given a judgement, gives a table in 80 columns: the folded tray in its box, every opening, the walls, the blank and
//! the paper that holds it, then what the style reports of its own. A figure that was not reached is left out.

use traywright_engine::job::Item;
use traywright_engine::wording::{length, size};

use crate::checked_job::CheckedJob;
use crate::report::paper::PaperFit;
use crate::report::sentence::paragraph;

/// Codes of findings that say nothing but what stands in the table.
pub const IN_FIGURES: [&str; 1] = ["clear-opening"];

/// Names of figures that have a line of their own, and beginnings of those that share one.
const PLACED: [&str; 5] = [
    "deck_",
    "wall_height",
    "folded_",
    "box_clearance_",
    "blank_",
];

/// The whole table.
pub fn table(checked_job: &CheckedJob) -> String {
    let mut lines = vec![outside(checked_job), clearance(checked_job)];
    lines.extend(
        checked_job
            .job
            .items
            .iter()
            .map(|item| opening(checked_job, item)),
    );
    lines.extend([
        deck(checked_job),
        walls(checked_job),
        blank(checked_job),
        of_style(checked_job),
    ]);
    lines.into_iter().flatten().collect()
}

/// The sheet that holds the blank in one piece: the job's page, or else the smallest.
pub fn sheet(checked_job: &CheckedJob) -> Option<PaperFit> {
    let blank = pair(checked_job, "blank_length", "blank_width")?;
    let page = &checked_job.job.page;
    PaperFit::own(blank, page).or_else(|| PaperFit::smallest(blank, page, checked_job.job.unit))
}

fn line(label: &str, words: &str) -> Option<String> {
    Some(row(label, words))
}

/// A line of a table: what it is about, and the words, wrapped beside it.
pub fn row(label: &str, words: &str) -> String {
    paragraph(&format!("  {label:<17} "), words)
}

fn pair(checked_job: &CheckedJob, first: &str, second: &str) -> Option<[f64; 2]> {
    Some([checked_job.measure(first)?, checked_job.measure(second)?])
}

fn triple(checked_job: &CheckedJob, stem: &str) -> Option<[f64; 3]> {
    let along = |direction| checked_job.measure(&format!("{stem}_{direction}"));
    Some([along("length")?, along("width")?, along("depth")?])
}

fn outside(checked_job: &CheckedJob) -> Option<String> {
    line(
        "Folded, outside",
        &size(&triple(checked_job, "folded")?, checked_job.job.unit),
    )
}

fn clearance(checked_job: &CheckedJob) -> Option<String> {
    let [along, across, up] =
        triple(checked_job, "box_clearance")?.map(|play| length(play, checked_job.job.unit));
    let words = format!("length {along}, width {across}, depth {up}: totals, not at each side");
    line("Play in the box", &words)
}

fn opening(checked_job: &CheckedJob, item: &Item) -> Option<String> {
    let unit = checked_job.job.unit;
    let sides = |stem: &str| {
        pair(
            checked_job,
            &format!("{stem}_length.{}", item.name),
            &format!("{stem}_width.{}", item.name),
        )
    };
    let mut words = format!("opening {}", size(&sides("slot")?, unit));
    // Of an item that was turned the figures say how it lies.
    let turned = sides("item");
    if turned.is_some() {
        words.push_str(" for the item turned a quarter round");
    }
    if let Some([along, across]) = sides("clear") {
        let [length, width] = turned.unwrap_or([item.length, item.width]);
        let play = size(&[along - length, across - width], unit);
        words.push_str(&format!(
            ", {} of it clear, so {play} to spare",
            size(&[along, across], unit)
        ));
    }
    for measure in &checked_job.report().measures {
        let own = measure
            .name
            .strip_suffix(&item.name)
            .and_then(|name| name.strip_suffix('.'));
        let new = |name: &&str| {
            !["item_", "slot_", "clear_", "play"]
                .iter()
                .any(|told| name.starts_with(told))
        };
        if let Some(name) = own.filter(new) {
            let told = match name {
                "below_deck" if measure.value < 0.0 => {
                    format!("{} above the deck", length(-measure.value, unit))
                }
                "below_deck" => format!("{} below the deck", length(measure.value, unit)),
                name => format!("{} {}", spoken(name), length(measure.value, unit)),
            };
            words.push_str(&format!("; {told}"));
        }
    }
    line(&item.name, &words)
}

fn deck(checked_job: &CheckedJob) -> Option<String> {
    let deck = pair(checked_job, "deck_length", "deck_width")?;
    line(
        "Deck",
        &format!("{}, crease to crease", size(&deck, checked_job.job.unit)),
    )
}

fn walls(checked_job: &CheckedJob) -> Option<String> {
    let height = checked_job.measure("wall_height")?;
    line(
        "Side walls",
        &format!("{} high, flat", length(height, checked_job.job.unit)),
    )
}

fn blank(checked_job: &CheckedJob) -> Option<String> {
    let unit = checked_job.job.unit;
    let blank = pair(checked_job, "blank_length", "blank_width")?;
    let page = &checked_job.job.page;
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
    let margin = length(page.margin, unit);
    line(
        "Blank",
        &format!("{}: {paper} (margin {margin})", size(&blank, unit)),
    )
}

/// Figures that the style names, and of which nothing else is known here.
fn of_style(checked_job: &CheckedJob) -> Option<String> {
    let of_item = |name: &str| {
        checked_job
            .job
            .items
            .iter()
            .any(|item| name.ends_with(&format!(".{}", item.name)))
    };
    let placed = |name: &str| PLACED.iter().any(|stem| name.starts_with(stem)) || of_item(name);
    let own: Vec<String> = checked_job
        .report()
        .measures
        .iter()
        .filter(|measure| !placed(&measure.name))
        .map(|measure| {
            format!(
                "{} {}",
                spoken(&measure.name),
                length(measure.value, checked_job.job.unit)
            )
        })
        .collect();
    if own.is_empty() {
        None
    } else {
        line("Other parts", &own.join("; "))
    }
}

fn spoken(name: &str) -> String {
    name.replace(['_', '-'], " ")
}
