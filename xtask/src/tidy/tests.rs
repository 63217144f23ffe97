//! Every rule of the house against a small tree that breaks it.

use std::path::{Path, PathBuf};

use super::{House, TextFile};

/// What tidy says of a file in a tree that has one style, `hut` with a panel `roof`.
fn faults(path: &str, text: &str) -> Vec<String> {
    let style = "Style(panels: {\"roof\": Rectangle(length: \"1mm\")})\n";
    let files = [
        ("designs/styles/hut.ron", style),
        ("core/PAGE.md", "# Page\n\n## The roof\n"),
        ("tests/facts/hut.md", "| hut-01 | two walls |\n"),
        (path, text),
    ];
    House {
        paths: files.iter().map(|(path, _)| PathBuf::from(path)).collect(),
        texts: files
            .iter()
            .map(|(path, text)| TextFile::of(Path::new(path), (*text).to_owned()))
            .collect(),
    }
    .faults()
}

#[test]
fn a_sound_file_has_no_faults() {
    // Source: reasoning: it keeps every rule, and uses each forbidden word where it is allowed.
    let text = "//! The face of a template.\n//! And more.\n\n/// A roof: core/PAGE.md, \"The roof\"; tests/facts/hut.md hut-01.\nfn main() {\n    say(\"the roof\");\n}\n\n\
                #[cfg(test)]\nmod tests {\n    const NAME: &str = \"roof\";\n}\n";
    assert_eq!(faults("core/engine/src/a.rs", text), Vec::<String>::new());
}

#[test]
fn each_rule_is_noticed_when_it_is_broken() {
    // Source: the rules of the house, one row a rule.
    for (path, text, words) in places().into_iter().chain(words()).chain(printed()) {
        let found = faults(path, &text);
        assert_eq!(found.len(), 1, "{words}: {found:?}");
        assert!(found[0].contains(words), "{words}: {found:?}");
    }
}

/// A path, a text that breaks a rule, and a word of the fault.
type Broken = (&'static str, String, &'static str);

const HEAD: &str = "//! What.\n//! More.\n";

/// A file that cites; put together here, for this file is judged too.
fn cite(path: &str, behind: &str) -> String {
    format!("{HEAD}// Source: {path}{behind}.\n")
}

/// The rules about places and sizes.
fn places() -> Vec<Broken> {
    let long = format!("{HEAD}fn long() {{\n{}}}\n", "    call();\n".repeat(50));
    let room = format!("{HEAD}{}", "const A: u8 = 1;\n".repeat(399));
    let arguments = format!("{HEAD}fn a(a: A, b: B, c: C, d: D, e: E, f: F) {{}}\n");
    let link = "see [b](no/such/file)\n".to_owned();
    vec![
        ("notes.txt", "x\n".to_owned(), "does not belong at the top"),
        ("core/utils/a.toml", "x\n".to_owned(), "drawer"),
        ("tests/a.md", link, "leads nowhere"),
        ("core/a.rs", "fn a() {}\n".to_owned(), "head"),
        ("core/a.rs", long, "a screen has"),
        ("core/a.rs", room, "a room has"),
        ("core/a.rs", arguments, "arguments"),
        ("core/a.rs", cite("core/NONE", ".md"), "not in the tree"),
        (
            "core/a.rs",
            cite("tests/facts", "/none.py"),
            "not in the tree",
        ),
        (
            "core/a.rs",
            cite("core/PAGE.md", ", \"The door\""),
            "no section",
        ),
        (
            "core/a.rs",
            cite("tests/facts/hut.md", " hut-02"),
            "no line hut-02",
        ),
        (
            "exporters/a/CLAUSES.md",
            "| a clause | `hut::raise` |\n".to_owned(),
            "in no module of that name",
        ),
    ]
}

/// The rule about words that no printed text may have, in each kind of text.
fn printed() -> Vec<Broken> {
    let said = "const SAID: &str = \"nothing is Told here\";\n";
    [
        ("README.md", "Whoever reads this.\n".to_owned()),
        (
            "designs/words/en.ron",
            "(a: \"fold the spine\")\n".to_owned(),
        ),
        ("designs/GUIDE.md", "It does so in vain.\n".to_owned()),
        ("designs/jobs/a.kdl", "// 2 mm as usual.\n".to_owned()),
        (
            "core/engine/src/finding/pages/a.txt",
            "A cure.\n".to_owned(),
        ),
        (
            "core/cli/src/args.rs",
            format!("{HEAD}/// How it is judged\nstruct A;\n"),
        ),
        ("core/job/src/a.rs", format!("{HEAD}{said}")),
    ]
    .map(|(path, text)| (path, text, "no word for a printed text"))
    .to_vec()
}

/// The rules about words.
fn words() -> Vec<Broken> {
    let code = |code: &str| format!("{HEAD}{code}");
    // Put together here, for this file is judged too.
    let note = code(&format!("// TO{}: later\n", "DO"));
    let machine = code(&format!("// in /ro{}/x\n", "ot"));
    let style = code("const A: &str = \"hut\";\n");
    vec![
        ("core/a.rs", note, "note to oneself"),
        ("core/a.rs", machine, "path of one machine"),
        ("core/a.rs", code("fn a() {} \n"), "blanks"),
        ("core/a.rs", code("fn a() {}"), "no line end"),
        (
            "core/a.rs",
            code("struct LineManager;\n"),
            "a type is not called",
        ),
        (
            "core/a.rs",
            code("enum Template {}\n"),
            "a type is not called",
        ),
        (
            "core/engine/a.rs",
            code("fn thickness() {}\n"),
            "in the engine",
        ),
        (
            "core/a.rs",
            code("const A: &str = \"roof\";\n"),
            "the program knows none",
        ),
        ("exporters/a/a.rs", style, "the program knows none"),
    ]
}
