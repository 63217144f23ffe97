//! The author's guide is true: each style in it makes the tray of the job beside it, each snippet goes into the style that
//! it names, each formula gives what is told, each command runs, and each message means what is told.
//!
//! Source of every expectation: `designs/STYLE-GUIDE.md` and `designs/STYLE-MESSAGES.md`; an author will copy them.

mod blocks;
mod fields;
mod messages;

use std::fs;
use std::path::Path;

use serde_json::Value;
use tempfile::TempDir;
use traywright_tests::run;

use blocks::{Guide, Snippet};

#[test]
fn every_style_makes_the_tray_of_the_job_beside_it() {
    let guide = Guide::read();
    assert!(guide.styles.len() >= 5, "the guide shows few styles");
    let desk = guide.desk();
    for (name, _) in &guide.styles {
        let report = report(desk.path(), name);
        assert_eq!(report["fits"], true, "{name}: {report:#}");
        let tree = run(
            desk.path(),
            &["styles", name, "--tree", "--styles", "styles"],
        );
        assert_eq!(tree.code, 0, "{name}: {}", tree.stderr);
    }
}

#[test]
fn every_snippet_goes_into_the_style_that_it_names() {
    let guide = Guide::read();
    assert!(guide.snippets.len() >= 8, "the guide shows few snippets");
    for number in 0..guide.snippets.len() {
        // A snippet may use what a snippet before it has brought into the same style.
        let Snippet { style, text, .. } = &guide.snippets[number];
        let so_far = guide.snippets[..=number].iter();
        let grown = so_far
            .filter(|snippet| snippet.style == *style)
            .fold(guide.style(style).to_owned(), |whole, snippet| {
                snippet.put_into(&whole)
            });
        for line in text.lines().filter(|line| !line.trim().is_empty()) {
            assert!(grown.contains(line.trim()), "lost: {line}");
        }
        let desk = guide.desk();
        let path = desk.path().join("styles").join(format!("{style}.ron"));
        fs::write(&path, &grown).expect("a style can be written");
        let report = report(desk.path(), style);
        assert_eq!(report["fits"], true, "{text}\n{report:#}");
    }
}

#[test]
fn every_formula_gives_what_is_told() {
    let guide = Guide::read();
    let rows = guide.table("| formula | gives |");
    assert!(rows.len() >= 15, "the guide shows few formulas");
    let rules: String = rows
        .iter()
        .enumerate()
        .map(|(number, (formula, _))| {
            let formula = formula.trim_matches('`');
            format!("\"told-{number}\": Note(message: \"{{value}}\", value: \"{formula}\"),\n")
        })
        .collect();
    let probe = Snippet {
        style: "nest".to_owned(),
        section: "rules".to_owned(),
        text: rules,
    };
    let desk = guide.desk();
    let path = desk.path().join("styles/nest.ron");
    fs::write(path, probe.put_into(guide.style("nest"))).expect("a style can be written");
    let report = report(desk.path(), "nest");
    for (number, (formula, told)) in rows.iter().enumerate() {
        let code = format!("told-{number}");
        let findings = report["findings"].as_array().expect("findings are a list");
        let found = findings
            .iter()
            .find(|finding| finding["code"] == code.as_str());
        let gives = found.and_then(|finding| finding["message"].as_str());
        assert_eq!(gives, Some(told.as_str()), "{formula}");
    }
}

#[test]
fn every_command_runs_in_its_order() {
    let guide = Guide::read();
    let desk = guide.desk();
    let mut run_so_far = 0;
    for line in guide.commands.iter().flat_map(|block| block.lines()) {
        let words: Vec<&str> = line.split_whitespace().skip(1).collect();
        let outcome = run(desk.path(), &words);
        assert_eq!(outcome.code, 0, "{line}: {}", outcome.stderr);
        run_so_far += 1;
    }
    assert!(run_so_far >= 4, "the guide shows few commands");
}

#[test]
fn every_style_but_the_first_is_sound_and_the_claim_that_the_guide_warns_of_is_found() {
    let guide = Guide::read();
    let desk = guide.desk();
    // The bench is held by nothing but its box, as the guide says.
    for (name, _) in guide.styles.iter().filter(|(name, _)| name != "bench") {
        let outcome = run(desk.path(), &["lint", &format!("styles/{name}.ron")]);
        assert_eq!(
            outcome.code, 0,
            "{name}: {}{}",
            outcome.stdout, outcome.stderr
        );
    }
    let (true_claim, false_claim) = ("fills: [Length, Width]", "fills: [Length, Width, Depth]");
    let nest = guide.style("nest");
    assert!(nest.contains(true_claim));
    let path = desk.path().join("styles/nest.ron");
    fs::write(path, nest.replace(true_claim, false_claim)).expect("a style can be written");
    let outcome = run(desk.path(), &["lint", "styles/nest.ron"]);
    assert_eq!(outcome.code, 1, "{}{}", outcome.stdout, outcome.stderr);
    for words in ["does-not-fill", "set \"sink\"=(mm)0.1"] {
        assert!(outcome.stdout.contains(words), "{}", outcome.stdout);
    }
}

/// What `check` says of a style's job in the guide's folder.
fn report(desk: &Path, name: &str) -> Value {
    let job = format!("{name}.kdl");
    let words = ["check", &job, "--format", "json", "--styles", "styles"];
    let outcome = run(desk, &words);
    serde_json::from_str(&outcome.stdout).unwrap_or_else(|_| panic!("{name}: {}", outcome.stderr))
}

impl Guide {
    /// A folder with all styles and jobs of the guide.
    fn desk(&self) -> TempDir {
        let desk = tempfile::tempdir().expect("a folder can be made");
        let styles = desk.path().join("styles");
        fs::create_dir(&styles).expect("a folder can be made");
        for (name, text) in &self.styles {
            fs::write(styles.join(format!("{name}.ron")), text).expect("a style can be written");
        }
        for (name, text) in &self.jobs {
            fs::write(desk.path().join(format!("{name}.kdl")), text).expect("a job can be written");
        }
        desk
    }
}
