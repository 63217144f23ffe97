//! The webs between an opening and the folded layers behind the edges of its panel.
//!
//! **Input:** the opening and the `stacks` of its style. **Output:** at most one finding for each kind of edge, the
//! worst. **Does not** compare two openings.

use super::openings::place;
use crate::finding::{Advice, BuiltIn, Change, Clause, Finding, Fix, Mm, Place};
use crate::geometry::{Point, TOUCH_MM, Vector};
use crate::job::{Item, Job};
use crate::style::names::Scope;
use crate::style::text::SlotEntry;
use crate::tray::{HangsOn, Opening, OpeningCut, Tray};
use crate::values::{EvalError, Values};

/// The thinnest web that a fix proposes.
// Source: common practice, none published.
const THINNEST_WEB_MM: f64 = 2.0;

/// Minimum web between an opening and the edge of its panel, or the next opening, in thicknesses of card.
// Source: a choice of this project, common practice: a web narrower than twice its thickness breaks when it is creased or
// cut beside. For card up to 1 mm the styles' own webs of 3 and 6 mm ask for more.
const WEB_CALIPERS: f64 = 2.0;

/// The minimum web for the card's thickness.
pub(crate) fn least_web(job: &Job) -> f64 {
    WEB_CALIPERS * job.board.caliper.mm()
}

/// Maximum distance between a chord and its arc.
// Source: core/CONTRACT.md, "Trade figures".
const CHORD_MM: f64 = 0.01;

/// The web between an opening and the folded layers behind the edges of its panel.
pub(super) fn judge<'a>(
    values: &Values<'a>,
    tray: &Tray,
    opening: &Opening,
    slot: &'a SlotEntry,
    item: &Item,
) -> Result<Vec<Finding>, EvalError> {
    if slot.stacks.is_empty() {
        return Ok(Vec::new());
    }
    let limit = values.built_in_length("edge-web")?;
    let mut worst: Vec<(Near, f64, String)> = Vec::new();
    let mut weakest: Option<(f64, String)> = None;
    for (key, stack) in slot.stacks.iter() {
        let stack = values.amount(stack, Scope::Opening(opening.member))?;
        for (edge, behind, fold_deg) in stacked_edges(values, tray, opening, &key.word) {
            let Some((from, to)) = tray.panels[opening.panel].shape.edge(&edge) else {
                continue;
            };
            let outer = fold_deg.map_or(0.0, |fold_deg| values.outer(fold_deg.abs()));
            let card = distance(opening, from, to);
            if card > TOUCH_MM && weakest.as_ref().is_none_or(|(least, _)| card < *least) {
                weakest = Some((card, behind.clone()));
            }
            let web = card + outer - own_flaps(values, opening, from, to) - stack;
            let near = Near::of(&edge);
            match worst.iter_mut().find(|(other, ..)| *other == near) {
                Some(found) if found.1 <= web => {}
                Some(found) => *found = (near, web, behind),
                None => worst.push((near, web, behind)),
            }
        }
    }
    let mut findings: Vec<Finding> = worst
        .into_iter()
        .filter(|(_, web, _)| *web < limit - TOUCH_MM)
        .map(|(near, web, behind)| {
            let found = near.found(values.job, opening, item, behind, web);
            let fix = Fix {
                says: larger_box(opening, limit - web),
                ways: near.ways(values.job, web, limit),
            };
            found.measured(web, limit).with_fix(fix)
        })
        .collect();
    if let (true, Some((card, edge))) = (findings.is_empty(), weakest) {
        findings.extend(weak(values.job, opening, item, card, edge));
    }
    Ok(findings)
}

/// The warning about a web beside an opening that is too narrow for its thickness.
fn weak(job: &Job, opening: &Opening, item: &Item, card: f64, edge: String) -> Option<Finding> {
    let least = least_web(job);
    let place = Place::Beside {
        opening: Box::new(place(opening, item)),
        behind: edge.clone(),
    };
    let found = Finding::new(BuiltIn::WebWeak { edge }, place).measured(card, least);
    let more = larger_box(opening, least - card);
    (card < least - TOUCH_MM).then(|| found.with_fix(more))
}

/// The advice if that much card is missing.
fn larger_box(opening: &Opening, short: f64) -> Advice {
    Advice::LargerBoxSmallerItem {
        more: Mm(2.0 * short),
        less: match opening.form.finger {
            Some(_) => Clause::LessFitOrNarrowerNotches,
            None => Clause::OrLessFit,
        },
    }
}

/// The kind of edge near an opening. A rectangle's ends and sides have codes of their own; all other edges share one.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Near {
    End,
    Side,
    Edge,
}

impl Near {
    fn of(edge: &str) -> Near {
        match edge {
            "west" | "east" => Near::End,
            "south" | "north" => Near::Side,
            _ => Near::Edge,
        }
    }

    /// A narrower web, if it can still be cut, and a larger box.
    fn ways(self, job: &Job, web: f64, limit: f64) -> Vec<Vec<Change>> {
        let narrower = Change::at_most("set", "edge-web", web, job.unit);
        let mut ways = Vec::from_iter((web >= THINNEST_WEB_MM).then(|| vec![narrower]));
        let size = &job.box_size;
        let side = match self {
            Near::End => Some(("length", size.length)),
            Near::Side => Some(("width", size.width)),
            Near::Edge => None,
        };
        ways.extend(side.map(|(side, now)| {
            let longer = now.mm() + 2.0 * (limit - web);
            vec![Change::at_least("box", side, longer, job.unit)]
        }));
        ways
    }

