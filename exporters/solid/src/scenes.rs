//! The two scenes of the file: the tray alone, and the tray in its box with pads and items.
//!
//! **Input:** the document. **Output:** the bytes of the file. The tray alone is the scene that a reader shows, because
//! it is what a CAD user measures, and its solids are the card and nothing else.

use serde::Serialize;
use traywright_document::space::Vec3;
use traywright_document::{Document, ExportError};

use crate::bends::Bend;
use crate::gltf_file::{GltfFile, NodeIndex, extras};
use crate::profile::Profile;
use crate::solid::Solid;
use crate::{items, panels};

/// Millimetres of a metre, the unit of the format.
const METRE: f64 = 1000.0;

/// What the file says about the tray.
#[derive(Serialize)]
struct TrayExtras<'a> {
    style: &'a str,
    caliper: f64,
    /// Inside of the box: length, width, depth.
    #[serde(rename = "box", skip_serializing_if = "Option::is_none")]
    inside: Option<[f64; 3]>,
    /// Rows of the matrix from the folded frame of the FOLD file (mm) to this file (m).
    from_folded: [[f64; 4]; 3],
    volume: Volume,
}

/// Volumes in mm³: `card` - `strips` + `bends` is the volume of all solids.
#[derive(Clone, Copy, Debug, Serialize)]
struct Volume {
    /// Area of the blank times the caliper.
    card: f64,
    /// What was cut off at the creases.
    strips: f64,
    /// What stands in its place.
    bends: f64,
}

/// What a bend says about itself.
#[derive(Serialize)]
struct BendExtras<'a> {
    panel: &'a str,
    parent: &'a str,
    /// Angle of the fold in degrees; positive folds the drawn face inwards, as in FOLD.
    angle: f64,
    /// Length of the crease.
    length: f64,
    /// Width of the strip on either side of the crease.
    strip: f64,
    /// Height of the fold line over the middle of the card, towards the inside of the fold.
    hinge: f64,
    /// Volume in mm³.
    volume: f64,
}

/// The file of a tray.
pub(crate) fn binary(document: &Document) -> Result<Vec<u8>, ExportError> {
    let frame = frame(document);
    let mut gltf = GltfFile::new(move |point| {
        frame.map(|row| row[0] * point[0] + row[1] * point[1] + row[2] * point[2] + row[3])
    });
    let tray = tray(document, frame, &mut gltf)?;
    gltf.scene("tray", vec![tray]);
    let mut shown = vec![tray];
    shown.extend(contents(document, &mut gltf));
    if shown.len() > 1 {
        gltf.scene("tray in its box", shown);
    }
    gltf.bytes()
}

/// The matrix from the folded frame to the file: x along the box's length, y up, the middle of the box's floor at 0.
// Derived: the turn about x that brings the way that is up onto y: z or -z, whichever stands up in the box.
fn frame(document: &Document) -> [[f64; 4]; 3] {
    let up = document.up();
    let rows: [Vec3; 3] = [[1.0, 0.0, 0.0], [0.0, 0.0, up], [0.0, -up, 0.0]];
    let seat = document.seat();
    rows.map(|row| {
        let moved: f64 = (0..3).map(|axis| row[axis] * seat[axis]).sum();
        let [x, y, z] = row.map(|part| part / METRE + 0.0);
        [x, y, z, 0.0 - moved / METRE]
    })
}

/// Panels and bends as one node.
fn tray(
    document: &Document,
    frame: [[f64; 4]; 3],
    gltf: &mut GltfFile,
) -> Result<NodeIndex, ExportError> {
    let bends = Bend::all(document);
    let caliper = document.board.caliper;
    let mut volume = Volume {
        card: 0.0,
        strips: 0.0,
        bends: 0.0,
    };
    let mut nodes = Vec::new();
    for (index, panel) in document.panels.iter().enumerate() {
        let profiles = panels::profiles(document, index, &bends);
        let whole: f64 = panel.contours().map(|contour| contour.area()).sum();
        let rest: f64 = profiles.iter().map(Profile::area).sum();
        volume.card += whole * caliper;
        volume.strips += (whole - rest) * caliper;
        if !profiles.is_empty() {
            let solid = panels::solid(document, index, &profiles);
            nodes.push(gltf.solid(&panel.name, &solid, None));
        }
    }
    for bend in &bends {
        let (node, held) = crease(document, bend, gltf)?;
        volume.bends += held;
        nodes.push(node);
    }
    let inside = document.box_size;
    let told = TrayExtras {
        style: &document.style,
        caliper,
        inside: document
            .has_box()
            .then(|| [inside.length, inside.width, inside.depth].map(|side| side.mm())),
        from_folded: frame,
        volume,
    };
    let told = extras(&told)?;
    Ok(gltf.group(&document.title, nodes, told))
}

/// A crease as a node, with its bend if it has one, and the volume of the bend.
fn crease(
    document: &Document,
    bend: &Bend,
    gltf: &mut GltfFile,
) -> Result<(NodeIndex, f64), ExportError> {
    let panel = &document.panels[bend.panel];
    let solid = bend.solid(document);
    let told = BendExtras {
        panel: &panel.name,
        parent: &document.panels[bend.hinge.parent].name,
        angle: bend.hinge.fold_deg,
        length: bend.length(),
        strip: bend.strip,
        hinge: bend.hinge.height,
        volume: solid.as_ref().map_or(0.0, Solid::volume),
    };
    let volume = told.volume;
    let (name, told) = (format!("{} crease", panel.name), extras(&told)?);
    let node = match solid {
        Some(solid) => gltf.solid(&name, &solid, told),
        None => gltf.group(&name, Vec::new(), told),
    };
    Ok((node, volume))
}

/// Items on their pads, and the box.
fn contents(document: &Document, gltf: &mut GltfFile) -> Vec<NodeIndex> {
    let mut nodes = Vec::new();
    for item in &document.items {
        let Some((whole, pad)) = items::item(document, item) else {
            continue;
        };
        nodes.push(gltf.solid(&item.name, &whole, None));
        if let Some(pad) = pad {
            nodes.push(gltf.solid(&format!("{} pad", item.name), &pad, None));
        }
    }
    if let Some(parts) = items::open_box(document) {
        let names = ["box walls", "box floor"];
        let parts = names.iter().zip(&parts);
        nodes.extend(parts.map(|(name, solid)| gltf.solid(name, solid, None)));
    }
    nodes
}
