//! Styles that cannot be read: one small mistake each, reported at its position in plain words.
//!
//! Source of all expectations: reasoning about what somebody with a text editor wrote and what would have been right.

use traywright_engine::{SourceError, Style};

use super::pointed;

const RIGHT: &str = r#"// A deck with two walls.
Style(
    language: 1,
    about: "Two walls.",
    items: 1,
    fills: [Depth],
    panels: {
        "deck": Rectangle(length: Flat("60mm"), width: Flat("40mm")),
        "wall": Hinged(on: "deck.sides", inset: "3mm", reach: Flat("9mm"), trim: {"far": Chamfer("2mm")}),
    },
    openings: {
        "slot": Slot(on: "deck", at: ("1mm", "2mm")),
    },
    measures: {"wall_height": "wall.reach"},
)
"#;

/// The text with one piece replaced, and all its errors.
fn broken(right: &str, wrong: &str) -> (String, Vec<SourceError>) {
    assert!(RIGHT.contains(right), "{right}");
    let text = RIGHT.replacen(right, wrong, 1);
    let faults = Style::read("tried", &text).expect_err(wrong);
    (text, faults)
}

#[test]
fn the_text_that_the_tests_break_is_right() {
    assert!(Style::read("tried", RIGHT).is_ok());
    assert!(Style::read("tried", &format!("\u{feff}{RIGHT}")).is_ok());
}

/// Right, wrong, the reported part, and words of the message or the label.
const MISTAKES: [(&str, &str, &str, &str); 33] = [
    ("items: 1,", "items: 1", "", "a comma is missing"),
    ("items: 1,", "items: 1;", ";", "instead of `;`"),
    ("\"wall\": H", "\"wall\" H", "", "a colon is missing"),
    ("\"wall\": H", "\"wall\" = H", "=", "instead of `=`"),
    ("\"wall\": H", "wall: H", "wall", "\"wall\""),
    ("Flat(\"9mm\")", "Flat(9mm)", "9mm", "\"9mm\""),
    ("inset: \"3mm\"", "inset: 3", "3", "\"3mm\""),
    ("\"wall.reach\"", "9", "9", "\"9mm\""),
    (
        "Flat(\"9mm\")",
        "\"9mm\"",
        "\"9mm\"",
        "Outside(\"9mm\"), Inside(\"9mm\") or Flat(\"9mm\")",
    ),
    ("Flat(\"9mm\")", "Flat(“9mm”)", "“", "plain quotes"),
    ("Flat(\"9mm\")", "Flat('9mm')", "'", "plain quotes"),
    (
        "inset: \"3mm\"",
        "insert: \"3mm\"",
        "insert",
        "did you mean `inset`?",
    ),
    (
        "measures:",
        "measurements:",
        "measurements",
        "the style has no field",
    ),
    (
        "Hinged(",
        "Hanging(",
        "Hanging",
        "`Hanging` means nothing here",
    ),
    ("Hinged(", "Hinge(", "Hinge", "did you mean `Hinged`?"),
    (
        "Flat(\"9mm\")",
        "Net(\"9mm\")",
        "Net",
        "Outside, Inside, Flat",
    ),
    ("[Depth]", "Depth", "Depth", "square brackets"),
    ("[Depth]", "[\"Depth\"]", "\"Depth\"", "write Depth"),
    ("[Depth]", "[Height]", "Height", "Length, Width, Depth"),
    ("on: \"deck\", at", "at", "Slot", "this Slot has no `on`"),
    (
        "    about: \"Two walls.\",\n",
        "",
        "Style",
        "the style has no `about`",
    ),
    (
        "inset: \"3mm\",",
        "inset: \"3mm\", inset: \"2mm\",",
        "inset",
        "stands twice",
    ),
    (
        "(\"1mm\", \"2mm\")",
        "\"1mm\"",
        "\"1mm\"",
        "two formulas in round brackets",
    ),
    (
        "(\"1mm\", \"2mm\")",
        "[\"1mm\", \"2mm\"]",
        "[",
        "two formulas in round brackets",
    ),
    (
        "Chamfer(\"2mm\")",
        "Chamfer(\"2mm\", \"1mm\")",
        "\"1mm\"",
        "this Chamfer has room for no more",
    ),
    (
        "Chamfer(\"2mm\")",
        "Notch(\"2mm\")",
        ")",
        "2 things belong in these brackets",
    ),
    (
        "items: 1,",
        "items: 1, # one item",
        "#",
        "a remark begins with //",
    ),
    (
        "items: 1,",
        "items: 1, /* one",
        "/*",
        "this remark never ends",
    ),
    ("items: 1,", "items: \"1\",", "\"1\"", "a number of items"),
    ("Style(", "Tray(", "Tray", "a style begins with `Style(`"),
    ("\"3mm\"", "\"3mm \\ 2\"", "\\", "backslash"),
    (
        ",\n)\n",
        ",\n)\nmore\n",
        "more",
        "the style ends before this",
    ),
    (
        "Flat(\"9mm\")",
        "Flat(\"if(box is \"low\", 9mm)\")",
        "\"if(box is \"",
        "a quote is missing, or one is too many",
    ),
];

