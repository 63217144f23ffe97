//! The file: one JSON object, an entry a line.
//!
//! Given a document and its mesh; gives the text of the file, with the blank as its key frame and the folded tray as the
//! next one. Numbers are rounded once, here, to twelve decimals. It decides nothing but the form.

use serde_json::{Value, json};
use traywright_document::space::{dot, minus};
use traywright_document::{Document, ExportError, Item};

use crate::chords::CHORD_MM;
use crate::mesh::{Edge, Mesh, Vertex};
use crate::places::{SAME_MM, distance};

/// Steps of a millimetre or a degree that are written.
// Derived: in both frames a face 0.1 mm narrow has one area to 1e-9 of it, and most noise of arithmetic is hidden.
const STEPS: f64 = 1e12;

/// A key and its value as text.
type Entry = (&'static str, String);

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
    if hinge == 0.0 {
        let folded = object(&folded(document, mesh)?, "    ");
        entries.push(("file_frames", format!("[\n    {folded}\n  ]")));
    }
    Ok(object(&entries, "") + "\n")
}

/// How far fold lines lie from the middle of the card.
fn hinge(document: &Document) -> f64 {
    let heights = document
        .panels
        .iter()
        .filter_map(|panel| panel.hinge.as_ref());
    heights.fold(document.board.hinge, |most, hinge| {
        most.max(hinge.height.abs())
    })
}

/// What the key frame is.
fn blank(document: &Document, mesh: &Mesh, hinge: f64) -> Vec<Entry> {
    let mut about = format!(
        "The blank seen from its drawn face. Curves are drawn as chords that leave them by at most {CHORD_MM} mm."
    );
    if hinge > 0.0 {
        about += &format!(
            " There is no folded form: the fold lines lie {} mm from the middle of the card, so middles folded about \
             them would be torn.",
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
            json!(["2D", "manifold", "orientable", shape(mesh)]).to_string(),
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

/// An item as it lies in the tray, with its place in this frame.
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

/// The frame of the folded tray; what it does not say it has from the key frame.
fn folded(document: &Document, mesh: &Mesh) -> Result<Vec<Entry>, ExportError> {
    let mut places = Vec::new();
    for vertex in &mesh.vertices {
        places.push(json!(standing(document, vertex)?.map(written)));
    }
    Ok(vec![
        ("frame_title", json!("Folded").to_string()),
        (
            "frame_description",
            json!("The middle of the card in the folded tray, in the frame of the first face.")
                .to_string(),
        ),
        ("frame_classes", json!(["foldedForm"]).to_string()),
        (
            "frame_attributes",
            json!(["3D", "manifold", "orientable", shape(mesh)]).to_string(),
        ),
        ("frame_parent", "0".to_owned()),
        ("frame_inherit", "true".to_owned()),
        ("vertices_coords", rows(places.into_iter(), "      ")),
    ])
}

/// Where a vertex stands in the folded tray.
fn standing(document: &Document, vertex: &Vertex) -> Result<[f64; 3], ExportError> {
    let poses = vertex.panels.iter().map(|&panel| &document.panels[panel]);
    let mut standing: Option<([f64; 3], &str)> = None;
    for panel in poses {
        let here = panel.pose.apply(vertex.at.in_space());
        let (there, name) = *standing.get_or_insert((here, &panel.name));
        let way = minus(here, there);
        let apart = dot(way, way).sqrt();
        if apart > SAME_MM {
            return Err(ExportError::Refused(format!(
                "{name} and {} share a corner on the card and stand {} mm apart in the folded tray",
                panel.name,
                written(apart)
            )));
        }
    }
    standing
        .map(|(place, _)| place)
        .ok_or_else(|| ExportError::Refused("a corner belongs to no panel".to_owned()))
}

/// The letter of an edge.
fn letter(edge: &Edge) -> &'static str {
    match edge.fold_deg {
        None => "B",
        Some(fold_deg) if fold_deg > 0.0 => "V",
        Some(fold_deg) if fold_deg < 0.0 => "M",
        Some(_) => "F",
    }
}

/// Whether any face turns inwards.
fn shape(mesh: &Mesh) -> &'static str {
    let turns_inwards = |face: &crate::mesh::Facet| {
        let count = face.vertices.len();
        (0..count).any(|corner| {
            let [before, here, after] =
                [0, 1, 2].map(|step| mesh.vertices[face.vertices[(corner + step) % count]].at);
            let (x, y) = (after.x - before.x, after.y - before.y);
            let aside =
                (x * (here.y - before.y) - y * (here.x - before.x)) / distance(before, after);
            aside > SAME_MM
        })
    };
    if mesh.faces.iter().any(turns_inwards) {
        "nonConvexFaces"
    } else {
        "convexFaces"
    }
}

/// A number as it is written.
fn written(number: f64) -> Value {
    let rounded = (number * STEPS).round() / STEPS;
    // Adding 0 makes a zero of a negative one.
    let rounded = rounded + 0.0;
    if rounded.fract() == 0.0 && rounded.abs() < SAFE {
        json!(rounded as i64)
    } else {
        json!(rounded)
    }
}

/// Whole numbers below this are exact.
const SAFE: f64 = 9e15;

/// An array with a row a line.
fn rows(values: impl Iterator<Item = Value>, indent: &str) -> String {
    let rows: Vec<String> = values.map(|value| format!("\n{indent}  {value}")).collect();
    format!("[{}\n{indent}]", rows.join(","))
}

/// An object with an entry a line.
fn object(entries: &[Entry], indent: &str) -> String {
    let lines: Vec<String> = entries
        .iter()
        .map(|(key, value)| format!("\n{indent}  {}: {value}", json!(key)))
        .collect();
    format!("{{{}\n{indent}}}", lines.join(","))
}
