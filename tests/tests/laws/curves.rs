//! Round and oval openings and finger notches, whatever their figures.
//!
//! Jobs are those of the random trays, with an open cut and another form. Expected values come from the ellipse's and the
//! circle's own formulas, and from the limits of core/GEOMETRY.md for the rectangle around all that is cut out.

use std::collections::BTreeMap;
use std::f64::consts::{PI, TAU};

use i_overlay::core::fill_rule::FillRule;
use i_overlay::float::simplify::SimplifyShape;
use traywright_document::{Contour, Document, Segment};
use traywright_engine::job::{Cut, ItemShape, Job, Length};
use traywright_engine::{CheckedTray, Finding, Level, Refusal, Report, Style, make};
use traywright_tests::jobs::{Dice, drawn, job, level, style};
use traywright_tests::union;

use super::formulas::{self, in_another_order};

/// So near to a limit the engine's tolerances may decide otherwise.
// Source: core/CONTRACT.md, "Trade figures".
const NEAR_TIE_MM: f64 = 0.01;

/// What came of a run of jobs.
#[derive(Default)]
struct Tally {
    drawn: usize,
    made: usize,
    near_ties: usize,
    /// By the item's shape, and whether there are notches.
    kinds: BTreeMap<(String, bool), usize>,
    refused: BTreeMap<String, usize>,
    most_arcs: usize,
}

#[test]
fn random_curves_and_notches_are_cut_as_asked_or_refused_for_their_true_reason() {
    // Reasoning: an opening with notches takes the card of a rectangular one larger by the notches, and is as large as
    // the union of the item's curve with two circles. `TRAYWRIGHT_JOBS=5000` asks for more of them.
    let wanted: usize = std::env::var("TRAYWRIGHT_JOBS")
        .map_or(240, |wanted| wanted.parse().expect("a number of jobs"));
    let single_slot = style("designs/styles/single-slot.ron");
    let mut tally = Tally::default();
    for (job, mut dice) in drawn(11).zip(dice(12)) {
        if tally.made >= wanted {
            break;
        }
        tally.judge(&single_slot, &with_form(job, &mut dice));
    }
    println!(
        "{} drawn, {} made, {} near a limit and set apart, {} arcs at most\n{:?}\n{:?}",
        tally.drawn, tally.made, tally.near_ties, tally.most_arcs, tally.kinds, tally.refused
    );
    let kinds = &tally.kinds;
    assert!(
        kinds.len() == 6 && kinds.values().all(|count| *count >= wanted / 30),
        "{kinds:?}"
    );
    assert!(tally.near_ties * 20 < tally.drawn, "too many are set apart");
    assert!(tally.refused.contains_key("finger-too-wide"));
}

impl Tally {
    fn judge(&mut self, style: &Style, job: &Job) {
        self.drawn += 1;
        let margins = margins(job);
        if margins.values().any(|margin| margin.abs() < NEAR_TIE_MM) {
            self.near_ties += 1;
            return;
        }
        match make(style, job) {
            Ok(tray) => {
                self.made += 1;
                let swings = |code: &str| code == "no-swing-room" && in_another_order(&tray);
                assert!(
                    margins
                        .iter()
                        .all(|(code, margin)| *margin > 0.0 || swings(code)),
                    "made: {margins:?} {job:#?}"
                );
                let shape = format!("{:?}", job.items[0].shape);
                let kind = (shape, job.slot.finger.is_some());
                *self.kinds.entry(kind).or_default() += 1;
                self.most_arcs = self.most_arcs.max(judge_made(job, &tray));
            }
            Err(Refusal::Tray(report)) => self.judge_refused(&report, &margins, job),
            Err(fault) => panic!("not even judged: {fault:#?} {job:#?}"),
        }
    }

