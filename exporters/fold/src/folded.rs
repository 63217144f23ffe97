//! The folded tray as a frame of the file.
//!
//! **Input:** a document and its mesh. **Output:** the entries of the frame. If the fold lines are in the middle of the
//! card, the panels meet at their creases and share the vertices of the blank. Otherwise their mid-planes are apart, so
//! each face has vertices of its own.

use serde_json::{Value, json};
use traywright_document::space::{Vec3, dot, minus};
use traywright_document::{Document, ExportError};

use crate::mesh::{Mesh, Vertex};
use crate::places::SAME_MM;
use crate::text::{Entry, rows, written};

/// The frame of panels that meet at their creases; it inherits the rest from the key frame.
///
/// # Refuses
/// Panels that come apart at their crease.
pub(crate) fn joined(document: &Document, mesh: &Mesh) -> Result<Vec<Entry>, ExportError> {
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
            json!(["3D", "manifold", "orientable", mesh.shape()]).to_string(),
        ),
        ("frame_parent", "0".to_owned()),
        ("frame_inherit", "true".to_owned()),
        ("vertices_coords", rows(places.into_iter(), "      ")),
    ])
}

/// The position of a vertex in the folded tray.
fn standing(document: &Document, vertex: &Vertex) -> Result<Vec3, ExportError> {
    let poses = vertex.panels.iter().map(|&panel| &document.panels[panel]);
    let mut standing: Option<(Vec3, &str)> = None;
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

/// The frame of panels that do not meet at their creases. It inherits nothing: it has the faces of the key frame in
/// their order, each separate with vertices of its own.
// Source: core/CONTRACT.md, "Files: FOLD".
pub(crate) fn apart(document: &Document, mesh: &Mesh) -> Vec<Entry> {
    let (mut places, mut edges, mut faces): (Vec<Value>, Vec<Value>, Vec<Value>) =
        Default::default();
    let mut names = Vec::new();
    for face in &mesh.faces {
        let panel = &document.panels[face.panel];
        let first = places.len();
        let stands = |&vertex: &usize| panel.pose.apply(mesh.vertices[vertex].at.in_space());
        places.extend(
            face.vertices
                .iter()
                .map(|vertex| json!(stands(vertex).map(written))),
        );
        let own: Vec<usize> = (first..places.len()).collect();
        let next = own.iter().cycle().skip(1);
        edges.extend(own.iter().zip(next).map(|(from, to)| json!([from, to])));
        faces.push(json!(own));
        names.push(json!(panel.name));
    }
    let (letters, angles) = (vec!["B"; edges.len()], vec![0; edges.len()]);
    let about = "The middle of the card in the folded tray, in the frame of the first face: stiff panels that do not meet at \
                 their creases, since the fold lines do not lie in the middle of the card.";
    let attributes = json!(["3D", "manifold", "orientable", mesh.shape()]);
    vec![
        ("frame_title", json!("Folded").to_string()),
        ("frame_description", json!(about).to_string()),
        ("frame_classes", json!(["foldedForm"]).to_string()),
        ("frame_attributes", attributes.to_string()),
        ("frame_unit", json!("mm").to_string()),
        ("frame_parent", "0".to_owned()),
        ("frame_inherit", "false".to_owned()),
        ("vertices_coords", rows(places.into_iter(), "      ")),
        ("edges_vertices", rows(edges.into_iter(), "      ")),
        ("edges_assignment", json!(letters).to_string()),
        ("edges_foldAngle", json!(angles).to_string()),
        ("faces_vertices", rows(faces.into_iter(), "      ")),
        ("faces_traywright:name", rows(names.into_iter(), "      ")),
    ]
}
