//! `check --explain`: every finding that can come has its page, and no page is left of one that cannot.
//!
//! The codes are read from where they are made: the engine's sources and the rules of the shipped styles.

use std::collections::BTreeSet;
use std::fs;
use std::path::PathBuf;

use traywright_tests::{Outcome, files, repository, run};

const JOB: &str = "tray style=\"single-slot\"\nbox length=(mm)182 width=(mm)121 depth=(mm)34\n\
    item \"barometer\" length=(mm)96 width=(mm)61 depth=(mm)28\nboard caliper=(mm)0.29\n";

#[test]
fn every_finding_of_the_engine_has_a_page_and_none_is_left_over() {
    let rows = table();
    let codes: BTreeSet<String> = rows.iter().map(|(_, code)| code.clone()).collect();
    // Source: the style guide, "What the engine finds by itself".
    for known in [
        "slot-tight",
        "corner-touches",
        "fit-uncertain",
        "opening-too-near-side",
        "bridge-narrow",
    ] {
        assert!(
            codes.contains(known),
            "{known} is not in the table: {codes:?}"
        );
    }
    for code in &codes {
        let outcome = explain(&[code]);
        let title = format!("{code}: ");
        assert!(
            outcome.stdout.starts_with(&title),
            "{code}: {}",
            outcome.stdout
        );
        explains(code, &outcome);
    }
    let pages: BTreeSet<String> = stems("core/engine/src/finding/pages", "txt");
    assert_eq!(pages, codes, "pages on the left, codes on the right");
    let table = ["built_in.rs", "finding.rs"];
    let sources: String = files("core/engine/src", "rs")
        .iter()
        .filter(|path| !table.iter().any(|name| path.ends_with(name)))
        .map(|path| fs::read_to_string(path).expect("a source can be read"))
        .collect();
    for (variant, code) in rows {
        let reported = sources.contains(&format!("BuiltIn::{variant}"));
        assert!(reported, "nothing reports {variant} [{code}]");
    }
}

#[test]
fn drawings_have_seventy_six_columns_at_most() {
    // Source: reasoning: a page has a small drawing in text. What stands further in than the words is drawn.
    for page in files("core/engine/src/finding/pages", "txt") {
        let text = fs::read_to_string(&page).expect("a page can be read");
        assert!(
            text.is_ascii(),
            "{}: every terminal shows ASCII",
            page.display()
        );
        for line in text.lines().filter(|line| line.starts_with("    ")) {
            assert!(line.len() <= 76, "{}: {line}", page.display());
        }
    }
}

#[test]
fn every_rule_of_the_shipped_styles_is_explained_by_itself() {
    let mut told = 0;
    for file in files("designs/styles", "ron") {
        let text = fs::read_to_string(&file).expect("a style can be read");
        let style = file
            .file_stem()
            .and_then(|stem| stem.to_str())
            .expect("a plain name");
        for code in rule_codes(&text) {
            let outcome = explain(&[&code]);
            explains(&code, &outcome);
            assert!(
                outcome.stdout.contains(&format!("`{style}`")),
                "{}",
                outcome.stdout
            );
            told += 1;
        }
    }
    assert!(told >= 4, "only {told} rules were found");
}

#[test]
fn a_rule_tells_its_words_its_formula_and_its_cure() {
    // Source: the rule as it stands in designs/styles/single-slot.ron.
    let said = explain(&["[walls-too-low]"]).stdout;
    for words in [
        "The corner tabs are VALUE high.",
        "It is right when:  tab.span >= 6mm",
        "VALUE     tab.span",
        "length of the crease of `tab`",
        "A deeper box, or thinner card.",
    ] {
        assert!(said.contains(words), "{words} is missing:\n{said}");
    }
}

/// single-slot with a value, a choice and a rule more.
fn vial_rest() -> String {
    let shipped = fs::read_to_string(repository().join("designs/styles/single-slot.ron"));
    let shipped = shipped.expect("the style is shipped");
    let own = [
        ("values", "\"grip\": \"2 * tab.reach - tuck\""),
        (
            "fallbacks",
            "\"grasp\": {\"long\": \"tab.reach >= 20mm\", \"wide\": \"tab.span >= 90mm\"}",
        ),
        (
            "rules",
            "\"grip-weak\": Warning(when: \"grasp is not wide\", need: \"min(grip, 1mm) > 90mm\", \
             message: \"it grips by {value}, {limit} is right\")",
        ),
    ];
    own.into_iter().fold(shipped, |text, (section, entry)| {
        let opens = format!("    {section}: {{");
        assert!(text.contains(&opens), "single-slot has no {section}");
        text.replace(&opens, &format!("{opens}\n        {entry},"))
    })
}

