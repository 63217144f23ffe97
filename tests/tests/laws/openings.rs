//! Openings where a style may put them, and where it may not.
//!
//! The shipped style is read with one opening more. Each test's first line says the reasoning.

use std::fs;

use traywright_document::Document;
use traywright_engine::Job;
use traywright_engine::{Level, Refusal, Style, make};
use traywright_tests::jobs::{an_item, job};
use traywright_tests::{repository, union};

const BOX: [f64; 3] = [182.0, 121.0, 34.0];
const ITEM: [f64; 3] = [40.0, 30.0, 28.0];

/// The shipped style with some of its words changed.
fn changed(from: &str, to: &str) -> Style {
    let file = repository().join("designs/styles/single-slot.ron");
    let text = fs::read_to_string(file).expect("the style can be read");
    assert!(text.contains(from), "the style says no {from}");
    let text = text.replace(from, to).replace("items: 1", "items: (1, 2)");
    Style::read("changed", &text).unwrap_or_else(|faults| panic!("{to}: {faults:#?}"))
}

fn with_hole(on: &str, size: [&str; 2], at: [&str; 2]) -> Style {
    let [length, width] = size;
    let [x, y] = at;
    changed(
        "openings: {",
        &format!(
            "openings: {{ \"hole\": Hole(on: \"{on}\", size: (\"{length}\", \"{width}\"), at: (\"{x}\", \"{y}\")),"
        ),
    )
}

fn proved(style: &Style, job: &Job) -> Document {
    let tray = make(style, job).unwrap_or_else(|refusal| panic!("{refusal:#?}"));
    let document = tray.finish().document();
    union::check(&document);
    document
}

fn errors(style: &Style, job: &Job) -> Vec<String> {
    match make(style, job) {
        Err(Refusal::Tray(report)) => {
            let errors = report.findings.iter();
            let errors = errors.filter(|finding| finding.level == Level::Error);
            errors.map(|finding| finding.code().to_owned()).collect()
        }
        other => panic!("{:?}", other.map(|tray| tray.finish().document().measures)),
    }
}

#[test]
fn a_hole_beside_the_slot_is_one_hole_more() {
    // Reasoning: 80 mm² of the deck are cut out, and nothing else changes.
    let job = job(BOX, ITEM, 0.29);
    let plain = proved(&changed("items: 1", "items: 1"), &job);
    let holed = proved(&with_hole("deck", ["10mm", "8mm"], ["-60mm", "0mm"]), &job);
    assert_eq!(holed.flat.holes.len(), plain.flat.holes.len() + 1);
    let card = |document: &Document| -> f64 {
        let holes = document.flat.holes.iter().map(union::enclosed);
        union::enclosed(&document.flat.outline) + holes.sum::<f64>()
    };
    assert!((card(&plain) - card(&holed) - 80.0).abs() < 1e-9);
}

#[test]
fn a_hole_without_width_is_a_cut() {
    // Source: the style language, section 7: one without width or length is a cut, a slit.
    let job = job(BOX, ITEM, 0.29);
    let plain = proved(&changed("items: 1", "items: 1"), &job);
    for size in [["10mm", "0mm"], ["0mm", "10mm"]] {
        let slit = proved(&with_hole("deck", size, ["-60mm", "0mm"]), &job);
        assert_eq!(slit.flat.holes.len(), plain.flat.holes.len());
        assert_eq!(slit.flat.open_cuts.len(), plain.flat.open_cuts.len() + 1);
    }
}

#[test]
fn a_hole_where_a_flap_is_cut_from_is_refused() {
    // Reasoning: the flap and the hole cannot both have that card.
    let job = job(BOX, ITEM, 0.29);
    for at in [["0mm", "10mm"], ["0mm", "0mm"], ["20mm", "0mm"]] {
        let style = with_hole("deck", ["4mm", "4mm"], at);
        assert_eq!(errors(&style, &job), ["openings-overlap"], "{at:?}");
    }
}

#[test]
fn a_hole_beyond_its_panel_is_refused() {
    // Reasoning: what a hole takes beyond its panel is not that panel's card; over one edge it is a notch, over two it is
    // neither.
    let job = job(BOX, ITEM, 0.29);
    for x in ["0mm", "side.span / 2"] {
        let style = with_hole("side", ["10mm", "8mm"], [x, "side.reach + 20mm"]);
        assert_eq!(errors(&style, &job), ["openings-overlap"], "{x}");
    }
    let corner = with_hole(
        "side",
        ["10mm", "8mm"],
        ["side.span / 2", "side.reach - 1mm"],
    );
    assert_eq!(errors(&corner, &job), ["openings-overlap"]);
}

#[test]
fn two_slots_that_share_card_are_refused() {
    // Reasoning: slots 42 wide whose middles lie 70 apart leave 28 between them, and 36 apart they share 6.
    let mut job = job(BOX, ITEM, 0.29);
    job.items.push(an_item("other", ITEM));
    let style = |apart: f64| {
        let half = apart / 2.0;
        changed(
            "\"slot\": Slot(on: \"deck\",",
            &format!(
                "\"other\": Slot(on: \"deck\", item: 2, at: (\"{half}mm\", \"0mm\")), \
                 \"slot\": Slot(on: \"deck\", item: 1, at: (\"-{half}mm\", \"0mm\"),"
            ),
        )
    };
    assert_eq!(proved(&style(70.0), &job).panels[0].holes.len(), 2);
    assert_eq!(errors(&style(36.0), &job), ["openings-overlap"]);
}

#[test]
fn the_largest_box_is_refused_for_its_true_reason() {
    // Reasoning: a cube of 5 m leaves no room for its inner ends to swing, and its card is flat all the same.
    let cube = job([5000.0; 3], [1000.0, 1000.0, 2000.0], 0.3);
    assert_eq!(
        errors(&changed("items: 1", "items: 1"), &cube),
        ["no-swing-room"]
    );
}
