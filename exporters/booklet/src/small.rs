//! What is too small to be seen in a step's figure: a narrow panel, a tongue in its slit, or small flaps.
//!
//! Given the tray after the step and where it is seen from; gives the place to enlarge. A tongue is found by where a moved
//! panel's edge passes through another panel's opening: nowhere else can card pass through card.

use traywright_document::Move;
use traywright_document::steady::Steady;

use crate::card::Card;
use crate::detail::{Detail, within};
use crate::scene::{EdgeKind, Part};
use crate::visible::{Seen, Sight, bounds};
use traywright_document::Stage;
use traywright_document::space::{Vec3, between, dot, minus};

/// A panel that reaches less far is shown enlarged.
// Source: common practice, none published: what is under 4 mm is lost in a figure of a hand's width.
const SMALL_MM: f64 = 4.0;
/// The part of an enlarged detail's radius that the small panel takes.
const OF_DETAIL: f64 = 0.45;
/// The same of a tongue, beside one of its flanks.
const OF_TONGUE: f64 = 0.3;
/// No ring shows less of the card to every side.
const LEAST_RADIUS: f64 = 1.5;
/// What takes less of the figure than this, from corner to corner, is shown enlarged, so much of the card around it.
// Source: common practice, none published: an eighth of a small figure of 30 mm is those 4 mm.
const LOST: f64 = 0.13;
const AROUND_LOST: f64 = 1.4;
/// So far beyond a panel an edge must reach to pass through it.
const THROUGH_MM: f64 = 0.05;

/// The place that a step's figure should enlarge, if there is one.
pub(crate) fn detail(card: &Card, after: &Stage, sight: &Sight, moves: &[Move]) -> Option<Detail> {
    let panel = moves.first()?.panel;
    let [least, most] = extent(sight, |_| true)?;
    let tongues = tongues(card, after, sight, panel);
    let (at, radius) = if card.panels[panel].reach < SMALL_MM {
        best_seen(sight, panel, &crease_ends(card, sight, panel))?
    } else {
        let in_its_slit = best_seen(sight, panel, &tongues);
        in_its_slit.or_else(|| lost(sight, moves, distance(least, most)))?
    };
    Some(Detail {
        at,
        radius,
        at_left: at[0] < (least[0] + most[0]) / 2.0,
    })
}

/// A place on the figure, and how much of the card around it is shown.
type DepthPoint = (Seen, f64);

/// The rectangle around some edges.
fn extent(sight: &Sight, is_meant: impl Fn(Part) -> bool) -> Option<[Seen; 2]> {
    let edges = sight.scene().edges.iter();
    let ends = edges
        .filter(|edge| is_meant(edge.part))
        .flat_map(|edge| edge.ends);
    let found = bounds(ends.map(|end| sight.view().on_plane(end)));
    found[0][0].is_finite().then_some(found)
}

fn distance(one: Seen, other: Seen) -> f64 {
    (one[0] - other[0]).steady_hypot(one[1] - other[1])
}

/// What moves, where all of it takes too little of a figure to be seen well.
fn lost(sight: &Sight, moves: &[Move], figure: f64) -> Option<DepthPoint> {
    let moved = |part: Part| moves.iter().any(|one| part == Part::Panel(one.panel));
    let [least, most] = extent(sight, moved)?;
    let across = distance(least, most);
    let middle = [0, 1].map(|axis| (least[axis] + most[axis]) / 2.0);
    (across < LOST * figure).then_some((middle, AROUND_LOST * across / 2.0))
}

/// The ends of a narrow panel's crease.
fn crease_ends(card: &Card, sight: &Sight, panel: usize) -> Vec<DepthPoint> {
    let radius = (card.panels[panel].reach / OF_DETAIL).max(LEAST_RADIUS);
    let mut own = sight.scene().edges.iter();
    let crease = own.find(|edge| edge.part == Part::Panel(panel) && edge.kind != EdgeKind::Edge);
    let ends = crease.into_iter().flat_map(|crease| crease.ends);
    ends.map(|end| (sight.view().on_plane(end), radius))
        .collect()
}

/// The one of some places around which the longest lines of a panel are seen; none when none are.
fn best_seen(sight: &Sight, panel: usize, places: &[DepthPoint]) -> Option<DepthPoint> {
    let own = sight.scene().edges.iter();
    let own = own.filter(|edge| edge.part == Part::Panel(panel));
    let visible: Vec<[Seen; 2]> = own.flat_map(|edge| sight.stretches(edge)).collect();
    let near = |(at, radius): DepthPoint| -> f64 {
        let lines = visible
            .iter()
            .filter_map(|[from, to]| within((at, radius), *from, *to));
        lines.map(|[from, to]| distance(from, to)).sum()
    };
    let judged = places
        .iter()
        .map(|&place| (near(place), place))
        .filter(|(length, (_, radius))| *length > 0.5 * radius);
    judged
        .max_by(|one, other| one.0.total_cmp(&other.0))
        .map(|(_, place)| place)
}

/// The flanks of a panel's tongues, where they pass through openings of other panels.
fn tongues(card: &Card, after: &Stage, sight: &Sight, panel: usize) -> Vec<DepthPoint> {
    let poses = card.poses(after);
    let ring: Vec<Vec3> = card.panels[panel].rings[0]
        .iter()
        .map(|&point| poses[panel].apply(point.in_space()))
        .collect();
    let root = poses[panel].apply(card.panels[panel].root());
    let mut tongues = Vec::new();
    for (other, pose) in poses
        .iter()
        .enumerate()
        .filter(|(other, _)| *other != panel)
    {
        let normal = pose.turn([0.0, 0.0, 1.0]);
        let height = |place: Vec3| dot(normal, minus(place, pose.shift));
        // How far the tongues reach beyond the other panel, as seen from the panel's crease.
        let beyond = ring
            .iter()
            .map(|&place| -height(place) * height(root).signum());
        let radius = (beyond.fold(0.0, f64::max) / OF_TONGUE).max(LEAST_RADIUS);
        for (at, &from) in ring.iter().enumerate() {
            let to = ring[(at + 1) % ring.len()];
            let (start, end) = (height(from), height(to));
            if start.abs().min(end.abs()) < THROUGH_MM || start.signum() == end.signum() {
                continue;
            }
            let place = between(from, to, start / (start - end));
            if card.panels[other].frames(pose, place) {
                tongues.push((sight.view().on_plane(place), radius));
            }
        }
    }
    tongues
}
