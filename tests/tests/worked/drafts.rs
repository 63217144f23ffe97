//! The three styles that come later: their drafts are read as they stand, and their panels are those worked out.
//!
//! Rows and tongues cannot be made yet, and a job that wants them is told so. Without them the drafts make blanks.

use std::fs;

use traywright_document::{Document, Measure, Panel};
use traywright_engine::{CheckedTray, Job, Refusal, Style, make};
use traywright_tests::jobs::{an_item, job, style};
use traywright_tests::repository;
use traywright_tests::union;

use super::{check_creases, corners, is_same_polygon, near, points, tray, worked_panel};

/// A condition that never holds.
const NEVER: &str = "when: \"not otherwise\"";

fn draft(name: &str) -> String {
    let file = repository().join(format!("tests/drafts/{name}.ron"));
    fs::read_to_string(file).expect("the draft can be read")
}

/// A draft with some words changed; each must be there.
fn changed(name: &str, changes: &[(&str, &str)]) -> Style {
    let mut text = draft(name);
    for (from, to) in changes {
        assert!(text.contains(from), "{name} says no {from}");
        text = text.replace(from, to);
    }
    Style::read(name, &text).unwrap_or_else(|faults| panic!("{name}: {faults:#?}"))
}

fn made(style: &Style, job: &Job) -> CheckedTray {
    make(style, job).unwrap_or_else(|refusal| panic!("{}: {refusal:#?}", style.name()))
}

/// Holds all panels against a worked tray. `added` says how many corners the tongues and slits add to a panel there.
fn check_panels(
    document: &Document,
    worked: &str,
    name_there: impl Fn(&str) -> String,
    added: &[(&str, usize)],
) {
    let tray = tray(worked);
    for panel in &document.panels {
        let there = points(&worked_panel(&tray, &name_there(&panel.name))["polygon"]);
        let here = bends(&corners(&panel.outline));
        let more = added
            .iter()
            .find(|(name, _)| *name == panel.name)
            .map_or(0, |(_, count)| *count);
        assert_eq!(here.len() + more, there.len(), "{}", panel.name);
        let ours = |corner: &&[f64; 2]| here.iter().any(|own| near(*own, **corner));
        let without: Vec<[f64; 2]> = there.iter().filter(ours).copied().collect();
        assert!(
            is_same_polygon(&here, &without),
            "{}: {here:?} instead of {there:?}",
            panel.name
        );
    }
    check_creases(document, &tray, name_there);
    assert_eq!(document.flat.creases.len(), document.panels.len() - 1);
}

/// The corners at which a polygon turns: the end of a crease in the middle of a straight edge is none.
fn bends(corners: &[[f64; 2]]) -> Vec<[f64; 2]> {
    let count = corners.len();
    let turns = |at: usize| {
        let [before, here, after] = [count - 1, 0, 1].map(|step| corners[(at + step) % count]);
        let (there, on) = (
            [here[0] - before[0], here[1] - before[1]],
            [after[0] - here[0], after[1] - here[1]],
        );
        (there[0] * on[1] - there[1] * on[0]).abs() > 1e-9
    };
    (0..count)
        .filter(|&at| turns(at))
        .map(|at| corners[at])
        .collect()
}

#[test]
fn the_drafts_are_read_as_they_stand_and_say_what_cannot_be_made_yet() {
    // Source: issue A1: rows of openings, tongue and slit are read and checked, and a job that asks for them is refused
    // with that sentence.
    let mut four = job([220.0, 160.0, 40.0], [60.0, 40.0, 20.0], 0.45);
    four.items.push(an_item("coin", [30.0, 30.0, 20.0]));
    let cases = [
        ("multi-slot", four, "rows of openings"),
        (
            "double-wall",
            job([160.0, 110.0, 40.0], [70.0, 50.0, 30.0], 0.45),
            "tongues and slits",
        ),
        (
            "lid-lock",
            job([182.0, 121.0, 34.0], [96.0, 61.0, 28.0], 0.29),
            "tongues and slits",
        ),
    ];
    for (name, mut job, words) in cases {
        let style = style(&format!("tests/drafts/{name}.ron"));
        job.style = name.to_owned();
        match make(&style, &job) {
            Err(Refusal::Job(faults)) => {
                assert_eq!(faults.len(), 1, "{name}: {faults:#?}");
                assert!(faults[0].message.contains(words), "{name}: {faults:#?}");
                assert!(faults[0].message.contains(name), "{name}: {faults:#?}");
            }
            other => panic!("{name}: {other:#?}"),
        }
    }
}

