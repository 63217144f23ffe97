//! The page of trays written by hand, read as text. What a browser does with it is tried in `tests/tests/page`.

use serde_json::Value;
use traywright_document::{
    Action, Contour, Document, DrawnFace, ExportError, Hinge, Item, ItemShape, Length, Move,
    Orientation, Point, Pose, Step, example,
};

use crate::{page, scene, scripts};

const NASTY: &str = "</script><b onclick=\"x\">Lens & co</b>";

fn ring(corners: &[[f64; 2]]) -> Contour {
    example::run(corners, true)
}

/// A deck of 40 by 30 mm with a hole of 10 by 10 mm, and a wall 8 mm high at its right edge, folded up.
fn tray() -> Document {
    let outline = ring(&[[0.0, 0.0], [40.0, 0.0], [40.0, 30.0], [0.0, 30.0]]);
    let mut deck = example::panel("deck", outline.clone(), None);
    deck.holes = vec![ring(&[[5.0, 5.0], [5.0, 15.0], [15.0, 15.0], [15.0, 5.0]])];
    let hinge = Hinge {
        parent: 0,
        line: [Point::new(40.0, 0.0), Point::new(40.0, 30.0)],
        fold_deg: 90.0,
        height: 0.1,
    };
    let mut wall = example::panel(
        "wall",
        ring(&[[40.0, 0.0], [48.0, 0.0], [48.0, 30.0], [40.0, 30.0]]),
        Some(hinge),
    );
    wall.pose = hinge.fold(90.0);
    let item = Item {
        middle: Some(Point::new(10.0, 10.0)),
        panel: 0,
        rest: 2.0,
        pad: 2.0,
        held: None,
        shape: ItemShape::Round,
        kind: 0,
        number: 1,
        ..example::full(|| 6.0).items[0].clone()
    };
    Document {
        panels: vec![deck, wall],
        items: vec![item],
        steps: vec![Step {
            words: "Fold the wall up.".to_owned(),
            why: "It is the only one.".to_owned(),
            stands: true,
            tongues: 0,
            action: Action::Fold(vec![Move {
                panel: 1,
                to_deg: 90.0,
            }]),
        }],
        ..example::plain(example::flat(outline))
    }
}

fn read(document: &Document) -> Value {
    let text = scene(document).expect("there are English words");
    serde_json::from_str(&text).expect("a scene is JSON")
}

fn numbers(value: &Value) -> Vec<f64> {
    let list = value.as_array().expect("a list");
    list.iter().filter_map(Value::as_f64).collect()
}

#[test]
fn names_of_people_never_become_markup() {
    let mut document = tray();
    document.title = NASTY.to_owned();
    document.items[0].name = NASTY.to_owned();
    document.panels[1].name = NASTY.to_owned();
    document.steps[0].words = NASTY.to_owned();
    document.board.name = Some(NASTY.to_owned());
    let text = page(&document).expect("a page");
    // Source: HTML, "restrictions on the contents of script elements": nothing but `</script` or `<!--` ends or bends one.
    assert_eq!(text.matches("<script").count(), 3);
    assert_eq!(text.matches("</script").count(), 3);
    assert!(!text.contains("<b ") && !text.contains("<!--"));
    assert_eq!(read(&document)["items"][0]["name"], NASTY);
    assert!(text.contains("&lt;/script&gt;&lt;b onclick=&quot;x&quot;&gt;Lens &amp; co"));
}

#[test]
fn nothing_is_loaded_from_anywhere() {
    let text = page(&tray()).expect("a page");
    for word in [
        "http:", "https:", "//www", "src=", "href=", "@import", "url(", "fetch(", "import ",
    ] {
        assert!(!text.contains(word), "the page says {word}");
    }
    assert!(text.contains("default-src 'none'"));
}

#[test]
fn triangles_cover_a_panel_and_not_its_holes() {
    // Derived: 40 · 30 - 10 · 10 = 1100 and 8 · 30 = 240 mm².
    let scene = read(&tray());
    for (panel, area) in [(0, 1100.0), (1, 240.0)] {
        let panel = &scene["panels"][panel];
        let rings = panel["rings"].as_array().expect("rings");
        let places: Vec<f64> = rings.iter().flat_map(numbers).collect();
        let at = |corner: f64| [places[2 * corner as usize], places[2 * corner as usize + 1]];
        let corners = numbers(&panel["triangles"]);
        let areas = corners.chunks_exact(3).map(|three| {
            let [a, b, c] = [at(three[0]), at(three[1]), at(three[2])];
            ((b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])).abs() / 2.0
        });
        let sum: f64 = areas.sum();
        assert!((sum - area).abs() < 1e-9, "{sum} of {area}");
    }
}

