//! Tests of the faces around holes, slits, curves and interrupted creases.

use serde_json::json;
use traywright_document::steady::Steady;
use traywright_document::{Contour, Document, Segment};

use super::{Read, assert_near, card, hole, list, one_wall, point, rectangle, run};

#[test]
fn panels_with_holes_are_split_into_simple_faces() {
    // Source: counted by hand: areas; two lines across the card for a hole, one of them shared in the last case; and Euler:
    // a line more than there are holes makes a face more.
    let diamond = run(
        &[[20.0, 20.0], [25.0, 25.0], [30.0, 20.0], [25.0, 15.0]],
        true,
    );
    let inner = hole([15.0, 12.0], [25.0, 18.0]);
    for (holes, missing, faces) in [
        (vec![hole([10.0, 10.0], [20.0, 20.0])], 100.0, 2),
        (
            vec![
                hole([5.0, 10.0], [12.0, 20.0]),
                hole([20.0, 10.0], [30.0, 18.0]),
            ],
            150.0,
            3,
        ),
        (vec![bay(), inner], 350.0 + 60.0, 3),
        (vec![hole([5.0, 10.0], [10.0, 20.0]), diamond], 100.0, 2),
    ] {
        let mut document = one_wall();
        document.panels[0].holes = holes;
        let read = Read::of(&document);
        assert_near(read.area(), 1600.0 - missing);
        let names = list(&read.0["faces_traywright:name"]);
        assert_eq!(names.len(), faces + 1, "{names:?}");
        assert_eq!(names.last(), Some(&json!("wall")));
        assert!(
            names[..faces].iter().all(|name| name == "card"),
            "{names:?}"
        );
    }
}

/// A C-shaped hole, with space for another one in its bay.
fn bay() -> Contour {
    let outside = [[35.0, 5.0], [5.0, 5.0], [5.0, 25.0], [35.0, 25.0]];
    let inside = [[35.0, 20.0], [10.0, 20.0], [10.0, 10.0], [35.0, 10.0]];
    run(&[outside, inside].concat(), true)
}

#[test]
fn cards_full_of_holes_and_slits_are_split_into_simple_faces() {
    // Reasoning: whatever is cut into a card, its faces are simple and cover what is left. Corners stand on whole
    // millimetres, so that many lie on one height.
    let mut bits: u64 = 1;
    // Source: Knuth's multiplier for 64 bits, from memory; nothing rests on its values.
    let mut dice = |sides: u64| {
        bits = bits.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1);
        (bits >> 33) % sides
    };
    for _ in 0..300 {
        let mut document = one_wall();
        let mut missing = 0.0;
        for cell in 0..12 {
            let least = [cell % 4, cell / 4].map(|at| f64::from(at) * 10.0 + 1.0);
            let size = [dice(4), dice(4)].map(|size| 2.0 + 2.0 * size as f64);
            missing += cut(&mut document, dice(6), least, size);
        }
        assert_near(Read::of(&document).area(), 1600.0 - missing);
    }
}

/// Cuts something into a card, and returns the removed area.
fn cut(document: &mut Document, kind: u64, [left, low]: [f64; 2], [wide, high]: [f64; 2]) -> f64 {
    let [right, top] = [left + wide, low + high];
    let [middle, half] = [left + wide / 2.0, low + high / 2.0];
    let diamond = [[left, half], [middle, top], [right, half], [middle, low]];
    let (holes, cuts) = (&mut document.panels[0].holes, &mut document.flat.open_cuts);
    match kind {
        0 => holes.push(hole([left, low], [right, top])),
        1 => holes.push(run(&diamond, true)),
        2 => cuts.push(run(&[[left, low], [right, top]], false)),
        3 => cuts.push(run(&[[left, half], [right, half]], false)),
        4 => cuts.push(run(&[[middle, top], [middle, low]], false)),
        _ => {}
    }
    [wide * high, wide * high / 2.0]
        .get(kind as usize)
        .copied()
        .unwrap_or(0.0)
}

