//! Tests of files of a handwritten blank, read as groups. The tests crate has readers from outside the project.
//!
//! Source of the expectations: tests/facts/drawing.md dxf-01 to dxf-06 and the DXF reference, group codes.

use traywright_document::{
    BoxSize, Contour, CreaseLine, Dimension, Document, DxfVersion, FileLines, Hinge, Length, Point,
    Segment, example,
};

use crate::file;
use crate::groups::{Record, section, value};

/// A card of 100 by 80 with its lower left corner at (10, 20), a rounded corner, a slit, a hole and both kinds of crease.
fn document() -> Document {
    let crease = |x: f64, fold_deg: f64| CreaseLine {
        from: Point::new(x, 20.0),
        to: Point::new(x, 100.0),
        fold_deg,
        panel: 1,
    };
    let corners = [[10.0, 20.0], [110.0, 20.0], [110.0, 100.0], [10.0, 100.0]];
    let mut document = example::plain(example::flat(example::run(&corners, true)));
    document.title = "Lens box %%c ü".to_owned();
    document.box_size = BoxSize {
        length: Length::known(100.0),
        width: Length::known(80.0),
        depth: Length::known(20.0),
    };
    document.flat.creases = vec![crease(30.0, 90.0), crease(90.0, -90.0)];
    document.flat.dimensions = vec![Dimension {
        text: "⌀100".to_owned(),
        text_at: Point::new(60.0, 10.0),
        text_height: 2.5,
        line: [Point::new(10.0, 9.0), Point::new(110.0, 9.0)],
        extensions: vec![[Point::new(10.0, 19.0), Point::new(10.0, 7.0)]],
    }];
    let (x, y) = (110.0, 100.0);
    document.flat.outline.segments = vec![
        line(x, 20.0),
        line(x, y - 5.0),
        arc(x - 5.0, y, 0.414_213_562_373_095),
        line(10.0, y),
        line(10.0, 20.0),
    ];
    document.flat.open_cuts = vec![example::run(&[[50.0, 40.0], [50.0, 60.0]], false)];
    document.flat.holes = vec![Contour {
        start: Point { x: 60.0, y: 50.0 },
        segments: vec![arc(80.0, 50.0, -1.0), arc(60.0, 50.0, -1.0)],
        closed: true,
    }];
    document
}

fn line(x: f64, y: f64) -> Segment {
    Segment::Line { to: Point { x, y } }
}

fn arc(x: f64, y: f64, bulge: f64) -> Segment {
    let to = Point { x, y };
    Segment::Arc { to, bulge }
}

fn drawn(version: DxfVersion) -> String {
    let mut document = document();
    document.output.machine.dxf = version;
    file(&document).expect("the drawing can be written")
}

fn numbers(record: &Record, code: i32) -> Vec<f64> {
    let groups = record.iter().filter(|group| group.code == code);
    groups
        .map(|group| group.value.parse().expect("a number"))
        .collect()
}

fn of_kind<'a>(records: &'a [Record], kind: &str) -> Vec<&'a Record> {
    records
        .iter()
        .filter(|record| record[0].value == kind)
        .collect()
}

#[test]
fn closed_cuts_are_closed_light_polylines_with_bulges() {
    let text = drawn(DxfVersion::R2000);
    let entities = section(&text, "ENTITIES");
    let lines = of_kind(&entities, "LWPOLYLINE");
    assert_eq!(lines.len(), 5);
    for line in &lines {
        // dxf-06: the count of corners is the number of their first coordinates.
        assert_eq!(numbers(line, 90), [numbers(line, 10).len() as f64]);
        let closed = value(line, 70) == Some("1");
        assert_eq!(
            closed,
            value(line, 8) == Some("CUTTING")
                && numbers(line, 10).len() > 1
                && numbers(line, 42).iter().any(|bulge| *bulge != 0.0)
        );
    }
    let outline = lines[4];
    // The lower left corner is at 0, 0; dxf-01: a quarter turn has a bulge of 0.41421356.
    assert_eq!(numbers(outline, 10), [0.0, 100.0, 100.0, 95.0, 0.0]);
    assert_eq!(numbers(outline, 20), [0.0, 0.0, 75.0, 80.0, 80.0]);
    // It comes after its own corner, the third; a bulge of 0 is left out.
    let codes: Vec<i32> = outline
        .iter()
        .map(|group| group.code)
        .filter(|code| [10, 42].contains(code))
        .collect();
    assert_eq!(codes, [10, 10, 10, 42, 10, 10]);
    assert!((numbers(outline, 42)[0] - 0.414_213_56).abs() < 1e-8);
    // dxf-02: half a circle has a bulge of 1; y is up, so clockwise stays negative (dxf-03).
    assert_eq!(numbers(lines[3], 42), [-1.0, -1.0]);
}

