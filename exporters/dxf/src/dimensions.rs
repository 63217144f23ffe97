//! Dimensions: in release 2000 as dimension entities, in release 12 as lines and words alone.
//!
//! **Input:** placed dimensions. **Output:** for each one its lines, filled heads and words, on the layer of the
//! dimensions. In release 2000 they are the block of an entity that says what it measures, so that every reader draws the
//! same picture and none has to draw its own.

use dxf::Block;
use dxf::entities::{DimensionBase, Entity, EntityType, Line, RotatedDimension, Solid};
use dxf::enums::{AttachmentPoint, DimensionType, HorizontalTextJustification as Justified};
use traywright_document::steady::Steady;
use traywright_document::{Dimension, DxfVersion, Point as FlatPoint, ProcessingStep};
use traywright_look::DrawingFile;

use crate::drawing::{DxfDrawing, name};
use crate::words::{printable, text};

/// Draws all dimensions.
pub(crate) fn draw(file: &DrawingFile, sheet: &mut DxfDrawing) {
    let document = sheet.document;
    for (index, dimension) in document.flat.dimensions.iter().enumerate() {
        let words = file.decimal(&dimension.text);
        let picture = picture(dimension, &words, sheet);
        match sheet.version() {
            DxfVersion::R12 => picture
                .into_iter()
                .for_each(|part| sheet.add(ProcessingStep::Dimensions, part)),
            _ => {
                // Source: DXF reference, BLOCK: the names of anonymous blocks of dimensions begin with *D.
                let block = format!("*D{}", index + 1);
                add_block(&block, picture, sheet);
                let entity = entity(dimension, &words, block, sheet);
                sheet.add(ProcessingStep::Dimensions, entity);
            }
        }
    }
}

/// The lines, heads and words of a dimension.
fn picture(dimension: &Dimension, words: &str, sheet: &mut DxfDrawing) -> Vec<EntityType> {
    let mut parts = Vec::new();
    for [from, to] in std::iter::once(&dimension.line).chain(&dimension.extensions) {
        let (from, to) = (sheet.place(*from), sheet.place(*to));
        parts.push(EntityType::Line(Line::new(from, to)));
    }
    for head in dimension.heads() {
        let [first, second, third] = head.map(|corner| sheet.place(corner));
        parts.push(EntityType::Solid(Solid {
            first_corner: first,
            second_corner: second,
            third_corner: third.clone(),
            fourth_corner: third,
            ..Solid::default()
        }));
    }
    let at = sheet.place(dimension.text_at);
    let height = dimension.text_height;
    parts.push(text(sheet, words, at, height, Justified::Center));
    parts
}

fn add_block(block: &str, picture: Vec<EntityType>, sheet: &mut DxfDrawing) {
    let layer = name(ProcessingStep::Dimensions);
    let entities = picture.into_iter().map(|part| {
        let mut entity = Entity::new(part);
        entity.common.layer = layer.clone();
        entity
    });
    let block = Block {
        name: block.to_owned(),
        // Source: DXF reference, BLOCK, group 70: 1 is an anonymous block.
        flags: 1,
        entities: entities.collect(),
        ..Block::default()
    };
    sheet.library().add_block(block);
}

/// The entity of a dimension: what it measures, and the block that draws it.
// Source: DXF reference, DIMENSION: 13 and 14 are the measured points, 10 is a point of the dimension line, 11 the middle
// of the words, 50 the angle of the line, 42 the length, 1 the words that stand in place of it.
fn entity(dimension: &Dimension, words: &str, block: String, sheet: &mut DxfDrawing) -> EntityType {
    let [from, to] = dimension.line;
    let way = to - from;
    let middle = FlatPoint::new(
        dimension.text_at.x,
        dimension.text_at.y + dimension.text_height / 2.0,
    );
    let [start, end] = dimension.line.map(|end| measured(dimension, end));
    let base = DimensionBase {
        block_name: block,
        definition_point_1: sheet.place(to),
        text_mid_point: sheet.place(middle),
        dimension_type: DimensionType::RotatedHorizontalOrVertical,
        attachment_point: AttachmentPoint::MiddleCenter,
        actual_measurement: way.length(),
        text: printable(words),
        is_block_reference_referenced_by_this_block_only: true,
        is_at_user_defined_location: true,
        ..DimensionBase::default()
    };
    EntityType::RotatedDimension(RotatedDimension {
        dimension_base: base,
        definition_point_2: sheet.place(start),
        definition_point_3: sheet.place(end),
        rotation_angle: way.y.steady_atan2(way.x).to_degrees(),
        ..RotatedDimension::default()
    })
}

/// The measured point at an end of a dimension line: the far end of the line that leads to it, or the end itself.
// Derived: extension lines are square to the dimension line and pass its end; tails run along it.
fn measured(dimension: &Dimension, end: FlatPoint) -> FlatPoint {
    let [from, to] = dimension.line;
    let way = (to - from).unit();
    let leads_here = |line: &&[FlatPoint; 2]| {
        line.iter()
            .all(|point| (*point - end).dot(way).abs() < SQUARE_MM)
    };
    let lines = dimension.extensions.iter().filter(leads_here);
    let ends = lines.flatten().copied();
    let far = |point: &FlatPoint| (*point - end).length();
    ends.max_by(|one, other| far(one).total_cmp(&far(other)))
        .unwrap_or(end)
}

/// A point is square beside the end of a dimension line within this.
// Derived: far above the rounding of the engine, far below anything that is drawn.
const SQUARE_MM: f64 = 1e-6;
