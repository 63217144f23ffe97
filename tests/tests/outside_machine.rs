//! What a machine is given: creases first and the outline last, short ways between strokes, a piece that stays in its
//! sheet, and cuts that stand off the piece by half of what the tool takes away.
//!
//! Outsiders: svgelements 1.9 and shapely 2.2, in `outside/machine.py`. The ways of the order are held against the lines
//! as they stand in the flat, which nobody put in order.

use std::collections::BTreeMap;
use std::fs;

use serde_json::Value;
use tempfile::TempDir;
use traywright_document::{Contour, Point, ProcessingStep, Segment, Toolpath};
use traywright_engine::job::{Cut, ItemShape, Job};
use traywright_tests::every_style::{Kind, make, styles};
use traywright_tests::jobs::{drawn, drawn_with_items, level, on_the_floor, style};
use traywright_tests::measured;

#[test]
fn the_order_saves_more_than_half_of_the_idle_way_and_cuts_the_same() {
    // Source: core/CONTRACT.md, "Files: SVG": the nearest line comes next.
    // The bounds are reasoning: an order that saves less than half is hardly one.
    for name in styles() {
        let style = style(&format!("designs/styles/{name}.ron"));
        let (mut with, mut without, mut made) = (Work::default(), Work::default(), 0);
        for job in drawn(21).zip(drawn_with_items(22)).enumerate().take(2000) {
            let job = of_many_kinds(job);
            let job = match name.as_str() {
                "lid-lock" => on_the_floor(job),
                _ => job,
            };
            let Ok(tray) = traywright_engine::make(&style, &job) else {
                continue;
            };
            let document = tray.finish().document();
            let start = document.flat.extent.least;
            let (ordered, plain) = (
                Work::of(start, &document.toolpaths),
                Work::of(start, &document.flat.toolpaths()),
            );
            for (ordered, plain) in ordered.lengths.iter().zip(plain.lengths) {
                assert!((ordered - plain).abs() < 1e-6, "{name}: {document:?}");
            }
            assert!(
                ordered.strokes <= plain.strokes && ordered.idle <= plain.idle,
                "{name}: {document:?}"
            );
            with.add(&ordered);
            without.add(&plain);
            made += 1;
            if made == TRAYS {
                break;
            }
        }
        println!(
            "{name}: {made} trays: idle way {:.3}, strokes {:.3} of those without an order; {:.0} mm of creases and {:.0} mm of cuts in both",
            with.idle / without.idle,
            with.strokes / without.strokes,
            with.lengths[0],
            with.lengths[1],
        );
        assert_eq!(made, TRAYS, "{name}");
        assert!(with.idle < 0.5 * without.idle && with.strokes <= without.strokes);
    }
}

/// So many trays of each style are measured.
const TRAYS: usize = 50;

/// One item or several in turn, and every third with a curve where the first opening is cut clean.
fn of_many_kinds((index, (one, several)): (usize, (Job, Job))) -> Job {
    let mut job = if index.is_multiple_of(2) {
        one
    } else {
        several
    };
    if index.is_multiple_of(3) {
        job.slot.cut = Cut::Open;
        job.items[0].shape = ItemShape::Oval;
        job = level(job);
    }
    job
}

/// What a tool does along runs.
#[derive(Default)]
struct Work {
    /// Of creases and of cuts.
    lengths: [f64; 2],
    idle: f64,
    strokes: f64,
}

impl Work {
    fn of(start: Point, runs: &[Toolpath]) -> Work {
        let mut work = Work::default();
        let mut at = start;
        for run in runs {
            work.idle += apart(at, run.contour.start);
            work.lengths[usize::from(run.step == ProcessingStep::Cutting)] += length(&run.contour);
            work.strokes += 1.0;
            at = run.contour.segments.last().map_or(at, Segment::to);
        }
        work
    }

