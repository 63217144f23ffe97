//! The flat check: panels do not overlap, the outline is their union, every crease has card on both sides.
//!
//! **Input:** a tray and its blank. **Output:** the errors in them. Another library computes the union from the panels
//! alone, so that the check does not depend on the code that made the outline.

use i_overlay::core::fill_rule::FillRule;
use i_overlay::core::overlay_rule::OverlayRule;
use i_overlay::float::simplify::SimplifyShape;
use i_overlay::float::single::SingleFloatOverlay;
use traywright_document::steady::Steady;

use super::{Blank, Crease};
use traywright_document::{Chords, Extent};

use crate::geometry::{Outline, Point, TOUCH_MM};
use crate::tray::{PanelId, Tray};

/// The library's rounding: greatest difference of areas, per mm of all edges.
// Source: measured on 1000 random trees of panels: its grid moves a place by 3.4e-7 mm at most.
const ROUNDING_MM: f64 = 1e-6;

/// The part of the blank's extent by which the library may move a point, if that is more.
// Derived: the library's grid has 2^30 steps across all that it is given.
const ROUNDING_PART: f64 = 4.0 / (1_u64 << 30) as f64;

/// Distance from a crease at which the check looks for card.
const BESIDE_MM: f64 = 1e-5;

/// Maximum distance between a chord and its arc. Both sides of a comparison use the same chords.
// Source: common practice, none published: a tenth of what a hand cuts to.
const CHORD_MM: f64 = 0.02;

/// A point.
type XY = [f64; 2];

/// An error in a blank.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum FlatError {
    /// Holes of this panel overlap, or reach beyond its edge, by this area.
    Openings { panel: PanelId, area: f64 },
    /// Two panels overlap by this area.
    Overlap {
        one: PanelId,
        other: PanelId,
        area: f64,
    },
    /// The outline and the union of the panels differ by this area, or the card falls into this many pieces.
    Broken { area: f64, pieces: usize },
    /// The crease of this panel reaches beyond the card of its parent or its own.
    OffEdge { panel: PanelId },
}

/// Checks a blank; an empty list means no errors.
pub(crate) fn flaws(tray: &Tray, blank: &Blank) -> Vec<FlatError> {
    let panels = blank.panels.ids();
    let shapes: Vec<Vec<Vec<XY>>> = panels.map(|panel| flat_shape(blank, panel)).collect();
    let edges: f64 = shapes
        .iter()
        .flatten()
        .map(|contour| perimeter(contour))
        .sum();
    let Extent { least, most } = blank.extent();
    let extent = (most.x - least.x).max(most.y - least.y);
    let allowed = ROUNDING_MM.max(ROUNDING_PART * extent) * edges;
    let mut flaws = openings_astray(&shapes, allowed);
    let creases = blank.creases.iter();
    let off_edge = creases.filter(|crease| !has_card_on_both_sides(tray, blank, crease));
    flaws.extend(off_edge.map(|crease| FlatError::OffEdge {
        panel: crease.panel,
    }));
    let sum: f64 = shapes.iter().map(|shape| area(shape)).sum();
    let union = shapes.simplify_shape(FillRule::NonZero);
    let covered: f64 = union.iter().map(|shape| area(shape)).sum();
    if sum - covered > allowed {
        flaws.extend(overlaps(&shapes, allowed));
    }
    let walked: f64 = blank.outline.area() + blank.holes.iter().map(Outline::area).sum::<f64>();
    let exact: f64 = blank
        .panels
        .iter()
        .map(|panel| panel.outline.area() + panel.holes.iter().map(Outline::area).sum::<f64>())
        .sum();
    let broken =
        union.len() != 1 || (walked - exact).abs() > allowed || (sum - covered).abs() > allowed;
    if flaws.is_empty() && broken {
        flaws.push(FlatError::Broken {
            area: (walked - covered).abs(),
            pieces: union.len(),
        });
    }
    flaws
}

/// Panels whose holes overlap or cross their edge: the signed areas of their runs add up to less than their card.
fn openings_astray(shapes: &[Vec<Vec<XY>>], allowed: f64) -> Vec<FlatError> {
    let shapes = PanelId::up_to(shapes.len()).zip(shapes);
    let with_holes = shapes.filter(|(_, shape)| shape.len() > 1);
    let astray = with_holes.map(|(panel, shape)| {
        let card = shape.simplify_shape(FillRule::Positive);
        let covered: f64 = card.iter().map(|shape| area(shape)).sum();
        FlatError::Openings {
            panel,
            area: covered - area(shape),
        }
    });
    astray
        .filter(|flaw| matches!(flaw, FlatError::Openings { area, .. } if *area > allowed))
        .collect()
}