#[test]
fn creases_come_before_cuts_and_the_outline_last() {
    let text = drawn(DxfVersion::R2000);
    let entities = section(&text, "ENTITIES");
    let layers: Vec<&str> = of_kind(&entities, "LWPOLYLINE")
        .iter()
        .filter_map(|line| value(line, 8))
        .collect();
    assert_eq!(
        layers,
        [
            "CREASING",
            "REVERSE-CREASING",
            "CUTTING",
            "CUTTING",
            "CUTTING"
        ]
    );
}

#[test]
fn release_12_draws_measures_as_text_and_lines() {
    let text = drawn(DxfVersion::R12);
    let entities = section(&text, "ENTITIES");
    let words: Vec<&str> = of_kind(&entities, "TEXT")
        .iter()
        .filter_map(|text| value(text, 1))
        .collect();
    // Two percent signs would begin a code; characters outside the code page are escaped as the format requires.
    assert_eq!(words[..2], ["%%c100", "Lens box % %c \\U+00FC"]);
    assert_eq!(
        (
            of_kind(&entities, "LINE").len(),
            of_kind(&entities, "SOLID").len()
        ),
        (2, 2)
    );
    let layers: Vec<&str> = of_kind(&entities, "TEXT")
        .iter()
        .filter_map(|text| value(text, 8))
        .collect();
    assert_eq!(layers, ["DIMENSIONS", "TITLE", "NOTES", "NOTES"]);
    for record in &entities {
        let first = record[0].value.as_str();
        if ["LINE", "SOLID"].contains(&first) {
            assert_eq!(value(record, 8), Some("DIMENSIONS"));
        }
    }
}

#[test]
fn a_dimension_says_what_it_measures_and_has_a_block_that_draws_it() {
    let text = drawn(DxfVersion::R2000);
    let entities = section(&text, "ENTITIES");
    let dimensions = of_kind(&entities, "DIMENSION");
    let [dimension] = dimensions.as_slice() else {
        panic!("{dimensions:?}");
    };
    // Source: the DXF reference: 70 is a rotated dimension (0) with a block of its own (32) and words that are placed
    // (128); by hand: the blank's corner at 10, 20 is at 0, 0.
    for (code, wanted) in [
        (1, "%%c100"),
        (2, "*D1"),
        (8, "DIMENSIONS"),
        (70, "160"),
        (42, "100.0"),
        (50, "0.0"),
        (13, "0.0"),
        (23, "-1.0"),
        (14, "100.0"),
        (24, "-11.0"),
        (10, "100.0"),
        (20, "-11.0"),
    ] {
        assert_eq!(value(dimension, code), Some(wanted), "{code}");
    }
    let blocks = section(&text, "BLOCKS");
    let start = blocks
        .iter()
        .position(|record| value(record, 2) == Some("*D1"));
    let start = start.expect("the block is there");
    let kinds: Vec<&str> = blocks[start..]
        .iter()
        .map(|record| record[0].value.as_str())
        .collect();
    let wanted = ["BLOCK", "LINE", "LINE", "SOLID", "SOLID", "TEXT", "ENDBLK"];
    assert_eq!(kinds, wanted);
    let records = section(&text, "TABLES");
    let names = of_kind(&records, "BLOCK_RECORD");
    let owner = names.iter().find(|record| value(record, 2) == Some("*D1"));
    let owner = owner.and_then(|record| value(record, 5));
    for record in &blocks[start..] {
        assert_eq!(value(record, 330), owner);
    }
}

#[test]
fn creases_carry_their_angles_and_the_outline_its_thickness() {
    let hinge = |fold_deg: f64| Hinge {
        parent: 0,
        line: [Point::new(30.0, 20.0), Point::new(30.0, 100.0)],
        fold_deg,
        height: 0.0,
    };
    let mut with_panels = document();
    let outline = with_panels.flat.outline.clone();
    with_panels.panels = vec![
        example::panel("deck", outline.clone(), None),
        example::panel("wall", outline, Some(hinge(-90.0))),
    ];
    let text = file(&with_panels).expect("the drawing can be written");
    assert!(text.contains("APPID\r\n"), "{text}");
    let entities = section(&text, "ENTITIES");
    let data = |layer: &str| {
        let mut lines = of_kind(&entities, "LWPOLYLINE").into_iter().rev();
        let line = lines.find(|line| value(line, 8) == Some(layer));
        let line = line.expect("the layer has a line");
        let data = line.iter().skip_while(|group| group.code != 1001);
        data.map(|group| group.value.clone()).collect::<Vec<_>>()
    };
    let wanted = ["TRAYWRIGHT", "fold-angle", "-90.0", "panel", "wall"];
    assert_eq!(data("CREASING"), wanted);
    let wanted = [
        "TRAYWRIGHT",
        "caliper",
        "0.3",
        "hinge",
        &format!("{:?}", with_panels.board.hinge),
        "creases",
        "pressed",
    ];
    assert_eq!(data("CUTTING"), wanted);
    // A machine gets lines and nothing else.
    with_panels.output.machine.lines = FileLines::Bare;
    let bare = file(&with_panels).expect("the drawing can be written");
    for word in [
        "TRAYWRIGHT",
        "*D1",
        "NOTES",
        "TITLE",
        "LABELS",
        "DIMENSIONS",
    ] {
        assert!(!bare.contains(word), "{word}");
    }
}