#[test]
fn a_slit_in_the_card_is_doubled() {
    // Reasoning: a slit takes no card away. Its ends stay whole; between them each side has a vertex and edges of its own.
    for ends in [
        [[10.0, 15.0], [20.0, 15.0]],
        [[10.0, 10.0], [10.0, 20.0]],
        [[10.0, 10.0], [21.0, 17.0]],
    ] {
        let mut document = one_wall();
        document.flat.open_cuts = vec![run(&ends, false)];
        let read = Read::of(&document);
        assert_near(read.area(), 1600.0);
        let middle = [0, 1].map(|axis| (ends[0][axis] + ends[1][axis]) / 2.0);
        let near =
            |place: &&[f64; 2]| (place[0] - middle[0]).steady_hypot(place[1] - middle[1]) < 1e-9;
        assert_eq!(read.places().iter().filter(near).count(), 2);
    }
}

#[test]
fn a_cut_into_the_card_from_its_edge_is_doubled() {
    // Reasoning: run in and back, the edge is no simple polygon; the cut opens at the edge and is whole at its tip.
    let mut document = one_wall();
    let corners = [
        [0.0, 0.0],
        [20.0, 0.0],
        [20.0, 12.0],
        [20.0, 0.0],
        [40.0, 0.0],
        [40.0, 30.0],
        [0.0, 30.0],
    ];
    document.panels[0].outline = run(&corners, true);
    let read = Read::of(&document);
    assert_near(read.area(), 1600.0);
    let count = |wanted: [f64; 2]| {
        read.places()
            .iter()
            .filter(|&&place| place == wanted)
            .count()
    };
    assert_eq!((count([20.0, 0.0]), count([20.0, 12.0])), (2, 1));
}

#[test]
fn a_crease_in_two_pieces_leaves_a_slit_between_them() {
    // Reasoning: between the pieces the wall is cut free, with a border on each side.
    let read = Read::of(&card(&[(
        rectangle([40.0, 5.0], [60.0, 25.0]),
        &[[5.0, 12.0], [18.0, 25.0]],
    )]));
    assert_near(read.area(), 1600.0);
    assert_eq!(read.letters().matches('V').count(), 2);
    assert_eq!(
        read.places()
            .iter()
            .filter(|&&place| place == [40.0, 15.0])
            .count(),
        2
    );
}

#[test]
fn two_walls_that_touch_stay_two() {
    // Reasoning: their edges lie on one another and are cut; at the crease's common end they share a vertex.
    let lower = (
        rectangle([40.0, 5.0], [60.0, 15.0]),
        &[[5.0, 15.0]] as &[[f64; 2]],
    );
    let upper = (
        rectangle([40.0, 15.0], [55.0, 25.0]),
        &[[15.0, 25.0]] as &[[f64; 2]],
    );
    let read = Read::of(&card(&[lower, upper]));
    assert_near(read.area(), 1200.0 + 200.0 + 150.0);
    let count = |wanted: [f64; 2]| {
        read.places()
            .iter()
            .filter(|&&place| place == wanted)
            .count()
    };
    // The shorter one's corner splits the edge of the longer one.
    assert_eq!(
        (
            count([40.0, 15.0]),
            count([55.0, 15.0]),
            count([60.0, 15.0])
        ),
        (1, 2, 1)
    );
}

#[test]
fn a_curve_becomes_chords_that_stay_near_it() {
    // Source: DXF reference, group 42: a bulge of 1 is a half circle, clockwise here as -1.
    let arc = |to: [f64; 2]| Segment::Arc {
        to: point(to),
        bulge: -1.0,
    };
    let round = Contour {
        start: point([10.0, 15.0]),
        segments: vec![arc([30.0, 15.0]), arc([10.0, 15.0])],
        closed: true,
    };
    let mut document = one_wall();
    document.panels[0].holes = vec![round];
    let read = Read::of(&document);
    read.area();
    let away = |place: [f64; 2]| (place[0] - 20.0).steady_hypot(place[1] - 15.0);
    let places = read.places();
    let on_it = |at: usize| (away(places[at]) - 10.0).abs() < 1e-9;
    let mut chords = 0;
    for face in read.faces() {
        for (at, &from) in face.iter().enumerate() {
            let to = face[(at + 1) % face.len()];
            if on_it(from) && on_it(to) {
                chords += 1;
                let middle = [0, 1].map(|axis| (places[from][axis] + places[to][axis]) / 2.0);
                assert!(away(middle) > 10.0 - 0.01, "{middle:?}");
            }
        }
    }
    // Derived: 2 pi / (2 acos(1 - 0.01 / 10)) is 70.2; each half takes a whole number.
    assert_eq!(chords, 72);
}
