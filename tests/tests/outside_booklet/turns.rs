//! How often the tray is rotated and turned over, and what the cover and the last check say.
//!
//! Sources: core/CONTRACT.md, "Files: booklet"; counts of the shipped jobs by reading their pages. Tool: poppler's pdftotext.

use std::fs;

use traywright_tests::made::Made;
use traywright_tests::repository;

/// A shipped job in a language.
fn shipped(name: &str, language: &str) -> Made {
    let file = repository().join(format!("designs/jobs/{name}.kdl"));
    let text = fs::read_to_string(file).expect("a job can be read");
    let kept: Vec<&str> = text
        .lines()
        .filter(|line| !line.starts_with("words "))
        .collect();
    Made::new(
        &format!("{}\nwords \"{language}\"\n", kept.join("\n")),
        "booklet",
    )
}

/// The words of one page.
fn page(made: &Made, number: &str) -> Option<String> {
    let text = made.ask("pdftotext", &["-raw", "-f", number, "-l", number], &["-"])?;
    Some(text.split_whitespace().collect::<Vec<_>>().join(" "))
}

#[test]
fn the_tray_is_rotated_seldom() {
    // Source: reasoning: of two side walls the far one shows its inside, so the tray is rotated once for the near one; and
    // once more between the ends. One rotation more where thick board hides a bridge, and where a rail comes before a back.
    for (name, most) in [
        ("barometer", 1),
        ("tuning-forks", 2),
        ("marine-clock", 3),
        ("observatory-watch", 3),
    ] {
        let Some(text) = shipped(name, "en").words() else {
            return;
        };
        let count = text.matches("Rotate the tray").count();
        assert!(count <= most, "{name}: {count} rotations");
    }
}

#[test]
fn no_sentence_turns_the_tray_over_twice() {
    for name in ["barometer", "seed-vials", "tuning-forks"] {
        for (language, over) in [("en", "Turn the tray over"), ("de", "Den Einsatz wenden")] {
            let Some(text) = shipped(name, language).words() else {
                return;
            };
            assert_eq!(text.matches(over).count(), 1, "{name} {language}: {text}");
        }
    }
}

#[test]
fn the_cover_says_no_glue_and_the_last_check_asks_whether_the_item_moves() {
    for (language, glue, open, moves) in [
        (
            "en",
            "without glue",
            "barometer in the closed box: cross-section",
            "does the item move?",
        ),
        (
            "de",
            "ohne Klebstoff",
            "barometer in der geschlossenen Schachtel",
            "bewegt sich der Gegenstand?",
        ),
    ] {
        let made = shipped("barometer", language);
        let Some(cover) = page(&made, "1") else {
            return;
        };
        assert!(cover.contains(glue) && cover.contains(open), "{cover}");
        let text = made.words().expect("poppler is there");
        assert_eq!(text.matches(moves).count(), 1, "{language}");
    }
}

#[test]
fn a_fence_is_pushed_up_from_below_in_a_lifted_tray() {
    let Some(text) = shipped("observatory-watch", "en").words() else {
        return;
    };
    assert_eq!(
        text.matches("Lift the tray with one hand").count(),
        1,
        "{text}"
    );
    // Source: reasoning: nothing is pushed from below where the tray stands on its walls.
    let other = shipped("barometer", "en")
        .words()
        .expect("poppler is there");
    assert!(!other.contains("Lift the tray"), "{other}");
}
