//! The card of a job.
//!
//! **Input:** the line `board`, and the list of boards. **Output:** the card by its name, with the properties in the
//! list. **Errors:** an unknown board, a line without name and caliper, a tolerance as large as the caliper.

use kdl::KdlValue;
use traywright_engine::SourceError;
use traywright_engine::job::{Board, StockSheet};
use traywright_engine::wording::nearest;

use super::form::Form;
use super::nodes::{Entry, Node};
use super::pages::page_of;
use super::values::word;
use crate::lengths::trimmed;
use crate::library::{Basis, Boards, Stock};

/// Takes the properties of a board from the list.
pub(super) fn read_name(
    entry: &Entry<'_>,
    boards: &Boards,
    board: &mut Board,
    faults: &mut Vec<SourceError>,
) -> Option<()> {
    let stock = stock(entry, boards, faults)?;
    board.name = Some(stock.name.clone());
    (board.caliper, board.tolerance) = (stock.caliper, stock.tolerance);
    board.kind = Some(stock.kind);
    board.measure_it = stock.basis == Basis::FromMemory;
    Some(())
}

/// The caliper of the card must be larger than its tolerance.
pub(super) fn finish(node: &Node<'_>, form: &mut Form, faults: &mut Vec<SourceError>) {
    let board = &form.job.board;
    if node.argument.is_none() && node.entry("caliper").is_none() {
        let example = "caliper=(mm)0.3, the thickness of your card, or a name in double quotes";
        node.lacks("caliper", example, faults);
    }
    let is_vague = |tolerance| tolerance >= board.caliper;
    if node.has_read("caliper") && board.tolerance.is_some_and(is_vague) {
        vague(node, board.caliper.mm(), faults);
    }
}

fn vague(node: &Node<'_>, caliper: f64, faults: &mut Vec<SourceError>) {
    let place = node
        .entry("tolerance")
        .map_or(node.place.clone(), |entry| entry.place());
    let thick = trimmed(caliper, 4);
    faults.push(SourceError::new(
        place,
        "the tolerance is as large as the card is thick",
        format!("the card is {thick} mm thick; 5 in 100 of that are common"),
    ));
}

fn stock<'a>(
    entry: &Entry<'_>,
    boards: &'a Boards,
    faults: &mut Vec<SourceError>,
) -> Option<&'a Stock> {
    if let KdlValue::Integer(_) | KdlValue::Float(_) = entry.value() {
        let title = "a board's name is a word; its thickness is its caliper";
        let label = format!(
            "write caliper=({}){}",
            entry.unit().unwrap_or("mm"),
            entry.figure()
        );
        faults.push(SourceError::new(entry.place(), title, label));
        return None;
    }
    let name = word(entry, "the name of a board in double quotes", faults)?;
    let found = boards.get(name);
    if found.is_none() {
        let label = match nearest(name, boards.all().iter().map(|stock| stock.name.as_str())) {
            Some(best) => format!("did you mean `{best}`?"),
            None => "`traywright boards` lists the names".to_owned(),
        };
        let fault = SourceError::new(entry.place(), format!("unknown board `{name}`"), label);
        faults.push(fault.with_hint(
            "for a card that is not in the list write what you measure: board caliper=(mm)0.3",
        ));
    }
    found
}

/// The largest sheet of card.
pub(super) fn sheet(entry: &Entry<'_>, faults: &mut Vec<SourceError>) -> Option<StockSheet> {
    let page = page_of(entry, faults)?;
    Some(StockSheet {
        name: page.name,
        width: page.width,
        height: page.height,
    })
}
