//! The files of sheets: the lines of the blanks, moved, none more and none less; nothing overlaps.
//!
//! Outsiders: svgelements and shapely (Python, `outside/nest.py`) judge how far the blanks are apart.

use std::fs;

use traywright_tests::svg_lines::{LINE_GROUPS, runs};
use traywright_tests::{measured, run};

use crate::{desk, names};

type Place = [f64; 2];
/// A line as its places, and what group it is in.
type Line = (&'static str, bool, Vec<Place>);

/// Places are rounded to 0.0001 mm twice: in the sheet and in the drawing of the blank.
const ROUNDING: f64 = 3e-4;

fn lines(svg: &str) -> Vec<Line> {
    let of = |group: &'static str| {
        runs(svg, group)
            .into_iter()
            .map(move |run| (group, run.closed, run.places))
    };
    LINE_GROUPS.into_iter().flat_map(of).collect()
}

fn turned([x, y]: Place, quarters: usize) -> Place {
    match quarters {
        0 => [x, y],
        1 => [-y, x],
        2 => [-x, -y],
        _ => [y, -x],
    }
}

fn moved(line: &Line, quarters: usize, shift: Place) -> Line {
    let place = |at: &Place| {
        let at = turned(*at, quarters);
        [at[0] + shift[0], at[1] + shift[1]]
    };
    (line.0, line.1, line.2.iter().map(place).collect())
}

fn same(one: &Line, other: &Line) -> bool {
    let near =
        |one: &Place, other: &Place| (0..2).all(|axis| (one[axis] - other[axis]).abs() < ROUNDING);
    (one.0, one.1, one.2.len()) == (other.0, other.1, other.2.len())
        && one
            .2
            .iter()
            .zip(&other.2)
            .all(|(one, other)| near(one, other))
}

/// Takes the lines of one blank from those of a sheet; false if it does not lie there.
fn take(blank: &[Line], sheet: &mut Vec<Line>) -> bool {
    let first = blank.last().expect("a blank has lines");
    for quarters in 0..4 {
        let start = turned(first.2[0], quarters);
        for line in sheet
            .clone()
            .iter()
            .filter(|line| line.2.len() == first.2.len())
        {
            let shift = [line.2[0][0] - start[0], line.2[0][1] - start[1]];
            let mut left = sheet.clone();
            let all = blank.iter().all(|line| {
                let line = moved(line, quarters, shift);
                let there = left.iter().position(|other| same(&line, other));
                there.map(|index| left.swap_remove(index)).is_some()
            });
            if all {
                *sheet = left;
                return true;
            }
        }
    }
    false
}

