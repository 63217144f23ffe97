//! `check --vary`: variations of one job in one table.
//!
//! Source of every expectation: core/CONTRACT.md, "check --vary".

use std::fs;

use serde_json::Value;
use tempfile::TempDir;
use traywright_tests::{Outcome, run};

const JOB: &str = "// Mine.\ntray style=\"single-slot\"\nbox length=(mm)182 width=(mm)121 depth=(mm)34\n\
                   item \"lens\" length=(mm)96 width=(mm)61 depth=(mm)28\nboard \"index-255\"\n";

fn vary(words: &[&str]) -> (TempDir, Outcome) {
    let desk = tempfile::tempdir().expect("a folder can be made");
    fs::write(desk.path().join("lens.kdl"), JOB).expect("a job can be written");
    let outcome = run(desk.path(), &[&["check", "lens.kdl"], words].concat());
    (desk, outcome)
}

#[test]
fn the_table_has_a_row_for_each_combination_and_says_once_what_does_not_vary() {
    let (desk, outcome) = vary(&[
        "--vary",
        "fit.item=(mm)1..3 by (mm)1",
        "--vary",
        "board=index-255,index-305",
        "--vary",
        "tool.by=hand",
    ]);
    let text = &outcome.stdout;
    assert_eq!(outcome.stderr, "");
    assert!(text.starts_with("lens.kdl: 6 variations. "), "{text}");
    assert!(
        text.lines().all(|line| line.chars().count() <= 80),
        "{text}"
    );
    let first = text
        .lines()
        .position(|line| line.starts_with("fit.item"))
        .expect("headings");
    let heading: Vec<&str> = text
        .lines()
        .nth(first)
        .unwrap_or("")
        .split_whitespace()
        .collect();
    assert_eq!(
        heading[..4],
        ["fit.item", "board", "verdict", "blank"],
        "{text}"
    );
    let rows: Vec<Vec<&str>> = text
        .lines()
        .skip(first + 1)
        .take_while(|line| !line.is_empty())
        .filter(|line| !line.starts_with(' '))
        .map(|line| line.split_whitespace().take(2).collect())
        .collect();
    let expected = ["(mm)1", "(mm)2", "(mm)3"].map(|fit| [[fit, "index-255"], [fit, "index-305"]]);
    assert_eq!(rows, expected.concat());
    assert!(text.contains("The same in all: tool.by hand; "), "{text}");
    // The job itself stays as it is.
    let job = fs::read_to_string(desk.path().join("lens.kdl")).expect("it is there");
    assert_eq!(job, JOB);
}

#[test]
fn each_variation_is_what_check_says_of_the_changed_job() {
    let (desk, outcome) = vary(&["--vary", "item.length=(mm)96,(mm)170", "--format", "json"]);
    assert_eq!(outcome.code, 1, "{}", outcome.stderr);
    let variants: Value = serde_json::from_str(&outcome.stdout).expect("an array");
    for (variant, length) in [(&variants[0], "96"), (&variants[1], "170")] {
        let text = JOB.replace("length=(mm)96", &format!("length=(mm){length}"));
        fs::write(desk.path().join("lens.kdl"), text).expect("a job can be written");
        let checked = run(desk.path(), &["check", "lens.kdl", "--format", "json"]);
        let report: Value = serde_json::from_str(&checked.stdout).expect("a report");
        assert_eq!(variant["values"][0]["to"], format!("(mm){length}"));
        assert_eq!(variant["values"][0]["item"], "lens");
        assert_eq!(variant["verdict"], report["verdict"]);
        for name in ["blank_length", "blank_width"] {
            let measure = report["measures"].get(name).unwrap_or(&Value::Null);
            assert_eq!(&variant[name], measure, "{name}");
        }
        let has_errors = variant["errors"]
            .as_array()
            .is_some_and(|codes| !codes.is_empty());
        assert_eq!(Value::Bool(!has_errors), report["fits"]);
    }
    assert_eq!(variants[0]["verdict"], "fits");
}

#[test]
fn the_lines_for_a_spreadsheet_have_the_places_first() {
    let (_desk, outcome) = vary(&[
        "--vary",
        "fit.item=(mm)2,(mm)3",
        "--vary",
        "slot.cut=cross,doors",
        "--format",
        "csv",
    ]);
    let lines: Vec<&str> = outcome.stdout.lines().collect();
    assert_eq!(lines.len(), 5, "{}", outcome.stdout);
    assert!(lines[0].starts_with("fit.item,slot.cut,verdict,blank_length,blank_width,sheet,"));
    assert!(
        lines[1].starts_with("(mm)2,cross,fits,308.42,182.42,A3,"),
        "{}",
        lines[1]
    );
    assert!(lines[4].starts_with("(mm)3,doors,"), "{}", lines[4]);
}

#[test]
fn what_cannot_be_compared_is_refused() {
    for (words, said) in [
        (vec!["--vary", "fti.item=(mm)1"], "did you mean `fit`?"),
        (
            vec!["--vary", "item.lnes.pad=(mm)1"],
            "did you mean `lens`?",
        ),
        (
            vec!["--vary", "fit.item=1"],
            "with fit.item=1: `item` has no unit",
        ),
        (
            vec!["--vary", "board=indx-255"],
            "did you mean `index-255`?",
        ),
        (
            vec!["--vary", "box.width=(mm)200"],
            "with box.width=(mm)200: ",
        ),
        (vec!["--vary", "fit.item=(mm)1..3"], "a range says its step"),
        (
            vec![
                "--vary",
                "fit.item=(mm)1..30 by (mm)1",
                "--vary",
                "fit.box=(mm)1..20 by (mm)1",
            ],
            "600 variations, and 400",
        ),
        (vec!["--vary", "set.wbe=(mm)3"], "wbe"),
        (vec!["lens.kdl", "--vary", "fit.item=(mm)1"], "name one job"),
        (vec!["--format", "csv"], "add `--vary"),
        (
            vec!["--all", "--vary", "fit.item=(mm)1"],
            "cannot be used with",
        ),
    ] {
        let (_desk, outcome) = vary(&words);
        assert_eq!(outcome.code, 2, "{words:?}\n{}", outcome.stdout);
        assert!(
            outcome.stderr.contains(said),
            "{words:?}: {}",
            outcome.stderr
        );
        assert_eq!(outcome.stdout, "", "{words:?}");
    }
}
