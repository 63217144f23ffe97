//! Each finding about what is unsure a hundredth of a millimetre to either side of its limit.
//!
//! Lengths in mm. Card of 0.3, unless a test says otherwise, so a pressed fold is 0.03 off and the caliper 0.015; a measure, a
//! crease and a cut made by hand are 0.5 off. The tray is 32 high in a box of 34.

use traywright_document::{Grain, ToolKind};
use traywright_engine::job::{Cut, Job, Length, Setting, SettingInput};
use traywright_engine::{Finding, Level, Place, Refusal, make};
use traywright_tests::jobs::{job, style};

const BESIDE_MM: f64 = 0.01;

fn findings(job: &Job) -> Vec<Finding> {
    let style = style("designs/styles/single-slot.ron");
    match make(&style, job) {
        Ok(tray) => tray.report().findings.clone(),
        Err(Refusal::Tray(report)) => report.findings,
        Err(fault) => panic!("not even judged: {fault:#?}"),
    }
}

fn says(job: &Job, code: &str) -> bool {
    findings(job).iter().any(|found| found.code() == code)
}

fn deep(cut: Cut, depth: f64) -> Job {
    let mut job = job([182.0, 121.0, 34.0], [60.0, 40.0, depth], 0.3);
    job.slot.cut = cut;
    job
}

/// Asserts that a code is told above a limit and not below it.
fn told_above(code: &str, limit: f64, job: impl Fn(f64) -> Job) {
    let (beyond, within) = (job(limit + BESIDE_MM), job(limit - BESIDE_MM));
    assert!(says(&beyond, code), "{code} above {limit}");
    assert!(!says(&within, code), "{code} below {limit}");
}

#[test]
fn an_edge_holds_for_sure_what_stands_proud_by_more_than_is_unsure() {
    // Reasoning: the item, two lines and two folds on the way to the floor, one caliper: 2 √((0.75 + 0.06² + 0.015²) / 3) =
    // 1.0025. The edge stops the item 0.3 further down, so it has to stand 0.7025 proud.
    told_above("hold-uncertain", -0.7025, |below| {
        deep(Cut::Open, 32.0 - below)
    });
}

#[test]
fn the_pad_that_is_named_holds_it_for_sure() {
    // Reasoning: level with the deck the edge holds 0.3 of it; a pad of 0.7025 to 2 - 0.8165 is sure at both ends.
    let found = findings(&deep(Cut::Open, 32.0));
    let found = found.iter().find(|found| found.code() == "hold-uncertain");
    let fix = found.and_then(|found| found.fix.as_ref()).expect("a fix");
    let pad: &str = &fix.ways[0][0].to;
    let pad: f64 = pad.trim_start_matches("(mm)").parse().expect("a length");
    assert!((0.7025..2.0 - 0.8164).contains(&pad), "{pad}");
    let mut padded = deep(Cut::Open, 32.0);
    padded.items[0].pad = Length::known(pad);
    for code in ["hold-uncertain", "fit-uncertain", "item-at-the-edge"] {
        assert!(!says(&padded, code), "{code}");
    }
}

#[test]
fn the_lid_closes_for_sure_over_what_leaves_more_than_is_unsure() {
    // Reasoning: the box's depth and the item's: 2 √(0.5 / 3) = 0.8165 of the 2 over the deck.
    told_above("fit-uncertain", 2.0 - 0.8165, |above| {
        deep(Cut::Cross, 32.0 + above)
    });
    let found = findings(&deep(Cut::Cross, 34.0));
    let lid = |found: &&Finding| found.place == Place::ItemUnderLid("item".to_owned());
    let found = found
        .iter()
        .find(lid)
        .expect("nothing is left under the lid");
    assert_eq!(found.level, Level::Warning);
}

#[test]
fn a_pocket_is_too_tight_where_more_than_one_in_five_is() {
    // Reasoning: two creases of 0.5 are short by more than p in (1 - p)² / 2 of all trays, and folds and card of 0.06 and 0.03
    // add 0.00075 to that: 0.2 at p = 0.3687.
    told_above("pocket-tight", -0.3687, |less| {
        let mut job = deep(Cut::Cross, 28.0);
        job.fit.play = Length::known(-less);
        job
    });
}

#[test]
fn a_tongue_smaller_than_what_can_be_cut_is_friction() {
    let tongued = |caliper: f64| {
        let mut job = job([182.0, 121.0, 34.0], [60.0, 40.0, 28.0], caliper);
        job.settings.push(Setting {
            name: "lock".to_owned(),
            answer: SettingInput::Word("tongues".to_owned()),
            place: 0..0,
        });
        job
    };
    // Reasoning: the tongue is flush with the deck, so it reaches a caliper beyond the near face.
    told_above("lock-by-friction", -0.5, |less| tongued(-less));
    let mut machine = tongued(0.3);
    machine.tool.by = ToolKind::Machine;
    assert!(!says(&machine, "lock-by-friction"));
}

#[test]
fn damp_air_matters_where_it_may_take_the_whole_fit() {
    // Source: tests/facts/folding.md hum-03.
    let long = |length: f64| job([length, 121.0, 34.0], [60.0, 40.0, 28.0], 0.3);
    told_above("humidity", 500.0, long);
    let mut along = long(501.0);
    along.board.grain = Some(Grain::Length);
    assert!(!says(&along, "humidity"));
}

#[test]
fn nothing_to_spare_is_never_passed_without_a_warning() {
    let mut around_tray = deep(Cut::Cross, 28.0);
    around_tray.fit.around_tray = Length::known(0.0);
    let mut around_item = deep(Cut::Open, 33.0);
    around_item.fit.around_item = Length::known(0.0);
    let mut in_flaps = deep(Cut::Cross, 28.0);
    in_flaps.fit.around_item = Length::known(0.3);
    let under_lid = deep(Cut::Cross, 34.0);
    for job in [around_tray, around_item, in_flaps, under_lid] {
        let found = findings(&job);
        assert!(!found.iter().any(Finding::is_error), "{found:#?}");
        let warns = found.iter().any(|found| found.level == Level::Warning);
        assert!(warns, "{found:#?}");
    }
}
