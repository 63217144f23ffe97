//! The drafting sheet drawn again from the words of its pages alone.
//!
//! Source: the blank's outline in the document; a coordinate rounded to a step is off by half of it at most.

use std::collections::BTreeMap;

use traywright_document::{Contour, Document, Point, Segment};
use traywright_engine::job::{Cut, DrawnFace, ItemShape, Job, Length};
use traywright_engine::make;
use traywright_tests::every_style;
use traywright_tests::jobs::{job, level, style, written};
use traywright_tests::union::enclosed;

use crate::booklet;

/// Figures are printed to a hundredth of a millimetre.
const PRINTED: f64 = 0.0051;

#[test]
fn the_blank_can_be_drawn_from_the_words_alone() {
    let (mut rounded, mut made_trays, mut curved) = (0, 0, 0);
    for name in every_style::styles() {
        let before = made_trays;
        for job in jobs() {
            let style = style(&format!("designs/styles/{name}.ron"));
            let Ok(tray) = make(&style, &job) else {
                continue;
            };
            let document = tray.finish().document();
            let made = booklet(&written(&name, &job));
            let Some(text) = made.ask("pdftotext", &["-layout"], &["-"]) else {
                return;
            };
            made_trays += 1;
            // Source: core/CONTRACT.md, "Files: booklet": no sheet without rounded coordinates, and a sentence instead.
            let is_told = text.contains("There is no drafting sheet");
            assert_eq!(is_told, document.hand_step.is_none(), "{name}: {text}");
            assert_eq!(
                text.contains("the drafting sheet"),
                !is_told,
                "{name}: {text}"
            );
            if is_told {
                continue;
            }
            check(&name, &document, &text);
            check_all(&name, &document, &text);
            rounded += usize::from(document.hand_step.is_some());
            let is_curved = job.items[0].shape != ItemShape::Rectangle;
            curved += usize::from(is_curved && document.hand_step.is_some());
        }
        assert!(made_trays > before, "no job gives a tray of {name}");
    }
    println!("{made_trays} trays, {rounded} rounded, {curved} of them with curves");
    assert!(
        (1..made_trays).contains(&rounded) && curved > 0,
        "{rounded} of {made_trays} are rounded, {curved} with curves"
    );
}

/// Flaps, notches in a straight opening, and openings that are curved with notches and without, on both faces of the card.
fn jobs() -> Vec<Job> {
    let plain = |caliper, item| job([182.0, 121.0, 34.0], item, caliper);
    let mut jobs: Vec<Job> = [0.29, 0.5, 0.76]
        .map(|caliper| plain(caliper, [96.0, 61.0, 28.0]))
        .to_vec();
    for (shape, width) in [
        (ItemShape::Rectangle, 50.0),
        (ItemShape::Oval, 50.0),
        (ItemShape::Round, 60.0),
    ] {
        for finger in [None, Some(Length::known(14.0))] {
            let mut job = plain(0.5, [60.0, width, 28.0]);
            job.items[0].shape = shape;
            job.slot.cut = Cut::Open;
            job.slot.finger = finger;
            jobs.push(level(job));
        }
    }
    let mut mirrored = jobs[jobs.len() - 1].clone();
    mirrored.output.drawn_face = DrawnFace::Outside;
    jobs.push(mirrored);
    jobs
}

/// Every corner of the blank that was proved, rounded apart from the program, stands on the sheet, and so do the middle of
/// every circle and the radius of every wide arc.
fn check_all(name: &str, document: &Document, text: &str) {
    let points = points(text);
    let document = match document.hand_step {
        Some(step) => traywright_tests::rounding::rounded(document.clone(), step),
        None => document.clone(),
    };
    let (flat, least) = (&document.flat, document.flat.extent.least);
    let stands = |point: Point| {
        let at = [point.x - least.x, point.y - least.y];
        let near = |told: &[f64; 2]| (0..2).all(|axis| (told[axis] - at[axis]).abs() < PRINTED);
        assert!(points.values().any(near), "{name}: no point at {at:?}");
    };
    for crease in &flat.creases {
        [crease.from, crease.to].into_iter().for_each(stands);
    }
    let drawn = |hole: &&Contour| enclosed(hole).abs() > 1.0;
    let holes = flat.holes.iter().filter(drawn);
    let lines = std::iter::once(&flat.outline).chain(holes);
    for line in lines.chain(&flat.open_cuts) {
        let (circle, wide) = compasses(line);
        for (centre, radius) in circle.into_iter().chain(wide) {
            stands(centre);
            let told = |word: &str| {
                let figure: Result<f64, _> = word.parse();
                figure.is_ok_and(|told| (told - radius).abs() < PRINTED)
            };
            let is_told = text.split_whitespace().any(told);
            assert!(is_told, "{name}: no radius {radius}");
        }
        if circle.is_none() {
            stands(line.start);
            line.segments.iter().map(Segment::to).for_each(stands);
        }
    }
}

