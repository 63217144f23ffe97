//! The drafting sheet drawn again from the words of its pages alone.
//!
//! Source: the blank's outline in the document; a coordinate rounded to a step is off by half of it at most.

use std::collections::BTreeMap;

use traywright_document::{Document, Segment};
use traywright_engine::make;
use traywright_tests::every_style;
use traywright_tests::jobs::{job, style, written};

use crate::booklet;

#[test]
fn the_outline_can_be_drawn_from_the_words_alone() {
    let (mut rounded, mut made_trays) = (0, 0);
    for name in every_style::styles() {
        for caliper in [0.29, 0.5, 0.76] {
            let job = job([182.0, 121.0, 34.0], [96.0, 61.0, 28.0], caliper);
            let document = make(&style(&format!("designs/styles/{name}.ron")), &job)
                .expect("the tray fits")
                .document();
            let made = booklet(&written(&name, &job));
            let Some(text) = made.ask("pdftotext", &["-layout"], &["-"]) else {
                return;
            };
            check(&name, &document, &text);
            rounded += usize::from(document.hand_step.is_some());
            made_trays += 1;
        }
    }
    assert!(
        (1..made_trays).contains(&rounded),
        "{rounded} of {made_trays} are rounded"
    );
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
