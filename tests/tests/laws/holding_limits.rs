//! Each finding about an item a hundredth of a millimetre to either side of its limit.
//!
//! Lengths in mm. The tray is 32 high in a box of 34, of card of 0.3: flaps hang from o = 0.15. The opening for an item of
//! 60 × 40 is 62 × 42; cut crosswise its flaps are 31 deep at the ends and 21 at the sides.

use traywright_engine::job::{Cut, Job, Length};
use traywright_engine::{Refusal, make};
use traywright_tests::jobs::{job, style};

/// How far each limit is missed.
const BESIDE_MM: f64 = 0.01;

/// Whether a finding of that code is among what is said of a job.
fn says(job: &Job, code: &str) -> bool {
    let style = style("designs/styles/single-slot.ron");
    let findings = match make(&style, job) {
        Ok(tray) => tray.report().findings.clone(),
        Err(Refusal::Tray(report)) => report.findings,
        Err(fault) => panic!("not even judged: {fault:#?}"),
    };
    findings.iter().any(|found| found.code() == code)
}

/// An item of some depth in an opening of some cut.
fn deep(cut: Cut, depth: f64) -> Job {
    let mut job = job([182.0, 121.0, 34.0], [60.0, 40.0, depth], 0.3);
    job.slot.cut = cut;
    job
}

/// Asserts that a code is told on the side of the limit where more is wrong, and not on the other.
fn told_beyond(code: &str, limit: f64, job: impl Fn(f64) -> Job) {
    let (beyond, within) = (job(limit + BESIDE_MM), job(limit - BESIDE_MM));
    assert!(says(&beyond, code), "{code} beyond {limit}");
    assert!(!says(&within, code), "{code} within {limit}");
}

#[test]
fn items_slide_where_flaps_end_above_them_or_the_edge_does() {
    // Reasoning: B = o + e - b beside a flap that is 21 deep, and t - b beside an edge.
    told_beyond("item-slides", 0.15 + 21.0, |below| {
        deep(Cut::Cross, 32.0 - below)
    });
    told_beyond("item-slides", 0.3, |below| deep(Cut::Open, 32.0 - below));
}

#[test]
fn flaps_hold_by_their_tips_where_less_than_enough_stands_beside_the_item() {
    // Reasoning: enough of a flap of 21 is 21/4 = 5.25; B = 21.15 - b.
    told_beyond("item-held-by-tips", 21.15 - 5.25, |below| {
        deep(Cut::Cross, 32.0 - below)
    });
}

#[test]
fn an_item_ends_at_the_edge_of_the_deck_as_soon_as_it_is_below_its_face() {
    told_beyond("item-at-the-edge", 0.0, |below| {
        deep(Cut::Open, 32.0 - below)
    });
}

#[test]
fn an_item_can_leave_where_less_than_two_millimetres_are_left_when_it_lies_at_the_lid() {
    // Reasoning: d - v is left beside a bare edge, and d - v - o beside flaps; the item lies level with the deck, on a pad.
    let thin = |cut: Cut| {
        move |gone: f64| {
            let depth = 6.0 - gone;
            let mut job = deep(cut, depth);
            job.items[0].pad = Length::known(32.0 - depth);
            job
        }
    };
    told_beyond("item-can-leave", 6.0 - (2.0 + 2.0), thin(Cut::Open));
    told_beyond("item-can-leave", 6.0 - (2.0 + 2.0 + 0.15), thin(Cut::Cross));
}

#[test]
fn an_item_is_sunk_more_than_eight_below_the_deck_and_proud_above_it() {
    told_beyond("item-sunk", 8.0, |below| deep(Cut::Cross, 32.0 - below));
    told_beyond("item-proud", 0.0, |above| deep(Cut::Cross, 32.0 + above));
    told_beyond("item-too-deep", 34.0, |depth| deep(Cut::Cross, depth));
}

#[test]
fn a_tray_can_lift_under_more_than_three_millimetres_of_air() {
    told_beyond("tray-can-lift", 3.0, |air| {
        let mut job = deep(Cut::Cross, 30.0);
        job.tray_height = Some(Length::known(34.0 - air));
        job
    });
}
