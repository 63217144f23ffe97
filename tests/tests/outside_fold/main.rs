//! Folders that know nothing of traywright fold its FOLD files to where the files say that the tray stands.
//!
//! Outsiders: rabbit-ear 0.9 (JavaScript, `outside/fold.js`); numpy 2.4 and shapely 2.2 (Python, `outside/fold.py`),
//! which judge the file by the rules of the format as well. Expected values come from the blank's lines.

mod half_cut;
mod trays;

use std::fs;

use serde_json::{Value, json};
use tempfile::TempDir;
use traywright_document::{Contour, Segment};
use traywright_engine::job::{Cut, DrawnFace, Length};
use traywright_engine::{Job, make};
use traywright_tests::jobs::{drawn, job, level, style};
use traywright_tests::{node, python, union};

use trays::{Tray, tray};

/// How far a chord leaves its arc at most.
// Source: the words in the file.
const CHORD_MM: f64 = 0.01;

/// Folded elsewhere and folded by us are the same to this.
// Derived: far below the same place (1e-6), so that a vertex of several panels has one place for all of them.
const FOLDED_MM: f64 = 1e-9;

/// The styles that only the tests know, with a box and an item that suit each.
// Source: common practice, no source.
const STYLES: [(&str, [f64; 3], [f64; 3]); 5] = [
    ("seed-vials", [160.0, 130.0, 34.0], [40.0, 30.0, 26.0]),
    ("lens-case", [182.0, 101.0, 34.0], [60.0, 40.0, 28.0]),
    ("clinometer", [182.0, 121.0, 34.0], [50.0, 50.0, 28.0]),
    ("watch-rest", [182.0, 121.0, 34.0], [60.0, 60.0, 28.0]),
    ("lens-cradle", [182.0, 121.0, 34.0], [70.0, 50.0, 32.0]),
];

/// How many random trays are folded.
const RANDOM_TRAYS: usize = 30;

#[test]
fn the_barometers_tray_is_folded_elsewhere_as_it_says() {
    let mut trays = Vec::new();
    for (cut, name) in [
        (Cut::Cross, "cross"),
        (Cut::Doors, "doors"),
        (Cut::Open, "open"),
    ] {
        for face in [DrawnFace::Inside, DrawnFace::Outside] {
            let mut job = barometer(0.29);
            job.slot.cut = cut;
            job.output.drawn_face = face;
            trays.push(tray(format!("{name}-{face:?}"), "single-slot", &job));
        }
    }
    let Some(seen) = judge(&trays) else { return };
    for (tray, seen) in trays.iter().zip(&seen) {
        // Reasoning: a card with one opening has its outer rim and the opening's, flaps or not.
        assert_eq!(seen["rims"], 2, "{}", tray.name);
        // Source: core/GEOMETRY.md, "Single-slot": all folds of this style turn one way, which is a valley seen from
        // inside the tray and a mountain seen from outside.
        let outside = tray.document.output.drawn_face == DrawnFace::Outside;
        let [one, other] = if outside { ["M", "V"] } else { ["V", "M"] };
        assert!(
            number(&seen["letters"][one]) >= 12.0,
            "{}: {seen}",
            tray.name
        );
        assert!(seen["letters"][other].is_null(), "{}: {seen}", tray.name);
    }
}

#[test]
fn every_style_and_board_is_folded_elsewhere_as_it_says() {
    let mut trays = Vec::new();
    for (name, box_size, item) in STYLES {
        for (caliper, hinge) in [(0.1, 0.0), (0.45, 0.1), (1.2, 0.0)] {
            let mut job = job(box_size, item, caliper);
            job.board.hinge = Some(hinge);
            job.fit.around_item = Length::known(4.0);
            trays.push(tray(format!("{name}-{caliper}"), name, &job));
        }
    }
    let Some(seen) = judge(&trays) else { return };
    for (tray, seen) in trays
        .iter()
        .zip(&seen)
        .filter(|(tray, _)| tray.document.style == "watch-rest")
    {
        // Reasoning: four fences hang in the floor, each cut free on three sides.
        assert_eq!(seen["rims"], 5, "{}", tray.name);
    }
}

#[test]
fn random_trays_are_folded_elsewhere_as_they_say() {
    let single_slot = style("designs/styles/single-slot.ron");
    let made = drawn(6).filter_map(|mut job| {
        job.board.hinge = Some(0.0);
        make(&single_slot, &job).is_ok().then_some(job)
    });
    let trays: Vec<Tray> = made
        .take(RANDOM_TRAYS)
        .enumerate()
        .map(|(index, job)| tray(format!("random-{index}"), "single-slot", &job))
        .collect();
    if let Some(seen) = judge(&trays) {
        assert_eq!(seen.len(), RANDOM_TRAYS);
    }
}

