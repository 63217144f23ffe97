//! Tests of files of handwritten cards. In the tests crate, outside programs fold the trays of real styles.

use std::collections::BTreeMap;

use serde_json::{Value, json};
use traywright_document::example::run;
use traywright_document::{
    BoxSize, Contour, CreaseLine, Document, Extent, Flat, Hinge, Length, Panel, Point, Pose,
    example,
};

use crate::pattern;

mod cuts;

/// Turns the part right of x = 40 upright.
const UPRIGHT: Pose = Pose {
    rows: [[0.0, 0.0, -1.0], [0.0, 1.0, 0.0], [1.0, 0.0, 0.0]],
    shift: [40.0, 0.0, -40.0],
};

fn point([x, y]: [f64; 2]) -> Point {
    Point { x, y }
}

fn rectangle([x, y]: [f64; 2], [right, top]: [f64; 2]) -> Contour {
    run(&[[x, y], [right, y], [right, top], [x, top]], true)
}

/// A hole: a rectangle run clockwise.
fn hole([x, y]: [f64; 2], [right, top]: [f64; 2]) -> Contour {
    run(&[[x, y], [x, top], [right, top], [right, y]], true)
}

/// A card of 40 by 30 mm, and panels beside it with the pieces of their creases on its right edge.
fn card(walls: &[(Contour, &[[f64; 2]])]) -> Document {
    let outline = rectangle([0.0, 0.0], [40.0, 30.0]);
    let mut panels = vec![example::panel("card", outline, None)];
    let mut creases = Vec::new();
    for (outline, pieces) in walls {
        let line = |[low, high]: [f64; 2]| [point([40.0, low]), point([40.0, high])];
        let hinge = Hinge {
            parent: 0,
            line: line(pieces[0]),
            fold_deg: 90.0,
            height: 0.0,
        };
        creases.extend(pieces.iter().map(|&piece| {
            let [from, to] = line(piece);
            CreaseLine {
                from,
                to,
                fold_deg: 90.0,
                panel: panels.len(),
            }
        }));
        panels.push(Panel {
            pose: UPRIGHT,
            ..example::panel("wall", outline.clone(), Some(hinge))
        });
    }
    document(panels, creases)
}

fn document(panels: Vec<Panel>, creases: Vec<CreaseLine>) -> Document {
    let flat = Flat {
        extent: Extent::around([[0.0, 0.0], [60.0, 30.0]].map(point)),
        creases,
        ..example::flat(panels[0].outline.clone())
    };
    Document {
        title: "Lens card \"L\"".to_owned(),
        style: "by hand".to_owned(),
        box_size: BoxSize {
            length: Length::known(42.0),
            width: Length::known(32.0),
            depth: Length::known(12.5),
        },
        panels,
        ..example::plain(flat)
    }
}

fn one_wall() -> Document {
    card(&[(rectangle([40.0, 5.0], [60.0, 25.0]), &[[5.0, 25.0]])])
}

/// A file that was read again.
struct Read(Value);

impl Read {
    fn of(document: &Document) -> Read {
        let text = pattern(document).expect("it can be written");
        Read(serde_json::from_str(&text).expect("it is JSON"))
    }

    fn faces(&self) -> Vec<Vec<usize>> {
        let numbers = |face: &Value| {
            list(face)
                .iter()
                .map(|at| at.as_u64().expect("a number") as usize)
                .collect()
        };
        list(&self.0["faces_vertices"])
            .iter()
            .map(numbers)
            .collect()
    }

    fn places(&self) -> Vec<[f64; 2]> {
        let pair = |place: &Value| [0, 1].map(|axis| place[axis].as_f64().expect("a length"));
        list(&self.0["vertices_coords"]).iter().map(pair).collect()
    }

    fn letters(&self) -> String {
        let letters = list(&self.0["edges_assignment"]).iter();
        let mut letters: Vec<&str> = letters
            .map(|letter| letter.as_str().expect("a letter"))
            .collect();
        letters.sort_unstable();
        letters.concat()
    }

    /// Checks every face and edge, and returns the sum of areas.
    // Source: FOLD 1.2: faces counter-clockwise, a border has one face and every other edge two.
    fn area(&self) -> f64 {
        let places = self.places();
        let mut sides: BTreeMap<[usize; 2], usize> = BTreeMap::new();
        let mut sum = 0.0;
        for face in self.faces() {
            let mut double = 0.0;
            for (at, &from) in face.iter().enumerate() {
                let to = face[(at + 1) % face.len()];
                *sides.entry([from.min(to), from.max(to)]).or_default() += 1;
                double += places[from][0] * places[to][1] - places[to][0] * places[from][1];
            }
            let mut once = face.clone();
            once.sort_unstable();
            once.dedup();
            assert_eq!(once.len(), face.len(), "a face meets itself: {face:?}");
            assert!(double > 0.0, "{face:?}");
            sum += double / 2.0;
        }
        let edges = list(&self.0["edges_vertices"]);
        assert_eq!(edges.len(), sides.len());
        for (edge, letter) in edges.iter().zip(list(&self.0["edges_assignment"])) {
            let [one, other] = [0, 1].map(|end| edge[end].as_u64().expect("a number") as usize);
            let faces = if letter == "B" { 1 } else { 2 };
            assert_eq!(
                sides[&[one.min(other), one.max(other)]],
                faces,
                "{edge} {letter}"
            );
        }
        sum
    }
}

