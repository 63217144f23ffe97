//! Nicks in the outline, which hold the piece in its sheet until it is taken out by hand.
//!
//! **Input:** the closed outline. **Output:** the strokes between its nicks, in the order and direction of the outline.
//! Nicks are spread evenly, and each moves to the nearest point where it lies within one edge, at least a nick's length
//! and the shortest cut of the tool from both ends: never on a corner, never on an edge or curve too short for that.

use traywright_document::Nicks;

use super::ToolpathError;
use super::stroke::{Edge, Stroke};

/// A piece held by one nick would turn about it.
const FEWEST: usize = 2;

/// The strokes of an outline between its nicks, with what the tool cuts at least beside each.
///
/// # Refuses
/// An outline without room for two nicks.
pub(super) fn with_gaps(
    outline: &Stroke,
    nicks: Nicks,
    shortest: f64,
) -> Result<Vec<Stroke>, ToolpathError> {
    let gaps = gaps(outline, nicks, shortest.max(nicks.length.mm()));
    if gaps.len() < FEWEST {
        return Err(ToolpathError::NoRoomForNicks);
    }
    let round: f64 = outline.edges.iter().map(Edge::length).sum();
    let half = nicks.length.mm() / 2.0;
    let next = gaps.iter().skip(1).copied().chain([gaps[0] + round]);
    let runs = gaps.iter().zip(next);
    Ok(runs
        .map(|(gap, next)| stretch(outline, gap + half, next - half))
        .collect())
}

/// Distances along the outline to the middle of each nick, in order; `beside` is cut at least on both sides of it.
fn gaps(outline: &Stroke, nicks: Nicks, beside: f64) -> Vec<f64> {
    let off_corner = nicks.length.mm() / 2.0 + beside;
    let mut rooms: Vec<[f64; 2]> = Vec::new();
    let mut along = 0.0;
    for edge in &outline.edges {
        let length = edge.length();
        let room = [along + off_corner, along + length - off_corner];
        // Compared unrounded: on an edge just three nicks long both are rounded.
        if room[0] <= room[1] {
            rooms.push(room);
        }
        along += length;
    }
    let round = along;
    let count = ((round / nicks.every.mm()).ceil() as usize).max(FEWEST);
    let mut gaps: Vec<f64> = Vec::new();
    for gap in 0..count {
        let wanted = round * (gap as f64 + 0.5) / count as f64;
        let places = rooms
            .iter()
            .map(|[first, last]| wanted.clamp(*first, *last));
        let away = |place: &f64| (place - wanted).abs();
        let nearest = places.min_by(|one, other| away(one).total_cmp(&away(other)));
        // Two nicks that moved to one point become one.
        if let Some(place) = nearest.filter(|place| {
            gaps.iter()
                .all(|gap| (place - gap).abs() >= nicks.length.mm() + beside)
        }) {
            gaps.push(place);
        }
    }
    gaps.sort_by(f64::total_cmp);
    gaps
}

/// The part of a closed path between two lengths along it; the second may exceed one circuit.
fn stretch(path: &Stroke, first: f64, last: f64) -> Stroke {
    let mut edges = Vec::new();
    let mut along = 0.0;
    for edge in path.edges.iter().chain(&path.edges) {
        let length = edge.length();
        let (from, to) = ((first - along).max(0.0), (last - along).min(length));
        if from < to {
            edges.push(edge.part(from, to));
        }
        along += length;
    }
    Stroke {
        edges,
        closed: false,
    }
}
