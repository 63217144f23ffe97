//! `boards [WORD]`: card that a job can refer to by name, the thinnest first.
//!
//! Lists the boards with the word in their name, description, grammage, kind or status, and their sources; without a
//! word, all of them. Always adds that measuring beats the list, and how to measure.

use std::collections::BTreeSet;

use traywright_engine::job::BoardKind;
use traywright_job::lengths::trimmed;
use traywright_job::library::{Boards, Stock};
use traywright_job::nearest::suggestion;
use traywright_job::report::sentence::paragraph;

use crate::Verdict;
use crate::args::BoardsArguments;
use crate::error::CliError;
use crate::report::Output;

/// Maximum number of boards listed with their sources: a screen of them.
const WITH_SOURCES: usize = 6;

// Source: ISO 534:2011, abstract: a stack's thickness differs from that of a single sheet and is not meant for board;
// the standard does not cover corrugated board.
const MEASURING: &str = "Measuring beats this list. Measure one sheet with a caliper or a micrometer and write \
    `board caliper=(mm)0.3` with your figure. Second best: press ten sheets together, measure them and divide by ten; \
    loose sheets read too thick. Corrugated board is measured as it is, facings included.";

/// Lists the boards.
pub(crate) fn run(asked: &BoardsArguments, output: &Output) -> Result<Verdict, Vec<CliError>> {
    let boards = Boards::shipped();
    output.print_result(&listed(&boards, asked.word.as_deref())?)?;
    Ok(Verdict::Done)
}

fn listed(boards: &Boards, word: Option<&str>) -> Result<String, CliError> {
    let found: Vec<&Stock> = match word {
        Some(word) => boards.matching(word),
        None => boards.all().iter().collect(),
    };
    if found.is_empty() {
        return Err(no_match(boards, word.unwrap_or_default()));
    }
    let mut text = "caliper, mm     board                  grammage  figures\n".to_owned();
    for stock in &found {
        text.push_str(&board_row(stock, found.len() <= WITH_SOURCES));
    }
    text.push_str(&format!("\n{}", paragraph("", MEASURING)));
    Ok(text)
}

/// Thickness, name, grammage and status on one line, the description below.
fn board_row(stock: &Stock, with_source: bool) -> String {
    let tolerance = stock
        .tolerance
        .map(|tolerance| format!("± {:.3}", tolerance.mm()));
    let grammage = stock
        .grammage
        .map(|grammage| format!("{} g/m²", trimmed(grammage, 0)));
    let mut text = format!(
        "{:>6.3} {:<7}  {:<20}  {:>9}  {}\n",
        stock.caliper.mm(),
        tolerance.unwrap_or_default(),
        stock.name,
        grammage.unwrap_or_default(),
        stock.basis.words()
    );
    const BELOW: &str = "                ";
    text.push_str(&paragraph(
        BELOW,
        &format!("{}; {}", stock.about, folding(stock.kind)),
    ));
    if with_source {
        text.push_str(&paragraph(BELOW, &format!("source: {}", stock.source)));
    }
    text
}

/// The kind of board, and how its creases are made if that is unusual.
// Source: core/CONTRACT.md, "Job file".
fn folding(kind: BoardKind) -> &'static str {
    match kind {
        BoardKind::Carton => "carton",
        BoardKind::Solid => "solid: creases half-cut",
        BoardKind::Corrugated => "corrugated: its grain is the flutes",
    }
}

fn no_match(boards: &Boards, word: &str) -> CliError {
    let words: Vec<String> = boards
        .all()
        .iter()
        .map(|stock| stock.words().to_lowercase())
        .collect();
    let is_break = |c: char| !c.is_alphanumeric() && c != '-';
    let names = boards.all().iter().map(|stock| stock.name.as_str());
    let known: BTreeSet<&str> = words
        .iter()
        .flat_map(|words| words.split(is_break))
        .chain(names)
        .collect();
    let known: Vec<&str> = known.into_iter().filter(|word| word.len() > 2).collect();
    let hint = match suggestion(word, &known) {
        hint if hint.starts_with("did you mean") => hint,
        _ => "`traywright boards` lists all, and any card can be measured instead".to_owned(),
    };
    CliError::sentence(format_args!(
        "no board has `{word}` in its name or description; {hint}"
    ))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn list(word: Option<&str>) -> String {
        listed(&Boards::shipped(), word).unwrap_or_else(|error| panic!("{error:?}"))
    }

    // Source: the project's plan: sorted, with unit and status, readable in 80 columns; measuring beats the table.
    #[test]
    fn the_list_is_sorted_fits_the_terminal_and_tells_how_to_measure() {
        let all = list(None);
        let widest = all.lines().map(|line| line.chars().count()).max();
        assert!(widest <= Some(80), "{widest:?}");
        let calipers: Vec<f64> = all
            .lines()
            .filter_map(|line| line.get(..6)?.trim().parse().ok())
            .collect();
        assert_eq!(calipers.len(), Boards::shipped().all().len());
        assert!(calipers.is_sorted());
        for said in [
            "mm",
            "measure it",
            "published",
            "computed",
            "common practice",
            "Measuring beats",
        ] {
            assert!(all.contains(said), "{said}");
        }
    }

    #[test]
    fn a_word_narrows_the_list_and_shows_the_source() {
        let index = list(Some("Index-255"));
        // Source: JCP K10, February 1999.
        assert!(
            index.contains("0.290 ± 0.013") && index.contains("K10") && index.contains("255 g/m²"),
            "{index}"
        );
        assert!(!index.contains("copier"), "{index}");
        let remembered = list(Some("from memory"));
        assert!(
            remembered.contains("mount-board-1400") && !remembered.contains("index-255"),
            "{remembered}"
        );
        let no = listed(&Boards::shipped(), Some("chipbord"));
        assert!(matches!(no, Err(CliError::Sentence(words)) if words.contains("`chipboard`")));
    }
}
