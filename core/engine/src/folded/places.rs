//! Positions of the items in the finished tray.

use super::FoldedTray;
use crate::blank::Blank;
use crate::finding::{BuiltIn, Clause, Finding, Mm, Place};
use crate::geometry::Point;
use crate::job::DrawnFace;
use crate::tray::{Drawn, PanelId, nearest};
use crate::values::Rect;
use traywright_document::Orientation;

/// An item's opening as seen in the finished tray.
struct Seen {
    name: String,
    middle: Point,
    /// Half its extent away from the viewer.
    half: f64,
}

/// Names which item is where in the finished tray, seen from above; none for fewer than two items.
pub(super) fn judge(drawn: &Drawn, blank: &Blank, folded: &FoldedTray) -> Option<Finding> {
    let Drawn { style, job, tray } = drawn;
    let mut seen: Vec<Seen> = Vec::new();
    let mut rects: Vec<(PanelId, Rect)> = Vec::new();
    for opening in tray.openings.iter() {
        let Some(item) = opening.item_as_it_lies(job) else {
            continue;
        };
        let stands = |corner: Point| {
            let flat = blank.panels[opening.panel].frame.place(corner);
            let [x, y, _] = folded.motions[opening.panel].apply([flat.x, flat.y, 0.0]);
            match style.orientation {
                Orientation::RootUp => Point::new(x, -y),
                Orientation::RootDown => Point::new(x, y),
            }
        };
        let [low, _, high, _] = opening.rect.corners().map(stands);
        seen.push(Seen {
            name: item.name,
            middle: low.middle(high),
            half: (high.y - low.y).abs() / 2.0,
        });
        rects.push((opening.panel, opening.extent()));
    }
    if seen.len() < 2 {
        return None;
    }
    let web = nearest(&rects).map(|(one, other, web)| Clause::LeastWeb {
        web: Mm(web),
        between: vec![seen[one].name.clone(), seen[other].name.clone()],
    });
    let found = BuiltIn::ItemPlaces {
        rows: in_rows(seen),
        web,
        drawing: mirror(style.orientation, job.output.drawn_face),
    };
    Some(Finding::new(found, Place::Items))
}

/// Their names in rows, the farthest row first, each from left to right: a row spans the extent of its farthest one.
fn in_rows(mut seen: Vec<Seen>) -> Vec<Vec<String>> {
    seen.sort_by(|one, other| (other.middle.y + other.half).total_cmp(&(one.middle.y + one.half)));
    let mut rows: Vec<Vec<Seen>> = Vec::new();
    for one in seen {
        let beside = |first: &Seen| (one.middle.y - first.middle.y).abs() < first.half;
        match rows.last_mut() {
            Some(row) if beside(&row[0]) => row.push(one),
            _ => rows.push(vec![one]),
        }
    }
    let from_left = |mut row: Vec<Seen>| {
        row.sort_by(|one, other| one.middle.x.total_cmp(&other.middle.x));
        row.into_iter().map(|one| one.name).collect()
    };
    rows.into_iter().map(from_left).collect()
}

/// How the drawing shows the tray: mirrored or not.
fn mirror(orientation: Orientation, drawn: DrawnFace) -> Clause {
    match (orientation, drawn) {
        (Orientation::RootUp, DrawnFace::Inside) => Clause::DrawingMirrors,
        (Orientation::RootUp, DrawnFace::Outside) => Clause::DrawingTurned,
        (Orientation::RootDown, DrawnFace::Inside) => Clause::DrawingSame,
        (Orientation::RootDown, DrawnFace::Outside) => Clause::DrawingSwapsSides,
    }
}