    /// Every error is one that the formulas give too.
    fn judge_refused(&mut self, report: &Report, margins: &formulas::Margins, job: &Job) {
        let is_error = |finding: &&Finding| finding.level == Level::Error;
        for finding in report.findings.iter().filter(is_error) {
            *self.refused.entry(finding.code().to_owned()).or_default() += 1;
            let code = match finding.code() {
                "step-blocked" => "no-swing-room",
                code => code,
            };
            let margin = margins.get(code).copied();
            assert!(
                margin.is_some_and(|margin| margin < 0.0),
                "{finding:#?} {margins:?} {job:#?}"
            );
        }
    }
}

#[test]
fn a_curved_item_under_flaps_has_a_rectangle_and_is_told_so() {
    // Source: core/CONTRACT.md, "Job file": cross and doors use the enclosing rectangle and say so.
    let single_slot = style("designs/styles/single-slot.ron");
    for cut in [Cut::Cross, Cut::Doors] {
        let plain = level(job([182.0, 121.0, 34.0], [96.0, 61.0, 28.0], 0.29));
        let mut oval = plain.clone();
        oval.items[0].shape = ItemShape::Oval;
        let [plain, oval] = [plain, oval].map(|mut job| {
            job.slot.cut = cut;
            make(&single_slot, &job).unwrap_or_else(|refusal| panic!("{refusal:#?}"))
        });
        assert_eq!(
            plain.finish().document().flat,
            oval.finish().document().flat
        );
        let told = |tray: &CheckedTray| {
            let findings = &tray.report().findings;
            findings
                .iter()
                .any(|found| found.code() == "shape-as-rectangle" && found.level == Level::Note)
        };
        assert!(told(&oval) && !told(&plain));
    }
}

fn dice(seed: u64) -> impl Iterator<Item = Dice> {
    let mut dice = Dice(seed);
    std::iter::repeat_with(move || Dice(dice.bits()))
}

/// The same job with an open cut, and an item of any form with notches or without.
fn with_form(mut job: Job, dice: &mut Dice) -> Job {
    let shapes = [ItemShape::Rectangle, ItemShape::Oval, ItemShape::Round];
    let item = &mut job.items[0];
    item.shape = dice.one_of(shapes);
    if item.shape == ItemShape::Round {
        let across = Length::known(item.length.mm().min(item.width.mm()));
        (item.length, item.width) = (across, across);
    }
    let edge = item.length.mm().max(item.width.mm()) + job.fit.around_item.mm();
    let width = dice.between(4.0, 60.0_f64.min(1.1 * edge).max(5.0));
    job.slot.finger = dice.one_of([None, Some(Length::known(width))]);
    job.slot.cut = Cut::Open;
    level(job)
}

/// How far the job is from each refusal.
fn margins(job: &Job) -> formulas::Margins {
    let mut around = job.clone();
    let item = &mut around.items[0];
    let [length, width] =
        [item.length.mm(), item.width.mm()].map(|side| side + job.fit.around_item.mm());
    let finger = job.slot.finger.unwrap_or_default().mm();
    if length >= width {
        item.width = Length::known(item.width.mm() + finger);
    } else {
        item.length = Length::known(item.length.mm() + finger);
    }
    let mut margins = formulas::errors(&around);
    margins.insert("finger-too-wide", length.max(width) - finger);
    // An item with corners slides into notches that are wider than its edge there.
    let edge = length.max(width) - job.fit.around_item.mm();
    if job.items[0].shape == ItemShape::Rectangle && finger > 0.0 {
        let held = margins["item-slides"].min(edge - finger);
        margins.insert("item-slides", held);
    }
    margins
}

