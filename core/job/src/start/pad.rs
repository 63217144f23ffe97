//! The pads that the items of a new job need.
//!
//! **Input:** a draft with its lengths, the styles and the boards. **Output:** the draft with the pads that the engine
//! recommends; none for an item that needs none, or that a pad alone does not fix. **Does not** compute a pad.

use traywright_engine::Report;
use traywright_engine::finding::Change;
use traywright_engine::job::Job;

use super::draft::JobDraft;
use super::template;
use crate::checked_job::{CheckedJob, Checker};
use crate::job_file::{changed, read};
use crate::lengths::WrittenLength;
use crate::library::{Boards, Styles};

/// Adds the pads of a draft.
pub fn lay(draft: &mut JobDraft, styles: &Styles, boards: &Boards) {
    let text = template::job(draft);
    let Some(checked) = check(&text, styles, boards) else {
        return;
    };
    let pads = match &checked.tray {
        Ok(_) => named(&checked),
        Err(report) => with_pads(&text, &pads_in(report), styles, boards),
    };
    let unit = draft.unit;
    for (item, mm) in draft.items.iter_mut().zip(pads) {
        item.pad = mm.map(|mm| WrittenLength { mm, unit });
    }
}

/// The pads of a job with these changes: those that the engine recommends, or else those of the changes.
fn with_pads(text: &str, changes: &[Change], styles: &Styles, boards: &Boards) -> Vec<Option<f64>> {
    let Some(padded) = changed(text, changes).and_then(|text| check(&text, styles, boards)) else {
        return Vec::new();
    };
    let laid = kinds(&padded.job).map(|(_, pad)| Some(pad).filter(|&pad| pad > 0.0));
    let named = named(&padded);
    laid.enumerate()
        .map(|(at, laid)| named.get(at).copied().flatten().or(laid))
        .collect()
}

fn check(text: &str, styles: &Styles, boards: &Boards) -> Option<CheckedJob> {
    let job = read("new", text.as_bytes(), boards).ok()?;
    Checker::new(styles).check("new", text.as_bytes(), job).ok()
}

/// The opening of the first item of each kind, and its pad.
fn kinds(job: &Job) -> impl Iterator<Item = (usize, f64)> {
    let items = job.items.iter().enumerate();
    items
        .filter(|(_, item)| item.number == 1)
        .map(|(at, item)| (at, item.pad.mm()))
}

/// The pads that the engine recommends for a tray that can be made, one per kind of item; empty for other trays.
fn named(checked: &CheckedJob) -> Vec<Option<f64>> {
    let Ok(tray) = &checked.tray else {
        return Vec::new();
    };
    let items = tray.unrounded().document().items;
    kinds(&checked.job)
        .map(|(at, _)| items.get(at)?.held?.pads?.named)
        .collect()
}

/// The changes that add a pad under an item, among the fixes of a refused tray, one per item.
fn pads_in(report: &Report) -> Vec<Change> {
    let fixes = report
        .findings
        .iter()
        .filter_map(|found| found.fix.as_ref());
    let mut pads: Vec<Change> = Vec::new();
    for way in fixes.flat_map(|fix| &fix.ways) {
        if let [
            change @ Change {
                node: "item", key, ..
            },
        ] = &way[..]
            && key == "pad"
            && pads.iter().all(|pad| pad.item != change.item)
        {
            pads.push(change.clone());
        }
    }
    pads
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::start::draft::example;
    use traywright_engine::job::Unit;

    fn pad(depth_mm: f64, box_mm: f64, unit: Unit) -> Option<f64> {
        let mut draft = example(unit);
        draft.in_box.depth.mm = box_mm;
        draft.items[0].size.depth.mm = depth_mm;
        lay(&mut draft, &Styles::shipped(), &Boards::shipped());
        draft.items[0].pad.map(|pad| pad.mm)
    }

    // Derived: without a pad the top lies box - fit - depth below the deck, and the lid one fit higher: the pad to name
    // brings it half a fit above the deck.
    #[test]
    fn an_item_that_lies_too_deep_gets_the_pad_that_the_engine_names() {
        let mm = Unit::Millimetre;
        assert_eq!(pad(28.0, 34.0, mm), None);
        assert_eq!(pad(20.0, 34.0, mm), Some(34.0 - 20.0 - 1.0));
        // Its flaps end above its top, so it slides and the tray is refused.
        assert_eq!(pad(8.0, 60.0, mm), Some(60.0 - 8.0 - 1.0));
        // In inches a pad is whole 1/32 in: 34 - 20 - 1.27 = 12.73 mm is 16.04 of them.
        let inches = pad(20.0, 34.0, Unit::Inch).expect("a pad");
        assert!((inches - 12.7).abs() < 1e-9, "{inches}");
    }

    // Derived: as above, for each kind by itself: 34 - 20 - 1 = 13, and 28 mm need none.
    #[test]
    fn each_kind_of_item_gets_its_own_pad() {
        let mut draft = example(Unit::Millimetre);
        draft.style = "multi-slot".to_owned();
        let mut vial = draft.items[0].clone();
        for side in [&mut vial.size.length, &mut vial.size.width] {
            side.mm = 20.0;
        }
        vial.size.depth.mm = 20.0;
        (vial.name, vial.count) = ("vial".to_owned(), 2);
        draft.items[0].size.length.mm = 60.0;
        draft.items.push(vial);
        lay(&mut draft, &Styles::shipped(), &Boards::shipped());
        let pads: Vec<_> = draft
            .items
            .iter()
            .map(|item| item.pad.map(|pad| pad.mm))
            .collect();
        assert_eq!(pads, [None, Some(34.0 - 20.0 - 1.0)]);
    }
}