    fn add(&mut self, other: &Work) {
        for (mine, theirs) in self.lengths.iter_mut().zip(other.lengths) {
            *mine += theirs;
        }
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
fn gaps_keep_the_piece_in_its_sheet_in_every_style_and_shape() {
    let twins = Twins::of(31, "nicks length=(mm)0.4 every=(mm)60\n");
    let Some(told) = twins.asked(&["held", &twins.path(), "0.4"]) else {
        return;
    };
    let (mut farthest, mut longest) = (0.0_f64, 0.0_f64);
    for (name, result) in told.as_object().expect("an object") {
        let number = |key: &str| result[key].as_f64().expect("a number");
        // Source: the job: a gap each 60 mm, so that many at most.
        assert!(
            number("gaps") <= (number("round") / 60.0).ceil(),
            "{result}"
        );
        // Derived: a place lies within 30 mm of one where a gap is wanted, and that gap moves by half of the longest
        // stretch without room. It is left out only where another gap lies within two lengths of it.
        let most = 60.0 / 2.0 + number("bare") / 2.0 + 2.0 * 0.4;
        assert!(number("far") < most + 0.05, "{name}: {result}");
        longest = longest.max(number("bare"));
        farthest = farthest.max(number("far"));
    }
    println!(
        "no place for a gap is farther than {farthest:.2} mm from one; {longest:.2} mm without a place"
    );
    // Reasoning: gaps spread evenly leave places near the middle between two of them.
    assert!(farthest > 25.0, "{farthest}");
}

#[test]
fn a_wide_cut_is_a_mitred_buffer_of_the_piece_in_every_style_and_shape() {
    let twins = Twins::of(41, "kerf width=(mm)0.2\n");
    let Some(told) = twins.asked(&["wide", &twins.path(), "0.2"]) else {
        return;
    };
    let far = told.as_object().expect("an object").values();
    let far = far.filter_map(|result| result["far"].as_f64());
    println!("at most {:.6} mm off", far.fold(0.0, f64::max));
}

#[test]
fn the_file_has_the_order_of_the_document() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let made = make(folder.path(), 51, TWINS, "svg", |_| String::new());
    let path = folder.path().to_string_lossy();
    let Some(told) = measured("machine.py", &["order", &path]) else {
        return;
    };
    let told = told.unwrap_or_else(|fault| panic!("{fault}"));
    assert_eq!(told.as_object().map(|told| told.len()), Some(made.len()));
}

#[test]
fn a_piece_without_gaps_is_seen_to_fall_out() {
    // Planted: the outline of the file with gaps is that without.
    let twins = Twins::of(5, "nicks\n");
    let (name, _) = &twins.made[0];
    let file = |name: &str| twins.folder.path().join(name).with_extension("svg");
    fs::copy(file(&format!("{name}-whole")), file(name)).expect("a file can be replaced");
    let Some(told) = measured("machine.py", &["held", &twins.path(), "0.4"]) else {
        return;
    };
    let fault = told.expect_err("a piece that falls out was let pass");
    assert!(fault.contains("2 pieces are left"), "{fault}");
}

/// The least number of pairs.
const TWINS: usize = 70;

/// The SVG of random jobs of every kind with a line and, as NAME-whole, without.
struct Twins {
    folder: TempDir,
    made: Vec<(String, Kind)>,
}

impl Twins {
    fn of(seed: u64, line: &str) -> Twins {
        let [folder, plain] = [0, 1].map(|_| tempfile::tempdir().expect("a folder can be made"));
        let made = make(folder.path(), seed, TWINS, "svg", |_| line.to_owned());
        make(plain.path(), seed, TWINS, "svg", |_| String::new());
        for (name, kind) in &made {
            let file = plain.path().join(name).with_extension("svg");
            let twin = folder.path().join(format!("{name}-whole.svg"));
            assert!(fs::copy(file, twin).is_ok(), "{name} of {kind:?}");
        }
        Twins { folder, made }
    }

    fn path(&self) -> String {
        self.folder.path().to_string_lossy().into_owned()
    }

    /// What the readers say of sound pairs, of which each style, shape and cut has some.
    fn asked(&self, words: &[&str]) -> Option<Value> {
        let told = measured("machine.py", words)?.unwrap_or_else(|fault| panic!("{fault}"));
        let judged = told.as_object().map(|told| told.len());
        assert_eq!(judged, Some(self.made.len()));
        let mut counts: BTreeMap<(&str, String), usize> = BTreeMap::new();
        for (_, kind) in &self.made {
            let how = format!("{}{}", kind.slot, kind.shape);
            *counts.entry((&kind.style, how)).or_default() += 1;
        }
        println!("{} trays: {counts:?}", self.made.len());
        // Source: the job file: three cuts, and of a clean one three shapes and a notch; a lid has no cut flaps.
        for style in styles() {
            let kinds = counts.keys().filter(|(of, _)| *of == style).count();
            assert_eq!(kinds, 6, "{style}: {counts:#?}");
        }
        Some(told)
    }
}