#[test]
fn multi_slot_has_the_panels_that_were_worked_out() {
    // Reasoning: the openings change nothing but the deck's holes, so one of the four items will do.
    let style = style("tests/drafts/multi-slot.ron");
    let one = job([220.0, 160.0, 40.0], [80.0, 50.0, 20.0], 0.45);
    let mut document = made(&style, &one).document();
    let is_flap = |panel: &Panel| panel.name.starts_with("flap");
    document.panels.retain(|panel| !is_flap(panel));
    let body = document.panels.len();
    // Source: the specification of the styles, section 2: the body of single-slot, which has 13 panels.
    assert_eq!(body, 13);
    document.flat.creases.retain(|crease| crease.panel < body);
    check_panels(&document, "multi-slot", str::to_owned, &[]);
}

#[test]
fn double_wall_has_the_panels_that_were_worked_out() {
    // Source: the specification of the styles, section 3: a tongue has four corners, and a second fold two tongues.
    let style = changed(
        "double-wall",
        &[(
            "into: \"deck\", when: \"hold is tongues\"",
            &format!("into: \"deck\", {NEVER}"),
        )],
    );
    let worked = job([160.0, 110.0, 40.0], [70.0, 50.0, 30.0], 0.45);
    let document = made(&style, &worked).document();
    let added = [("second-west", 8), ("second-east", 8)];
    check_panels(&document, "double-wall", str::to_owned, &added);
}

#[test]
fn lid_lock_has_the_panels_that_were_worked_out() {
    // Source: the specification of the styles, section 4: the lid's tongue has bevelled tips, its opening four corners.
    let style = changed(
        "lid-lock",
        &[
            (
                "into: \"deck\", when: \"hold is tongues\"",
                &format!("into: \"deck\", {NEVER}"),
            ),
            (
                "into: \"railinner\",",
                &format!("into: \"railinner\", {NEVER},"),
            ),
        ],
    );
    let worked = job([182.0, 121.0, 34.0], [96.0, 61.0, 28.0], 0.29);
    let document = made(&style, &worked).document();
    let added = [
        ("second-west", 8),
        ("second-east", 8),
        ("railinner", 4),
        ("lid", 6),
    ];
    let name_there = |name: &str| match name.split_once("-fence-") {
        Some((_, edge)) => format!("fence-{edge}"),
        None => name.to_owned(),
    };
    check_panels(&document, "lid-lock", name_there, &added);
}

/// Boxes for which card of that caliper cannot bow far enough for tongues.
// Source: the specification of the styles, section 3: a tongue bites at most length³ / (24 (60 t)²), and holds from 0.2.
fn bows_too_little(depth: f64, caliper: f64) -> bool {
    let inner_side = depth - 2.0 - 1.5 * caliper - 0.25;
    inner_side.powi(3) / (24.0 * (60.0 * caliper).powi(2)) < 0.2
}

#[test]
fn double_wall_makes_blanks_where_friction_holds_it() {
    // Reasoning: thick board in a low box bows too little for tongues, and then the draft wants none.
    let style = style("tests/drafts/double-wall.ron");
    let mut made_of = 0;
    for caliper in [0.6, 0.8, 1.0] {
        for length in [120.0, 190.0, 300.0] {
            for width in [90.0, 110.0] {
                for depth in [18.0, 24.0, 32.0, 40.0] {
                    if !bows_too_little(depth, caliper) {
                        continue;
                    }
                    let item = [length / 3.0, width / 3.0, depth / 2.0];
                    let tray = made(&style, &job([length, width, depth], item, caliper));
                    let codes = tray.report().findings.iter().map(|found| &found.code);
                    assert!(codes.clone().any(|code| code == "held-by-friction"));
                    let document = tray.document();
                    check_outside(&document, [length, width, depth]);
                    union::check(&document);
                    made_of += 1;
                }
            }
        }
    }
    assert!(made_of >= 30, "{made_of}");
}

/// Source: the contract: the outside of the folded tray is the box less the fit, within 0.01.
fn check_outside(document: &Document, box_size: [f64; 3]) {
    let names = ["folded_length", "folded_width", "folded_depth"];
    for (name, inside) in names.into_iter().zip(box_size) {
        let measure = |found: &&Measure| found.name == name;
        let found = document.measures.iter().find(measure).expect("it is told");
        assert!((found.value - (inside - 2.0)).abs() < 0.01, "{found:?}");
    }
}
