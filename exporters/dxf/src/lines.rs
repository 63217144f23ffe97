//! The toolpaths as polylines, in their order.
//!
//! **Input:** the toolpaths of the document. **Output:** one polyline per toolpath, its arcs as bulges: light polylines
//! in release 2000, polylines with separate vertices in release 12. Edges that rounding shrinks to nothing are left
//! out.

use dxf::entities::{EntityType, LwPolyline, Polyline, Vertex};
use dxf::{LwPolylineVertex, Point};
use traywright_document::{Contour, DxfVersion, Toolpath};

use crate::drawing::DxfDrawing;

/// Draws all toolpaths.
pub(crate) fn draw(sheet: &mut DxfDrawing) {
    for run in sheet.document.all_toolpaths() {
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
    sheet.add(run.step, EntityType::LwPolyline(line));
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
