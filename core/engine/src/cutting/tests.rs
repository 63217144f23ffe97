//! Toolpaths of lines drawn by hand. Source of each expectation: counted or computed by hand, beside it.

use traywright_document::steady::Steady;
use traywright_document::{
    Contour, CreaseLine, Extent, Machine, Nicks, Part, Point, ProcessingStep, Segment, Toolpath,
};

use super::stroke::Stroke;
use super::{ToolpathError, toolpaths};
use traywright_document::{Flat, Length};

mod order;
mod wide;

fn point([x, y]: [f64; 2]) -> Point {
    Point { x, y }
}

/// Straight edges through points.
fn contour(places: &[[f64; 2]], closed: bool) -> Contour {
    let rest = places[1..].iter().chain(places.first().filter(|_| closed));
    Contour {
        start: point(places[0]),
        segments: rest
            .map(|place| Segment::Line { to: point(*place) })
            .collect(),
        closed,
    }
}

fn square() -> Contour {
    contour(
        &[[0.0, 0.0], [100.0, 0.0], [100.0, 100.0], [0.0, 100.0]],
        true,
    )
}

fn flat(outline: Contour) -> Flat {
    Flat {
        extent: Extent {
            least: point([0.0, 0.0]),
            most: point([100.0, 100.0]),
        },
        outline,
        holes: Vec::new(),
        open_cuts: Vec::new(),
        creases: Vec::new(),
        labels: Vec::new(),
        letters: Vec::new(),
        panel_pictures: Vec::new(),
        panel_labels: Vec::new(),
        dimensions: Vec::new(),
    }
}

fn wide(kerf: f64) -> Machine {
    Machine {
        kerf: Length::known(kerf),
        ..Machine::default()
    }
}

fn area(run: &Toolpath) -> f64 {
    Stroke::of(&run.contour).doubled_area() / 2.0
}

fn places(contour: &Contour) -> Vec<[f64; 2]> {
    let ends = contour.segments.iter().map(Segment::to);
    std::iter::once(contour.start)
        .chain(ends)
        .map(|place| [place.x, place.y].map(|along| (along * 1e6).round() / 1e6))
        .collect()
}

#[track_caller]
fn check_length(run: &Toolpath, expected: f64) {
    let length: f64 = Stroke::of(&run.contour)
        .edges
        .iter()
        .map(|edge| edge.length())
        .sum();
    assert!(
        (length - expected).abs() < 1e-9,
        "{length} instead of {expected}"
    );
}

#[test]
fn without_a_wish_every_line_is_there_as_it_stands() {
    let mut flat = flat(square());
    flat.creases.push(CreaseLine {
        from: point([50.0, 0.0]),
        to: point([50.0, 100.0]),
        fold_deg: -90.0,
        panel: 1,
    });
    flat.holes.push(contour(
        &[[10.0, 10.0], [10.0, 20.0], [20.0, 20.0], [20.0, 10.0]],
        true,
    ));
    let runs = toolpaths(&flat, &Machine::default()).expect("there is work");
    let kinds: Vec<(ProcessingStep, Part)> = runs.iter().map(|run| (run.step, run.part)).collect();
    assert_eq!(
        kinds,
        [
            (ProcessingStep::ReverseCreasing, Part::Crease { panel: 1 }),
            (ProcessingStep::Cutting, Part::Hole),
            (ProcessingStep::Cutting, Part::Outline)
        ]
    );
    assert_eq!((area(&runs[1]), area(&runs[2])), (-100.0, 10_000.0));
}

