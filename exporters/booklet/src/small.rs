//! What is too small to be seen in a step's figure: a narrow panel, or a tongue in its slit.
//!
//! Given the tray after the step and where it is seen from; gives the place to enlarge. A tongue is found by where a moved
//! panel's edge passes through another panel's opening: nowhere else can card pass through card.

use traywright_document::Move;

use crate::card::Card;
use crate::detail::Detail;
use crate::folding::Stage;
use crate::scene::{Kind, Part};
use crate::space::{Space, between, dot, flat, placed, plus, turned};
use crate::visible::{Seen, Sight};

/// A panel that reaches less far is shown enlarged.
// Source: common practice, none published: what is under 4 mm is lost in a figure of a hand's width.
const SMALL_MM: f64 = 4.0;
/// The part of an enlarged detail's radius that the small panel takes.
const OF_DETAIL: f64 = 0.45;
/// How much of the card around a tongue is shown.
const AROUND_TONGUE: f64 = 6.0;
/// So far beyond a panel an edge must reach to pass through it.
const THROUGH_MM: f64 = 0.05;

/// The place that a step's figure should enlarge, if there is one.
pub(crate) fn detail(card: &Card, after: &Stage, sight: &Sight, moves: &[Move]) -> Option<Detail> {
    let panel = moves.first()?.panel;
    let (at, radius) = if card.panels[panel].reach < SMALL_MM {
        let radius = (card.panels[panel].reach / OF_DETAIL).max(2.5);
        (narrow_end(sight, panel, radius)?, radius)
    } else {
        (tongue(card, after, sight, panel)?, AROUND_TONGUE)
    };
    let edges = sight.scene().edges.iter();
    let across = edges.map(|edge| sight.view().on_plane(edge.ends[0])[0]);
    let (least, most) = across.fold((f64::INFINITY, f64::NEG_INFINITY), |(least, most), x| {
        (least.min(x), most.max(x))
    });
    Some(Detail {
        at,
        radius,
        at_left: at[0] < (least + most) / 2.0,
    })
}

/// The end of a narrow panel's crease around which more of the panel is seen.
fn narrow_end(sight: &Sight, panel: usize, radius: f64) -> Option<Seen> {
    let own = sight.scene().edges.iter();
    let mut own = own.filter(|edge| edge.part == Part::Panel(panel));
    let crease = own.find(|edge| edge.kind != Kind::Edge)?;
    best_seen(sight, panel, &crease.ends, radius)
}

/// The one of some places around which the longest lines of a panel are seen; none when none are.
fn best_seen(sight: &Sight, panel: usize, places: &[Space], radius: f64) -> Option<Seen> {
    let own = sight.scene().edges.iter();
    let own = own.filter(|edge| edge.part == Part::Panel(panel));
    let visible: Vec<[Seen; 2]> = own.flat_map(|edge| sight.stretches(edge)).collect();
    let near = |at: Seen| -> f64 {
        let lens = Detail {
            at,
            radius,
            at_left: false,
        };
        let lines = visible
            .iter()
            .filter_map(|[from, to]| lens.within(*from, *to));
        lines
            .map(|[from, to]| (to[0] - from[0]).hypot(to[1] - from[1]))
            .sum()
    };
    let seen = places.iter().map(|&place| sight.view().on_plane(place));
    let judged = seen
        .map(|at| (near(at), at))
        .filter(|(length, _)| *length > 0.5 * radius);
    judged
        .max_by(|one, other| one.0.total_cmp(&other.0))
        .map(|(_, at)| at)
}

/// Where a panel passes through an opening of another one, and is seen.
fn tongue(card: &Card, after: &Stage, sight: &Sight, panel: usize) -> Option<Seen> {
    let poses = after.poses(card);
    let ring: Vec<Space> = card.panels[panel].rings[0]
        .iter()
        .map(|&point| placed(&poses[panel], flat(point)))
        .collect();
    let mut found: Vec<Space> = Vec::new();
    for (other, pose) in poses
        .iter()
        .enumerate()
        .filter(|(other, _)| *other != panel)
    {
        let normal = turned(pose, [0.0, 0.0, 1.0]);
        let height = |place: Space| dot(normal, plus(place, pose.shift, -1.0));
        for (at, &from) in ring.iter().enumerate() {
            let to = ring[(at + 1) % ring.len()];
            let (start, end) = (height(from), height(to));
            if start.abs().min(end.abs()) < THROUGH_MM || start.signum() == end.signum() {
                continue;
            }
            let place = between(from, to, start / (start - end));
            if card.panels[other].frames(pose, place) {
                found.push(place);
            }
        }
    }
    best_seen(sight, panel, &found, AROUND_TONGUE)
}
