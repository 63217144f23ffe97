//! The pad that the item of a new job needs.
//!
//! **Input:** a draft with its measures, the styles and the boards. **Output:** the pad that the engine names for its item;
//! none where the item needs none, or where no pad is all that it lacks. **Does not** compute a pad.

use traywright_engine::finding::Change;
use traywright_engine::job::Job;
use traywright_engine::{CheckedTray, Report};

use super::draft::JobDraft;
use super::template;
use crate::checked_job::{CheckedJob, Checker};
use crate::job_file::{changed, read};
use crate::lengths::WrittenLength;
use crate::library::{Boards, Styles};

/// The pad for the item of a draft.
pub fn needed(draft: &JobDraft, styles: &Styles, boards: &Boards) -> Option<WrittenLength> {
    let text = template::job(draft);
    let checked = check(&text, styles, boards)?;
    let mm = match &checked.tray {
        Ok(tray) => named(tray)?,
        Err(report) => {
            let padded = changed(&text, pad_in(report)?)?;
            let again = check(&padded, styles, boards)?;
            let told = again.tray.as_ref().ok().and_then(named);
            told.unwrap_or_else(|| pad_of(&again.job))
        }
    };
    Some(WrittenLength {
        mm,
        unit: draft.unit,
    })
}

fn check(text: &str, styles: &Styles, boards: &Boards) -> Option<CheckedJob> {
    let job = read("new", text.as_bytes(), boards).ok()?;
    Checker::new(styles).check("new", text.as_bytes(), job).ok()
}

/// The pad that the engine names for an item that is held with it.
fn named(tray: &CheckedTray) -> Option<f64> {
    let document = tray.unrounded().document();
    document.items.first()?.held?.pads?.named
}

/// The change that lays a pad under an item, among the fixes of a refused tray.
fn pad_in(report: &Report) -> Option<&[Change]> {
    let fixes = report
        .findings
        .iter()
        .filter_map(|found| found.fix.as_ref());
    let mut ways = fixes.flat_map(|fix| &fix.ways);
    let is_pad =
        |way: &&Vec<Change>| matches!(&way[..], [Change { node: "item", key, .. }] if key == "pad");
    ways.find(is_pad).map(Vec::as_slice)
}

fn pad_of(job: &Job) -> f64 {
    job.items.first().map_or(0.0, |item| item.pad.mm())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::start::draft::example;
    use traywright_engine::job::Unit;

    fn pad(depth_mm: f64, box_mm: f64, unit: Unit) -> Option<f64> {
        let mut draft = example(unit);
        draft.in_box.depth.mm = box_mm;
        draft.item.depth.mm = depth_mm;
        needed(&draft, &Styles::shipped(), &Boards::shipped()).map(|pad| pad.mm)
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
}
