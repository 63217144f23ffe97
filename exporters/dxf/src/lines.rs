//! The toolpaths as polylines, in their order.
//!
//! **Input:** the toolpaths of the document. **Output:** one polyline per toolpath, its arcs as bulges: light polylines
//! in release 2000, polylines with separate vertices in release 12. Edges that rounding shrinks to nothing are left
//! out. In release 2000 a crease carries its angle and its panel as extended data, and the outline the card's thickness.

use dxf::entities::{EntityType, LwPolyline, Polyline, Vertex};
use dxf::{LwPolylineVertex, Point, XDataItem};
use traywright_document::{
    Contour, CreaseKind, Document, DxfVersion, Part, ProcessingStep, Toolpath,
};

use crate::drawing::DxfDrawing;

/// Draws all toolpaths.
pub(crate) fn draw(sheet: &mut DxfDrawing) {
    // A machine works along every line of a bare file, so a step that is not known here is left out of it.
    let is_bare = sheet.document.has_bare_lines();
    let is_known = |run: &Toolpath| !is_bare || ProcessingStep::ALL.contains(&run.step);
    let runs = sheet.document.all_toolpaths().into_iter();
    for run in runs.filter(is_known) {
        let corners = corners(&run.contour, sheet);
        if corners.len() < 2 {
            continue;
        }
        match sheet.version() {
            DxfVersion::R12 => heavy(&run, &corners, sheet),
            _ => light(&run, &corners, sheet),
        }
    }
}

/// A point and the bulge of the edge to the next.
type Corner = (Point, f64);

fn corners(contour: &Contour, sheet: &mut DxfDrawing) -> Vec<Corner> {
    let mut corners: Vec<Corner> = Vec::new();
    let mut from = sheet.place(contour.start);
    for segment in &contour.segments {
        let to = sheet.place(segment.to());
        if to != from {
            // Source: DXF reference, LWPOLYLINE, group 42: the document's bulge is the same number.
            corners.push((from.clone(), segment.bulge()));
        }
        from = to;
    }
    if !contour.closed {
        corners.push((from, 0.0));
    }
    corners
}

fn light(run: &Toolpath, corners: &[Corner], sheet: &mut DxfDrawing) {
    let vertex = |(at, bulge): &Corner| LwPolylineVertex {
        x: at.x,
        y: at.y,
        bulge: *bulge,
        ..LwPolylineVertex::default()
    };
    let mut line = LwPolyline {
        vertices: corners.iter().map(vertex).collect(),
        ..LwPolyline::default()
    };
    line.set_is_closed(run.contour.closed);
    let data = data(run.part, sheet.document);
    sheet.add_with_data(run.step, EntityType::LwPolyline(line), data);
}

/// What a program may read of a line: a name, then its value. Lengths in mm, angles in degrees.
// Source: core/CONTRACT.md, "Files: DXF".
fn data(part: Part, document: &Document) -> Vec<XDataItem> {
    let key = |name: &str| XDataItem::Str(name.to_owned());
    match part {
        Part::Crease { panel } => {
            let panel = document.panels.get(panel);
            let hinged = panel.and_then(|panel| Some((panel, panel.hinge?)));
            hinged.map_or_else(Vec::new, |(panel, hinge)| {
                vec![
                    key("fold-angle"),
                    XDataItem::Real(hinge.fold_deg),
                    key("panel"),
                    key(&panel.name),
                ]
            })
        }
        Part::Outline => vec![
            key("caliper"),
            XDataItem::Real(document.board.caliper),
            key("hinge"),
            XDataItem::Real(document.board.hinge),
            key("creases"),
            key(match document.board.crease {
                CreaseKind::HalfCut => "half-cut",
                _ => "pressed",
            }),
        ],
        _ => Vec::new(),
    }
}

fn heavy(run: &Toolpath, corners: &[Corner], sheet: &mut DxfDrawing) {
    let mut line = Polyline::default();
    line.set_is_closed(run.contour.closed);
    for (at, bulge) in corners {
        let vertex = Vertex {
            location: at.clone(),
            bulge: *bulge,
            ..Vertex::default()
        };
        line.add_vertex(sheet.library(), vertex);
    }
    sheet.add(run.step, EntityType::Polyline(line));
}
