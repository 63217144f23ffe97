//! The card that a job asks for.
//!
//! Given the line `board` and the list of boards, gives caliper, tolerance and what else is known of the card. A caliper
//! that the maker has measured beats the list, and then the list's tolerance says nothing either.

use kdl::KdlValue;
use traywright_engine::SourceError;
use traywright_engine::job::{Board, Length, StockSheet};
use traywright_engine::wording::nearest;

use super::nodes::{Entry, Node};
use super::pages::page_of;
use super::values::word;
use super::words::GRAINS;
use crate::lengths::trimmed;
use crate::library::{Basis, Boards, Stock};

/// The card.
pub(super) fn board(
    node: &Node<'_>,
    boards: &Boards,
    faults: &mut Vec<SourceError>,
) -> Option<Board> {
    let material = material(node, boards, faults);
    let (hinge, tolerance) = (
        node.signed_length("hinge", faults),
        node.length("tolerance", faults),
    );
    let sheet = node.entry("sheet").and_then(|entry| sheet(entry, faults));
    let grain = node.choice("grain", &GRAINS, faults);
    let material = material?;
    if tolerance.is_some_and(|tolerance| tolerance >= material.caliper) {
        vague(node, material.caliper, faults);
    }
    Some(Board {
        name: material.name,
        caliper: material.caliper,
        hinge: hinge?,
        tolerance: tolerance.or(material.tolerance),
        measure_it: material.remembered,
        sheet,
        grain,
    })
}

/// What is known of a card by its name or its caliper.
struct Material {
    name: Option<String>,
    caliper: Length,
    tolerance: Option<Length>,
    remembered: bool,
}

fn material(node: &Node<'_>, boards: &Boards, faults: &mut Vec<SourceError>) -> Option<Material> {
    // Outer: is a name written? Inner: is it in the list?
    let argument = node.argument.as_ref();
    let stock = argument.map(|entry| stock(entry, boards, faults));
    if node.entry("caliper").is_some() {
        let caliper = node.length("caliper", faults)?;
        return Some(Material {
            name: stock.flatten().map(|stock| stock.name.clone()),
            caliper,
            tolerance: None,
            remembered: false,
        });
    }
    if stock.is_none() {
        let example = "caliper=(mm)0.3, the thickness of your card, or a name in double quotes";
        node.lacks("caliper", example, faults);
    }
    let stock = stock.flatten()?;
    Some(Material {
        name: Some(stock.name.clone()),
        caliper: stock.caliper,
        tolerance: stock.tolerance,
        remembered: stock.basis == Basis::FromMemory,
    })
}

fn vague(node: &Node<'_>, caliper: Length, faults: &mut Vec<SourceError>) {
    let place = node
        .entry("tolerance")
        .map_or(node.place.clone(), |entry| entry.place());
    let thick = trimmed(caliper.mm(), 4);
    faults.push(SourceError::new(
        place,
        "the tolerance is as large as the card is thick",
        format!("the card is {thick} mm thick; 5 in 100 of that are usual"),
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

fn sheet(entry: &Entry<'_>, faults: &mut Vec<SourceError>) -> Option<StockSheet> {
    let page = page_of(entry, faults)?;
    Some(StockSheet {
        name: page.name,
        width: page.width,
        height: page.height,
    })
}
