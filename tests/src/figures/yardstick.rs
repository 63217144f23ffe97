//! The same jobs for the yardstick in plain Python, and whether its outlines are ours.

use std::fs;
use std::path::Path;

use serde_json::{Value, json};
use traywright_document::{Chords, Contour};
use traywright_engine::{Job, make};

use super::{Desk, trays};
use crate::jobs::style;
use crate::measured;

/// Corners nearer than this are the same.
// Source: reasoning: both compute with the same formulas, so only rounding differs.
const SAME_MM: f64 = 1e-9;

/// Writes jobs with one item for `yardstick.py`.
///
/// # Panics
/// When the file cannot be written.
pub fn write_jobs(jobs: &[Job], file: &Path) {
    let jobs = jobs.iter().enumerate().map(|(number, job)| {
        let (size, item, fit) = (&job.box_size, &job.items[0], &job.fit);
        json!({
            "name": format!("job-{number}"),
            "box": [size.length.mm(), size.width.mm(), size.depth.mm()],
            "item": [item.length.mm(), item.width.mm(), item.depth.mm()],
            "caliper": job.board.caliper.mm(),
            "hinge": job.board.hinge(),
            "fit": fit.around_tray.mm(),
            "around": fit.around_item.mm(),
            "play": fit.play.mm(),
        })
    });
    let text = Value::Array(jobs.collect()).to_string();
    fs::write(file, text).expect("the yardstick's jobs can be written");
}

/// The numbers of those of `count` trays whose outline or opening the yardstick draws differently; none if its Python is
/// missing, which has then been said.
///
/// # Panics
/// When the yardstick fails, or a tray is refused.
pub fn differing_outlines(count: usize) -> Option<Vec<usize>> {
    let jobs = trays(count);
    let desk = Desk::with("single-slot", &jobs);
    let file = desk.path().join("jobs.json");
    let told = measured("yardstick.py", &["outlines", &file.to_string_lossy()])?;
    let told = told.unwrap_or_else(|fault| panic!("{fault}"));
    let style = style("designs/styles/single-slot.ron");
    let differs = |number: &usize| {
        let tray = make(&style, &jobs[*number]).unwrap_or_else(|refusal| panic!("{refusal:#?}"));
        let flat = tray.finish().document().flat;
        let same =
            |ours: &Contour, theirs: &str| same_ring(&ring(ours), &points(&told[*number][theirs]));
        !(same(&flat.outline, "outline")
            && flat.holes.len() == 1
            && same(&flat.holes[0], "opening"))
    };
    Some((0..count).filter(differs).collect())
}

fn points(told: &Value) -> Vec<[f64; 2]> {
    let number = |value: &Value| value.as_f64().expect("a coordinate is a number");
    let corners = told.as_array().into_iter().flatten();
    let corners = corners.map(|corner| [number(&corner[0]), number(&corner[1])]);
    without_straight(corners.collect())
}

fn ring(contour: &Contour) -> Vec<[f64; 2]> {
    // The trays of the figures have no arcs.
    let corners = contour.corners(Chords::Within(SAME_MM));
    without_straight(corners.iter().map(|corner| [corner.x, corner.y]).collect())
}

/// The corners at which a ring turns.
fn without_straight(ring: Vec<[f64; 2]>) -> Vec<[f64; 2]> {
    let count = ring.len();
    let turns = |&at: &usize| {
        let [from, here, to] = [at + count - 1, at, at + 1].map(|at| ring[at % count]);
        let cross =
            (here[0] - from[0]) * (to[1] - here[1]) - (here[1] - from[1]) * (to[0] - here[0]);
        cross.abs() > SAME_MM
    };
    (0..count).filter(turns).map(|at| ring[at]).collect()
}

/// Whether two rings run through the same corners in the same sense, wherever they begin.
fn same_ring(one: &[[f64; 2]], other: &[[f64; 2]]) -> bool {
    let near = |one: &[f64; 2], other: &[f64; 2]| {
        (one[0] - other[0]).abs() < SAME_MM && (one[1] - other[1]).abs() < SAME_MM
    };
    let count = one.len();
    count > 2
        && count == other.len()
        && (0..count).any(|first| (0..count).all(|at| near(&one[at], &other[(first + at) % count])))
}