/// The centre and radius of a line that is one circle, or of those arcs of it that are for compasses.
type Compasses = (Option<(Point, f64)>, Vec<(Point, f64)>);

fn compasses(line: &Contour) -> Compasses {
    let ends = line.segments.iter().map(Segment::to);
    let starts = std::iter::once(line.start).chain(ends);
    let arcs: Vec<Option<(Point, f64)>> = starts.zip(&line.segments).map(arc).collect();
    let circle = arcs[0].filter(|(first, _)| {
        let apart = |(centre, _): (Point, f64)| (centre.x - first.x).hypot(centre.y - first.y);
        arcs.iter()
            .all(|arc| arc.is_some_and(|arc| apart(arc) < 1e-6))
    });
    // A fifth of a circle and more is for compasses.
    let is_wide =
        |segment: &Segment| matches!(segment, Segment::Arc { bulge, .. } if bulge.abs() > 0.33);
    let wide = line.segments.iter().zip(&arcs);
    let wide = wide.filter_map(|(segment, arc)| arc.filter(|_| is_wide(segment)));
    (circle, wide.collect())
}

/// Centre and radius of an arc.
// Source: DXF reference, LWPOLYLINE, group 42: the bulge is the tangent of a quarter of the angle swept.
fn arc((from, segment): (Point, &Segment)) -> Option<(Point, f64)> {
    let Segment::Arc { to, bulge } = *segment else {
        return None;
    };
    let (x, y) = (to.x - from.x, to.y - from.y);
    let radius = x.hypot(y) / (2.0 * (2.0 * bulge.atan()).sin());
    let off = radius * (2.0 * bulge.atan()).cos() / x.hypot(y);
    let centre = Point {
        x: (from.x + to.x) / 2.0 - off * y,
        y: (from.y + to.y) / 2.0 + off * x,
    };
    Some((centre, radius.abs()))
}

fn check(name: &str, document: &Document, text: &str) {
    let points = points(text);
    let step = document.hand_step.unwrap_or(0.01);
    let outline = &document.flat.outline;
    let least = document.flat.extent.least;
    let exact: Vec<[f64; 2]> = std::iter::once(outline.start)
        .chain(outline.segments.iter().map(Segment::to))
        .map(|point| [point.x - least.x, point.y - least.y])
        .collect();
    let joined = text
        .lines()
        .find(|line| line.contains("Outline: join"))
        .unwrap_or_else(|| panic!("{name}: nothing says how the outline is joined"));
    let ends: Vec<usize> = joined
        .split_whitespace()
        .filter_map(|word| word.trim_matches(',').parse().ok())
        .collect();
    let (first, last) = (ends[0], ends[ends.len() - 1]);
    assert!(last - first >= 3, "{name}: {joined}");
    let drawn: Vec<[f64; 2]> = (first..=last).map(|number| points[&number]).collect();
    // Corners that fall together when rounded are one point; every corner has a point near it, in order. A corner halfway
    // between two points may be either.
    let near = |point: usize, corner: &[f64; 2]| {
        let point = drawn[point % drawn.len()];
        (0..2).all(|axis| (point[axis] - corner[axis]).abs() <= step / 2.0 + 1e-6)
    };
    let mut reached: Vec<usize> = (0..drawn.len()).collect();
    for corner in &exact {
        let next = reached.iter().flat_map(|&at| [at, at + 1]);
        let mut next: Vec<usize> = next.filter(|&at| near(at, corner)).collect();
        next.dedup();
        assert!(
            !next.is_empty(),
            "{name}: no point within {} of {corner:?} in its place of the order",
            step / 2.0
        );
        reached = next;
    }
}

/// Every line of numbers in threes under the head of a table: a point, from left, from below.
fn points(text: &str) -> BTreeMap<usize, [f64; 2]> {
    let mut points = BTreeMap::new();
    let mut in_table = false;
    for line in text.lines() {
        let words: Vec<&str> = line.split_whitespace().collect();
        let numbers: Option<Vec<f64>> = words.iter().map(|word| word.parse().ok()).collect();
        let numbers = numbers.filter(|numbers| numbers.len() % 3 == 0 && !numbers.is_empty());
        in_table = words.starts_with(&["Point", "from", "left"])
            || (in_table && (words.is_empty() || numbers.is_some()));
        for three in numbers
            .iter()
            .filter(|_| in_table)
            .flat_map(|numbers| numbers.chunks(3))
        {
            points.insert(three[0] as usize, [three[1], three[2]]);
        }
    }
    points
}