#[test]
fn no_handle_stands_twice_and_every_owner_is_there() {
    let text = drawn(DxfVersion::R2000);
    let mut handles: Vec<String> = Vec::new();
    let mut owners: Vec<String> = Vec::new();
    for name in ["TABLES", "BLOCKS", "ENTITIES", "OBJECTS"] {
        for record in section(&text, name) {
            let own = if record[0].value == "DIMSTYLE" {
                105
            } else {
                5
            };
            handles.extend(value(&record, own).map(str::to_owned));
            owners.extend(value(&record, 330).map(str::to_owned));
        }
    }
    assert!(handles.len() > 40, "{handles:?}");
    for owner in owners.iter().filter(|owner| *owner != "0") {
        assert!(handles.contains(owner), "{owner}");
    }
    let count = handles.len();
    handles.sort();
    handles.dedup();
    assert_eq!(handles.len(), count);
}

#[test]
fn the_header_says_release_and_unit_and_nothing_that_changes() {
    let (new, old) = (drawn(DxfVersion::R2000), drawn(DxfVersion::R12));
    // dxf-05; X1 and X3: release 12 is AC1009 and knows no unit.
    assert!(
        new.contains("$ACADVER\r\n  1\r\nAC1015\r\n") && new.contains("$INSUNITS\r\n 70\r\n4\r\n")
    );
    assert!(old.contains("$ACADVER\r\n  1\r\nAC1009\r\n") && !old.contains("$INSUNITS"));
    for text in [&new, &old] {
        for word in ["$TDCREATE", "$TDUPDATE", "GUID"] {
            assert!(!text.contains(word), "{word}");
        }
    }
    assert_eq!(new, drawn(DxfVersion::R2000));
}

#[test]
fn release_12_has_no_subclasses_and_its_corners_stand_on_their_layer() {
    let text = drawn(DxfVersion::R12);
    for code in [
        "\r\n100\r\nAcDb",
        "\r\n330\r\n",
        "LWPOLYLINE",
        "BLOCK_RECORD",
        "OBJECTS",
    ] {
        assert!(!text.contains(code), "{code:?}");
    }
    let entities = section(&text, "ENTITIES");
    let mut layer = None;
    for record in &entities {
        match record[0].value.as_str() {
            "POLYLINE" => layer = value(record, 8),
            "VERTEX" | "SEQEND" => assert_eq!(value(record, 8), layer),
            _ => {}
        }
    }
    assert_eq!(of_kind(&entities, "SEQEND").len(), 5);
}

#[test]
fn a_moved_cut_and_gaps_are_said_in_the_file() {
    let mut document = document();
    document.output.machine.kerf = Length::known(0.2);
    document.output.machine.nicks = Some(traywright_document::Nicks {
        length: Length::known(0.4),
        every: Length::known(60.0),
    });
    let text = file(&document).expect("the drawing can be written");
    for words in ["half the kerf of 0.2 mm", "nicks of 0.4 mm hold"] {
        assert!(text.contains(words), "{words}");
    }
}

#[test]
fn the_words_are_in_the_language_of_the_document() {
    let mut german = document();
    german.output.language = "de".to_owned();
    german.flat.dimensions[0].text = "100.5".to_owned();
    let text = file(&german).expect("the drawing can be written");
    // Source: designs/words/de.ron; the format has \\U+ and four digits for letters beyond ASCII.
    for told in [
        "Bauart by hand, Schachtel 100 x 80 x 20 mm, Karton 0,3 mm",
        "Einheit: mm; Innenseite des Kartons",
        "100,5",
    ] {
        assert!(text.contains(told), "no {told} in {text}");
    }
    for english in ["style ", "units", "inside face"] {
        assert!(!text.contains(english), "{english} in {text}");
    }
}
