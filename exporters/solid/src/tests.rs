//! The solids of trays written by hand, by their volumes and corners.

use traywright_document::space::Vec3;
use traywright_document::{
    Contour, CreaseLine, Document, DrawnFace, Hinge, ItemShape, Orientation, Point, example,
};

use crate::bends::Bend;
use crate::profile::Profile;
use crate::solid::{Solid, Surface};
use crate::{binary, items, panels};

fn ring(corners: &[[f64; 2]]) -> Contour {
    example::run(corners, true)
}

/// A deck of 40 by 30 mm with a hole of 10 by 10 mm, and a wall 8 mm high at its right edge, folded by an angle about a
/// line `height` above the middle of card of 0.4 mm.
fn tray(fold_deg: f64, height: f64) -> Document {
    let outline = ring(&[[0.0, 0.0], [40.0, 0.0], [40.0, 30.0], [0.0, 30.0]]);
    let mut deck = example::panel("deck", outline, None);
    deck.holes = vec![ring(&[[5.0, 5.0], [5.0, 15.0], [15.0, 15.0], [15.0, 5.0]])];
    let [from, to] = [Point::new(40.0, 0.0), Point::new(40.0, 30.0)];
    let hinge = Hinge {
        parent: 0,
        line: [from, to],
        fold_deg,
        height,
    };
    let wall = ring(&[[40.0, 0.0], [48.0, 0.0], [48.0, 30.0], [40.0, 30.0]]);
    let mut wall = example::panel("wall", wall, Some(hinge));
    wall.pose = hinge.fold(fold_deg);
    let blank = ring(&[[0.0, 0.0], [48.0, 0.0], [48.0, 30.0], [0.0, 30.0]]);
    let mut document = example::plain(example::flat(blank));
    document.board.caliper = 0.4;
    document.flat.creases = vec![CreaseLine {
        // The other way round than the line of the hinge.
        from: to,
        to: from,
        fold_deg,
        panel: 1,
    }];
    document.panels = vec![deck, wall];
    document
}

fn panel_of(document: &Document, index: usize) -> Solid {
    let bends = Bend::all(document);
    let profiles = panels::profiles(document, index, &bends);
    panels::solid(document, index, &profiles)
}

fn bend_of(document: &Document) -> Solid {
    let bends = Bend::all(document);
    bends[0].solid(document).expect("the crease has a bend")
}

#[track_caller]
fn near(found: f64, wanted: f64) {
    assert!((found - wanted).abs() < 1e-4, "{found}, not {wanted}");
}

/// Whether a corner of a solid is here.
fn has(solid: &Solid, place: Vec3) -> bool {
    let is_here = |corner: &Vec3| (0..3).all(|axis| (corner[axis] - place[axis]).abs() < 1e-5);
    solid.corners.iter().any(is_here)
}

#[test]
fn panels_lose_a_strip_and_the_bend_stands_in_its_place() {
    // By hand: half of 0.4 mm, less nothing, times tan 45°, is a strip of 0.2 mm: the deck keeps 39.8 · 30 - 100 mm².
    for fold in [90.0, -90.0] {
        let document = tray(fold, 0.0);
        near(panel_of(&document, 0).volume(), (39.8 * 30.0 - 100.0) * 0.4);
        near(panel_of(&document, 1).volume(), 7.8 * 30.0 * 0.4);
        // By hand: a quarter of a circle of 0.4 mm, 30 mm long, is 3.7699 mm³; six chords at most 0.005 mm off take 1 %.
        let volume = bend_of(&document).volume();
        assert!((3.70..3.7699).contains(&volume), "{volume}");
        // The inside corner of the fold, and the outside corners at the ends of both panels.
        let inside = fold.signum() * 0.2;
        for solid in [
            bend_of(&document),
            panel_of(&document, 0),
            panel_of(&document, 1),
        ] {
            assert!(has(&solid, [39.8, 0.0, inside]), "{fold}");
        }
        for solid in [bend_of(&document), panel_of(&document, 1)] {
            assert!(has(&solid, [40.2, 30.0, inside]), "{fold}");
        }
        assert!(has(&bend_of(&document), [39.8, 30.0, -inside]));
    }
}

#[test]
fn a_fold_line_on_the_inside_face_takes_no_strip() {
    let document = tray(90.0, 0.2);
    near(panel_of(&document, 0).volume(), 1100.0 * 0.4);
    near(panel_of(&document, 1).volume(), 240.0 * 0.4);
    assert!(has(&bend_of(&document), [40.0, 0.0, 0.2]));
}