#[test]
fn the_same_job_gives_the_same_file() {
    let job = barometer(0.45);
    let [one, other] = [(); 2].map(|()| tray("twice".to_owned(), "single-slot", &job));
    assert_eq!(one.file, other.file);
}

#[test]
fn the_judge_refuses_what_the_format_forbids() {
    // Source: FOLD 1.2: each of these breaks one sentence of it, or tears the tray.
    refuses(&barometer(0.29), &DAMAGES);
    let mut hinged = barometer(0.45);
    hinged.board.hinge = Some(0.1);
    refuses(&hinged, &DAMAGES_WITH_A_HINGE);
}

/// The file of a job is let pass, and refused with each of these damages.
fn refuses(job: &Job, damages: &[(Damage, &str)]) {
    let sound = tray("sound".to_owned(), "single-slot", job);
    if judge(std::slice::from_ref(&sound)).is_none() {
        return;
    }
    for (damage, words) in damages {
        let mut file: Value = serde_json::from_str(&sound.file).expect("the file is JSON");
        damage(&mut file);
        let folder = folder_of([("damaged", file.to_string().as_str())]);
        let Some(verdict) = python("fold.py", &[path(&folder)]) else {
            return;
        };
        let fault = verdict.expect_err(&format!("let pass: {words}"));
        assert!(fault.contains(*words), "{words}: {fault}");
    }
}

type Damage = fn(&mut Value);

/// What is done to a sound file, and a word of the complaint.
const DAMAGES: [(Damage, &str); 12] = [
    (|file| file["file_spec"] = json!(1.1), "is not FOLD 1.2"),
    (
        |file| file["frame_unit"] = json!("unit"),
        "is not FOLD 1.2 in mm",
    ),
    (|file| file["caliper"] = json!(0.29), "without a colon"),
    (
        |file| file["traywright:hinge"] = json!(0.1),
        "no folded form of",
    ),
    (
        |file| file["file_frames"][0]["frame_inherit"] = json!(false),
        "no folded form of",
    ),
    (
        |file| set(file, "edges_foldAngle", "V", json!(-90)),
        "turns by -90",
    ),
    (
        |file| set(file, "edges_foldAngle", "V", json!(89.999)),
        "beside its folded form",
    ),
    (
        |file| set(file, "edges_assignment", "F", json!("B")),
        "has 2 faces",
    ),
    (
        |file| set(file, "edges_assignment", "F", json!("V")),
        "turns by 0",
    ),
    (
        |file| list(&mut file["faces_vertices"][3]).reverse(),
        "runs clockwise",
    ),
    (
        |file| {
            let length = &mut file["file_frames"][0]["vertices_coords"][30][2];
            *length = json!(number(length) + 1e-5);
        },
        "stands",
    ),
    (
        |file| {
            let [from, to] = [0, 1].map(|end| file["edges_vertices"][0][end].as_u64());
            let [from, to] =
                [from, to].map(|end| &file["vertices_coords"][end.unwrap_or(0) as usize]);
            let middle = [0, 1].map(|axis| (number(&from[axis]) + number(&to[axis])) / 2.0);
            list(&mut file["vertices_coords"]).push(json!(middle));
        },
        "within it",
    ),
];

/// The same where the panels of the folded form stand one by one.
const DAMAGES_WITH_A_HINGE: [(Damage, &str); 4] = [
    (
        |file| {
            let length = &mut file["file_frames"][0]["vertices_coords"][30][2];
            *length = json!(number(length) + 1e-5);
        },
        "beside its folded form",
    ),
    (
        |file| file["traywright:hinge"] = json!(0.11),
        "beside its folded form",
    ),
    (
        |file| file["file_frames"][0]["faces_vertices"][1][0] = json!(0),
        "share vertices",
    ),
    (
        |file| file["file_frames"][0]["frame_inherit"] = json!(true),
        "no folded form of",
    ),
];

/// Holds files against the judges and the blanks they were made from: what the Python measured, tray by tray.
///
/// None when the Python cannot be asked.
fn judge(trays: &[Tray]) -> Option<Vec<Value>> {
    let folder = folder_of(
        trays
            .iter()
            .map(|tray| (tray.name.as_str(), tray.file.as_str())),
    );
    let read = |said: Result<String, String>| -> Value {
        let text = said.unwrap_or_else(|fault| panic!("{fault}"));
        serde_json::from_str(&text).expect("the script prints JSON")
    };
    if let Some(seen) = node("fold.js", &[path(&folder)]).map(read) {
        for tray in trays {
            let seen = &seen[&tray.name];
            assert_eq!(seen["summary"], "valid", "{}", tray.name);
            let folded = tray.document.board.hinge == 0.0;
            let near = seen["apart"].as_f64().map(|apart| apart < FOLDED_MM);
            assert_eq!(near, folded.then_some(true), "{}: {seen}", tray.name);
        }
    }
    let mut seen = python("fold.py", &[path(&folder)]).map(read)?;
    let seen: Vec<Value> = trays.iter().map(|tray| seen[&tray.name].take()).collect();
    for (tray, seen) in trays.iter().zip(&seen) {
        compare(tray, seen);
    }
    Some(seen)
}

