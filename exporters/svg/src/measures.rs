//! The measures beside the blank, drawn as on any technical drawing.
//!
//! Given dimensions that have their places already; gives thin lines with filled arrow heads, and words that
//! read along x. It places nothing.

use svg::node::Node;
use svg::node::element::{Group, Path};
use traywright_document::{Dimension, Label, Point, ProcessingStep};
use traywright_look::{DIMENSIONS, DrawingFile, Layer};

use crate::drawing_area::DrawingArea;
use crate::layers;
use crate::words;

/// The lines of all measures, and a group of their words: a group of lines holds nothing but paths.
pub(crate) fn groups(
    dimensions: &[Dimension],
    file: &DrawingFile,
    area: &DrawingArea,
) -> [Group; 2] {
    let id = Layer::Step(ProcessingStep::Dimensions).name();
    let mut group = layers::group(id, DIMENSIONS);
    let mut figures = Group::new().set("id", "dimension-figures");
    for dimension in dimensions {
        let lines = std::iter::once(&dimension.line).chain(&dimension.extensions);
        let lines: Vec<String> = lines.map(|line| polyline(line, area)).collect();
        let heads = dimension.heads().map(|head| polyline(&head, area) + " Z");
        let at = area.place(dimension.text_at);
        let colour = DIMENSIONS.colour;
        let mut words = words::text(
            &file.decimal(&dimension.text),
            at,
            dimension.text_height,
            colour,
        );
        words.assign("text-anchor", "middle");
        words.assign("stroke", "none");
        group = group.add(Path::new().set("d", lines.join(" "))).add(
            Path::new()
                .set("d", heads.join(" "))
                .set("fill", colour.hex())
                .set("stroke", "none"),
        );
        figures = figures.add(words);
    }
    [group, figures]
}

/// The names of what goes where, or the letters of parts, in a group of that name; a drawing without any has no such group.
pub(crate) fn names(id: &str, labels: &[Label], area: &DrawingArea) -> Option<Group> {
    if labels.is_empty() {
        return None;
    }
    let group = Group::new().set("id", id);
    let name = |label: &Label| {
        let at = area.place(label.at);
        let mut words = words::text(&label.text, at, label.height, DIMENSIONS.colour);
        words.assign("text-anchor", "middle");
        words
    };
    Some(labels.iter().map(name).fold(group, Group::add))
}

/// Path data through points.
fn polyline(points: &[Point], area: &DrawingArea) -> String {
    let places: Vec<String> = points
        .iter()
        .map(|point| area.place(*point).to_string())
        .collect();
    format!("M {}", places.join(" L "))
}