#[test]
fn open_cuts_are_joined_into_the_fewest_runs() {
    let mut flat = flat(square());
    let cut = |from, to| contour(&[from, to], false);
    // Two corners joined by a line between two forks: four odd places at the tips and two at the forks, so three runs.
    flat.open_cuts = vec![
        cut([20.0, 20.0], [40.0, 50.0]),
        cut([20.0, 80.0], [40.0, 50.0]),
        cut([40.0, 50.0], [60.0, 50.0]),
        cut([60.0, 50.0], [80.0, 20.0]),
        cut([80.0, 80.0], [60.0, 50.0]),
    ];
    let runs = toolpaths(&flat, &Machine::default()).expect("there is work");
    assert_eq!(runs.iter().filter(|run| run.part == Part::Slit).count(), 3);
    // A cross of four spokes has four odd places: two runs, each straight through and one edge long.
    flat.open_cuts = [[20.0, 50.0], [50.0, 20.0], [80.0, 50.0], [50.0, 80.0]]
        .map(|tip| cut([50.0, 50.0], tip))
        .into();
    let runs = toolpaths(&flat, &Machine::default()).expect("there is work");
    let slits: Vec<&Toolpath> = runs.iter().filter(|run| run.part == Part::Slit).collect();
    assert_eq!(slits.len(), 2);
    for slit in slits {
        assert_eq!(slit.contour.segments.len(), 1);
        check_length(slit, 60.0);
    }
    // Three cuts around a triangle are one closed stroke.
    flat.open_cuts = vec![
        cut([20.0, 20.0], [80.0, 20.0]),
        cut([80.0, 20.0], [50.0, 80.0]),
        cut([20.0, 20.0], [50.0, 80.0]),
    ];
    let runs = toolpaths(&flat, &Machine::default()).expect("there is work");
    assert!(
        runs[0].contour.closed && runs[0].contour.segments.len() == 3,
        "{runs:?}"
    );
}

#[test]
fn a_wide_cut_stands_off_the_piece_with_mitred_corners() {
    let mut flat = flat(square());
    flat.holes.push(contour(
        &[[10.0, 10.0], [10.0, 20.0], [20.0, 20.0], [20.0, 10.0]],
        true,
    ));
    flat.open_cuts
        .push(contour(&[[30.0, 30.0], [40.0, 30.0]], false));
    let runs = toolpaths(&flat, &wide(0.5)).expect("there is work");
    let of = |part| {
        runs.iter()
            .find(|run| run.part == part)
            .expect("every part is there")
    };
    // By hand: a quarter of a millimetre further out on each side, and further in for the hole.
    assert!((area(of(Part::Outline)) - 100.5 * 100.5).abs() < 1e-9);
    assert!((area(of(Part::Hole)) + 9.5 * 9.5).abs() < 1e-9);
    assert_eq!(of(Part::Outline).contour.segments.len(), 4);
    check_length(of(Part::Slit), 10.0);
}

fn half_circle(to: [f64; 2]) -> Segment {
    Segment::Arc {
        to: point(to),
        bulge: -1.0,
    }
}

fn straight(to: [f64; 2]) -> Segment {
    Segment::Line { to: point(to) }
}

fn hole(start: [f64; 2], segments: Vec<Segment>) -> Contour {
    Contour {
        start: point(start),
        segments,
        closed: true,
    }
}

#[test]
fn arcs_stay_arcs_about_their_centres() {
    let mut flat = flat(square());
    // A round hole of radius 5 in two halves, clockwise; and a slot with half-round ends of radius 10.
    let round = vec![half_circle([25.0, 20.0]), half_circle([15.0, 20.0])];
    let slot = vec![
        straight([70.0, 60.0]),
        half_circle([70.0, 40.0]),
        straight([40.0, 40.0]),
        half_circle([40.0, 60.0]),
    ];
    flat.holes = vec![hole([15.0, 20.0], round), hole([40.0, 60.0], slot)];
    let runs = toolpaths(&flat, &wide(0.5)).expect("there is work");
    let mut lengths: Vec<f64> = Vec::new();
    for run in runs.iter().filter(|run| run.part == Part::Hole) {
        let edges = Stroke::of(&run.contour).edges;
        lengths.push(edges.iter().map(|edge| edge.length()).sum());
        assert_eq!(edges.iter().filter(|edge| edge.bulge != 0.0).count(), 2);
    }
    lengths.sort_by(f64::total_cmp);
    // By hand: circles of 4.75 and 9.75, and two straight sides of 30.
    let turn = std::f64::consts::TAU;
    for (length, expected) in lengths.into_iter().zip([turn * 4.75, turn * 9.75 + 60.0]) {
        assert!((length - expected).abs() < 1e-9, "{length} {expected}");
    }
}

