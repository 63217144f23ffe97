//! What a machine is given: creases first and the outline last, short ways between strokes, a piece that stays in its
//! sheet, and cuts that stand off the piece by half of what the tool takes away.
//!
//! Outsiders: svgelements 1.9 and shapely 2.2, in `outside/machine.py`. The ways of the order are held against the lines
//! as they stand in the flat, which nobody put in order.

use std::fs;
use std::path::Path;

use serde_json::Value;
use traywright_document::{Contour, Point, Run, Segment};
use traywright_tests::every_style::{Kind, kinds};
use traywright_tests::jobs::{Dice, drawn, style};
use traywright_tests::{python, run};

#[test]
fn the_order_saves_more_than_half_of_the_idle_way_and_cuts_the_same() {
    // Source: the issue: total cut length, idle travel and lifts of the order against those without it. The bounds are
    // reasoning: an order that saves less than a third is none.
    let single = style("designs/styles/single-slot.ron");
    let (mut with, mut without) = (Work::default(), Work::default());
    let mut made = 0;
    for job in drawn(21).take(120) {
        let Ok(tray) = traywright_engine::make(&single, &job) else {
            continue;
        };
        let document = tray.document();
        let start = document.flat.extent.least;
        let (ordered, plain) = (
            Work::of(start, &document.runs),
            Work::of(start, &document.flat.runs()),
        );
        assert!((ordered.length - plain.length).abs() < 1e-6, "{job:?}");
        assert!(
            ordered.strokes <= plain.strokes && ordered.idle <= plain.idle,
            "{job:?}"
        );
        with.add(&ordered);
        without.add(&plain);
        made += 1;
    }
    println!(
        "{made} trays: idle way {:.3}, strokes {:.3} of those without an order; {:.0} mm of lines",
        with.idle / without.idle,
        with.strokes / without.strokes,
        with.length
    );
    assert!(made > 60, "{made}");
    assert!(with.idle < 0.67 * without.idle && with.strokes < without.strokes);
}

/// What a tool does along runs.
#[derive(Default)]
struct Work {
    length: f64,
    idle: f64,
    strokes: f64,
}

impl Work {
    fn of(start: Point, runs: &[Run]) -> Work {
        let mut work = Work::default();
        let mut at = start;
        for run in runs {
            work.idle += apart(at, run.contour.start);
            work.length += length(&run.contour);
            work.strokes += 1.0;
            at = run.contour.segments.last().map_or(at, Segment::to);
        }
        work
    }

    fn add(&mut self, other: &Work) {
        self.length += other.length;
        self.idle += other.idle;
        self.strokes += other.strokes;
    }
}

fn apart(one: Point, other: Point) -> f64 {
    (one.x - other.x).hypot(one.y - other.y)
}

/// Length along a contour: an arc has the angle of four times the arc tangent of its bulge.
fn length(contour: &Contour) -> f64 {
    let mut from = contour.start;
    let mut sum = 0.0;
    for segment in &contour.segments {
        let chord = apart(from, segment.to());
        sum += match *segment {
            Segment::Line { .. } => chord,
            Segment::Arc { bulge, .. } => {
                let angle = 4.0 * bulge.atan();
                chord / (2.0 * (angle / 2.0).sin()) * angle
            }
        };
        from = segment.to();
    }
    sum
}

