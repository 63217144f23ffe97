//! Half-cut board, folded about its true fold lines by a solid library: what is left in the box is what `check` says.
//!
//! Outsider: manifold3d 3.5 (Python, `outside/fold_solids.py`), which is given FOLD files and where half-cut board bends.

use std::fs;

use serde_json::Value;
use tempfile::TempDir;
use traywright_engine::job::{BoardKind, CreaseKind, Job, Length};
use traywright_engine::make;
use traywright_tests::jobs::{Dice, drawn, job, on_the_floor, style, written};
use traywright_tests::thorough::part_of;
use traywright_tests::{python, run};

use super::{number, path};

/// The part of the caliper by which the fold lines of half-cut board lie off its middle.
// Derived: the cut leaves the inner half, and that bends in its own middle: half of a half.
const HALF_CUT: f64 = 0.25;
/// The same where the cut goes nearly through: what is left is a skin at the inner face.
const DEEPEST: f64 = 0.5;

/// What `check` says is left agrees to this.
// Source: the issue of the maker: a hundredth of a millimetre is far less than any hand cuts to.
const LEFT_MM: f64 = 0.01;
/// Panels that are in each other no deeper than this touch.
// Derived: chords of notches and round tabs leave their arcs by up to 0.01 mm; all else is far nearer.
const TOUCH_MM: f64 = 0.01;

const STYLES: [&str; 4] = ["single-slot", "multi-slot", "double-wall", "lid-lock"];

/// Trays of each style in the thorough run.
const TRAYS: usize = 16;

/// A job with its text.
struct Written {
    name: String,
    text: String,
}

/// What was measured of a tray.
struct Seen {
    name: String,
    /// What `check` says is left of the box, and what is.
    says: [f64; 3],
    left: [f64; 3],
    deepest: f64,
    /// How far the file's own folded form is off.
    off: Option<f64>,
}

#[test]
fn what_check_calls_spare_is_what_half_cut_board_leaves_in_its_box() {
    let mut jobs = Vec::new();
    for (number, name) in STYLES.into_iter().enumerate() {
        jobs.extend(half_cut(name, 1700 + number as u64, part_of(TRAYS)));
    }
    let Some(seen) = folded(&jobs, HALF_CUT) else {
        return;
    };
    for seen in &seen {
        for (says, left) in seen.says.iter().zip(seen.left) {
            assert!(
                (says - left).abs() < LEFT_MM,
                "{}: {says}, {left}",
                seen.name
            );
        }
        assert!(seen.deepest < TOUCH_MM, "{}: {}", seen.name, seen.deepest);
        let off = seen.off.expect("it has a folded form of its own");
        assert!(off < 1e-9, "{}: {off}", seen.name);
    }
    let deepest = seen.iter().map(|seen| seen.deepest).fold(0.0, f64::max);
    println!("{} trays, at most {deepest} mm in each other", seen.len());
}

/// What is left of 2 mm of fit in a box of 260 × 190 × 60 when the blank is drawn for fold lines in the middle of the card,
/// and folded about lines a quarter of the caliper and half of it off; the caliper before it.
// Source: computed when the fault was found, in another solid library.
const LEFT_OF_TWO: [(f64, [f64; 2]); 4] = [
    (0.29, [1.86, 1.71]),
    (1.0, [1.5, 1.0]),
    (1.5, [1.25, 0.5]),
    (2.0, [1.0, 0.0]),
];

#[test]
fn a_blank_for_the_middle_of_the_card_is_too_large_when_it_is_half_cut() {
    let middle = in_the_box("crease=\"half-cut\" hinge=(mm)0");
    for (number, part) in [HALF_CUT, DEEPEST].into_iter().enumerate() {
        let Some(seen) = folded(&middle, part) else {
            return;
        };
        for ((caliper, left), seen) in LEFT_OF_TWO.iter().zip(&seen) {
            let least = seen.left.iter().copied().fold(f64::INFINITY, f64::min);
            assert!((seen.says[0] - 2.0).abs() < LEFT_MM, "{}", seen.name);
            assert!(
                (least - left[number]).abs() < LEFT_MM,
                "{caliper}: {least} left"
            );
            // Derived: each flap comes in by half the caliper, less its half of the play of 0.5: 0.25 in board of 1.
            let meets = part == DEEPEST && *caliper >= 1.0;
            assert!(!meets || seen.deepest > 0.2, "{caliper}: {}", seen.deepest);
        }
    }
}

