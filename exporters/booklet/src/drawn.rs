//! From what is seen to a figure: which look every line has, and which regions are tinted.
//!
//! Given a scene as it is seen and which of its parts moved; gives the figure without arrows and words. Lines that the tray
//! hides are not in it.

use std::collections::BTreeMap;
use traywright_document::steady::Steady;

use traywright_look::LineStyle;

use crate::figure::Figure;
use crate::line_styles;
use crate::scene::{Edge, EdgeKind, Part};
use crate::visible::{Region, Seen, Sight, bounds};

/// A scene as it is seen, what moved tinted.
pub(crate) fn drawn(sight: &Sight, moved: &dyn Fn(Part) -> bool) -> Figure {
    let mut figure = Figure::default();
    for (index, surface) in sight.scene().surfaces.iter().enumerate() {
        let tint = match surface.part {
            Part::Item => line_styles::ITEM_TINT,
            Part::Pad => line_styles::PAD_TINT,
            Part::Box => line_styles::BOX_TINT,
            part if moved(part) => line_styles::MOVING_TINT,
            _ if sight.sees_first_face(index) => continue,
            _ => line_styles::SHOW_FACE,
        };
        let regions = sight.region(index).into_iter();
        figure
            .picture
            .fills
            .extend(regions.map(|region| (tint, region)));
    }
    add_prints(&mut figure, sight);
    // Thin lines first and what moved last, each look in one go: what matters lies on top.
    let mut edges: Vec<(bool, u8, &Edge)> = sight
        .scene()
        .edges
        .iter()
        .map(|edge| (moved(edge.part), weight(edge.kind), edge))
        .collect();
    edges.sort_by_key(|(is_moved, weight, _)| (*is_moved, *weight));
    // Of what moved, and of the rest, panels that part along a cut have one line there, and where a crease comes to lie
    // on an edge, the edge is drawn.
    let mut heaviest = BTreeMap::new();
    for (at, (is_moved, _, edge)) in edges.iter().enumerate() {
        heaviest.insert((*is_moved, places(edge)), at);
    }
    for (at, (is_moved, _, edge)) in edges.into_iter().enumerate() {
        if heaviest[&(is_moved, places(edge))] != at {
            continue;
        }
        let look = match edge.kind {
            EdgeKind::Edge | EdgeKind::Seam(_) if is_moved => line_styles::MOVING,
            EdgeKind::Edge | EdgeKind::Seam(_) => line_styles::EDGE,
            EdgeKind::Folded => line_styles::FOLDED,
            EdgeKind::Unfolded => line_styles::UNFOLDED,
            EdgeKind::Turntable => line_styles::LEADER,
        };
        for stretch in sight.stretches(edge) {
            carry_on(&mut figure.picture.lines, look, stretch);
        }
    }
    figure
}

/// Adds the labels that are seen whole, and of each picture what is seen.
fn add_prints(figure: &mut Figure, sight: &Sight) {
    let scene = sight.scene();
    let words = scene.labels.iter().filter_map(|label| label.seen(sight));
    let pictures = scene.pictures.iter().filter_map(|it| it.seen(sight));
    figure.picture.words.extend(words);
    figure.picture.prints.extend(pictures);
}

/// How heavy a kind of line is, the lightest 0.
fn weight(kind: EdgeKind) -> u8 {
    match kind {
        EdgeKind::Turntable => 0,
        EdgeKind::Unfolded => 1,
        EdgeKind::Folded => 2,
        EdgeKind::Seam(_) => 3,
        EdgeKind::Edge => 4,
    }
}

/// Adds a stretch to the last line where it begins at its end and looks the same, or as a line of its own.
fn carry_on(lines: &mut Vec<(LineStyle, Vec<Seen>)>, look: LineStyle, [from, to]: [Seen; 2]) {
    let last = lines.last_mut().filter(|(last, _)| *last == look);
    let touching = last.filter(|(_, line)| line.last() == Some(&from));
    match touching {
        Some((_, line)) => line.push(to),
        None => lines.push((look, vec![from, to])),
    }
}

/// The ends of an edge in hundredths of a millimetre, whichever way it runs.
fn places(edge: &Edge) -> [[i64; 3]; 2] {
    let mut places = edge
        .ends
        .map(|end| end.map(|side| (100.0 * side).round() as i64));
    places.sort_unstable();
    places
}

/// The diagonal of what is drawn.
pub(crate) fn extent(figure: &Figure) -> f64 {
    let places = figure.picture.lines.iter().flat_map(|(_, line)| line);
    let [least, most] = bounds(places.copied());
    (most[0] - least[0]).steady_hypot(most[1] - least[1])
}

/// A place well inside a region: the middle of the longest stretch across it at one of three heights.
pub(crate) fn inner_place(region: &Region) -> Option<Seen> {
    let heights: Vec<f64> = region[0].iter().map(|place| place[1]).collect();
    let least = heights.iter().copied().fold(f64::INFINITY, f64::min);
    let most = heights.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    let across = |share: f64| {
        let height = least + share * (most - least);
        let mut cuts: Vec<f64> = Vec::new();
        for ring in region {
            for (at, one) in ring.iter().enumerate() {
                let two = ring[(at + 1) % ring.len()];
                if (one[1] > height) != (two[1] > height) {
                    cuts.push(one[0] + (height - one[1]) / (two[1] - one[1]) * (two[0] - one[0]));
                }
            }
        }
        cuts.sort_by(f64::total_cmp);
        let stretches: Vec<(f64, Seen)> = cuts
            .chunks_exact(2)
            .map(|pair| (pair[1] - pair[0], [(pair[0] + pair[1]) / 2.0, height]))
            .collect();
        stretches
            .into_iter()
            .max_by(|one, other| one.0.total_cmp(&other.0))
    };
    let found = [0.5, 0.3, 0.7].into_iter().filter_map(across);
    found
        .max_by(|one, other| one.0.total_cmp(&other.0))
        .map(|(_, at)| at)
}
