//! An old word of a style, a job or a finding is one error that names the new word.
//!
//! Source of the pairs: the project's list of words, "Renames" for style authors and "Formats".

use std::fs;

use traywright_engine::Style;
use traywright_tests::{repository, run};

/// A text of a style in which the new word stands, and the same with the old one.
const STYLE_WORDS: [(&str, &str); 19] = [
    ("settings: {", "asks: {"),
    ("default: \"4mm\"", "usual: \"4mm\""),
    ("min: \"2mm\"", "least: \"2mm\""),
    ("max: \"10mm\"", "most: \"10mm\""),
    ("question: \"Inside width", "ask: \"Inside width"),
    ("YesNo(", "Truth("),
    ("fallbacks: {", "choices: {"),
    ("RootDown", "DeckDown"),
    ("overhang: \"max", "wider: \"max"),
    ("Chamfer(\"min", "Bevel(\"min"),
    ("ThumbNotch(", "Scoop("),
    ("max_item_depth: ", "room: "),
    ("max_flap_depth: ", "hang: "),
    ("spacing: \"inner", "apart: \"inner"),
    ("taper: \"min", "narrow: \"min"),
    ("chamfer: \"lid", "bevel: \"lid"),
    ("message: \"the corner", "say: \"the corner"),
    ("text: \"Set", "say: \"Set"),
    ("fix: \"a deeper box, or", "cure: \"a deeper box, or"),
];

fn shipped(style: &str) -> String {
    let path = repository().join(format!("designs/styles/{style}.ron"));
    fs::read_to_string(path).expect("the style ships")
}

/// The shipped style with the most words of the language, and a line for each word that it lacks.
fn style_with_every_word() -> String {
    let more = [
        (
            "    settings: {\n",
            "    settings: {\n        \"spare\": YesNo(default: false, question: \"Spare?\"),\n",
        ),
        (
            "max_item_depth: \"inside-height\"",
            "max_item_depth: \"inside-height\", max_flap_depth: Flat(\"9mm\")",
        ),
    ];
    more.into_iter()
        .fold(shipped("lid-lock"), |text, (here, longer)| {
            assert!(text.contains(here), "{here}");
            text.replacen(here, longer, 1)
        })
}

/// The word at the start of a piece of a style.
fn word(piece: &str) -> &str {
    piece
        .split(|sign: char| !(sign.is_alphanumeric() || sign == '_'))
        .next()
        .unwrap_or_default()
}

#[test]
fn an_old_word_of_a_style_is_one_error_with_the_new_word() {
    let sound = style_with_every_word();
    Style::read("lid-lock", &sound).expect("the words are those of today");
    for (new, old) in STYLE_WORDS {
        is_one_error(&sound, new, old);
    }
    is_one_error(&shipped("single-slot"), "RootUp", "DeckUp");
}

fn is_one_error(sound: &str, new: &str, old: &str) {
    let place = sound.find(new).unwrap_or_else(|| panic!("no {new}"));
    let broken = sound.replacen(new, old, 1);
    let errors = Style::read("old", &broken).expect_err("an old word is an error");
    let [error] = &errors[..] else {
        panic!("{old}: {errors:#?}");
    };
    let (new, old) = (word(new), word(old));
    assert_eq!(error.message, format!("`{old}` is now called `{new}`"));
    assert_eq!(error.label, format!("write `{new}`"));
    assert_eq!(error.place, place..place + old.len(), "{old}");
}

#[test]
fn a_whole_style_of_old_words_is_one_error_at_the_first() {
    let old = STYLE_WORDS
        .into_iter()
        .fold(style_with_every_word(), |text, (new, old)| {
            text.replace(new, old)
        });
    let errors = Style::read("lid-lock", &old).expect_err("old words are errors");
    assert_eq!(errors.len(), 1, "{errors:#?}");
    assert_eq!(errors[0].message, "`DeckDown` is now called `RootDown`");
}

const JOB: &str = "tray style=\"single-slot\"\nbox length=(mm)182 width=(mm)121 depth=(mm)34\n\
    item \"barometer\" length=(mm)96 width=(mm)61 depth=(mm)28\nboard caliper=(mm)0.29\n";

#[test]
fn an_old_word_of_a_job_is_one_error_with_the_new_word() {
    let cases = [
        ("cut width=(mm)0.2", "`cut` is now called `kerf`", "5:1"),
        (
            "hold gap=(mm)0.4 every=(mm)60",
            "`hold` is now called `nicks`",
            "5:1",
        ),
        ("nicks gap=(mm)0.4", "`gap` is now called `length`", "5:7"),
        (
            "set \"bevel\"=(mm)2",
            "the setting \"bevel\" is now called \"chamfer\"",
            "5:5",
        ),
    ];
    let folder = tempfile::tempdir().expect("a folder can be made");
    for (line, message, place) in cases {
        fs::write(folder.path().join("old.kdl"), format!("{JOB}{line}\n"))
            .expect("a job can be written");
        let outcome = run(folder.path(), &["check", "old.kdl"]);
        assert_eq!(outcome.code, 2, "{line}");
        let errors = outcome.stderr.matches("error:").count();
        assert_eq!(errors, 1, "{line}: {}", outcome.stderr);
        for words in [message, &format!("old.kdl:{place}\n")] {
            assert!(outcome.stderr.contains(words), "{line}: {}", outcome.stderr);
        }
    }
}

#[test]
fn an_old_code_is_explained_by_its_new_name() {
    let codes = [
        ("spine-narrow", "bridge-narrow"),
        ("spine-too-narrow", "bridge-too-narrow"),
        ("slabs-collide", "panels-collide"),
        ("cut-too-wide", "kerf-too-wide"),
        ("no-place-to-hold", "no-room-for-nicks"),
        ("fit-unsure", "fit-uncertain"),
    ];
    for (old, new) in codes {
        let outcome = run(repository(), &["check", "--explain", old]);
        assert_eq!(outcome.code, 2, "{old}");
        let message = format!("the finding `{old}` is now called `{new}`");
        assert!(outcome.stderr.contains(&message), "{}", outcome.stderr);
        assert_eq!(outcome.stderr.matches("error:").count(), 1, "{old}");
    }
}
