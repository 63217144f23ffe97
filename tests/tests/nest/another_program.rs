//! The same cut-ups laid by another program, which runs a search that was published in 2025.
//!
//! Source: spyrrow, the Python package of the program for "An open-source heuristic to reboot 2D nesting research"
//! (Gardeyn, Vanden Berghe and Wauters, 2025; the title from memory).

use serde_json::json;
use traywright_tests::measured;
use traywright_tests::thorough::part_of;

use crate::cut_ups::{Cuts, LENGTH, WIDTH, cut_up, laid, worth};

/// What the other program may be better by, as a share of the optimum.
// Source: the aim of this project.
const POINTS: f64 = 0.03;

#[test]
fn cut_ups_are_laid_as_well_as_by_another_program() {
    let (moves, seconds) = match part_of(20) {
        20 => (150_000, 60),
        _ => (30_000, 10),
    };
    let folder = tempfile::tempdir().expect("a folder can be made");
    let file = folder.path().join("pieces.json");
    let (mut ours, mut theirs) = (Vec::new(), Vec::new());
    for seed in 1..=part_of(20) as u64 {
        let outlines = cut_up(seed, 12, Cuts::Slanting);
        let corners = |outline: &Vec<traywright_document::Point>| -> Vec<[f64; 2]> {
            outline.iter().map(|corner| [corner.x, corner.y]).collect()
        };
        let text = json!(outlines.iter().map(corners).collect::<Vec<_>>()).to_string();
        std::fs::write(&file, text).expect("a file can be written");
        let arguments = [
            file.to_string_lossy().into_owned(),
            (WIDTH + 0.1).to_string(),
            f64::from(seconds).to_string(),
        ];
        let Some(said) = measured(
            "nest_shortest.py",
            &arguments.each_ref().map(String::as_str),
        ) else {
            return;
        };
        let said = said.unwrap_or_else(|complaint| panic!("{complaint}"));
        // It takes touching for free, to within its own tolerance.
        assert!(said["overlap"].as_f64().expect("an area") < 20.0, "{said}");
        theirs.push(LENGTH / said["length"].as_f64().expect("a length"));
        ours.push(worth(&outlines, &laid(&outlines, moves)));
    }
    println!("ours: {ours:.4?}\nthe other program's: {theirs:.4?}");
    let mean = |worths: &[f64]| worths.iter().sum::<f64>() / worths.len() as f64;
    assert!(mean(&ours) > mean(&theirs) - POINTS, "{ours:?} {theirs:?}");
}