#[test]
fn a_blank_for_half_cut_board_leaves_its_fit_when_it_is_half_cut() {
    let Some(seen) = folded(&in_the_box("crease=\"half-cut\""), HALF_CUT) else {
        return;
    };
    for seen in &seen {
        let off = seen.left.iter().map(|left| (left - 2.0).abs());
        assert!(
            off.fold(0.0, f64::max) < LEFT_MM,
            "{}: {:?}",
            seen.name,
            seen.left
        );
        assert!(seen.deepest < TOUCH_MM, "{}: {}", seen.name, seen.deepest);
    }
}

/// A tray in the box of [`LEFT_OF_TWO`] for each of its calipers, with creases made so.
fn in_the_box(crease: &str) -> Vec<Written> {
    let written = LEFT_OF_TWO.iter().map(|(caliper, _)| {
        let mut job = job([260.0, 190.0, 60.0], [120.0, 80.0, 54.0], *caliper);
        job.fit.around_item = Length::known(6.0);
        Written {
            name: format!("of-{caliper}"),
            text: with_board(
                "single-slot",
                &job,
                &format!("board caliper=(mm){caliper} {crease}"),
            ),
        }
    });
    written.collect()
}

/// Random jobs of a style that give a tray in half-cut board of 0.3 to 3 mm.
fn half_cut(name: &str, seed: u64, count: usize) -> Vec<Written> {
    let style = style(&format!("designs/styles/{name}.ron"));
    let mut dice = Dice(seed);
    let made = drawn(seed).filter_map(|job| {
        let job = adapted(name, job, dice.between(0.3, 3.0));
        make(&style, &job).is_ok().then_some(job)
    });
    let written = made.take(count).enumerate().map(|(number, job)| Written {
        name: format!("{name}-{number}"),
        text: {
            let caliper = job.board.caliper.mm();
            let board = format!("board caliper=(mm){caliper} kind=\"solid\" crease=\"half-cut\"");
            with_board(name, &job, &board)
        },
    });
    written.collect()
}

/// The job in half-cut board so thick, with the room that such board needs.
fn adapted(name: &str, mut job: Job, caliper: f64) -> Job {
    job.style = name.to_owned();
    job.board.caliper = Length::known(caliper);
    job.board.hinge = None;
    job.board.kind = Some(BoardKind::Solid);
    job.board.crease = Some(CreaseKind::HalfCut);
    if name == "lid-lock" {
        job = on_the_floor(job);
        let layers = 3.0 * caliper + job.fit.play.mm() + job.fit.around_tray.mm();
        job.box_size.depth = Length::known(job.items[0].depth.mm() + layers + 2.0);
    }
    job
}

/// The job as a maker writes it, with another line for its board.
fn with_board(name: &str, job: &Job, board: &str) -> String {
    let text = written(name, job);
    let line = |line: &str| match line.starts_with("board ") {
        true => format!("{board}\n"),
        false => format!("{line}\n"),
    };
    text.lines().map(line).collect()
}

/// Makes and checks the jobs with the program, and has the solid library fold the files about fold lines so far off the
/// middle. None when it cannot be asked.
fn folded(jobs: &[Written], part: f64) -> Option<Vec<Seen>> {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let mut names: Vec<String> = Vec::new();
    for job in jobs {
        let name = format!("{}.kdl", job.name);
        fs::write(folder.path().join(&name), &job.text).expect("a job can be written");
        names.push(name);
    }
    let said = with_jobs(&folder, &["check"], &["--format", "json"], &names);
    let said: Value = serde_json::from_str(&said).expect("the report is JSON");
    with_jobs(&folder, &["make", "--as", "fold"], &[], &names);
    let measured = python("fold_solids.py", &[path(&folder), &part.to_string()])?;
    let measured = measured.unwrap_or_else(|fault| panic!("{fault}"));
    let measured: Value = serde_json::from_str(&measured).expect("the script prints JSON");
    let seen = jobs.iter().enumerate().map(|(at, job)| {
        let (said, seen) = (&said[at]["measures"], &measured[&job.name]);
        let sides = ["length", "width", "depth"];
        Seen {
            name: format!("{}: {}", job.name, job.text),
            says: sides.map(|side| number(&said[format!("box_clearance_{side}")])),
            left: [0, 1, 2].map(|axis| number(&seen["left"][axis])),
            deepest: number(&seen["deepest"]["depth"]),
            off: seen["off"].as_f64(),
        }
    });
    Some(seen.collect())
}

/// Runs a command of the program over jobs in their folder.
fn with_jobs(folder: &TempDir, command: &[&str], options: &[&str], jobs: &[String]) -> String {
    let mut arguments = command.to_vec();
    arguments.extend(jobs.iter().map(String::as_str));
    arguments.extend(options);
    let outcome = run(folder.path(), &arguments);
    assert_eq!(outcome.code, 0, "{}", outcome.stderr);
    outcome.stdout
}