#[test]
fn the_file_has_the_order_and_gaps_keep_the_piece_in_its_sheet() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let made = make_twins(folder.path(), 31, "hold gap=(mm)0.4 every=(mm)60\n");
    let Some(told) = asked(&["held", &name(folder.path())]) else {
        return;
    };
    let told = told.unwrap_or_else(|fault| panic!("{fault}"));
    assert_eq!(told.as_object().map(|told| told.len()), Some(made));
    for (name, result) in told.as_object().expect("an object") {
        let number = |key: &str| result[key].as_f64().expect("a number");
        // Source: the job, a gap each 60 mm; one that finds no room near its place is left out.
        let wanted = (number("round") / 60.0).ceil();
        assert!(
            number("gaps") <= wanted && number("gaps") > 0.7 * wanted,
            "{name}: {result}"
        );
    }
    // The files without gaps have one closed outline, last of all strokes.
    for entry in fs::read_dir(folder.path())
        .expect("the folder can be read")
        .flatten()
    {
        let path = entry.path();
        let is_whole = path.to_string_lossy().ends_with("-whole.svg");
        if !is_whole {
            fs::remove_file(path).expect("a file can be taken away");
        }
    }
    let Some(told) = asked(&["order", &name(folder.path())]) else {
        return;
    };
    told.unwrap_or_else(|fault| panic!("{fault}"));
    println!("{made} trays are held");
}

#[test]
fn a_wide_cut_is_a_mitred_buffer_of_the_piece() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let made = make_twins(folder.path(), 41, "cut width=(mm)0.2\n");
    let Some(told) = asked(&["wide", &name(folder.path()), "0.2"]) else {
        return;
    };
    let told = told.unwrap_or_else(|fault| panic!("{fault}"));
    assert_eq!(told.as_object().map(|told| told.len()), Some(made));
    println!("{made} trays have wide cuts: {told}");
}

#[test]
fn a_piece_without_gaps_is_seen_to_fall_out() {
    // Planted: the outline of the file with gaps is that without.
    let folder = tempfile::tempdir().expect("a folder can be made");
    make_twins(folder.path(), 5, "hold\n");
    let entries = fs::read_dir(folder.path()).expect("the folder can be read");
    let whole = entries
        .flatten()
        .map(|entry| entry.path())
        .find(|path| path.to_string_lossy().ends_with("-whole.svg"))
        .expect("files were made");
    let with_gaps = whole.to_string_lossy().replace("-whole", "");
    fs::copy(&whole, with_gaps).expect("a file can be replaced");
    let Some(told) = asked(&["held", &name(folder.path())]) else {
        return;
    };
    let fault = told.expect_err("a piece that falls out was let pass");
    assert!(fault.contains("2 pieces are left"), "{fault}");
}

/// Makes the SVG of a job of every kind with a line and, as NAME-whole, without: how many.
fn make_twins(folder: &Path, seed: u64, line: &str) -> usize {
    let mut dice = Dice(seed);
    let mut files = Vec::new();
    for (index, kind) in kinds().iter().enumerate() {
        let job = Kind::job(kind, &mut dice, "");
        for (name, text) in [
            (format!("j{index}"), format!("{job}{line}")),
            (format!("j{index}-whole"), job),
        ] {
            fs::write(folder.join(&name).with_extension("kdl"), text)
                .expect("a job can be written");
            files.push(format!("{name}.kdl"));
        }
    }
    let mut words = vec!["make", "--keep-going", "--as", "svg"];
    words.extend(files.iter().map(String::as_str));
    let outcome = run(folder, &words);
    assert!(outcome.code < 2, "{}{}", outcome.stdout, outcome.stderr);
    let is_there = |name: &str| folder.join(name).with_extension("svg").exists();
    let twins = files.iter().filter_map(|file| file.strip_suffix(".kdl"));
    let twins = twins.filter(|name| is_there(name) && !name.ends_with("-whole"));
    let made = twins
        .inspect(|name| assert!(is_there(&format!("{name}-whole")), "{name}"))
        .count();
    assert!(made > 5, "{made}: {}", outcome.stderr);
    made
}

fn asked(words: &[&str]) -> Option<Result<Value, String>> {
    let told = python("machine.py", words)?;
    Some(told.map(|text| serde_json::from_str(&text).expect("the script prints JSON")))
}

fn name(folder: &Path) -> String {
    folder
        .to_str()
        .expect("a temporary folder has a plain name")
        .to_owned()
}