/// Two jobs for a machine.
fn machine_jobs() -> (tempfile::TempDir, [&'static str; 2]) {
    let desk = crate::desk(&["barometer.kdl", "observatory-watch.kdl"]);
    let machine =
        "kerf width=(mm)0.2\nnicks length=(mm)0.4 every=(mm)60\nslot cut=\"open\" finger=(mm)20\n";
    let jobs = ["barometer", "observatory-watch"];
    for job in jobs {
        let path = desk.path().join(format!("{job}.kdl"));
        let text = fs::read_to_string(&path).expect("the job is there");
        let text = text.replace("depth=(mm)28", "depth=(mm)28 pad=(mm)4");
        fs::write(&path, text + machine).expect("the job can be written");
    }
    (desk, jobs)
}

// Source: core/CONTRACT.md: the lines of a sheet are those of the blanks, with kerf and nicks, moved and turned by quarters.
#[test]
fn the_lines_of_a_sheet_are_those_of_the_blanks() {
    let (desk, jobs) = machine_jobs();
    let made = run(
        desk.path(),
        &[
            "make",
            "barometer.kdl",
            "observatory-watch.kdl",
            "--as",
            "svg",
        ],
    );
    assert_eq!(made.code, 0, "{}", made.stderr);
    let count = ["--count", "3", "--count", "observatory-watch=2"];
    let words = [
        &[
            "nest",
            "barometer.kdl",
            "observatory-watch.kdl",
            "--stock",
            "1000x700 mm",
        ][..],
        &count,
    ]
    .concat();
    let outcome = run(desk.path(), &[&words[..], &["--into", "out"]].concat());
    assert_eq!(outcome.code, 0, "{}", outcome.stderr);
    let told = "5 blanks on 1 sheet of 1000x700 mm";
    assert!(outcome.stdout.contains(told), "{}", outcome.stdout);
    let out = desk.path().join("out");
    assert_eq!(
        names(&out),
        ["dxf", "pdf", "svg"].map(|ending| format!("barometer-nest-1.{ending}"))
    );
    let svg = |name: &str| fs::read_to_string(desk.path().join(name)).expect("the file is there");
    let mut sheet = lines(&svg("out/barometer-nest-1.svg"));
    for (job, count) in jobs.into_iter().zip([3, 2]) {
        let blank = lines(&svg(&format!("{job}.svg")));
        for number in 0..count {
            assert!(
                take(&blank, &mut sheet),
                "blank {number} of {job} is not there"
            );
        }
    }
    assert_eq!(sheet, [], "lines that no blank has");
}

#[test]
fn the_same_call_gives_the_same_bytes() {
    let desk = desk(&["barometer.kdl"]);
    let words = [
        "nest",
        "barometer.kdl",
        "--stock",
        "A1",
        "--count",
        "3",
        "--into",
    ];
    for folder in ["out", "again"] {
        let outcome = run(desk.path(), &[&words[..], &[folder]].concat());
        assert_eq!(outcome.code, 0, "{}", outcome.stderr);
    }
    for ending in ["svg", "pdf", "dxf"] {
        let file = format!("barometer-nest-1.{ending}");
        let read = |folder: &str| fs::read(desk.path().join(folder).join(&file)).expect("a file");
        assert_eq!(read("out"), read("again"), "{ending}");
    }
}

#[test]
fn no_two_blanks_are_nearer_than_the_gap() {
    let desk = desk(&["barometer.kdl"]);
    let words = [
        "nest",
        "barometer.kdl",
        "--stock",
        "28x40 in",
        "--count",
        "6",
        "--gap",
        "4mm",
        "--as",
        "svg",
    ];
    let outcome = run(desk.path(), &words);
    assert_eq!(outcome.code, 0, "{}", outcome.stderr);
    let svg = desk.path().join("barometer-nest-1.svg");
    let Some(seen) = measured("nest.py", &[&svg.to_string_lossy()]) else {
        return;
    };
    let seen = seen.unwrap_or_else(|fault| panic!("{fault}"));
    let number = |name: &str| seen[name].as_f64().expect("a number");
    assert_eq!(number("blanks"), 6.0, "{seen}");
    assert!(number("overlap") < 1e-9, "{seen}");
    // Places are rounded to 0.0001.
    assert!(number("apart") > 4.0 - 3e-4, "{seen}");
    assert!(number("edge") > 5.0 - 3e-4, "{seen}");
}

// Source: core/CONTRACT.md: where a job states the grain, its blanks lie along that of the stock.
#[test]
fn the_grain_turns_the_blanks() {
    let desk = desk(&["marine-clock.kdl"]);
    let mut heights = Vec::new();
    for grain in ["length", "width"] {
        let words = [
            "nest",
            "marine-clock.kdl",
            "--stock",
            "1000x700 mm",
            "--grain",
            grain,
            "--as",
            "svg",
            "--into",
            grain,
        ];
        let outcome = run(desk.path(), &words);
        assert_eq!(outcome.code, 0, "{}", outcome.stderr);
        let svg = fs::read_to_string(desk.path().join(grain).join("marine-clock-nest-1.svg"))
            .expect("a file");
        let outline = runs(&svg, "cutting").pop().expect("the outline is last");
        let side = |axis: usize| {
            let along = outline.places.iter().map(|place| place[axis]);
            along.clone().fold(f64::MIN, f64::max) - along.fold(f64::MAX, f64::min)
        };
        heights.push([side(0), side(1)]);
    }
    // A quarter turn changes the sides.
    assert!(
        (heights[0][0] - heights[1][1]).abs() < 1e-3
            && (heights[0][1] - heights[1][0]).abs() < 1e-3,
        "{heights:?}"
    );
    assert!((heights[0][0] - heights[0][1]).abs() > 1.0, "{heights:?}");
}
