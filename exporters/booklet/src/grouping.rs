//! Numbered points in groups that a figure can show.
//!
//! Given the points of a blank and the runs that join them; gives the outline, then the others: together where they are few,
//! else the creases of the body, and what lies within it in patches of neighbours. Points are numbered anew in the order
//! of the groups, so that the numbers of a patch follow each other.

use crate::points::{PointRun, Points, RunKind};
use crate::visible::{Seen, bounds};

/// Points that one figure shows at most.
// Source: common practice, none published: more numbers would cross each other's leaders.
const MOST_POINTS: usize = 64;
/// The same of patches within the blank, so that two figures with their tables find room on a page.
const MOST_POINTS_OF_PATCHES: usize = 40;

/// A run that reaches over more of the blank than this share, either way, is a line of its body.
const LONG: f64 = 0.3;
/// Fields nearer to each other than this meet.
// Derived: a tenth of what is printed of a coordinate.
const MEET_MM: f64 = 1e-3;

/// Runs by group.
pub(crate) struct Groups {
    /// Where each point stands, from the left and from the lower edge.
    pub(crate) places: Vec<Seen>,
    /// The outline's group first.
    pub(crate) groups: Vec<Vec<PointRun>>,
}

/// Runs whose fields meet: an opening, mostly.
struct Patch {
    runs: Vec<PointRun>,
    points: usize,
    extent: [Seen; 2],
}

impl Groups {
    /// The groups of points.
    pub(crate) fn of(points: Points) -> Groups {
        let (outline, others): (Vec<PointRun>, Vec<PointRun>) = points
            .runs
            .into_iter()
            .partition(|run| run.kind == RunKind::Outline);
        let mut groups = Groups {
            places: points.places,
            groups: vec![outline],
        };
        if count(&others) <= MOST_POINTS {
            groups.groups.push(others);
        } else {
            let whole = reach(&groups.groups[0]);
            let of_outline = |point: &usize| {
                let mut outline = groups.groups[0].iter().flat_map(|run| &run.points);
                outline.any(|other| other == point)
            };
            let is_of_body = |run: &PointRun| {
                let own = reach(std::slice::from_ref(run));
                let is_long = (0..2).any(|axis| own[axis] > LONG * whole[axis]);
                is_long || run.points.iter().any(of_outline)
            };
            let (body, within): (Vec<PointRun>, Vec<PointRun>) =
                others.into_iter().partition(is_of_body);
            groups.groups.push(body);
            let patches = patches(within);
            part(patches, &mut groups.groups);
        }
        groups.groups.retain(|group| !group.is_empty());
        groups.number_anew();
        groups
    }

    /// Numbers points in the order in which the groups name them.
    fn number_anew(&mut self) {
        let mut numbers: Vec<Option<usize>> = vec![None; self.places.len()];
        let mut places = Vec::new();
        for run in self.groups.iter_mut().flatten() {
            for point in run.all_points_mut() {
                let number = numbers[*point].get_or_insert_with(|| {
                    places.push(self.places[*point]);
                    places.len() - 1
                });
                *point = *number;
            }
        }
        self.places = places;
    }
}

/// Points of runs, each once.
fn count(runs: &[PointRun]) -> usize {
    let mut points: Vec<usize> = runs.iter().flat_map(PointRun::all_points).collect();
    points.sort_unstable();
    points.dedup();
    points.len()
}

/// The least and the greatest coordinates of what runs look like.
pub(crate) fn extent(runs: &[PointRun]) -> [Seen; 2] {
    bounds(runs.iter().flat_map(|run| run.line.iter().copied()))
}

/// How far runs reach along both sides.
fn reach(runs: &[PointRun]) -> [f64; 2] {
    let [least, most] = extent(runs);
    [0, 1].map(|axis| most[axis] - least[axis])
}

/// Runs whose fields meet, together.
fn patches(runs: Vec<PointRun>) -> Vec<Patch> {
    let mut patches: Vec<Patch> = Vec::new();
    for run in runs {
        let mut patch = Patch::of(vec![run]);
        loop {
            let meets = |other: &Patch| {
                let [(least, most), (other_least, other_most)] =
                    [&patch, other].map(|patch| (patch.extent[0], patch.extent[1]));
                (0..2).all(|axis| {
                    least[axis] <= other_most[axis] + MEET_MM
                        && other_least[axis] <= most[axis] + MEET_MM
                })
            };
            let Some(met) = patches.iter().position(meets) else {
                break;
            };
            let mut runs = patches.remove(met).runs;
            runs.extend(patch.runs);
            patch = Patch::of(runs);
        }
        patches.push(patch);
    }
    patches
}

impl Patch {
    fn of(runs: Vec<PointRun>) -> Patch {
        Patch {
            extent: extent(&runs),
            points: count(&runs),
            runs,
        }
    }

    fn middle(&self, axis: usize) -> f64 {
        (self.extent[0][axis] + self.extent[1][axis]) / 2.0
    }
}

/// Parts patches along the longer side of the field they lie in, until each part can be shown.
fn part(mut patches: Vec<Patch>, groups: &mut Vec<Vec<PointRun>>) {
    let points: usize = patches.iter().map(|patch| patch.points).sum();
    if points <= MOST_POINTS_OF_PATCHES || patches.len() < 2 {
        let mut runs: Vec<PointRun> = patches.into_iter().flat_map(|patch| patch.runs).collect();
        runs.sort_by_key(|run| RunKind::ALL.iter().position(|kind| *kind == run.kind));
        groups.push(runs);
        return;
    }
    let spread = |axis: usize| {
        let of = |patch: &Patch| patch.middle(axis);
        let least = patches.iter().map(of).fold(f64::INFINITY, f64::min);
        patches.iter().map(of).fold(f64::NEG_INFINITY, f64::max) - least
    };
    let axis = usize::from(spread(1) > spread(0));
    patches.sort_by(|one, other| one.middle(axis).total_cmp(&other.middle(axis)));
    let rest = patches.split_off(patches.len() / 2);
    part(patches, groups);
    part(rest, groups);
}
