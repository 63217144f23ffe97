//! Characters that nobody sees: which they are, and that no output has them raw.
//!
//! Outsiders: Python's copy of the Unicode character database, and ezdxf, which decodes the codes of a DXF
//! (`outside/hidden.py`).

use std::fs;

use serde_json::Value;
use traywright_document::{is_hidden, seen};
use traywright_tests::{measured, run};

/// Characters of the category "format" that are seen, or shape the letters beside them.
// Source: Unicode Standard, property Prepended_Concatenation_Mark, the joiners, and the controls of Egyptian hieroglyphs.
const SEEN: [std::ops::RangeInclusive<u32>; 9] = [
    0x200c..=0x200d,
    0x600..=0x605,
    0x6dd..=0x6dd,
    0x70f..=0x70f,
    0x890..=0x891,
    0x8e2..=0x8e2,
    0x110bd..=0x110bd,
    0x110cd..=0x110cd,
    0x13430..=0x1343f,
];

#[test]
fn control_and_format_characters_are_hidden_but_for_those_that_shape_letters() {
    let Some(categories) = measured("hidden.py", &["codes"]) else {
        return;
    };
    let categories = categories.expect("Python knows the categories");
    let mut count = 0;
    for (category, codes) in categories.as_object().expect("an object of lists") {
        for code in codes.as_array().expect("a list of codes") {
            let code = code.as_u64().expect("a code") as u32;
            let letter = char::from_u32(code).expect("a character");
            let shapes = SEEN.iter().any(|range| range.contains(&code));
            assert_eq!(is_hidden(letter), !shapes, "U+{code:04X}, {category}");
            count += 1;
        }
    }
    // Source: Unicode: 65 control characters alone.
    assert!(count > 65, "{count}");
    for letter in "aÄß字ع֑é❤️\u{200d} \u{a0}".chars() {
        assert!(!is_hidden(letter), "{letter}");
    }
}

#[test]
fn a_name_that_would_turn_the_line_round_is_printed_and_drawn_as_its_code() {
    let desk = tempfile::tempdir().expect("a temporary folder can be made");
    let job = desk.path().join("lens.kdl");
    let escaped = r#"tray style="single-slot" name="Case \u{202e}for a lens"
box length=(mm)182 width=(mm)121 depth=(mm)34
item "lens\u{200b}" length=(mm)96 width=(mm)61 depth=(mm)28
board caliper=(mm)0.29
"#;
    fs::write(&job, escaped).expect("a job can be written");
    let ask = |words: &str| {
        let words: Vec<&str> = words.split(' ').collect();
        let outcome = run(desk.path(), &words);
        assert_eq!(outcome.code, 0, "{}", outcome.stderr);
        outcome
    };
    let checked = ask("check lens.kdl --all");
    let made = ask("make lens.kdl --as svg,dxf,fold,html --into out");
    let json = ask("check lens.kdl --format json");
    let mut texts = vec![checked.stdout, checked.stderr, made.stdout, made.stderr];
    let report: Value = serde_json::from_str(&json.stdout).expect("JSON");
    texts.push(json.stdout);
    for file in fs::read_dir(desk.path().join("out")).expect("files were made") {
        let file = file.expect("a file").path();
        texts.push(fs::read_to_string(&file).expect("text files"));
    }
    assert_eq!(texts.len(), 9);
    for text in &texts {
        let raw = text
            .chars()
            .find(|letter| !"\n\r\t".contains(*letter) && is_hidden(*letter));
        assert_eq!(raw, None, "{text}");
    }
    assert!(texts[0].contains("lensU+200B"), "{}", texts[0]);
    // A program reads the name as the job has it.
    assert!(report.to_string().contains("lens\u{200b}"), "{report}");
    assert_eq!(seen("a\u{202e}b"), "aU+202Eb");
}

// Source: DXF reference: \U+ and four digits stand for a letter, \M+ and five digits for one of another code page, as ezdxf
// decodes them.
#[test]
fn a_name_with_a_code_of_the_drawing_does_not_become_another_name() {
    let desk = tempfile::tempdir().expect("a temporary folder can be made");
    let job = r#"tray style="single-slot" name="Case \\U+0041 \\M+1A2B4 Ä"
box length=(mm)182 width=(mm)121 depth=(mm)34
item "lens" length=(mm)96 width=(mm)61 depth=(mm)28
board caliper=(mm)0.29
"#;
    fs::write(desk.path().join("lens.kdl"), job).expect("a job can be written");
    let outcome = run(desk.path(), &["make", "lens.kdl", "--as", "dxf"]);
    assert_eq!(outcome.code, 0, "{}", outcome.stderr);
    let drawn = desk.path().join("lens.dxf");
    let drawn = drawn.to_str().expect("a temporary folder has a plain name");
    let Some(words) = measured("hidden.py", &["words", drawn]) else {
        return;
    };
    let words = words.expect("ezdxf reads the file").to_string();
    assert!(words.contains(r"Case \\ U+0041 \\ M+1A2B4 Ä"), "{words}");
}
