//! The drawing: layers with their line types, the initial view, and all entities.
//!
//! **Input:** the document, and the entities of `lines`, `dimensions` and `words`. **Output:** the text of the DXF library, from
//! which `structure` builds a valid file. The blank is moved so that its lower left corner is at 0, 0; every length is
//! rounded once, here.

use dxf::entities::{Entity, EntityType};
use dxf::enums::AcadVersion;
use dxf::tables::{AppId, Layer, LineType};
use dxf::{Color, Drawing, Point, XData, XDataItem};
use traywright_document::{Document, DxfVersion, ExportError, Extent, ProcessingStep};
use traywright_look as look;

/// White space around everything in the initial view, as a factor of its size.
const VIEW: f64 = 1.1;

/// The name of the layer of a processing step.
// Source: ISO 19593-1, names of processing steps, in capitals with hyphens.
pub(crate) fn name(step: ProcessingStep) -> String {
    look::Layer::Step(step).name().to_uppercase()
}

/// The layers of words that measure nothing.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum WordLayer {
    /// The name of the tray.
    Title,
    /// What the file is about, and the names of items.
    Notes,
    /// The labels that belong to the piece.
    Labels,
}

impl WordLayer {
    const ALL: [WordLayer; 3] = [WordLayer::Title, WordLayer::Notes, WordLayer::Labels];

    // Source: core/CONTRACT.md, "Files: DXF".
    fn name(self) -> &'static str {
        match self {
            WordLayer::Title => "TITLE",
            WordLayer::Notes => "NOTES",
            WordLayer::Labels => "LABELS",
        }
    }
}

/// The name under which our extended data is registered.
const APPLICATION: &str = "TRAYWRIGHT";

/// The colour of a layer by index: the nearest of the format's 255 colours to the layer's colour in all other files.
fn colour(step: ProcessingStep) -> u8 {
    match step {
        ProcessingStep::Cutting => 7,
        ProcessingStep::Creasing | ProcessingStep::Perforating => 6,
        ProcessingStep::ReverseCreasing | ProcessingStep::ReversePerforating => 3,
        _ => 8,
    }
}

/// The line type of a layer, by the name that readers know for a pattern with this number of parts.
fn line_type(look: look::LineStyle) -> &'static str {
    match look.dashes.len() {
        0 => "CONTINUOUS",
        2 => "DASHED",
        _ => "DASHDOT",
    }
}

/// Dashes as positive lengths and gaps as negative ones.
// Source: DXF reference, LTYPE, group 49.
fn pattern(look: look::LineStyle) -> Vec<f64> {
    let dashes = look.dashes.iter();
    let signs = [1.0, -1.0].into_iter().cycle();
    dashes
        .zip(signs)
        .map(|(length, sign)| length * sign)
        .collect()
}

/// The layers that a bare drawing does not have, and the name of our extended data.
fn add_layers_of_words(drawing: &mut Drawing) {
    for layer in WordLayer::ALL {
        drawing.add_layer(Layer {
            name: layer.name().to_owned(),
            color: Color::from_index(colour(ProcessingStep::Dimensions)),
            line_type_name: "CONTINUOUS".to_owned(),
            ..Layer::default()
        });
    }
    drawing.add_app_id(AppId {
        name: APPLICATION.to_owned(),
        ..AppId::default()
    });
}

/// A drawing being built.
pub(crate) struct DxfDrawing<'a> {
    pub(crate) document: &'a Document,
    drawing: Drawing,
    /// The point of the flat frame that is at 0, 0 in the drawing.
    corner: traywright_document::Point,
    /// Extent of all entities; the width of words is estimated.
    extent: Extent,
}

/// A line type with that pattern of dashes and gaps.
fn dashed(name: &str, pattern: Vec<f64>) -> LineType {
    LineType {
        name: name.to_owned(),
        description: name.to_lowercase(),
        element_count: pattern.len() as i32,
        total_pattern_length: pattern.iter().map(|length| length.abs()).sum(),
        dash_dot_space_lengths: pattern,
        ..LineType::default()
    }
}

/// A dimension that somebody adds or draws anew looks like ours.
fn size_dimensions(drawing: &mut Drawing, document: &Document) {
    let Some(one) = document.flat.dimensions.first() else {
        return;
    };
    let [[tip, left, right], _] = one.heads();
    let head = (tip - left.on_the_way(right, 0.5)).length();
    for style in drawing.dim_styles_mut() {
        style.dimensioning_text_height = one.text_height;
        style.dimensioning_arrow_size = head;
        // Common practice, none published: a quarter of the height of the words.
        style.dimension_extension_line_offset = one.text_height / 4.0;
        style.dimension_extension_line_extension = one.text_height / 4.0;
    }
}

impl<'a> DxfDrawing<'a> {
    /// A drawing with its layers and no entities.
    pub(crate) fn new(document: &'a Document) -> DxfDrawing<'a> {
        let mut drawing = Drawing::new();
        drawing.header.version = match document.output.machine.dxf {
            DxfVersion::R12 => AcadVersion::R12,
            _ => AcadVersion::R2000,
        };
        let is_bare = document.has_bare_lines();
        let work = document.work_steps();
        let is_drawn = |step: &ProcessingStep| {
            work.contains(step) || !is_bare && *step == ProcessingStep::Dimensions
        };
        for step in ProcessingStep::ALL.into_iter().filter(is_drawn) {
            let look = look::Layer::Step(step).toolpath_look();
            let look = if is_bare { look.hairline() } else { look };
            let (name, colour, line_type, pattern) =
                (name(step), colour(step), line_type(look), pattern(look));
            if !pattern.is_empty() {
                drawing.add_line_type(dashed(line_type, pattern));
            }
            drawing.add_layer(Layer {
                name,
                color: Color::from_index(colour),
                line_type_name: line_type.to_owned(),
                ..Layer::default()
            });
        }
        if !is_bare {
            add_layers_of_words(&mut drawing);
            size_dimensions(&mut drawing, document);
        }
        let drawn = match is_bare {
            true => document.cut_extent(),
            false => document.flat.extent,
        };
        let mut new = DxfDrawing {
            document,
            drawing,
            corner: drawn.least,
            extent: Extent::NOTHING,
        };
        if is_bare {
            // The whole of it, arcs included: the corners of the lines alone would leave out what bulges.
            new.place(drawn.least);
            new.place(drawn.most);
        }
        new
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
        self.at(point.x - self.corner.x, point.y - self.corner.y)
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

    /// Adds a line to the layer of a processing step, with what programs may read of it: names and numbers. A bare file
    /// has none, and the library writes none in release 12.
    pub(crate) fn add_with_data(
        &mut self,
        step: ProcessingStep,
        what: EntityType,
        data: Vec<XDataItem>,
    ) {
        let mut entity = Entity::new(what);
        entity.common.layer = name(step);
        if !data.is_empty() && !self.document.has_bare_lines() {
            entity.common.x_data.push(XData {
                application_name: APPLICATION.to_owned(),
                items: data,
            });
        }
        self.drawing.add_entity(entity);
    }

    /// Adds words to a layer of words.
    pub(crate) fn add_words(&mut self, layer: WordLayer, what: EntityType) {
        let mut entity = Entity::new(what);
        entity.common.layer = layer.name().to_owned();
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
