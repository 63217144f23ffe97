//! The tray as the scripts draw it: triangles, creases, items and box, as JSON.
//!
//! Frame: that of the flat blank (mm, y up, z out of the drawn face, 0 in the middle of the card); items and the box stand
//! in it as they do in the finished tray. `up` says which way along z is up then.

use serde::Serialize;
use traywright_document::space::dot;
use traywright_document::{
    Document, DrawnFace, ExportError, Extent, Item, ItemShape, Orientation, Point, Pose,
};

use crate::steps::{SceneStep, steps};
use crate::triangles::Triangulated;
use crate::words::WordsFile;

#[derive(Serialize)]
struct Scene<'a> {
    caliper: f64,
    /// Inside of the box: length, width, depth.
    #[serde(rename = "box", skip_serializing_if = "Option::is_none")]
    inside: Option<[f64; 3]>,
    /// The middle of the box and the height of its floor.
    seat: [f64; 3],
    /// 1 or -1.
    up: i8,
    /// Whether the drawn face is the one that is outside the folded tray.
    outside: bool,
    panels: Vec<ScenePanel<'a>>,
    items: Vec<SceneItem<'a>>,
    steps: Vec<SceneStep>,
}

#[derive(Serialize)]
struct ScenePanel<'a> {
    name: &'a str,
    rings: Vec<Vec<f64>>,
    triangles: Vec<usize>,
    #[serde(skip_serializing_if = "Option::is_none")]
    hinge: Option<SceneHinge>,
}

/// The panel lies right of the way from (x, y) to (x, y) of the line.
#[derive(Serialize)]
struct SceneHinge {
    parent: usize,
    line: [f64; 4],
    fold: f64,
    height: f64,
}

#[derive(Serialize)]
struct SceneItem<'a> {
    name: &'a str,
    shape: &'static str,
    size: [f64; 3],
    /// The middle of its underside.
    at: [f64; 3],
    /// The way in which its length lies.
    along: [f64; 2],
    pad: f64,
}

/// The scene of a tray.
pub(crate) fn scene(document: &Document, file: &WordsFile) -> Result<String, ExportError> {
    let up = up(document);
    let inside = document.box_size;
    let seat = seat(document, up);
    let scene = Scene {
        caliper: document.board.caliper,
        inside: document
            .has_box()
            .then(|| [inside.length, inside.width, inside.depth].map(|side| side.mm())),
        seat,
        up: if up > 0.0 { 1 } else { -1 },
        outside: document.output.drawn_face == DrawnFace::Outside,
        panels: document.panels.iter().map(panel).collect(),
        items: document
            .items
            .iter()
            .filter_map(|item| placed(document, item, (up, seat)))
            .collect(),
        steps: steps(document, file),
    };
    serde_json::to_string(&scene).map_err(|why| ExportError::Written(why.to_string()))
}

/// Which way along z of the flat frame is up in the finished tray.
// Derived: z comes out of the drawn face. A tray on its root panel has the face that is inside up; one on its walls, that
// which is outside.
fn up(document: &Document) -> f64 {
    let inside = document.output.drawn_face == DrawnFace::Inside;
    let root_down = document.stands == Orientation::RootDown;
    if inside == root_down { 1.0 } else { -1.0 }
}

fn panel(panel: &traywright_document::Panel) -> ScenePanel<'_> {
    let flat = Triangulated::of(panel);
    let hinge = panel.hinge.map(|hinge| {
        let [from, to] = hinge.line;
        SceneHinge {
            parent: hinge.parent,
            line: [from.x, from.y, to.x, to.y],
            fold: hinge.fold_deg,
            height: hinge.height,
        }
    });
    ScenePanel {
        name: &panel.name,
        rings: flat.rings,
        triangles: flat.triangles,
        hinge,
    }
}

/// The middle of the box, and the height of its floor.
fn seat(document: &Document, up: f64) -> [f64; 3] {
    let half = document.board.caliper / 2.0;
    let (mut least, mut most) = ([f64::INFINITY; 3], [f64::NEG_INFINITY; 3]);
    for panel in &document.panels {
        let Extent {
            least: low,
            most: high,
        } = panel.outline.extent();
        let corners = [
            low,
            high,
            Point::new(low.x, high.y),
            Point::new(high.x, low.y),
        ];
        for place in corners.map(|corner| panel.pose.apply(corner.in_space())) {
            for axis in 0..3 {
                let more = half * panel.pose.rows[axis][2].abs();
                least[axis] = least[axis].min(place[axis] - more);
                most[axis] = most[axis].max(place[axis] + more);
            }
        }
    }
    if document.panels.is_empty() {
        return [0.0; 3];
    }
    let middle = |axis: usize| (least[axis] + most[axis]) / 2.0;
    let foot = if up > 0.0 { least[2] } else { most[2] };
    [middle(0), middle(1), foot - up * lift(document)]
}

/// How far a tray with rounded edges below stands over the floor of the box.
fn lift(document: &Document) -> f64 {
    let measure = |name: &str| {
        let found = document
            .measures
            .iter()
            .find(|measure| measure.name == name);
        found.map(|measure| measure.value)
    };
    let sides = (measure("folded_depth"), measure("box_clearance_depth"));
    match sides {
        (Some(folded), Some(clearance)) => {
            (document.box_size.depth.mm() - folded - clearance).max(0.0)
        }
        _ => 0.0,
    }
}

/// An item where it lies in the finished tray; none of one that has no opening.
fn placed<'a>(
    document: &Document,
    item: &'a Item,
    (up, seat): (f64, [f64; 3]),
) -> Option<SceneItem<'a>> {
    let panel = document.panels.get(item.panel)?;
    let middle = panel.pose.apply(item.middle?.in_space());
    let half = document.board.caliper / 2.0;
    let deck = item.held.and_then(|held| held.deck);
    let floor = match (deck, document.stands) {
        (Some(deck), _) => middle[2] + up * (half - deck),
        (None, Orientation::RootUp) => seat[2],
        (None, Orientation::RootDown) => up * half,
    };
    let way = panel.hinge.map_or([1.0, 0.0, 0.0], |hinge| {
        let [from, to] = hinge.line;
        let along = (to - from).unit();
        [along.x, along.y, 0.0]
    });
    let along = flat_way(&panel.pose, way);
    Some(SceneItem {
        name: &item.name,
        shape: match item.shape {
            ItemShape::Round => "round",
            ItemShape::Oval => "oval",
            _ => "rectangle",
        },
        size: [item.length, item.width, item.depth],
        at: [middle[0], middle[1], floor + up * item.rest],
        along,
        pad: item.pad,
    })
}

/// How a way of the flat card lies in the finished tray, seen from above.
fn flat_way(pose: &Pose, way: [f64; 3]) -> [f64; 2] {
    let turned = pose.turn(way);
    let length = dot([turned[0], turned[1], 0.0], turned).sqrt();
    match length > 0.5 {
        true => [turned[0] / length, turned[1] / length],
        false => [1.0, 0.0],
    }
}
