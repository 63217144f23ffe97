//! The file: one JSON object, one entry per line.
//!
//! **Input:** a document and its mesh. **Output:** the text of the file, with the blank as its key frame and the folded
//! tray as the next one. Only the format is decided here.

use serde_json::{Value, json};
use traywright_document::{Document, ExportError, Item};

use crate::chords::CHORD_MM;
use crate::folded;
use crate::mesh::{Edge, Mesh};
use crate::text::{Entry, object, rows, written};

/// The text of the file.
///
/// # Refuses
/// Panels that come apart at their crease in the folded tray.
pub(crate) fn file(document: &Document, mesh: &Mesh) -> Result<String, ExportError> {
    let mut entries = vec![
        ("file_spec", "1.2".to_owned()),
        ("file_creator", json!("traywright").to_string()),
        ("file_title", json!(document.title).to_string()),
        ("file_classes", json!(["singleModel"]).to_string()),
    ];
    let hinge = hinge(document);
    entries.extend(blank(document, mesh, hinge));
    entries.extend(lines(mesh));
    entries.extend(panels(document, mesh, hinge));
    let folded = if hinge == 0.0 {
        folded::joined(document, mesh)?
    } else {
        folded::apart(document, mesh)
    };
    let folded = object(&folded, "    ");
    entries.push(("file_frames", format!("[\n    {folded}\n  ]")));
    Ok(object(&entries, "") + "\n")
}

/// Distance of the fold lines from the middle of the card.
fn hinge(document: &Document) -> f64 {
    let heights = document
        .panels
        .iter()
        .filter_map(|panel| panel.hinge.as_ref());
    heights.fold(document.board.hinge, |most, hinge| {
        most.max(hinge.height.abs())
    })
}

/// The entries of the key frame.
fn blank(document: &Document, mesh: &Mesh, hinge: f64) -> Vec<Entry> {
    let mut about = format!(
        "The blank seen from its drawn face. Curves are drawn as chords that leave them by at most {CHORD_MM} mm."
    );
    if hinge > 0.0 {
        about += &format!(
            " The fold lines lie {} mm from the middle of the card, towards the inside of each fold, so this frame folded \
             about its edges is not the tray. The next frame has the panels where they stand.",
            written(hinge)
        );
    }
    let in_box = document
        .has_box()
        .then(|| ("traywright:box", box_size(document).to_string()));
    let mut entries = vec![
        ("frame_title", json!("Blank").to_string()),
        ("frame_description", json!(about).to_string()),
        ("frame_classes", json!(["creasePattern"]).to_string()),
        (
            "frame_attributes",
            json!(["2D", "manifold", "orientable", mesh.shape()]).to_string(),
        ),
        ("frame_unit", json!("mm").to_string()),
        (
            "traywright:caliper",
            written(document.board.caliper).to_string(),
        ),
    ];
    entries.extend(in_box);
    let items = rows(document.items.iter().filter_map(item), "  ");
    entries.push(("traywright:items", items));
    entries
}

/// An item in its orientation in the tray, with its position in this frame.
fn item(item: &Item) -> Option<Value> {
    let middle = item.middle?;
    let size = [item.length, item.width, item.depth];
    Some(json!({
        "name": item.name,
        "shape": item.shape,
        "size": size.map(written),
        "middle": [written(middle.x), written(middle.y)],
        "turned": item.turned,
        "pad": written(item.pad),
        "rest": written(item.rest),
        "straight": written(item.straight.unwrap_or(item.depth)),
        "loose": item.loose,
    }))
}

fn box_size(document: &Document) -> Value {
    let size = &document.box_size;
    json!([
        written(size.length.mm()),
        written(size.width.mm()),
        written(size.depth.mm())
    ])
}

fn lines(mesh: &Mesh) -> Vec<Entry> {
    let places = mesh
        .vertices
        .iter()
        .map(|vertex| json!([written(vertex.at.x), written(vertex.at.y)]));
    let ends = mesh.edges.iter().map(|edge| json!(edge.ends));
    let letters: Vec<&str> = mesh.edges.iter().map(letter).collect();
    let angles: Vec<Value> = mesh
        .edges
        .iter()
        .map(|edge| written(edge.fold_deg.unwrap_or(0.0)))
        .collect();
    vec![
        ("vertices_coords", rows(places, "  ")),
        ("edges_vertices", rows(ends, "  ")),
        ("edges_assignment", json!(letters).to_string()),
        ("edges_foldAngle", json!(angles).to_string()),
    ]
}

fn panels(document: &Document, mesh: &Mesh, hinge: f64) -> Vec<Entry> {
    let corners = mesh.faces.iter().map(|face| json!(face.vertices));
    let names = mesh
        .faces
        .iter()
        .map(|face| json!(document.panels[face.panel].name));
    let mut entries = vec![
        ("faces_vertices", rows(corners, "  ")),
        ("faces_traywright:name", rows(names, "  ")),
    ];
    if hinge > 0.0 {
        entries.push(("traywright:hinge", written(hinge).to_string()));
    }
    entries
}

/// The assignment letter of an edge.
fn letter(edge: &Edge) -> &'static str {
    match edge.fold_deg {
        None => "B",
        Some(fold_deg) if fold_deg > 0.0 => "V",
        Some(fold_deg) if fold_deg < 0.0 => "M",
        Some(_) => "F",
    }
}