#[test]
fn a_fold_beyond_its_limit_has_no_bend_unless_its_faces_only_touch() {
    // Source: core/CONTRACT.md, "Files: glTF".
    let flat = tray(180.0, 0.0);
    assert!(Bend::all(&flat)[0].solid(&flat).is_none());
    near(panel_of(&flat, 1).volume(), 240.0 * 0.4);
    let touching = tray(180.0, 0.2);
    assert!(bend_of(&touching).volume() > 7.4);
}

#[test]
fn the_outside_of_a_bend_has_the_surface_of_the_face_there() {
    for (fold, face, wanted) in [
        (90.0, DrawnFace::Inside, Surface::Outer),
        (90.0, DrawnFace::Outside, Surface::Inner),
        (-90.0, DrawnFace::Inside, Surface::Inner),
        (-90.0, DrawnFace::Outside, Surface::Outer),
    ] {
        let mut document = tray(fold, 0.0);
        document.output.drawn_face = face;
        let surfaces: Vec<Surface> = bend_of(&document).triangles.into_keys().collect();
        assert_eq!(
            surfaces,
            [wanted.min(Surface::Edge), wanted.max(Surface::Edge)]
        );
    }
}

#[test]
fn every_edge_of_an_extruded_figure_belongs_to_two_triangles() {
    let document = tray(90.0, 0.0);
    for solid in [panel_of(&document, 0), bend_of(&document)] {
        let triangles: Vec<[usize; 3]> = solid.triangles.values().flatten().copied().collect();
        let edges = |three: &[usize; 3]| [0, 1, 2].map(|at| [three[at], three[(at + 1) % 3]]);
        let edges: Vec<[usize; 2]> = triangles.iter().flat_map(edges).collect();
        for &[from, to] in &edges {
            let count = |wanted| edges.iter().filter(|edge| **edge == wanted).count();
            assert_eq!([count([from, to]), count([to, from])], [1, 1]);
        }
    }
}

#[test]
fn openings_in_a_row_leave_no_crack() {
    // Corners of several holes on one line are where a triangulation may skip one.
    let hole = |x: f64, y: f64| vec![[x, y], [x, y + 5.0], [x + 5.0, y + 5.0], [x + 5.0, y]];
    let mut contours = vec![vec![[0.0, 0.0], [40.0, 0.0], [40.0, 20.0], [0.0, 20.0]]];
    for x in [3.0, 13.0, 23.0, 33.0] {
        contours.extend([hole(x, 2.0), hole(x, 11.0)]);
    }
    let [profile]: [Profile; 1] = Profile::rest(contours, Vec::new())
        .try_into()
        .expect("one piece");
    near(profile.area(), 40.0 * 20.0 - 8.0 * 25.0);
    let lengths = profile.outline().into_iter().map(|edge| {
        let [from, to] =
            edge.map(|corner| Point::new(profile.places[corner][0], profile.places[corner][1]));
        (to - from).length()
    });
    near(lengths.sum(), 120.0 + 8.0 * 20.0);
}

#[test]
fn items_and_box_stand_on_the_floor_whichever_way_is_up() {
    for stands in [Orientation::RootUp, Orientation::RootDown] {
        let mut document = Document {
            stands,
            ..tray(90.0, 0.0)
        };
        let full = example::full(|| 6.0);
        document.items = vec![full.items[0].clone()];
        document.items[0].panel = 0;
        document.items[0].middle = Some(Point::new(10.0, 10.0));
        document.items[0].pad = 2.0;
        document.items[0].shape = ItemShape::Rectangle;
        document.box_size = full.box_size;
        let (item, pad) = items::item(&document, &document.items[0]).expect("it has a place");
        let size = &document.items[0];
        near(item.volume(), size.length * size.width * size.depth);
        near(
            pad.map_or(0.0, |pad| pad.volume()),
            size.length * size.width * 2.0,
        );
        // By hand: walls of 2 mm around 6 by 6 by 6 mm, and a floor of 2 mm below.
        let open = items::open_box(&document).expect("there is a box");
        let volumes: Vec<f64> = open.iter().map(Solid::volume).collect();
        near(volumes[0], (10.0 * 10.0 - 6.0 * 6.0) * 6.0);
        near(volumes[1], 10.0 * 10.0 * 2.0);
    }
}

#[test]
fn a_sheet_of_blanks_is_refused() {
    let mut sheet = tray(90.0, 0.0);
    sheet.panels.clear();
    assert!(binary(&sheet).is_err());
    assert!(binary(&tray(90.0, 0.0)).is_ok());
}
