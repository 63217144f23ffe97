//! The tray as the scripts draw it: triangles, creases, labels, items and box, as JSON.
//!
//! Frame: that of the flat blank (mm, y up, z out of the drawn face, 0 in the middle of the card); items and the box stand
//! in it as they do in the finished tray. `up` says which way along z is up then.

use serde::Serialize;
use traywright_document::{Document, DrawnFace, ExportError, Item, ItemShape, PanelLabel, Resting};

use crate::scene_pictures::{ScenePicture, pictures};
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
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pictures: Vec<ScenePicture>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    labels: Vec<SceneLabel<'a>>,
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

/// Words on a panel.
#[derive(Serialize)]
struct SceneLabel<'a> {
    panel: usize,
    text: &'a str,
    /// Whether they lie on the drawn face.
    drawn: bool,
    /// The middle of their foot.
    at: [f64; 2],
    /// The way in which they run, and the way to their top.
    along: [f64; 2],
    up: [f64; 2],
    height: f64,
}

/// The scene of a tray.
pub(crate) fn scene(document: &Document, file: &WordsFile) -> Result<String, ExportError> {
    let inside = document.box_size;
    let scene = Scene {
        caliper: document.board.caliper,
        inside: document
            .has_box()
            .then(|| [inside.length, inside.width, inside.depth].map(|side| side.mm())),
        seat: document.seat(),
        up: if document.up() > 0.0 { 1 } else { -1 },
        outside: document.output.drawn_face == DrawnFace::Outside,
        panels: document.panels.iter().map(panel).collect(),
        pictures: pictures(document)?,
        labels: document.flat.panel_labels.iter().map(label).collect(),
        items: document
            .items
            .iter()
            .filter_map(|item| placed(document, item))
            .collect(),
        steps: steps(document, file),
    };
    serde_json::to_string(&scene).map_err(|why| ExportError::Written(why.to_string()))
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

fn label(label: &PanelLabel) -> SceneLabel<'_> {
    let (foot, along) = (label.foot(), label.along());
    SceneLabel {
        panel: label.panel,
        text: &label.text,
        drawn: label.is_drawn(),
        at: [foot.x, foot.y],
        along: [along.x, along.y],
        up: [label.up.x, label.up.y],
        height: label.height,
    }
}

/// An item where it lies in the finished tray; none of one that has no opening.
fn placed<'a>(document: &Document, item: &'a Item) -> Option<SceneItem<'a>> {
    let Resting { at, along } = document.resting(item)?;
    Some(SceneItem {
        name: &item.name,
        shape: match item.shape {
            ItemShape::Round => "round",
            ItemShape::Oval => "oval",
            _ => "rectangle",
        },
        size: [item.length, item.width, item.depth],
        at,
        along: [along.x, along.y],
        pad: item.pad,
    })
}
