//! Documents written by hand, for tests of exporters and of the document itself.
//!
//! [`plain`] is the minimum that an exporter gets, [`full`] has a value in every field. A new field of the document is
//! added here and in no test.

mod full;

use crate::*;
pub use full::full;

/// A contour with straight edges through points.
///
/// # Panics
/// "a contour has a point" if there is none.
pub fn run(points: &[[f64; 2]], closed: bool) -> Contour {
    let point = |point: &[f64; 2]| Point::new(point[0], point[1]);
    let (first, rest) = points.split_first().expect("a contour has a point");
    let ends = rest.iter().chain(Some(first).filter(|_| closed));
    Contour {
        start: point(first),
        segments: ends.map(|to| Segment::Line { to: point(to) }).collect(),
        closed,
    }
}

/// A blank with only its outline.
pub fn flat(outline: Contour) -> Flat {
    Flat {
        extent: outline.extent(),
        outline,
        holes: Vec::new(),
        open_cuts: Vec::new(),
        creases: Vec::new(),
        labels: Vec::new(),
        letters: Vec::new(),
        panel_pictures: Vec::new(),
        panel_labels: Vec::new(),
        dimensions: Vec::new(),
    }
}

/// A panel that lies flat.
pub fn panel(name: &str, outline: Contour, hinge: Option<Hinge>) -> Panel {
    Panel {
        name: name.to_owned(),
        part: String::new(),
        outline,
        holes: Vec::new(),
        hinge,
        pose: Pose::STILL,
    }
}

/// A document of a blank, without panels, items, steps and measures.
pub fn plain(flat: Flat) -> Document {
    Document {
        title: "Lens box".to_owned(),
        style: "by hand".to_owned(),
        board: Board {
            name: None,
            caliper: 0.3,
            kind: BoardKind::Carton,
            crease: CreaseKind::Pressed,
            hinge: 0.0,
            wants_strip: false,
            grain: None,
        },
        tool: Tool::default(),
        box_size: BoxSize {
            length: Length::known(120.0),
            width: Length::known(40.0),
            depth: Length::known(20.0),
        },
        items: Vec::new(),
        unit: Unit::Millimetre,
        output: Output::default(),
        stands: Orientation::RootUp,
        hand_step: None,
        flat,
        panels: Vec::new(),
        interlocks: Vec::new(),
        friction: false,
        warnings: Vec::new(),
        steps: Vec::new(),
        measures: Vec::new(),
        toolpaths: Vec::new(),
        nested: Vec::new(),
    }
}