/// The file against the lines of the blank.
fn compare(tray: &Tray, seen: &Value) {
    let (name, document) = (&tray.name, &tray.document);
    let flat = &document.flat;
    let lines = || flat.holes.iter().chain([&flat.outline]);
    // Source: tests/facts/fold.md fld-04: the blank less its openings; holes run clockwise and count against it.
    let blank: f64 = lines().map(union::enclosed).sum();
    let chords = CHORD_MM * lines().map(arcs).sum::<f64>();
    let area = number(&seen["area"]);
    assert!(
        (area - blank).abs() <= 1e-6 * blank + chords,
        "{name}: {area} instead of {blank}"
    );
    let ways = flat
        .creases
        .iter()
        .map(|crease| (crease.to.x - crease.from.x).hypot(crease.to.y - crease.from.y));
    let (creased, expected) = (number(&seen["creased"]), ways.sum::<f64>());
    assert!(
        (creased - expected).abs() < 1e-6,
        "{name}: {creased} creased instead of {expected}"
    );
    assert_eq!(seen["first"], document.panels[0].name, "{name}");
    let mut names: Vec<&str> = document
        .panels
        .iter()
        .map(|panel| panel.name.as_str())
        .collect();
    names.sort_unstable();
    assert_eq!(seen["names"], json!(names), "{name}");
    compare_board(tray, seen);
}

/// What the file says of the card and the box.
fn compare_board(tray: &Tray, seen: &Value) {
    let (name, document) = (&tray.name, &tray.document);
    assert_eq!(seen["apart"].as_array().map(Vec::len), Some(1), "{name}");
    let file: Value = serde_json::from_str(&tray.file).expect("the file is JSON");
    // Source: core/CONTRACT.md, "Files: FOLD": the card, the box and its hinge are in the file.
    let size = &document.box_size;
    let sides = [size.length, size.width, size.depth].map(Length::mm);
    for (index, expected) in sides.into_iter().enumerate() {
        assert!(
            (number(&file["traywright:box"][index]) - expected).abs() < 1e-9,
            "{name}"
        );
    }
    assert!(
        (number(&file["traywright:caliper"]) - document.board.caliper).abs() < 1e-9,
        "{name}"
    );
    let hinge = file["traywright:hinge"].as_f64().unwrap_or(0.0);
    assert!((hinge - document.board.hinge).abs() < 1e-9, "{name}");
}

/// How long the arcs of a run are together.
// Source: DXF reference, LWPOLYLINE, group 42: the bulge is the tangent of a quarter of the angle swept.
fn arcs(run: &Contour) -> f64 {
    let mut from = run.start;
    let mut long = 0.0;
    for segment in &run.segments {
        let to = segment.to();
        if let Segment::Arc { bulge, .. } = segment {
            let chord = (to.x - from.x).hypot(to.y - from.y);
            let radius = chord * (1.0 + bulge * bulge) / (4.0 * bulge.abs());
            long += radius * 4.0 * bulge.abs().atan();
        }
        from = to;
    }
    long
}

/// The worked example of the house.
fn barometer(caliper: f64) -> Job {
    level(job([182.0, 121.0, 34.0], [96.0, 61.0, 28.0], caliper))
}

/// A folder with these files in it.
fn folder_of<'t>(files: impl IntoIterator<Item = (&'t str, &'t str)>) -> TempDir {
    let folder = tempfile::tempdir().expect("a folder can be made");
    for (name, text) in files {
        let path = folder.path().join(format!("{name}.fold"));
        fs::write(path, text).expect("a file can be written");
    }
    folder
}

fn path(folder: &TempDir) -> &str {
    folder
        .path()
        .to_str()
        .expect("a temporary folder has a plain name")
}

/// Changes what is said of the first edge of a letter.
fn set(file: &mut Value, key: &str, letter: &str, value: Value) {
    let letters = file["edges_assignment"]
        .as_array()
        .expect("edges have letters");
    let at = letters.iter().position(|found| found == letter);
    file[key][at.expect("an edge has the letter")] = value;
}

fn list(value: &mut Value) -> &mut Vec<Value> {
    value.as_array_mut().expect("it is a list")
}

fn number(value: &Value) -> f64 {
    value.as_f64().unwrap_or(f64::NAN)
}