#[test]
fn a_half_round_notch_in_an_edge_is_cut_where_line_and_arc_meet() {
    let mut flat = flat(square());
    // The lower edge has a half-round notch of radius 10; the piece is on the left, so the notch turns clockwise.
    flat.outline = Contour {
        start: point([0.0, 0.0]),
        segments: vec![
            Segment::Line {
                to: point([40.0, 0.0]),
            },
            Segment::Arc {
                to: point([60.0, 0.0]),
                bulge: -1.0,
            },
            Segment::Line {
                to: point([100.0, 0.0]),
            },
            Segment::Line {
                to: point([100.0, 100.0]),
            },
            Segment::Line {
                to: point([0.0, 100.0]),
            },
            Segment::Line {
                to: point([0.0, 0.0]),
            },
        ],
        closed: true,
    };
    let runs = toolpaths(&flat, &wide(0.5)).expect("there is work");
    // By hand: at y = -0.25 a circle of radius 9.75 about (50, 0) has a half-width of sqrt(9.75² - 0.25²) = 9.746794.
    let found = places(&runs[0].contour);
    for expected in [[40.253206, -0.25], [59.746794, -0.25], [100.25, -0.25]] {
        assert!(found.contains(&expected), "{expected:?} in {found:?}");
    }
}

fn held(length: f64, every: f64) -> Machine {
    Machine {
        nicks: Some(Nicks {
            length: Length::known(length),
            every: Length::known(every),
        }),
        ..Machine::default()
    }
}

#[test]
fn gaps_are_spread_along_the_outline_and_keep_off_its_corners() {
    let runs = toolpaths(&flat(square()), &held(2.0, 60.0)).expect("there is work");
    // By hand: 400 mm around with one gap each 60 at most are seven.
    assert_eq!(runs.len(), 7);
    for (run, next) in runs.iter().zip(runs.iter().cycle().skip(1)) {
        assert!(!run.contour.closed);
        let (from, to) = (
            Stroke::of(&run.contour).end(),
            Stroke::of(&next.contour).start(),
        );
        assert!(
            ((to - from).length() - 2.0).abs() < 1e-9,
            "{run:?} {next:?}"
        );
        for corner in [[0.0, 0.0], [100.0, 0.0], [100.0, 100.0], [0.0, 100.0]] {
            let away = (from.x - corner[0]).steady_hypot(from.y - corner[1]);
            assert!(away > 1.999, "{from:?}");
        }
    }
    let cut: f64 = runs
        .iter()
        .flat_map(|run| Stroke::of(&run.contour).edges)
        .map(|edge| edge.length())
        .sum();
    assert!((cut - (400.0 - 14.0)).abs() < 1e-9, "{cut}");
    // A nick every 1000 mm still gives two: a piece held by one nick turns about it.
    assert_eq!(
        toolpaths(&flat(square()), &held(0.4, 1000.0))
            .expect("there is work")
            .len(),
        2
    );
}

#[test]
fn an_outline_of_short_edges_has_no_place_for_large_gaps() {
    assert_eq!(
        toolpaths(&flat(square()), &held(34.0, 1000.0)),
        Err(ToolpathError::NoRoomForNicks)
    );
    assert!(toolpaths(&flat(square()), &held(33.0, 1000.0)).is_ok());
}

#[test]
fn an_edge_of_three_gaps_is_long_enough_and_a_shorter_one_is_not() {
    for tenths in 1..1000 {
        let side = f64::from(tenths) / 10.0;
        let corners = [[0.0, 0.0], [side, 0.0], [side, side], [0.0, side]];
        let made = |gap| toolpaths(&flat(contour(&corners, true)), &held(gap, 1000.0));
        assert_eq!(
            made(side / 3.0 + 1e-6),
            Err(ToolpathError::NoRoomForNicks),
            "{side}"
        );
        let runs = made(side / 3.0).unwrap_or_else(|error| panic!("{side}: {error:?}"));
        // At least a nick's length is left on both sides of a nick within its edge.
        let open = runs.iter().filter(|run| !run.contour.closed);
        assert!(open.clone().count() >= 2, "{side}: {runs:?}");
        for run in open {
            let Contour {
                start, segments, ..
            } = &run.contour;
            let end = segments.last().map_or(*start, Segment::to);
            for corner in corners {
                for place in [*start, end] {
                    let away = (place.x - corner[0]).steady_hypot(place.y - corner[1]);
                    assert!(away > side / 3.0 - 1e-6, "{side}: {place:?}");
                }
            }
        }
    }
}
