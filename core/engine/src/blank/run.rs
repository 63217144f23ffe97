//! A simplified run: no corner twice, no corner on a straight edge, no edge run in both directions.
//!
//! **Input:** corners of a closed run. **Output:** the same run with fewer corners. The remaining corners do not move.

use crate::geometry::{Corner, Point, TOUCH_MM};

/// Drops corners that repeat the previous one, and corners in the middle of a straight edge.
pub(super) fn cleaned(corners: Vec<Corner>) -> Vec<Corner> {
    let mut kept: Vec<Corner> = Vec::new();
    for corner in corners {
        match kept.last_mut() {
            Some(last) if last.bulge == 0.0 && last.at.touches(corner.at) => {
                last.bulge = corner.bulge
            }
            _ => kept.push(corner),
        }
    }
    while kept.len() > 1 && kept[0].at.touches(kept[kept.len() - 1].at) {
        kept.pop();
    }
    let straight = |at: usize| {
        let (before, here, after) = around(&kept, at);
        before.bulge == 0.0 && here.bulge == 0.0 && on_the_way(before.at, here.at, after.at)
    };
    let needed: Vec<bool> = (0..kept.len()).map(|at| !straight(at)).collect();
    kept.into_iter()
        .zip(needed)
        .filter_map(|(corner, needed)| needed.then_some(corner))
        .collect()
}

/// Removes every spur, a line that is run to its tip and back, and returns it as an open cut. A spur is where two cut
/// edges coincide, such as those of a tab and the end wall beside it with no card between them.
pub(super) fn single_runs(
    mut corners: Vec<Corner>,
    open_cuts: &mut Vec<Vec<Corner>>,
) -> Vec<Corner> {
    loop {
        let Some(tip) =
            (0..corners.len()).find(|&at| corners.len() > 3 && turns_back(&corners, at))
        else {
            return corners;
        };
        let (before, here, after) = around(&corners, tip);
        let root = if (before.at - here.at).length() < (after.at - here.at).length() {
            before
        } else {
            after
        };
        open_cuts.push(vec![here, Corner::sharp(root.at)]);
        corners.remove(tip);
        corners = cleaned(corners);
    }
}

fn around(corners: &[Corner], at: usize) -> (Corner, Corner, Corner) {
    let count = corners.len();
    (
        corners[(at + count - 1) % count],
        corners[at],
        corners[(at + 1) % count],
    )
}

/// Whether a point lies on the straight line between two others.
fn on_the_way(from: Point, place: Point, to: Point) -> bool {
    let (before, after) = (place - from, to - place);
    let aside = (to - from).unit().cross(before).abs();
    aside < TOUCH_MM && before.dot(after) > 0.0
}

fn turns_back(corners: &[Corner], at: usize) -> bool {
    let (before, here, after) = around(corners, at);
    let (there, back) = (here.at - before.at, after.at - here.at);
    let straight = before.bulge == 0.0 && here.bulge == 0.0;
    let shorter = there.length().min(back.length());
    straight && there.dot(back) < 0.0 && there.unit().cross(back.unit()).abs() * shorter < TOUCH_MM
}
