//! Sheets joined by their crosses show every line of the SVG, for many jobs on four kinds of paper.
//!
//! Source: core/CONTRACT.md, "Files: PDF": sheets joined by their alignment marks: every line of the SVG is on the
//! paper within 0.02 mm, nothing missing at the seams, for at least 60 random jobs on A5, A4, A3 and Letter. pypdf and
//! svgelements read the files in `outside/pdf.py`, which uses the crosses alone to join the sheets.

use std::fmt::Write;
use std::fs;
use std::path::Path;

use serde_json::Value;
use traywright_tests::{measured, run};

const PAPERS: [&str; 4] = ["A5", "A4", "A3", "Letter"];
/// Jobs that are made for each paper, at least.
const JOBS: usize = 60;
/// Jobs in one run of the program, which has a minute.
const IN_ONE_RUN: usize = 8;

#[test]
fn sheets_joined_by_their_crosses_are_the_blank() {
    let (mut whole, mut roomy) = (0, 0);
    for (place, paper) in PAPERS.into_iter().enumerate() {
        let folder = tempfile::tempdir().expect("a folder can be made");
        let made = make_jobs(folder.path(), paper, 1000 * (place as u64 + 1), JOBS);
        let Some(told) = joined(folder.path()) else {
            return;
        };
        let told = told.unwrap_or_else(|fault| panic!("{paper}: {fault}"));
        let results = told.as_object().expect("the script prints an object");
        assert_eq!(results.len(), made);
        for (name, result) in results {
            let number = |key: &str| result[key].as_f64().expect("a number");
            // Derived: tests/facts/paper.md prn-07: what fits between the margins of 6 mm, either way round, is on one
            // sheet.
            let fits = fits_one_sheet(&result["paper"], &result["blank"]);
            assert_eq!(number("pages") == 1.0, fits, "{paper} {name}: {result}");
            // Source: core/CONTRACT.md, "Files: PDF": where another offset avoids it, no line runs along the edge of a
            // sheet within 3 mm. On one sheet, and with so much play that a grid can be moved, it can be avoided.
            whole += usize::from(fits);
            if !is_tight(result) {
                roomy += 1;
                assert!(number("along_edges") == 0.0, "{paper} {name}: {result}");
            }
        }
    }
    println!("{whole} blanks on one sheet, {roomy} with room to move the grid");
    // Reasoning: boxes are drawn from small to large, so both kinds come about on every paper.
    assert!(whole >= PAPERS.len() && roomy >= JOBS);
}

#[test]
fn another_blank_on_the_sheets_is_noticed() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    make_jobs(folder.path(), "A4", 7, IN_ONE_RUN);
    let (one, other) = (folder.path().join("j0.svg"), folder.path().join("j1.svg"));
    let swapped = fs::read(&one).expect("the first SVG can be read");
    fs::write(&other, swapped).expect("the second SVG can be replaced");
    let Some(told) = joined(folder.path()) else {
        return;
    };
    let fault = told.expect_err("sheets of another blank were let pass");
    assert!(fault.contains("j1: a line of cutting is"), "{fault}");
    assert!(!fault.contains("j0:"), "{fault}");
}

/// Makes SVG and PDF of at least so many random jobs, numbered from 0: how many.
fn make_jobs(folder: &Path, paper: &str, seed: u64, least: usize) -> usize {
    let mut chance = Chance(seed);
    let mut made = 0;
    while made < least {
        let names: Vec<String> = (made..made + IN_ONE_RUN)
            .map(|index| format!("j{index}.kdl"))
            .collect();
        for name in &names {
            fs::write(folder.join(name), job(&mut chance, paper)).expect("a job can be written");
        }
        let mut arguments = vec!["make", "--as", "svg,pdf", "--exporter-seconds", "50"];
        arguments.extend(names.iter().map(String::as_str));
        let outcome = run(folder, &arguments);
        assert_eq!(outcome.code, 0, "{}{}", outcome.stdout, outcome.stderr);
        made += names.len();
    }
    made
}

/// A roomy job: its tray fits whatever chance says. Source: reasoning: the item is far smaller than the box, and as deep as the tray.
fn job(chance: &mut Chance, paper: &str) -> String {
    let length = chance.between(90.0, 330.0);
    let width = chance.between(70.0, length.min(230.0));
    let depth = chance.between(16.0, (width / 3.0).min(60.0));
    let item = [
        length * chance.between(0.3, 0.45),
        width * chance.between(0.3, 0.45),
        depth - 1.5,
    ];
    let cut = ["cross", "doors", "open"][chance.below(3)];
    let face = ["inside", "outside"][chance.below(2)];
    let mut job = String::from("tray style=\"single-slot\"\n");
    writeln!(
        job,
        "box length=(mm){length:.2} width=(mm){width:.2} depth=(mm){depth:.2}"
    )
    .expect("a string takes words");
    let [item_length, item_width, item_depth] = item;
    writeln!(
        job,
        "item \"lens\" length=(mm){item_length:.2} width=(mm){item_width:.2} depth=(mm){item_depth:.2}\n\
         board caliper=(mm)0.{}\nslot cut=\"{cut}\"\npage \"{paper}\" margin=(mm)6\ndraw face=\"{face}\"",
        chance.below(4) + 2
    )
    .expect("a string takes words");
    job
}

/// Numbers that look like chance and are the same on every machine.
// Source: Knuth, The Art of Computer Programming, volume 2, 3.3.4: the multiplier of MMIX.
struct Chance(u64);

impl Chance {
    fn below(&mut self, count: usize) -> usize {
        self.0 = self
            .0
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 33) as usize % count
    }

    fn between(&mut self, least: f64, most: f64) -> f64 {
        least + (most - least) * self.below(10_000) as f64 / 10_000.0
    }
}

fn joined(folder: &Path) -> Option<Result<Value, String>> {
    let folder = folder
        .to_str()
        .expect("a temporary folder has a plain name");
    measured("pdf.py", &["joined", folder])
}

fn pair(value: &Value) -> [f64; 2] {
    [0, 1].map(|axis| value[axis].as_f64().expect("two numbers"))
}

fn fits_one_sheet(paper: &Value, blank: &Value) -> bool {
    let (room, blank) = (pair(paper).map(|side| side - 12.0), pair(blank));
    let within = |room: [f64; 2]| blank[0] <= room[0] && blank[1] <= room[1];
    within(room) || within([room[1], room[0]])
}

/// Whether the sheets leave less than three millimetres on both sides of the blank along one axis.
fn is_tight(result: &Value) -> bool {
    let (room, blank) = (
        pair(&result["paper"]).map(|side| side - 12.0),
        pair(&result["blank"]),
    );
    (0..2).any(|axis| {
        let sheets = ((blank[axis] - 10.0) / (room[axis] - 10.0)).ceil();
        sheets * (room[axis] - 10.0) + 10.0 - blank[axis] < 6.2
    })
}