/// Pairs of panels that overlap.
fn overlaps(shapes: &[Vec<Vec<XY>>], allowed: f64) -> Vec<FlatError> {
    let mut found = Vec::new();
    for one in 0..shapes.len() {
        for other in one + 1..shapes.len() {
            let shared =
                shapes[one].overlay(&shapes[other], OverlayRule::Intersect, FillRule::NonZero);
            let area: f64 = shared.iter().map(|shape| area(shape)).sum();
            if area > allowed {
                let (one, other) = (PanelId::at(one), PanelId::at(other));
                found.push(FlatError::Overlap { one, other, area });
            }
        }
    }
    found
}

/// A panel's outline and holes, with the ends of all creases on them as extra corners: without them, an end that is off
/// a slanting edge by a rounding error would leave a hairline between two panels.
fn flat_shape(blank: &Blank, panel: PanelId) -> Vec<Vec<XY>> {
    let flat = &blank.panels[panel];
    let ends: Vec<Point> = blank
        .creases
        .iter()
        .flat_map(|crease| [crease.from, crease.to])
        .collect();
    std::iter::once(&flat.outline)
        .chain(&flat.holes)
        .map(|contour| with_ends(contour, &ends))
        .collect()
}

fn with_ends(contour: &Outline, ends: &[Point]) -> Vec<XY> {
    let mut places = Vec::new();
    for edge in contour.edges() {
        places.push([edge.from.x, edge.from.y]);
        if edge.bulge != 0.0 {
            let between = edge.between(Chords::Within(CHORD_MM)).into_iter();
            places.extend(between.map(|place| [place.x, place.y]));
            continue;
        }
        let along = (edge.to - edge.from).unit();
        let length = (edge.to - edge.from).length();
        let mut on_it: Vec<(f64, Point)> = ends
            .iter()
            .map(|&end| ((end - edge.from).dot(along), end))
            .filter(|&(at, end)| {
                at > TOUCH_MM
                    && at < length - TOUCH_MM
                    && (end - edge.from).cross(along).abs() < TOUCH_MM
            })
            .collect();
        on_it.sort_by(|one, other| one.0.total_cmp(&other.0));
        places.extend(on_it.into_iter().map(|(_, end)| [end.x, end.y]));
    }
    places
}

/// Signed area of a shape: its outline less its holes.
fn area(shape: &[Vec<XY>]) -> f64 {
    let signed = |contour: &Vec<XY>| -> f64 {
        let next = contour.iter().skip(1).chain(contour.first());
        contour
            .iter()
            .zip(next)
            .map(|(from, to)| from[0] * to[1] - from[1] * to[0])
            .sum::<f64>()
            / 2.0
    };
    shape.iter().map(signed).sum::<f64>().abs()
}

fn perimeter(contour: &[XY]) -> f64 {
    let next = contour.iter().skip(1).chain(contour.first());
    contour
        .iter()
        .zip(next)
        .map(|(from, to)| (from[0] - to[0]).steady_hypot(from[1] - to[1]))
        .sum()
}

/// Whether, along the whole crease, the hinged panel is on one side of it and its parent on the other.
fn has_card_on_both_sides(tray: &Tray, blank: &Blank, crease: &Crease) -> bool {
    let Some(hanging) = &tray.panels[crease.panel].hanging else {
        return true;
    };
    let way = crease.to - crease.from;
    let across = way.unit().left() * BESIDE_MM;
    [0.001, 0.5, 0.999].into_iter().all(|part| {
        let on_it = crease.from + way * part;
        holds(blank, hanging.parent, on_it + across) && holds(blank, crease.panel, on_it + -across)
    })
}

/// Whether a panel has card at a point.
fn holds(blank: &Blank, panel: PanelId, place: Point) -> bool {
    let flat = &blank.panels[panel];
    inside(&flat.outline, place) && !flat.holes.iter().any(|hole| inside(hole, place))
}

/// Even-odd test, with arcs as straight pieces.
fn inside(outline: &Outline, place: Point) -> bool {
    let places = outline.flattened(CHORD_MM);
    let next = places.iter().cycle().skip(1);
    let crossings = places
        .iter()
        .zip(next)
        .filter(|([from_x, from_y], [to_x, to_y])| {
            (*from_y > place.y) != (*to_y > place.y)
                && place.x < from_x + (place.y - from_y) / (to_y - from_y) * (to_x - from_x)
        });
    crossings.count() % 2 == 1
}
