//! What every shipped job gives, as somebody has seen it.
//!
//! Source: the person or comparison named with a date in the first line of each `goldens/NAME.txt`. Only
//! `cargo xtask golden --looked "REASON"` rewrites them.

use std::env;
use std::fmt::Write as _;
use std::fs;
use std::path::{Path, PathBuf};

use serde_json::Value;
use traywright_tests::svg_lines::{LINE_GROUPS, runs};
use traywright_tests::{repository, run};

/// Names the folder to write the texts into instead of comparing them; `cargo xtask golden` sets it.
const INTO: &str = "TRAYWRIGHT_GOLDENS_INTO";

/// Texts round to 0.0001, so one figure on the border may be told as either neighbour.
const ALLOWANCE: f64 = 0.000_101;

#[test]
fn every_shipped_job_gives_what_was_seen() {
    let jobs = jobs();
    assert!(!jobs.is_empty(), "no job ships");
    let kept = repository().join("tests/goldens");
    for job in jobs {
        let name = Path::new(&job).with_extension("txt");
        let told = tell(&job);
        if let Some(folder) = env::var_os(INTO).map(PathBuf::from) {
            fs::create_dir_all(&folder).expect("a folder can be made");
            fs::write(folder.join(name), told).expect("a text can be written");
            continue;
        }
        let golden = fs::read_to_string(kept.join(&name))
            .unwrap_or_else(|_| panic!("{job} has no golden: cargo xtask golden"));
        let (head, seen) = golden.split_once('\n').expect("a golden has a head");
        assert!(
            head.starts_with("# looked at: "),
            "{job}: nobody has looked"
        );
        assert!(
            agree(seen, &told),
            "{job}: cargo xtask golden shows the difference to\n{told}"
        );
    }
}

/// The files in `designs/jobs`, by name.
fn jobs() -> Vec<String> {
    let folder = repository().join("designs/jobs");
    let mut jobs: Vec<String> = fs::read_dir(folder)
        .expect("the shipped jobs can be listed")
        .flatten()
        .filter_map(|entry| entry.file_name().into_string().ok())
        .filter(|name| name.ends_with(".kdl"))
        .collect();
    jobs.sort();
    jobs
}

/// The figures, findings and lines of a job in words.
fn tell(job: &str) -> String {
    let folder = repository().join("designs/jobs");
    let mut told = String::new();
    let checked = run(&folder, &["check", job, "--format", "json"]);
    let report: Value = serde_json::from_str(&checked.stdout).expect("check answers in JSON");
    for (name, value) in report["measures"].as_object().expect("figures have names") {
        writeln!(told, "measure {name} {}", round(value.as_f64())).expect("text takes text");
    }
    for finding in report["findings"].as_array().expect("findings are a list") {
        let word = |key: &str| finding[key].as_str().unwrap_or("?").to_owned();
        writeln!(
            told,
            "finding {} {} {} {} {}",
            word("level"),
            word("code"),
            word("where"),
            round(finding["value"].as_f64()),
            round(finding["limit"].as_f64()),
        )
        .expect("text takes text");
    }
    let out = tempfile::tempdir().expect("a folder can be made");
    let into = out
        .path()
        .to_str()
        .expect("a temporary folder has a plain name");
    let made = run(&folder, &["make", job, "--as", "svg", "--into", into]);
    assert_eq!(made.code, 0, "{job}: {}", made.stderr);
    let svg =
        fs::read_to_string(out.path().join(job).with_extension("svg")).expect("the SVG is there");
    told + &lines(&svg)
}

/// One line a group: its runs, segments and length, and the corners of the box around it.
fn lines(svg: &str) -> String {
    let mut told = String::new();
    for group in LINE_GROUPS {
        let runs = runs(svg, group);
        let closed = runs.iter().filter(|run| run.closed).count();
        let segments: usize = runs.iter().map(|run| run.lengths.len()).sum();
        let length: f64 = runs.iter().flat_map(|run| &run.lengths).sum();
        let places = || runs.iter().flat_map(|run| &run.places);
        let bound =
            |axis: usize, pick: fn(f64, f64) -> f64| places().map(|place| place[axis]).reduce(pick);
        let bounds = [
            bound(0, f64::min),
            bound(1, f64::min),
            bound(0, f64::max),
            bound(1, f64::max),
        ];
        writeln!(
            told,
            "svg {group}: {} runs, {closed} closed, {segments} segments, {} long, within {}",
            runs.len(),
            round(Some(length)),
            bounds.map(round).join(" "),
        )
        .expect("text takes text");
    }
    told
}

fn round(value: Option<f64>) -> String {
    value.map_or("-".to_owned(), |value| format!("{:.4}", value + 0.0))
}

/// Word for word, numbers within the allowance.
fn agree(seen: &str, told: &str) -> bool {
    let words = |text: &str| {
        text.split_whitespace()
            .map(ToOwned::to_owned)
            .collect::<Vec<_>>()
    };
    let (seen, told) = (words(seen), words(told));
    seen.len() == told.len()
        && seen.iter().zip(&told).all(|(seen, told)| {
            let numbers = seen.parse::<f64>().ok().zip(told.parse::<f64>().ok());
            seen == told || numbers.is_some_and(|(seen, told)| (seen - told).abs() <= ALLOWANCE)
        })
}

#[test]
fn a_difference_is_noticed() {
    // Source: reasoning: a figure off by more than its last digit, a word or a line too many is a difference.
    assert!(agree("measure wall 31.8550\n", "measure wall 31.8551\n"));
    for other in [
        "measure wall 31.8552",
        "measure lid 31.8550",
        "measure wall 31.8550 x",
    ] {
        assert!(!agree("measure wall 31.8550", other), "{other}");
    }
}
