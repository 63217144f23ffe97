//! Trays drawn on the marks of a ruler, as solids: where a step was found good enough they go into one another no deeper
//! than a fold is unsure, and go into their box; where the coarser one was not, the solids mostly tell why.

use traywright_document::{Document, Length};
use traywright_tests::rounding::rounded;
use traywright_tests::union::enclosed;

use super::{list, measured, number, random_trays, random_trays_of_several, without_tongues};

/// Trays of each style.
const TRAYS: usize = 25;

/// Of trays refused at a step, the part in whose finished solids the reason is seen; others are met on the way, vanish
/// on paper or leave less to spare.
// Source: reasoning: most that is wrong with a rounded tray is that two panels want the same place.
const SEEN: f64 = 0.6;

/// A rounded document and its step.
type Drawn = (Document, f64);

#[test]
fn rounded_trays_fit_as_solids_where_a_step_was_found() {
    let shipped = ["single-slot", "double-wall", "lid-lock"];
    let trays = shipped
        .iter()
        .flat_map(|name| random_trays(name, 31, TRAYS));
    let mut documents: Vec<Document> = trays.map(|(_, tray)| tray.finish().document()).collect();
    let several = random_trays_of_several(31, TRAYS);
    documents.extend(several.iter().map(|tray| tray.finish().document()));
    let at = |step: f64, document: &Document| (rounded(document.clone(), step), step);
    let coarsest = |document: &Document| document.unit.ruler_steps()[0];
    let (good, bad): (Vec<Document>, Vec<Document>) = documents
        .into_iter()
        .partition(|document| document.hand_step == Some(coarsest(document)));
    let finer: Vec<Drawn> = bad
        .iter()
        .filter_map(|document| Some(at(document.hand_step?, document)))
        .collect();
    let at_coarsest = |documents: &[Document]| -> Vec<Drawn> {
        let drawn = documents
            .iter()
            .map(|document| at(coarsest(document), document));
        drawn.collect()
    };
    let (good, bad) = (at_coarsest(&good), at_coarsest(&bad));
    let count = bad.len();
    let bad: Vec<Drawn> = bad
        .into_iter()
        .filter(|(document, _)| !lacks_a_panel(document))
        .collect();
    let (Some(coarse), Some(fine), Some(refused)) =
        (reasons(&good), reasons(&finer), reasons(&bad))
    else {
        return;
    };
    for (reason, (document, _)) in coarse.iter().zip(&good).chain(fine.iter().zip(&finer)) {
        assert_eq!(*reason, None, "{} {:?}", document.style, document.box_size);
    }
    let seen = refused.iter().flatten().count() + count - bad.len();
    println!(
        "{} good at the coarser step, {} at the finer; {seen} of {count} refusals seen in the solids",
        good.len(),
        finer.len(),
    );
    assert!(good.len() > TRAYS / 2 && finer.len() > TRAYS / 2);
    assert!(seen as f64 > SEEN * count as f64, "{seen} of {count}");
}

/// Whether a panel has no width left.
fn lacks_a_panel(document: &Document) -> bool {
    document
        .panels
        .iter()
        .any(|panel| enclosed(&panel.outline) < 1e-9)
}

/// What is wrong with each tray as a solid; none where the solids cannot be asked.
fn reasons(drawn: &[Drawn]) -> Option<Vec<Option<String>>> {
    // A tongue and the edge that carries it would count as one solid, as thick as both.
    let documents: Vec<Document> = drawn
        .iter()
        .map(|(document, _)| without_tongues(document.clone()))
        .collect();
    let seen = measured("solids.py", &documents)?;
    let reason = |((document, step), seen): (&Drawn, &serde_json::Value)| {
        // Source: reasoning: half a caliper is what nobody knows of where a fold lies, and a rounded place moves by half a
        // step.
        let deepest = document.board.caliper.min(*step) / 2.0 + 1e-6;
        let meeting = list(&seen["meetings"])
            .iter()
            .find(|meeting| number(&meeting["depth"]) > deepest);
        let room = &document.box_size;
        let sides = [room.length, room.width, room.depth].map(Length::mm);
        let side = (0..3).find(|&axis| number(&seen["outside"][axis]) > sides[axis]);
        meeting
            .map(|meeting| meeting.to_string())
            .or(side.map(|axis| format!("side {axis}: {}", seen["outside"][axis])))
    };
    Some(drawn.iter().zip(&seen).map(reason).collect())
}