#[test]
fn each_mistake_is_told_at_its_place_in_plain_words() {
    for (right, wrong, place, words) in MISTAKES {
        let (text, faults) = broken(right, wrong);
        let fault = &faults[0];
        let said = format!("{}; {}", fault.message, fault.label);
        assert_eq!(pointed(&text, fault), place, "{wrong}: {said}");
        assert!(said.contains(words), "{wrong}: {said}");
        // Words for programmers that the reader of RON would use.
        for word in [
            "struct",
            "enum",
            "variant",
            "identifier",
            "integer",
            "string",
            "tuple",
            "Entry",
        ] {
            assert!(!said.contains(word), "{wrong}: {said}");
        }
    }
}

#[test]
fn brackets_that_do_not_match_are_told_with_both_and_with_what_first_makes_no_sense() {
    for (right, wrong, message, first) in [
        (
            "Flat(\"40mm\")),",
            "Flat(\"40mm\"),",
            "`(` is closed by a `}`",
            "`\"wall\"` in line 9",
        ),
        (
            "Flat(\"9mm\"), trim",
            "Flat(\"9mm\")), trim",
            "`{` is closed by a `)`",
            "`trim` in line 9",
        ),
        ("[Depth],", "[Depth,", "`[` is closed by a `)`", "in line 7"),
        (
            "{\"wall_height\": \"wall.reach\"}",
            "{\"wall_height\": \"wall.reach\"]",
            "`{` is closed by a `]`",
            "`]` in line 14",
        ),
    ] {
        let (_, faults) = broken(right, wrong);
        assert!(faults[0].message.contains(message), "{wrong}: {faults:?}");
        assert!(faults[0].context.is_some(), "{wrong}: {faults:?}");
        let hint = faults[0].hint.as_deref().unwrap_or_default();
        assert!(hint.contains(first), "{wrong}: {faults:?}");
    }
    let (text, faults) = broken(",\n)\n", ",\n");
    assert_eq!(pointed(&text, &faults[0]), "(");
    assert!(faults[0].message.contains("never closed"), "{faults:?}");
}

#[test]
fn a_missing_quote_is_told_where_texts_and_words_run_together() {
    for (right, wrong) in [
        ("length: Flat(\"60mm\")", "length: Flat(\"60mm)"),
        ("length: Flat(\"60mm\")", "length: Flat(60mm\")"),
        ("\"deck.sides\"", "\"deck.sides"),
    ] {
        let (text, faults) = broken(right, wrong);
        assert!(
            faults[0].message.contains("a quote is missing"),
            "{wrong}: {faults:?}"
        );
        let line = text[..faults[0].place.start].matches('\n').count();
        let mistake = RIGHT.find(right).expect("it was found before");
        assert_eq!(
            line,
            RIGHT[..mistake].matches('\n').count(),
            "{wrong}: {faults:?}"
        );
    }
}

#[test]
fn faults_of_names_kinds_and_graph_are_told_together_in_the_order_of_the_file() {
    let text = RIGHT
        .replace("language: 1", "language: 7")
        .replace("\"60mm\"", "\"box.lenght\"")
        .replace("deck.sides", "deck.side")
        .replace("inset: \"3mm\"", "inset: \"3mm + 1\"")
        .replace("\"wall.reach\"", "\"wall.raech\"");
    let faults = Style::read("tried", &text).expect_err("five faults");
    let places: Vec<&str> = faults.iter().map(|fault| pointed(&text, fault)).collect();
    assert_eq!(places, ["7", "box.lenght", "deck.side", "1", "wall.raech"]);
}
