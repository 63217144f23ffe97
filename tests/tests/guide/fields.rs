//! The guide leaves nothing out: every field, word and function that the program knows stands in it.
//!
//! A wrong word is written where a field, a kind or a function stands; the program answers with all that can stand there,
//! and each of these must be in the guide.

use traywright_engine::Style;

use crate::blocks::Guide;

/// A wrong word in place of a right one, in a style that holds all kinds of entries.
const WRONG: [(&str, &str); 17] = [
    ("language: 1", "zzzzzzzz: 1"),
    ("question: \"q\"", "zzzzzzzz: 1"),
    ("Length(default", "Zzzzzzzz(default"),
    ("Rectangle(", "Zzzzzzzz("),
    ("length: Outside", "zzzzzzzz: Outside"),
    ("Outside(\"tray.length\")", "Zzzzzzzz(\"tray.length\")"),
    ("RootUp", "Zzzzzzzz"),
    ("[Length", "[Zzzzzzzz"),
    ("reach: Flat", "zzzzzzzz: Flat"),
    ("Valley", "Zzzzzzzz"),
    ("Chamfer(", "Zzzzzzzz("),
    ("Slot(", "Zzzzzzzz("),
    ("cut: Open", "cut: Zzzzzzzz"),
    ("place: Centred", "zzzzzzzz: Centred"),
    ("width: \"9mm\"", "zzzzzzzz: \"9mm\""),
    ("message: \"s\"", "zzzzzzzz: \"s\""),
    ("Fold(", "Zzzzzzzz("),
];

const ALL_KINDS: &str = r#"Style(
    language: 1, about: "all kinds", stands: RootUp, fills: [Length],
    settings: {"a": Length(default: "1mm", min: "0mm", max: "2mm", question: "q")},
    panels: {
        "deck": Rectangle(length: Outside("tray.length"), width: Outside("tray.width")),
        "side": Hinged(on: "deck.sides", sense: Valley, reach: Flat("20mm"), trim: {"far": Chamfer("a")}),
    },
    openings: {"slot": Slot(on: "deck", place: Centred, cut: Open)},
    tongues: {"tongue": Tongue(on: "side.far", into: "deck", length: "1mm", width: "9mm")},
    rules: {"r": Note(message: "s")},
    measures: {"wall_height": "side.reach"},
    steps: [Fold(panels: {"side": "w"})],
)"#;

#[test]
fn every_word_that_the_program_knows_stands_in_the_guide() {
    Style::read("all-kinds", ALL_KINDS).expect("the style is sound");
    let guide = Guide::read();
    let mut told = 0;
    for (right, wrong) in WRONG {
        let text = ALL_KINDS.replacen(right, wrong, 1);
        assert!(text != ALL_KINDS, "{right} is not in the style");
        let faults = Style::read("all-kinds", &text).expect_err("a wrong word is refused");
        let known = faults
            .iter()
            .find_map(|fault| fault.label.strip_prefix("what can stand here: "))
            .unwrap_or_else(|| panic!("{wrong}: {faults:#?}"));
        for word in known.split(", ") {
            assert!(guide.has(word), "the guide does not speak of {word}");
            told += 1;
        }
    }
    assert!(told >= 60, "only {told} words were looked for");
}

#[test]
fn every_function_stands_in_the_guide() {
    let text = ALL_KINDS.replace("Flat(\"20mm\")", "Flat(\"zzzzzzzz(1mm)\")");
    let faults = Style::read("all-kinds", &text).expect_err("no such function");
    let label = &faults[0].label;
    let known = label
        .strip_prefix("the functions are ")
        .expect("all functions are told");
    let (known, _) = known.split_once(';').expect("a hint follows");
    let known = known.replace(" and ", ", ");
    let known: Vec<&str> = known.split(", ").collect();
    assert!(known.len() > 10, "{label}");
    let guide = Guide::read();
    for function in known {
        assert!(
            guide.has(function),
            "the guide does not speak of {function}"
        );
    }
}
