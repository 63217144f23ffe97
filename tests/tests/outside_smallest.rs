//! A tool that cannot follow short cuts gets none: the blank of every shipped job is drawn for it.
//!
//! Outsiders: svgelements 1.9 and ezdxf 1.4, in `outside/shortest.py`, which measure every piece of every cut.

use std::fs;
use std::path::Path;

use serde_json::Value;
use traywright_tests::{measured, repository, run};

/// Source: core/CONTRACT.md, "Job file": no cut is shorter than `smallest`, in a full file or a bare one.
#[test]
fn no_cut_of_a_shipped_job_is_shorter_than_the_tool_follows() {
    let nicked = "nicks length=(mm)0.5 every=(mm)80\nkerf width=(mm)0.2\n";
    for (smallest, lines) in [
        (
            1.0,
            "tool by=\"machine\" smallest=(mm)1 lines=\"bare\"\n".to_owned(),
        ),
        (1.0, format!("tool by=\"machine\" smallest=(mm)1\n{nicked}")),
        (1.5, "tool by=\"machine\" smallest=(mm)1.5\n".to_owned()),
    ] {
        let folder = tempfile::tempdir().expect("a folder can be made");
        let jobs = shipped_with(&lines, folder.path());
        let Some(told) = told(folder.path(), &jobs) else {
            return;
        };
        for (file, pieces) in told.as_object().expect("an object") {
            let count = pieces["pieces"].as_u64().expect("a number");
            assert!(count > 20, "{file}: {count}");
            let shortest = pieces["shortest"][0].as_f64().expect("a number");
            assert!(shortest >= smallest, "{file} with {lines}: {pieces}");
        }
    }
}

/// Without `smallest` every one of these blanks has shorter cuts, so the test above can fail.
#[test]
fn without_it_the_same_jobs_have_shorter_cuts() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let jobs = shipped_with("tool by=\"machine\"\n", folder.path());
    let Some(told) = told(folder.path(), &jobs) else {
        return;
    };
    for (file, pieces) in told.as_object().expect("an object") {
        let shortest = pieces["shortest"][0].as_f64().expect("a number");
        assert!(shortest < 1.0, "{file}: {pieces}");
    }
}

/// Source: core/CONTRACT.md, "Findings about the lines of a machine".
#[test]
fn a_cut_that_cannot_be_mended_is_named() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    // The straight piece beside a finger notch is (42 - 40) / 2 = 1 mm, and moving the notch would not help.
    let job = "tray style=\"single-slot\" name=\"Key\"\n\
        box length=(mm)182 width=(mm)121 depth=(mm)34\n\
        item \"key\" length=(mm)22 width=(mm)40 depth=(mm)30 pad=(mm)2\n\
        board caliper=(mm)0.29\n\
        slot cut=\"open\" finger=(mm)40\n\
        tool by=\"machine\" smallest=(mm)2\n";
    fs::write(folder.path().join("key.kdl"), job).expect("a job can be written");
    let said = run(folder.path(), &["check", "key.kdl", "--format", "json"]);
    let report: Value = serde_json::from_str(&said.stdout).expect("the report is JSON");
    let findings = report["findings"].as_array().expect("a list");
    let finding = findings
        .iter()
        .find(|finding| finding["code"] == "cut-too-short")
        .unwrap_or_else(|| panic!("{}", said.stdout));
    assert_eq!(finding["level"], "warning");
    assert_eq!(finding["limit"], 2.0);
    let shortest = finding["value"].as_f64().expect("a number");
    // Derived: the opening is 42 mm along its longer edges, item and fit, and the notch leaves 1 mm on either side.
    assert!((shortest - 1.0).abs() < 1e-9, "{finding}");
}

/// The shipped jobs with lines for a machine; the stems of their names.
fn shipped_with(lines: &str, folder: &Path) -> Vec<String> {
    let shipped = fs::read_dir(repository().join("designs/jobs")).expect("a folder");
    let mut names = Vec::new();
    for job in shipped {
        let job = job.expect("an entry").path();
        let stem = job.file_stem().expect("a name").to_str().expect("plain");
        let text = fs::read_to_string(&job).expect("text") + "\n" + lines;
        fs::write(folder.join(format!("{stem}.kdl")), text).expect("a job can be written");
        names.push(stem.to_owned());
    }
    assert!(names.len() >= 8, "{names:?}");
    names
}

/// What the outsiders measure of the SVG and DXF of these jobs; none where they are missing.
fn told(folder: &Path, names: &[String]) -> Option<Value> {
    let jobs: Vec<String> = names.iter().map(|name| format!("{name}.kdl")).collect();
    let mut arguments = vec!["make", "--as", "svg,dxf"];
    arguments.extend(jobs.iter().map(String::as_str));
    let outcome = run(folder, &arguments);
    assert_eq!(outcome.code, 0, "{}", outcome.stderr);
    let files: Vec<String> = names
        .iter()
        .flat_map(|name| ["svg", "dxf"].map(|kind| format!("{name}.{kind}")))
        .map(|file| folder.join(file).to_str().expect("plain").to_owned())
        .collect();
    let files: Vec<&str> = files.iter().map(String::as_str).collect();
    let told = measured("shortest.py", &files)?;
    Some(told.unwrap_or_else(|fault| panic!("{fault}")))
}
