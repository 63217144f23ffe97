//! The card that a job asks for.
//!
//! Given the line `board` and the list of boards, gives caliper, tolerance and what else is known of the card. A caliper
//! that the maker has measured beats the list, and then the list's tolerance says nothing either.

use kdl::KdlValue;
use traywright_engine::Fault;
use traywright_engine::job::{Board, Grain, Sheet};
use traywright_engine::wording::nearest;

use super::nodes::{Entry, Node};
use super::pages::page_of;
use super::values::{CALIPER, FROM_ZERO, SIGNED, choice, length, word};
use crate::lengths::trimmed;
use crate::library::{Basis, Boards, Stock};

/// The card.
pub(super) fn board(
    node: Option<&Node<'_>>,
    boards: &Boards,
    faults: &mut Vec<Fault>,
) -> Option<Board> {
    let node = node?;
    let listed = node
        .argument
        .as_ref()
        .map(|entry| stock(entry, boards, faults));
    let caliper_entry = node.property("caliper");
    let measured = caliper_entry.map(|entry| length(entry, CALIPER, faults));
    if listed.is_none() && measured.is_none() {
        let example = "caliper=(mm)0.3, the thickness of your card, or a name in double quotes; `traywright boards` lists the names";
        node.lacks("caliper", example, faults);
    }
    let hinge = node
        .property("hinge")
        .map(|entry| length(entry, SIGNED, faults));
    let written_tolerance = node
        .property("tolerance")
        .map(|entry| length(entry, FROM_ZERO, faults));
    let sheet = node.property("sheet").map(|entry| sheet(entry, faults));
    let grains = [("length", Grain::Length), ("width", Grain::Width)];
    let grain = node
        .property("grain")
        .map(|entry| choice(entry, &grains, faults));

    // Outer: was it written or listed? Inner: could it be read?
    let stock = listed.flatten();
    let caliper = match (measured, stock) {
        (Some(measured), _) => measured?,
        (None, stock) => stock?.caliper,
    };
    let tolerance = match (written_tolerance, measured) {
        (Some(written), _) => Some(written?),
        (None, Some(_)) => None,
        (None, None) => stock.and_then(|stock| stock.tolerance),
    };
    if let (Some(tolerance), Some(entry)) = (tolerance, node.property("tolerance"))
        && tolerance >= caliper
    {
        faults.push(Fault::new(
            entry.place(),
            "the tolerance is as large as the card is thick",
            format!(
                "the card is {} mm thick; 5 in 100 of that are usual",
                trimmed(caliper, 4)
            ),
        ));
        return None;
    }
    Some(Board {
        name: stock.map(|stock| stock.name.clone()),
        caliper,
        hinge: hinge.unwrap_or(Some(0.0))?,
        tolerance,
        measure_it: measured.is_none()
            && stock.is_some_and(|stock| stock.basis == Basis::FromMemory),
        sheet: sheet.flatten(),
        grain: grain.flatten(),
    })
}

fn stock<'a>(entry: &Entry<'_>, boards: &'a Boards, faults: &mut Vec<Fault>) -> Option<&'a Stock> {
    if let KdlValue::Integer(_) | KdlValue::Float(_) = entry.value() {
        let unit = entry.unit().unwrap_or("mm");
        let label = format!("write caliper=({unit}){}", entry.figure());
        faults.push(Fault::new(
            entry.place(),
            "a board's name is a word; its thickness is its caliper",
            label,
        ));
        return None;
    }
    let name = word(entry, "the name of a board in double quotes", faults)?;
    let found = boards.get(name);
    if found.is_none() {
        let known = boards.all().iter().map(|stock| stock.name.as_str());
        let nearest = nearest(name, known).unwrap_or_default();
        let fault = Fault::new(
            entry.place(),
            format!("unknown board `{name}`"),
            format!("did you mean `{nearest}`?"),
        );
        faults.push(fault.with_hint(
            "`traywright boards` lists the names; for any other card write what you measure: board caliper=(mm)0.3",
        ));
    }
    found
}

fn sheet(entry: &Entry<'_>, faults: &mut Vec<Fault>) -> Option<Sheet> {
    let page = page_of(entry, faults)?;
    Some(Sheet {
        name: page.name,
        width: page.width,
        height: page.height,
    })
}
