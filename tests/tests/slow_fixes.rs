//! Fixes of random jobs that do not fit: each is applied by the program, and the result is what was promised.
//!
//! Source of the expectation: core/CONTRACT.md, "check --format json": each was tried as one set, `leaves` is the number of errors that
//! remain with it. The jobs are what a household might ask for: boxes of 60 to 300 mm, items that go in or nearly so.

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

use serde_json::Value;
use traywright_tests::jobs::Dice;
use traywright_tests::run;
use traywright_tests::thorough::part_of;

/// Refused jobs that are wanted.
const REFUSED: usize = 500;

/// A job as a maker writes it, in whole and half millimetres.
fn job(dice: &mut Dice) -> String {
    let style = dice.one_of(["single-slot", "multi-slot", "double-wall", "lid-lock"]);
    let mut half = |least: f64, most: f64| (2.0 * dice.between(least, most)).round() / 2.0;
    let (one, other) = (half(60.0, 300.0), half(60.0, 300.0));
    let (length, width, depth) = (one.max(other), one.min(other), half(15.0, 90.0));
    let items = if style == "multi-slot" { 3 } else { 1 };
    let mut text = format!(
        "// Tried at random.\ntray style=\"{style}\"\nbox length=(mm){length} width=(mm){width} depth=(mm){depth}\n"
    );
    for number in 1..=items {
        let part = f64::from(items);
        let [along, across, up] = [
            half(15.0, 0.95 * length / part.sqrt()),
            half(15.0, 0.95 * width / part.sqrt()),
            half(5.0, depth + 2.0),
        ];
        text.push_str(&format!(
            "item \"item {number}\" length=(mm){along} width=(mm){across} depth=(mm){up}\n"
        ));
    }
    let card = dice.one_of(["index-255", "lined-chipboard-300", "greyboard-1000"]);
    let cut = dice.one_of(["cross", "doors", "open"]);
    text + &format!("board \"{card}\"\nslot cut=\"{cut}\"\n")
}

/// The answer of `check` about a job.
fn checked(folder: &Path, name: &str) -> Value {
    let outcome = run(folder, &["check", "--format", "json", name]);
    serde_json::from_str(&outcome.stdout).unwrap_or_else(|error| panic!("{error}: {outcome:?}"))
}

fn errors(answer: &Value) -> usize {
    let findings = answer["findings"].as_array().expect("findings are a list");
    findings
        .iter()
        .filter(|found| found["level"] == "error")
        .count()
}

#[test]
fn every_fix_of_a_refused_job_does_what_it_promises() {
    let folder = tempfile::tempdir().expect("a temporary folder can be made");
    let mut dice = Dice(20);
    let (mut refused, mut mended, mut fixes) = (0, 0, 0);
    let mut kinds: BTreeMap<String, usize> = BTreeMap::new();
    while refused < part_of(REFUSED) {
        let text = job(&mut dice);
        fs::write(folder.path().join("tried.kdl"), &text).expect("a job can be written");
        let before = checked(folder.path(), "tried.kdl");
        if before["fits"] == true {
            continue;
        }
        refused += 1;
        let told = before["fixes"].as_array().expect("fixes are a list");
        assert!(told.len() <= 3, "{text}");
        mended += usize::from(told.first().is_some_and(|fix| fix["leaves"] == 0));
        for (number, fix) in told.iter().enumerate() {
            applied(folder.path(), number + 1, fix, errors(&before));
        }
        fixes += told.len();
        if let Some(best) = told.first() {
            let changes = best["changes"].as_array().expect("changes are a list");
            let kind = changes.last().map(kind).unwrap_or_default();
            *kinds.entry(kind).or_default() += 1;
        }
    }
    println!("{refused} refused jobs, {mended} mended in one go, {fixes} fixes applied");
    println!("what the best fix changes last: {kinds:?}");
    // A choice of this project: four in five jobs that almost fit can be mended without another style.
    assert!(
        5 * mended >= 4 * refused,
        "only {mended} of {refused} have a fix that leaves no error"
    );
}

/// Writes the job with a fix and checks it.
fn applied(folder: &Path, number: usize, fix: &Value, before: usize) {
    let new = folder.join("new.kdl");
    let _ = fs::remove_file(&new);
    let number = number.to_string();
    let taken = run(
        folder,
        &["fix", "tried.kdl", "--take", &number, "--into", "new.kdl"],
    );
    assert_eq!(taken.code, 0, "{taken:?}");
    let written = fs::read_to_string(&new).expect("the changed job was written");
    assert!(written.starts_with("// Tried at random.\n"), "{written}");
    let after = errors(&checked(folder, "new.kdl"));
    assert_eq!(
        Some(after as u64),
        fix["leaves"].as_u64(),
        "{fix}\n{written}"
    );
    assert!(after < before, "{fix}\n{written}");
}

fn kind(change: &Value) -> String {
    let word = |key: &str| change[key].as_str().unwrap_or_default().to_owned();
    format!("{} {}", word("node"), word("key"))
}