/// The tray's hole against the form's own area and size. Gives the number of its arcs.
fn judge_made(job: &Job, tray: &CheckedTray) -> usize {
    let document = tray.finish().document();
    union::check(&document);
    let (item, fit) = (&job.items[0], job.fit.around_item.mm());
    let slot = [item.length.mm() + fit, item.width.mm() + fit];
    let finger = job.slot.finger.unwrap_or_default().mm();
    let [hole] = &document.flat.holes[..] else {
        panic!("{} holes for {job:#?}", document.flat.holes.len());
    };
    let area = -union::enclosed(hole);
    let expected = area_of_union(slot, item.shape, finger);
    // Source: core/CONTRACT.md, "Job file": an oval is cut outside its ellipse by at most 0.05 mm; half the way round
    // is less than both sides.
    let allowed = match item.shape {
        ItemShape::Oval => 2.0 * (slot[0] + slot[1]) * 0.05,
        _ => 0.0,
    };
    // Derived: the union is reckoned with 2000 chords a curve, each short of its segment by 2 / 3 of its height.
    let chords = 1e-5 * slot[0] * slot[1] + 1e-5 * finger * finger;
    let over = area - expected;
    assert!(
        over > -1e-6 && over < allowed + chords,
        "{over} mm² over {expected}: {job:#?}"
    );
    assert_eq!(document.items[0].shape, item.shape);
    let bent = hole
        .segments
        .iter()
        .filter(|segment| matches!(segment, Segment::Arc { .. }))
        .count();
    if item.shape != ItemShape::Rectangle {
        assert_eq!(bent, hole.segments.len(), "a chord in a curve: {hole:?}");
    }
    judge_measures(&document, slot);
    judge_mirrored(hole);
    bent
}

/// Slot and clear opening stay those of the rectangle around the curve.
fn judge_measures(document: &Document, slot: [f64; 2]) {
    for (name, expected) in [
        ("slot_length.item", slot[0]),
        ("slot_width.item", slot[1]),
        ("clear_length.item", slot[0]),
        ("clear_width.item", slot[1]),
    ] {
        let found = document
            .measures
            .iter()
            .find(|measure| measure.name == name);
        let found = found.unwrap_or_else(|| panic!("no {name}")).value;
        assert!(
            (found - expected).abs() < 1e-9,
            "{name}: {found} instead of {expected}"
        );
    }
}

/// Every corner has its mirror images: left and right of the middle, above and below it.
fn judge_mirrored(hole: &Contour) {
    let corners: Vec<[f64; 2]> = hole
        .segments
        .iter()
        .map(|segment| [segment.to().x, segment.to().y])
        .collect();
    let middle =
        [0, 1].map(|axis| corners.iter().map(|at| at[axis]).sum::<f64>() / corners.len() as f64);
    for corner in &corners {
        for axis in [0, 1] {
            let mut mirrored = *corner;
            mirrored[axis] = 2.0 * middle[axis] - mirrored[axis];
            let near =
                |other: &[f64; 2]| (other[0] - mirrored[0]).hypot(other[1] - mirrored[1]) < 1e-8;
            assert!(
                corners.iter().any(near),
                "{corner:?} has no image in {corners:?}"
            );
        }
    }
}

/// The area of a rectangle or an ellipse together with two circles about the middles of its long sides.
fn area_of_union([length, width]: [f64; 2], shape: ItemShape, finger: f64) -> f64 {
    let around = |middle: [f64; 2], [a, b]: [f64; 2]| -> Vec<[f64; 2]> {
        let place = |step: u32| {
            let (sin, cos) = (TAU * f64::from(step) / 2000.0).sin_cos();
            [middle[0] + a * cos, middle[1] + b * sin]
        };
        (0..2000).map(place).collect()
    };
    let [a, b] = [length / 2.0, width / 2.0];
    if shape == ItemShape::Rectangle {
        return length * width + PI * finger * finger / 4.0;
    }
    let mut parts = vec![around([0.0, 0.0], [a, b])];
    if finger > 0.0 {
        let middle = if length >= width { [0.0, b] } else { [a, 0.0] };
        let radius = [finger / 2.0; 2];
        parts.push(around(middle, radius));
        parts.push(around(middle.map(|way| -way), radius));
    }
    let shapes = parts.simplify_shape(FillRule::NonZero);
    let ring = |ring: &Vec<[f64; 2]>| -> f64 {
        let next = ring.iter().cycle().skip(1);
        ring.iter()
            .zip(next)
            .map(|(one, two)| one[0] * two[1] - two[0] * one[1])
            .sum::<f64>()
            / 2.0
    };
    shapes.iter().flatten().map(ring).sum::<f64>().abs()
}
