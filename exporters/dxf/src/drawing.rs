//! The drawing: layers with their line types, the initial view, and all entities.
//!
//! **Input:** the document, and the entities of `lines` and `words`. **Output:** the text of the DXF library, from
//! which `structure` builds a valid file. The blank is moved so that its lower left corner is at 0, 0; every length is
//! rounded once, here.

use dxf::entities::{Entity, EntityType};
use dxf::enums::AcadVersion;
use dxf::tables::{Layer, LineType};
use dxf::{Color, Drawing, Point};
use traywright_document::{Document, DxfVersion, ExportError, Extent, ProcessingStep};
use traywright_look as look;

/// White space around everything in the initial view, as a factor of its size.
const VIEW: f64 = 1.1;

/// The name of the layer of a processing step.
// Source: ISO 19593-1, names of processing steps, in capitals with hyphens.
fn name(step: ProcessingStep) -> String {
    look::Layer::Step(step).name().to_uppercase()
}

/// The colour of a layer by index: the nearest of the format's 255 colours to the layer's colour in all other files.
fn colour(step: ProcessingStep) -> u8 {
    match step {
        ProcessingStep::Cutting => 7,
        ProcessingStep::Creasing => 6,
        ProcessingStep::ReverseCreasing => 3,
        _ => 8,
    }
}

/// The line type of a layer, by the name that readers know for a pattern with this number of parts.
fn line_type(step: ProcessingStep) -> &'static str {
    match look::Layer::Step(step).look().dashes.len() {
        0 => "CONTINUOUS",
        2 => "DASHED",
        _ => "DASHDOT",
    }
}

/// Dashes as positive lengths and gaps as negative ones.
// Source: DXF reference, LTYPE, group 49.
fn pattern(step: ProcessingStep) -> Vec<f64> {
    let dashes = look::Layer::Step(step).look().dashes.iter();
    let signs = [1.0, -1.0].into_iter().cycle();
    dashes
        .zip(signs)
        .map(|(length, sign)| length * sign)
        .collect()
}

/// A drawing being built.
pub(crate) struct DxfDrawing<'a> {
    pub(crate) document: &'a Document,
    drawing: Drawing,
    /// Extent of all entities; the width of words is estimated.
    extent: Extent,
}

impl<'a> DxfDrawing<'a> {
    /// A drawing with its layers and no entities.
    pub(crate) fn new(document: &'a Document) -> DxfDrawing<'a> {
        let mut drawing = Drawing::new();
        drawing.header.version = match document.output.machine.dxf {
            DxfVersion::R12 => AcadVersion::R12,
            _ => AcadVersion::R2000,
        };
        for step in ProcessingStep::ALL {
            let (name, colour, line_type, pattern) =
                (name(step), colour(step), line_type(step), pattern(step));
            if !pattern.is_empty() {
                drawing.add_line_type(LineType {
                    name: line_type.to_owned(),
                    description: line_type.to_lowercase(),
                    element_count: pattern.len() as i32,
                    total_pattern_length: pattern.iter().map(|length| length.abs()).sum(),
                    dash_dot_space_lengths: pattern,
                    ..LineType::default()
                });
            }
            drawing.add_layer(Layer {
                name,
                color: Color::from_index(colour),
                line_type_name: line_type.to_owned(),
                ..Layer::default()
            });
        }
        DxfDrawing {
            document,
            drawing,
            extent: Extent::NOTHING,
        }
    }

    /// The release to write; 2000 for a kind that is not known here.
    pub(crate) fn version(&self) -> DxfVersion {
        match self.document.output.machine.dxf {
            DxfVersion::R12 => DxfVersion::R12,
            _ => DxfVersion::R2000,
        }
    }

    /// The extent of all entities.
    pub(crate) fn extent(&self) -> Extent {
        self.extent
    }

    /// A point of the flat frame, in the drawing.
    pub(crate) fn place(&mut self, point: traywright_document::Point) -> Point {
        let corner = self.document.flat.extent.least;
        self.at(point.x - corner.x, point.y - corner.y)
    }

    /// A point of the drawing, rounded to a millionth of a millimetre.
    pub(crate) fn at(&mut self, x: f64, y: f64) -> Point {
        // Adding 0 turns -0 into 0.
        let [x, y] = [x, y].map(|along| (along * 1e6).round() / 1e6 + 0.0);
        let Extent { least, most } = &mut self.extent;
        (least.x, least.y) = (least.x.min(x), least.y.min(y));
        (most.x, most.y) = (most.x.max(x), most.y.max(y));
        Point::new(x, y, 0.0)
    }

    /// Adds an entity to the layer of a processing step.
    pub(crate) fn add(&mut self, step: ProcessingStep, what: EntityType) {
        let mut entity = Entity::new(what);
        entity.common.layer = name(step);
        self.drawing.add_entity(entity);
    }

    /// The library's drawing, for direct access.
    pub(crate) fn library(&mut self) -> &mut Drawing {
        &mut self.drawing
    }

    /// The text that the library writes.
    pub(crate) fn as_the_library_writes_it(&self) -> Result<String, ExportError> {
        let mut drawing = self.drawing.clone();
        let Extent { least, most } = self.extent;
        let (width, height) = (most.x - least.x, most.y - least.y);
        for view in drawing.view_ports_mut() {
            view.view_center = Point::new((least.x + most.x) / 2.0, (least.y + most.y) / 2.0, 0.0);
            view.view_height = VIEW * height;
            view.view_port_aspect_ratio = if height > 0.0 { width / height } else { 1.0 };
        }
        let mut bytes = Vec::new();
        drawing
            .save(&mut bytes)
            .map_err(|why| ExportError::Written(format!("the drawing cannot be written: {why}")))?;
        String::from_utf8(bytes)
            .map_err(|why| ExportError::Written(format!("the drawing is no text: {why}")))
    }
}
