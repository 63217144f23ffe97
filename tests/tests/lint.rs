//! Styles with one fault each: `lint` names its place or shows a job, and the job shows the same to `check`.
//!
//! A case is a style `lint/NAME.ron` and what is expected of it, `lint/NAME.txt`, in the form of [`expected`]. Sound
//! styles are tried over their ranges here too; how many jobs came to what is printed.
//!
//! [`expected`]: traywright_tests::expected

use std::fs;
use std::path::{Path, PathBuf};
use std::thread;

use serde_json::Value;
use traywright_engine::lint::{Range, Tally, try_out};
use traywright_tests::expected::complaints;
use traywright_tests::jobs::style;
use traywright_tests::{Outcome, repository, run};

/// Jobs that each sound style is tried with here.
const TRIED: usize = 400;

#[test]
fn every_planted_fault_is_found_and_shown() {
    let cases = cases();
    // Source: the plan of the house asks for at least thirty.
    assert!(cases.len() >= 30, "there are only {}", cases.len());
    let all = |cases: &[PathBuf]| {
        cases
            .iter()
            .flat_map(|case| judge(case))
            .collect::<Vec<_>>()
    };
    let faults: Vec<String> = thread::scope(|scope| {
        let shares = cases.chunks(cases.len().div_ceil(4));
        let running: Vec<_> = shares
            .map(|share| scope.spawn(move || all(share)))
            .collect();
        let ended = running
            .into_iter()
            .flat_map(|share| share.join().expect("a case is judged"));
        ended.collect()
    });
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

/// The styles with a fault.
fn cases() -> Vec<PathBuf> {
    let entries = fs::read_dir(repository().join("tests/lint")).expect("the cases can be listed");
    let files = entries.flatten().map(|entry| entry.path());
    let is_style = |file: &PathBuf| file.extension().is_some_and(|ending| ending == "ron");
    let mut cases: Vec<PathBuf> = files.filter(is_style).collect();
    cases.sort();
    cases
}

fn judge(case: &Path) -> Vec<String> {
    let name = case
        .file_stem()
        .expect("a case has a name")
        .to_string_lossy();
    let expected =
        fs::read_to_string(case.with_extension("txt")).expect("a case says what it expects");
    let folder = tempfile::tempdir().expect("a folder can be made");
    let file = format!("{name}.ron");
    fs::copy(case, folder.path().join(&file)).expect("a style can be copied");
    // The clock ends no thorough search, so that a busy machine finds the same.
    let outcome = run(folder.path(), &["lint", "--thorough", &file]);
    let mut faults = complaints(&expected, &outcome);
    let files = fs::read_dir(folder.path())
        .expect("the folder can be listed")
        .count();
    if files != 1 {
        faults.push("it wrote a file".to_owned());
    }
    if outcome.code == 1 {
        faults.extend(unseen(folder.path(), &outcome));
    } else if !outcome.stdout.is_empty() {
        faults.push("there is an answer, though the text is no style".to_owned());
    }
    let said = format!("{}{}", outcome.stdout, outcome.stderr);
    faults
        .iter()
        .map(|fault| format!("{name}: {fault}; it said:\n{said}"))
        .collect()
}

/// What `check` does not see in the job that was shown.
fn unseen(folder: &Path, shown: &Outcome) -> Option<String> {
    fs::write(folder.join("shown.kdl"), &shown.stdout).expect("a job can be written");
    let words = ["check", "shown.kdl", "--styles", ".", "--format", "json"];
    let seen = run(folder, &words);
    // The code stands in brackets behind the words.
    let code = shown
        .stderr
        .split_once('[')
        .and_then(|(_, rest)| rest.split_once(']'));
    let (code, _) = code.expect("a fault has a code");
    let sees_it = match (code, seen.code) {
        ("formula", code) => code == 2 && seen.stderr.contains(".ron:"),
        // Nobody but the box holding a wall is a warning to the maker, and another order of folds a note.
        ("wall-not-held" | "other-order", 0) | (_, 1) => {
            let report: Value = serde_json::from_str(&seen.stdout).expect("a report in JSON");
            let findings = report["findings"]
                .as_array()
                .expect("a report has findings");
            findings.iter().any(|finding| finding["code"] == code)
        }
        _ => false,
    };
    (!sees_it).then(|| {
        format!(
            "check does not see {code}, it says\n{}{}",
            seen.stdout, seen.stderr
        )
    })
}

#[test]
fn sound_styles_are_found_sound() {
    // Reasoning: what ships is proved tray by tray elsewhere; none of its jobs may be called the style's fault.
    for name in ["single-slot", "multi-slot", "double-wall", "lid-lock"] {
        let style = style(&format!("designs/styles/{name}.ron"));
        let range = Range::of(&style);
        let mut tally = Tally::default();
        for number in 0..TRIED {
            let job = range.job(number);
            tally.add(&job, try_out(&style, &job));
        }
        println!(
            "{name}: {} made, refused {:?}, left {}",
            tally.made, tally.refused, tally.left
        );
        assert!(tally.made > TRIED / 8, "{name}: {} made", tally.made);
        assert_eq!(tally.worst(), None, "{name}");
    }
}

#[test]
fn a_folder_takes_the_jobs_of_all_faulty_styles() {
    // Source: core/CONTRACT.md, "Commands": `--into DIR` writes the job that stands on standard output.
    let folder = tempfile::tempdir().expect("a folder can be made");
    let style = |name: &str| {
        repository()
            .join(format!("tests/lint/{name}.ron"))
            .display()
            .to_string()
    };
    let (one, other) = (
        style("side-as-long-as-the-deck"),
        style("end-wall-too-high"),
    );
    let words = ["lint", "--thorough", &one, &other, "--into", "out"];
    let outcome = run(folder.path(), &words);
    assert_eq!(outcome.code, 1, "{}", outcome.stderr);
    let mut written = String::new();
    for name in [
        "side-as-long-as-the-deck-panels-collide",
        "end-wall-too-high-outside-too-large",
    ] {
        let file = folder.path().join(format!("out/{name}.kdl"));
        written += &fs::read_to_string(file).expect("the job was written");
    }
    assert_eq!(written, outcome.stdout);
}

#[test]
fn the_worst_style_decides_how_it_ends() {
    // Source: core/CONTRACT.md, "Commands": 2 is bad input, whatever else was found.
    let folder = tempfile::tempdir().expect("a folder can be made");
    let style = |name: &str| {
        repository()
            .join(format!("tests/lint/{name}.ron"))
            .display()
            .to_string()
    };
    let (faulty, no_style) = (style("side-as-long-as-the-deck"), style("two-faults"));
    let outcome = run(folder.path(), &["lint", "--thorough", &faulty, &no_style]);
    assert_eq!(outcome.code, 2, "{}", outcome.stderr);
    assert!(
        outcome
            .stdout
            .contains("tray style=\"side-as-long-as-the-deck\"")
    );
    let outcome = run(folder.path(), &["lint", "nowhere.ron"]);
    assert_eq!(outcome.code, 2);
    assert!(outcome.stderr.contains("nowhere.ron"), "{}", outcome.stderr);
}

#[test]
fn a_style_without_a_fault_is_told_by_what_was_tried() {
    // Source: core/CONTRACT.md, "Commands": it says how many trays it tried, and over which sizes; it calls no style sound.
    let style = repository().join("designs/styles/single-slot.ron");
    let folder = tempfile::tempdir().expect("a folder can be made");
    let style = style.display().to_string();
    let outcome = run(folder.path(), &["lint", &style]);
    assert_eq!(outcome.code, 0, "{}", outcome.stderr);
    let said = outcome
        .stdout
        .split_whitespace()
        .collect::<Vec<_>>()
        .join(" ");
    let (_, tried) = said.split_once(": tried ").expect("it says what it tried");
    let (count, over) = tried.split_once(" trays over boxes ").expect("over sizes");
    assert!(
        count.parse::<usize>().is_ok_and(|count| count > 0),
        "{said}"
    );
    let (sizes, rest) = over.split_once(": no fault found.").expect("a verdict");
    for what in ["long", "wide", "deep", "card of", "blanks"] {
        assert!(sizes.contains(what), "{said}");
    }
    assert!(
        rest.contains("were not tried") || rest.contains("time was up"),
        "{said}"
    );
    assert!(!said.contains("sound"), "{said}");
}