#[test]
fn styles_of_the_makers_own_are_explained_too() {
    let folder = tempfile::tempdir().expect("a temporary folder can be made");
    let own = vial_rest();
    fs::write(folder.path().join("vial-rest.ron"), own).expect("a style can be written");
    let with_own = |code: &str| {
        run(
            folder.path(),
            &["check", "--styles", ".", "--explain", code],
        )
    };
    let rule = with_own("grip-weak");
    explains("grip-weak", &rule);
    let flowing = rule.stdout.split_whitespace().collect::<Vec<_>>().join(" ");
    for words in [
        "`vial-rest`",
        "VALUE",
        "min(grip, 1mm)",
        "2 * tab.reach - tuck",
        "grasp is not wide",
        "Gap between the inner end and the deck.",
    ] {
        assert!(flowing.contains(words), "{words} is missing:\n{flowing}");
    }
    let choice = with_own("no-grasp");
    explains("no-grasp", &choice);
    assert!(
        choice.stdout.contains("tab.span >= 90mm"),
        "{}",
        choice.stdout
    );
    // A rule that both styles have, word for word, is told once.
    let both = with_own("walls-too-low").stdout;
    assert!(both.contains("`single-slot` and `vial-rest`"), "{both}");
    assert_eq!(both.matches("What to change").count(), 1, "{both}");
}

#[test]
fn an_unknown_code_is_refused_with_the_nearest_one() {
    // Source: core/CONTRACT.md, "Commands": bad input is exit 2 and says nothing on standard output.
    let near = explain(&["slot-tigth"]);
    assert_eq!((near.code, near.stdout.as_str()), (2, ""));
    assert!(
        near.stderr.contains("did you mean `slot-tight`?"),
        "{}",
        near.stderr
    );
    let far = explain(&["zzzzzzzz"]);
    assert_eq!((far.code, far.stdout.as_str()), (2, ""));
    let all = far.stderr.split_whitespace().collect::<Vec<_>>().join(" ");
    for code in ["slot-tight,", "walls-too-low", "wall-not-held"] {
        assert!(all.contains(code), "{all}");
    }
    assert!(
        far.stderr.lines().all(|line| line.chars().count() <= 80),
        "{}",
        far.stderr
    );
}

#[test]
fn with_a_job_the_page_comes_behind_the_report() {
    // Source: core/CONTRACT.md, "Commands": the exit code is the job's.
    let desk = tempfile::tempdir().expect("a temporary folder can be made");
    fs::write(desk.path().join("low.kdl"), JOB).expect("a job can be written");
    fs::write(
        desk.path().join("tall.kdl"),
        JOB.replace("depth=(mm)28", "depth=(mm)40"),
    )
    .expect("a job can be written");
    for (job, code) in [("low.kdl", 0), ("tall.kdl", 1)] {
        let plain = run(desk.path(), &["check", job]);
        let both = run(desk.path(), &["check", job, "--explain", "item-too-deep"]);
        assert_eq!((plain.code, both.code), (code, code), "{}", both.stderr);
        let page = explain(&["item-too-deep"]).stdout;
        assert_eq!(both.stdout, format!("{}\n{page}", plain.stdout));
    }
    let json = [
        "check",
        "low.kdl",
        "--format",
        "json",
        "--explain",
        "slot-tight",
    ];
    let refused = run(desk.path(), &json);
    assert_eq!((refused.code, refused.stdout.as_str()), (2, ""));
    assert!(refused.stderr.contains("--explain"), "{}", refused.stderr);
}

fn explain(code: &[&str]) -> Outcome {
    run(repository(), &[&["check", "--explain"], code].concat())
}

/// Says what every page says, in 80 columns.
#[track_caller]
fn explains(code: &str, outcome: &Outcome) {
    assert_eq!(outcome.code, 0, "{code}: {}", outcome.stderr);
    let page = &outcome.stdout;
    for heading in ["\nWhat it means\n  ", "\nHow it is checked\n  "] {
        assert!(page.contains(heading), "{code} lacks {heading}:\n{page}");
    }
    let (_, cures) = page
        .split_once("\nWhat to change\n")
        .expect("a page names a cure");
    assert!(
        cures.starts_with("  - ") && cures.len() > 10,
        "{code}:\n{page}"
    );
    for line in page.lines() {
        assert!(line.chars().count() <= 80, "{code}: {line}");
    }
}

/// The rows of the engine's table: each variant with its code.
fn table() -> Vec<(String, String)> {
    let source = repository().join("core/engine/src/finding/built_in.rs");
    let source = fs::read_to_string(source).expect("the table can be read");
    let (_, rows) = source
        .split_once("\nfindings! {")
        .expect("the table is there");
    let rows = rows.split(';').filter_map(|row| {
        let (head, rest) = row.split_once(" = \"")?;
        let variant = head.lines().rfind(|line| !line.trim().starts_with("//"))?;
        let variant = variant.trim().split([' ', '{']).next()?;
        Some((variant.to_owned(), rest.split('"').next()?.to_owned()))
    });
    rows.collect()
}

/// The keys whose entry is a rule.
fn rule_codes(style: &str) -> Vec<String> {
    let parts: Vec<&str> = style.split('"').collect();
    let rules = parts.windows(2).filter(|pair| {
        [": Error(", ": Warning(", ": Note("]
            .iter()
            .any(|level| pair[1].starts_with(level))
    });
    rules.map(|pair| pair[0].to_owned()).collect()
}

fn stems(folder: &str, ending: &str) -> BTreeSet<String> {
    let stem = |path: PathBuf| {
        path.file_stem()
            .map(|stem| stem.to_string_lossy().into_owned())
    };
    files(folder, ending).into_iter().filter_map(stem).collect()
}
