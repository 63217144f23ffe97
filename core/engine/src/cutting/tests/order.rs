//! The order of lines drawn by hand, checked by their idle travel, which is computed independently.

use traywright_document::steady::Steady;
use traywright_document::{Machine, Part};

use super::{contour, flat, square, toolpaths};

#[test]
fn the_nearest_line_comes_next_and_begins_where_it_is_nearest() {
    let mut flat = flat(square());
    let slit = |x: f64| contour(&[[x, 60.0], [x, 40.0]], false);
    flat.open_cuts = vec![slit(90.0), slit(10.0), slit(50.0)];
    let runs = toolpaths(&flat, &Machine::default()).expect("there is work");
    // From the lower left corner, the first slit is the one at 10, from its lower end. Each next one begins where the
    // last one ended, and the outline begins at the corner nearest to (90, 60).
    let begins: Vec<[f64; 2]> = runs
        .iter()
        .map(|run| [run.contour.start.x, run.contour.start.y])
        .collect();
    assert_eq!(
        begins,
        [[10.0, 40.0], [50.0, 60.0], [90.0, 40.0], [100.0, 100.0]]
    );
}

#[test]
fn no_stretch_of_the_order_is_better_turned_round() {
    let mut flat = flat(square());
    let tips = [
        [20.0, 20.0],
        [80.0, 30.0],
        [40.0, 70.0],
        [60.0, 15.0],
        [30.0, 50.0],
        [75.0, 75.0],
        [50.0, 45.0],
    ];
    let slit = |[x, y]: [f64; 2]| contour(&[[x, y], [x + 5.0, y + 8.0]], false);
    flat.open_cuts = tips.map(slit).into();
    let runs = toolpaths(&flat, &Machine::default()).expect("there is work");
    let mut ends = vec![[0.0, 0.0]];
    for run in runs.iter().filter(|run| run.part == Part::Slit) {
        let end = run.contour.segments[0].to();
        ends.extend([[run.contour.start.x, run.contour.start.y], [end.x, end.y]]);
    }
    // After the start, ends come in pairs: idle travel goes from each even point to the next odd one.
    let idle = |ends: &[[f64; 2]]| -> f64 {
        let ways = ends.chunks(2).filter(|way| way.len() == 2);
        ways.map(|way| (way[0][0] - way[1][0]).steady_hypot(way[0][1] - way[1][1]))
            .sum()
    };
    for first in 0..tips.len() {
        for last in first..tips.len() {
            let mut turned = ends.clone();
            turned[2 * first + 1..2 * last + 3].reverse();
            assert!(
                idle(&turned) > idle(&ends) - 1e-6,
                "{first} to {last}: {ends:?}"
            );
        }
    }
}
