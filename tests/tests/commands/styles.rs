//! `styles`: the list, all about one style, and its tree.
//!
//! Source of every expectation: what the style's own file says, and core/CONTRACT.md, "Commands".

use std::fs;
use std::path::Path;

use serde_json::Value;
use traywright_tests::{repository, run};

use crate::{check, desk};

/// Styles that a maker could have written, beside those that ship.
const STRANGERS: &str = "tests/styles";

/// Name, path and text of every style that ships or that a test keeps.
fn styles() -> Vec<(String, String)> {
    let mut styles = Vec::new();
    for folder in ["designs/styles", STRANGERS] {
        let folder = repository().join(folder);
        for entry in fs::read_dir(folder)
            .expect("styles can be listed")
            .flatten()
        {
            let path = entry.path();
            let name = path.file_stem().unwrap_or_default().to_string_lossy();
            let text = fs::read_to_string(&path).expect("a style can be read");
            styles.push((name.into_owned(), text));
        }
    }
    styles.sort();
    styles
}

fn told(words: &[&str]) -> String {
    let words = [words, &["--styles", STRANGERS]].concat();
    let outcome = run(repository(), &words);
    check(&outcome, 0, &[]);
    outcome.stdout
}

/// The lines of a text that are indented by two blanks behind a line with these words.
fn block_behind<'t>(text: &'t str, head: &str) -> Vec<&'t str> {
    let behind = text.split_once(head).map_or("", |(_, behind)| behind);
    let lines = behind.lines().skip(2);
    lines.take_while(|line| !line.is_empty()).collect()
}

#[test]
fn the_list_has_every_style_with_a_picture_of_its_blank() {
    let list = told(&["styles"]);
    let entries: Vec<&str> = list.split("\n\n").collect();
    let styles = styles();
    // The strip that measures a card is no tray and stands last.
    assert_eq!(entries.len(), styles.len() + 1, "{list}");
    assert!(entries[styles.len()].starts_with("strip "), "{list}");
    for (entry, (name, _)) in entries.iter().zip(&styles) {
        assert!(entry.starts_with(&format!("{name} ")), "{entry}");
        let drawn = entry.lines().filter(|line| line.contains(['─', '┈', '│']));
        assert!((6..=9).contains(&drawn.count()), "{entry}");
    }
}

#[test]
fn the_picture_of_a_tray_like_its_mirror_image_is_like_its_own() {
    // Derived: the single-slot tray is the same from left to right, and so is what is drawn of it.
    let one = told(&["styles", "single-slot"]);
    let picture = block_behind(&one, "creases dotted:");
    assert!(picture.len() > 15, "{one}");
    let width = picture
        .iter()
        .map(|line| line.chars().count())
        .max()
        .unwrap_or(0);
    for line in picture {
        let signs: Vec<char> = format!("{line:width$}").chars().skip(2).collect();
        let turned: Vec<char> = signs.iter().rev().map(|sign| mirrored(*sign)).collect();
        let alike = signs
            .iter()
            .zip(&turned)
            .filter(|(one, other)| one == other);
        let letters = signs.iter().filter(|sign| sign.is_alphabetic()).count();
        assert!(alike.count() + 2 * letters >= signs.len(), "{line}");
    }
}

fn mirrored(sign: char) -> char {
    let pairs = ["┌┐", "└┘", "├┤", "/\\", ".."];
    let other = pairs.iter().find_map(|pair| {
        let (one, other) = (pair.chars().next()?, pair.chars().last()?);
        match sign {
            sign if sign == one => Some(other),
            sign if sign == other => Some(one),
            _ => None,
        }
    });
    other.unwrap_or(sign)
}

#[test]
fn a_style_tells_all_its_questions_and_all_its_rules() {
    for (name, text) in styles() {
        let told = told(&["styles", &name]);
        let keys = |sort: &[&str]| -> Vec<String> {
            let lines = text.lines().filter_map(|line| {
                let (key, entry) = line.trim().strip_prefix('"')?.split_once("\": ")?;
                sort.iter()
                    .any(|word| entry.starts_with(word))
                    .then(|| key.to_owned())
            });
            lines.collect()
        };
        let asked = keys(&["Length(", "Angle(", "Number(", "Choice(", "YesNo("]);
        for ask in &asked {
            assert!(
                told.contains(&format!("set \"{ask}\"=")),
                "no {ask} in\n{told}"
            );
        }
        let rules = keys(&["Error(", "Warning(", "Note("]);
        assert!(!asked.is_empty() && !rules.is_empty(), "{name} has both");
        for rule in rules {
            assert!(
                told.contains(&format!("\n  {rule} ")),
                "no {rule} in\n{told}"
            );
        }
        assert!(
            !told.contains("{value}") && !told.contains("{limit}"),
            "{told}"
        );
    }
}

#[test]
fn the_job_that_a_style_shows_fits_and_its_answers_are_those_taken_anyway() {
    let desk = desk();
    let strangers = repository().join(STRANGERS).display().to_string();
    for (name, _) in styles() {
        let told = told(&["styles", &name]);
        let job = block_behind(&told, "which fits:").join("\n");
        assert!(
            job.contains(&format!("style=\"{name}\"")),
            "no job in\n{told}"
        );
        let answers = told.lines().filter_map(|line| {
            let line = line.strip_prefix("    set ")?;
            Some(format!("set {}", line.split("  ").next()?))
        });
        let answered = answers.fold(job.clone(), |job, line| job + "\n" + &line);
        assert!(answered.contains("\nset "), "{told}");
        let [plain, answered] = [job, answered].map(|job| {
            fs::write(desk.path().join("shown.kdl"), job).expect("a job can be written");
            report(desk.path(), &strangers)
        });
        assert_eq!(plain["fits"], true, "{name}: {plain:#}");
        assert_eq!(plain["measures"], answered["measures"], "{name}");
    }
}

fn report(desk: &Path, strangers: &str) -> Value {
    let words = [
        "check",
        "shown.kdl",
        "--format",
        "json",
        "--styles",
        strangers,
    ];
    let outcome = run(desk, &words);
    serde_json::from_str(&outcome.stdout).unwrap_or_else(|_| panic!("{}", outcome.stderr))
}

#[test]
fn the_tree_shows_families_where_they_hang() {
    // Source: the drawing and the entries at the head of the style's file.
    assert_eq!(
        told(&["styles", "seed-vials", "--tree"]),
        "\
deck                   the root; edges south south-east north-east north north-west south-west
├─ side ×3             on deck.south, deck.north-east, deck.north-west; edges south-west south-east north far
│  └─ tab ×6           on side.flanks; folds by corner; edges inward outward far
├─ end ×3              on deck.south-east, deck.north, deck.south-west; edges south north-east north-west far
│  └─ bridge ×3        on end.far; edges south north-east north-west far
│     └─ inner-end ×3  on bridge.far; edges south north-east north-west far
├─ slot                opening for an item; edges south east north west
└─ thumb-hole          hole; when below >= thumb + 8mm; edges south east north west
"
    );
}

#[test]
fn an_unknown_style_is_told_with_the_nearest_known_one() {
    let desk = desk();
    for words in [
        &["styles", "singel-slot"][..],
        &["styles", "singel-slot", "--tree"],
    ] {
        check(
            &run(desk.path(), words),
            2,
            &["`singel-slot`", "did you mean `single-slot`?"],
        );
    }
    check(&run(desk.path(), &["styles", "--tree"]), 2, &["NAME"]);
}