    /// The finding about an opening that is too near to the layers behind an edge.
    fn found(self, job: &Job, opening: &Opening, item: &Item, behind: String, web: f64) -> Finding {
        let place = Place::Beside {
            opening: Box::new(place(opening, item)),
            behind: behind.clone(),
        };
        let found = self.cannot_lie(job, item);
        Finding::new(found.unwrap_or_else(|| self.too_near(web, behind)), place)
    }

    /// The sentence for a web that is too narrow, or below 0.
    fn too_near(self, web: f64, behind: String) -> BuiltIn {
        let into = Mm(-web);
        match (self, web < 0.0) {
            (Near::End, false) => BuiltIn::OpeningNearEnd { behind },
            (Near::End, true) => BuiltIn::OpeningOverEnd { into, behind },
            (Near::Side, false) => BuiltIn::OpeningNearSide { behind },
            (Near::Side, true) => BuiltIn::OpeningOverSide { into, behind },
            (Near::Edge, false) => BuiltIn::OpeningNearEdge { behind },
            (Near::Edge, true) => BuiltIn::OpeningOverEdge { into, behind },
        }
    }

    /// An item longer than the box in that direction, so that no opening is to blame.
    fn cannot_lie(self, job: &Job, item: &Item) -> Option<BuiltIn> {
        let size = &job.box_size;
        let name = item.name.clone();
        match self {
            Near::End if item.length > size.length => Some(BuiltIn::ItemLongerThanBox {
                item: name,
                is: Mm(item.length.mm()),
                inside: Mm(size.length.mm()),
            }),
            Near::Side if item.width > size.width => Some(BuiltIn::ItemWiderThanBox {
                item: name,
                is: Mm(item.width.mm()),
                inside: Mm(size.width.mm()),
            }),
            _ => None,
        }
    }
}

/// The edges of an opening's panel that a key of `stacks` means: edge, name of the layers there, and their fold.
fn stacked_edges(
    values: &Values,
    tray: &Tray,
    opening: &Opening,
    key: &str,
) -> Vec<(String, String, Option<f64>)> {
    let entry = values.sheet().panels.id(key);
    let mut edges = Vec::new();
    for panel in &tray.panels {
        let Some(hanging) = panel
            .hanging
            .as_ref()
            .filter(|hanging| hanging.parent == opening.panel)
        else {
            continue;
        };
        let HangsOn::Edge(edge) = &hanging.on else {
            continue;
        };
        if panel.entry.is_some() && (panel.entry == entry || panel.name == key || edge == key) {
            edges.push((edge.clone(), panel.name.clone(), Some(hanging.fold_deg)));
        }
    }
    let free_edge = tray.panels[opening.panel].shape.edge(key).is_some();
    if edges.is_empty() && free_edge {
        edges.push((key.to_owned(), format!("the {key} edge"), None));
    }
    edges
}

/// From an edge of the panel inwards to the cut, finger notches included. A cut beyond the edge's ends is not in front
/// of the edge: its distance is measured from the nearer end, as at an inner corner of the panel.
fn distance(opening: &Opening, from: Point, to: Point) -> f64 {
    let along = (to - from).unit();
    let line = opening.line();
    let places: Vec<Point> = line
        .flattened(CHORD_MM)
        .into_iter()
        .map(|[x, y]| Point::new(x, y))
        .collect();
    let before = clipped(&places, from, along);
    let mut before = clipped(&before, to, -along);
    if before.is_empty() {
        return from_polygon(&places, from).min(from_polygon(&places, to));
    }
    // The pieces of a curve do not contain its nearest point.
    let nearest = line.farthest(-along.left());
    let is_before = (nearest - from).dot(along) >= 0.0 && (to - nearest).dot(along) >= 0.0;
    before.extend(is_before.then_some(nearest));
    let inwards = before
        .iter()
        .map(|&corner| (corner - from).dot(along.left()));
    inwards.fold(f64::INFINITY, f64::min)
}

/// The part of a polygon ahead of a point.
// Source: Sutherland and Hodgman, one half plane at a time.
fn clipped(polygon: &[Point], place: Point, ahead: Vector) -> Vec<Point> {
    let next = polygon.iter().cycle().skip(1);
    let mut kept = Vec::new();
    for (&from, &to) in polygon.iter().zip(next) {
        let (start, end) = ((from - place).dot(ahead), (to - place).dot(ahead));
        if start >= 0.0 {
            kept.push(from);
        }
        if (start < 0.0) != (end < 0.0) {
            kept.push(from + (to - from) * (start / (start - end)));
        }
    }
    kept
}

/// From a point outside a polygon to its nearest edge.
fn from_polygon(polygon: &[Point], place: Point) -> f64 {
    let next = polygon.iter().cycle().skip(1);
    let nearest = polygon.iter().zip(next).map(|(&from, &to)| {
        let (way, off) = (to - from, place - from);
        let share = (off.dot(way) / way.dot(way)).clamp(0.0, 1.0);
        (off + -way * share).length()
    });
    nearest.fold(f64::INFINITY, f64::min)
}

/// How far the opening's own folded flaps reach out of it towards an edge.
fn own_flaps(values: &Values, opening: &Opening, from: Point, to: Point) -> f64 {
    let OpeningCut::Flaps(plan) = &opening.cut else {
        return 0.0;
    };
    let outwards = -(to - from).unit().left();
    let corners = opening.rect.corners();
    let away = |side: usize| -(corners[(side + 1) % 4] - corners[side]).unit().left();
    let faces_it = (0..4).any(|side| plan.flap_on(side) && away(side).dot(outwards) > TOUCH_MM);
    if faces_it { values.inner(90.0) } else { 0.0 }
}