fn list(value: &Value) -> &[Value] {
    value.as_array().expect("it is a list")
}

fn assert_near(found: f64, expected: f64) {
    assert!(
        (found - expected).abs() < 1e-9,
        "{found} instead of {expected}"
    );
}

#[test]
fn a_wall_on_a_part_of_an_edge_splits_it() {
    // Source: counted by hand: 6 corners of the card with the crease's ends, 2 of the wall beyond them.
    let read = Read::of(&one_wall());
    assert_eq!(read.places().len(), 8);
    assert_eq!(read.faces(), [vec![0, 1, 2, 3, 4, 5], vec![2, 6, 7, 3]]);
    assert_eq!(read.letters(), "BBBBBBBBV");
    assert_near(read.area(), 40.0 * 30.0 + 20.0 * 20.0);
    // Source: reasoning: the far edge of a wall 20 long stands 20 over the edge it hangs on.
    let folded = &read.0["file_frames"][0];
    assert_eq!(folded["vertices_coords"][6], json!([40, 5, 20]));
    assert_eq!(folded["vertices_coords"][7], json!([40, 25, 20]));
}

#[test]
fn the_file_says_what_the_contract_asks_for() {
    // Source: core/CONTRACT.md, "Files: FOLD".
    let read = Read::of(&one_wall()).0;
    for (key, expected) in [
        ("file_spec", json!(1.2)),
        ("file_title", json!("Lens card \"L\"")),
        ("frame_classes", json!(["creasePattern"])),
        ("frame_unit", json!("mm")),
        ("faces_traywright:name", json!(["card", "wall"])),
        ("traywright:caliper", json!(0.3)),
        ("traywright:box", json!([42, 32, 12.5])),
    ] {
        assert_eq!(read[key], expected, "{key}");
    }
    let folded = &read["file_frames"][0];
    assert_eq!(folded["frame_classes"], json!(["foldedForm"]));
    assert_eq!(
        (&folded["frame_parent"], &folded["frame_inherit"]),
        (&json!(0), &json!(true))
    );
    assert!(read["traywright:hinge"].is_null());
}

#[test]
fn the_file_lists_the_items_where_they_lie() {
    // Source: core/CONTRACT.md, "Files: FOLD": size as it lies, middle in frame 0, rest over the bare seat.
    let mut document = one_wall();
    document.items = vec![traywright_document::Item {
        name: "lens".to_owned(),
        kind: 0,
        number: 1,
        length: 20.0,
        width: 12.0,
        depth: 9.5,
        middle: Some(traywright_document::Point::new(18.0, 14.0)),
        panel: 0,
        shape: traywright_document::ItemShape::Oval,
        rest: 1.25,
        pad: 1.0,
        straight: None,
        loose: false,
        turned: true,
        held: None,
    }];
    let items = &Read::of(&document).0["traywright:items"];
    let expected = json!([{
        "name": "lens", "shape": "oval", "size": [20, 12, 9.5], "middle": [18, 14], "turned": true,
        "pad": 1, "rest": 1.25, "straight": 9.5, "loose": false,
    }]);
    assert_eq!(*items, expected);
}

#[test]
fn with_fold_lines_off_the_middle_each_face_stands_by_itself() {
    // Source: core/CONTRACT.md, "Files: FOLD": the file carries the hinge, and its folded form inherits nothing.
    let mut document = one_wall();
    document.board.hinge = 0.1;
    document.panels[1].pose.shift = [40.1, 0.0, -39.9];
    let read = Read::of(&document).0;
    assert_eq!(read["traywright:hinge"], json!(0.1));
    let words = read["frame_description"].as_str().expect("it is described");
    assert!(words.contains("0.1 mm from the middle"), "{words}");
    let folded = &read["file_frames"][0];
    assert_eq!(
        (
            &folded["frame_parent"],
            &folded["frame_inherit"],
            &folded["frame_unit"]
        ),
        (&json!(0), &json!(false), &json!("mm"))
    );
    // Source: counted by hand: 6 corners of the card and 4 of the wall, no two of them one.
    assert_eq!(
        folded["faces_vertices"],
        json!([[0, 1, 2, 3, 4, 5], [6, 7, 8, 9]])
    );
    assert_eq!(folded["faces_traywright:name"], json!(["card", "wall"]));
    assert_eq!(list(&folded["edges_vertices"]).len(), 10);
    assert_eq!(folded["edges_assignment"], json!(vec!["B"; 10]));
    // Source: by hand: about an axis 0.1 over the card the wall's foot comes to stand 0.1 inside it and over it.
    assert_eq!(folded["vertices_coords"][2], json!([40, 5, 0]));
    assert_eq!(folded["vertices_coords"][6], json!([40.1, 5, 0.1]));
    assert_eq!(folded["vertices_coords"][8], json!([40.1, 25, 20.1]));
}

#[test]
fn panels_that_come_apart_are_refused() {
    let mut document = one_wall();
    document.panels[1].pose.shift[2] += 0.25;
    let words = pattern(&document).expect_err("the wall floats").to_string();
    assert_eq!(
        words,
        "card and wall share a corner on the card and stand 0.25 mm apart in the folded tray"
    );
}

#[test]
fn a_crease_beside_its_panels_is_refused() {
    let mut document = one_wall();
    document.flat.creases[0].to.y = 26.0;
    let words = pattern(&document)
        .expect_err("the crease is longer than the wall")
        .to_string();
    assert_eq!(words, "the crease of wall is no edge of both its panels");
}