#[test]
fn an_item_stands_on_its_pad_above_the_floor() {
    // Derived: card 0.3 mm thick, the wall's end 48 - 40 = 8 mm beyond its crease. The fold line lies 0.1 mm above the middle
    // of the deck, so the wall ends 0.1 + 8 mm above it. On its walls the deck is on top: the floor of the box is there,
    // and the item's underside 2 mm above it, which is towards the deck.
    let mut document = tray();
    document.stands = Orientation::RootUp;
    let scene = read(&document);
    assert_eq!(scene["up"], -1);
    let close = |value: &Value, wanted: [f64; 3]| {
        let found = numbers(value);
        let off = found
            .iter()
            .zip(wanted)
            .map(|(one, other)| (one - other).abs());
        assert!(off.fold(0.0, f64::max) < 1e-9, "{found:?}, not {wanted:?}");
    };
    // The wall's middle stands 0.1 mm inside its fold line at x = 40, so its outside is at 40 + 0.1 + 0.15 mm; the deck's
    // left edge at 0.
    close(&scene["seat"], [20.125, 15.0, 8.1]);
    close(&scene["items"][0]["at"], [10.0, 10.0, 6.1]);
    // On its deck the items stand on the deck's upper face.
    document.stands = Orientation::RootDown;
    let scene = read(&document);
    assert_eq!(scene["up"], 1);
    close(&scene["seat"], [20.125, 15.0, -0.15]);
    close(&scene["items"][0]["at"], [10.0, 10.0, 2.15]);
    // Drawn from outside, z comes out of the other face.
    document.output.drawn_face = DrawnFace::Outside;
    assert_eq!(read(&document)["up"], -1);
}

#[test]
fn steps_end_in_the_box_with_the_items() {
    // Source: PDF booklet and page count alike: the document's steps, then the box, then the items that are not in yet.
    let mut document = tray();
    let scene = read(&document);
    let actions = |scene: &Value| -> Vec<String> {
        let steps = scene["steps"].as_array().expect("steps").iter();
        steps.map(|step| step["action"].to_string()).collect()
    };
    assert_eq!(
        actions(&scene),
        ["{\"fold\":[[1,90.0]]}", "\"box\"", "\"place\""]
    );
    assert_eq!(scene["steps"][0]["who"], "wall");
    document.steps.push(Step {
        action: Action::Place,
        words: String::new(),
        ..document.steps[0].clone()
    });
    let scene = read(&document);
    assert_eq!(actions(&scene)[1..], ["\"place\"", "\"box\""]);
    // The item stands on a pad, which goes in first.
    let words = scene["steps"][1]["words"].as_str().expect("words");
    assert!(
        words.starts_with("First stick down the pads. Pad under barometer.2:"),
        "{words}"
    );
    assert!(words.ends_with("Put in barometer.2."), "{words}");
    // One reason is said once.
    assert_eq!(scene["steps"][1]["why"], "");
    document.box_size = traywright_document::BoxSize::NONE;
    document.steps.pop();
    assert_eq!(actions(&read(&document)).len(), 1);
}

#[test]
fn every_language_has_a_page_and_others_are_refused() {
    let mut document = tray();
    for language in traywright_look::languages() {
        document.output.language = language.to_owned();
        let text = page(&document).unwrap_or_else(|why| panic!("{language}: {why}"));
        assert!(text.contains(&format!("<html lang=\"{language}\">")));
        // What a reader sees without scripts has no gaps left; the scripts get theirs to fill.
        let (seen, rest) = text.split_once("<script").expect("a page has scripts");
        let (_, seen) = seen.split_once("<body>").expect("a page has a body");
        assert!(!seen.contains(['{', '}']), "{language}: {seen}");
        let (words, _) = rest.split_once("</script").expect("its words come first");
        for gap in ["{n}", "{count}", "{words}"] {
            assert!(words.contains(gap), "{language} lacks {gap}: {words}");
        }
    }
    document.output.language = "xx".to_owned();
    let refused = page(&document).err();
    assert!(
        matches!(refused, Some(ExportError::Language { .. })),
        "{refused:?}"
    );
}

#[test]
fn a_document_with_something_in_every_field_gives_a_page() {
    let mut next = 0.0;
    let document = example::full(|| {
        next += 0.37;
        next
    });
    page(&document).expect("a page");
    let bare = Document {
        panels: Vec::new(),
        ..example::full(|| 1.0)
    };
    page(&bare).expect("a page");
    let mut far = tray();
    far.panels[1].pose = Pose::STILL;
    far.box_size.depth = Length::known(1.0);
    page(&far).expect("a page");
}

/// The names that a line declares for all scripts: those behind its keyword and behind each comma outside of brackets.
fn names_of(line: &str) -> Vec<&str> {
    let line = line.strip_prefix("async ").unwrap_or(line);
    let (keyword, rest) = line.split_once(' ').unwrap_or_default();
    let several = ["const", "let", "var"].contains(&keyword);
    if !several && !["function", "class"].contains(&keyword) {
        return Vec::new();
    }
    let mut depth = 0;
    let pieces = rest.split(|letter: char| {
        match letter {
            '(' | '[' | '{' => depth += 1,
            ')' | ']' | '}' => depth -= 1,
            _ => {}
        }
        several && depth == 0 && letter == ','
    });
    let is_no_word = |letter: char| !letter.is_ascii_alphanumeric() && letter != '_';
    let first = |piece: &str| piece.find(is_no_word).unwrap_or(piece.len());
    pieces
        .map(str::trim_start)
        .map(|piece| &piece[..first(piece)])
        .collect()
}

#[test]
fn names_of_the_scripts_share_one_scope_without_a_clash() {
    let text = scripts::scripts();
    let mut names: Vec<&str> = text.lines().flat_map(names_of).collect();
    let count = names.len();
    assert!(count > 30, "{names:?}");
    // The second and the fourth name of their lines.
    assert!(names.contains(&"SEAM") && names.contains(&"BROWN"));
    names.sort_unstable();
    names.dedup();
    assert_eq!(names.len(), count, "a name stands twice");
    assert!(!text.contains("\nexport ") && !text.contains("\nimport "));
}
