//! The line groups: what is cut, and what is creased which way.
//!
//! Given the runs of the blank; gives one group per processing step with nothing but paths in it, present even when
//! empty, so that a cutter or a drawing program finds them by name. Groups and paths stand in the order of the work, and
//! no line stands in two places.

use std::collections::BTreeSet;

use svg::node::element::Group;
use traywright_document::{Document, ProcessingStep};
use traywright_look::{DrawingFile, Layer, LineStyle};

use crate::drawing_area::DrawingArea;
use crate::names::Names;
use crate::path;

/// An empty group that draws its paths in a style.
pub(crate) fn group(id: &str, style: LineStyle) -> Group {
    let group = Group::new()
        .set("id", id)
        .set("fill", "none")
        .set("stroke", style.colour.hex())
        .set("stroke-width", style.width.to_string())
        .set("stroke-linecap", "butt")
        .set("stroke-linejoin", "round");
    if style.dashes.is_empty() {
        return group;
    }
    let dashes: Vec<String> = style.dashes.iter().map(f64::to_string).collect();
    group.set("stroke-dasharray", dashes.join(" "))
}

/// The three groups of lines that hands or machines work along, in the order of the work; without words they are bare
/// hairlines.
pub(crate) fn line_groups(
    document: &Document,
    words: Option<&DrawingFile>,
    area: &DrawingArea,
) -> Vec<Group> {
    let runs = document.all_toolpaths();
    let mut names = Names::new(document, words);
    let mut seen = BTreeSet::new();
    for run in runs.iter().filter(|run| run.contour.closed) {
        path::unseen(path::strokes(&run.contour, area), &mut seen);
    }
    let group = |step: ProcessingStep| {
        let layer = Layer::Step(step);
        let style = match words {
            Some(_) => layer.toolpath_look(),
            None => layer.look().hairline(),
        };
        let mut group = group(layer.name(), style);
        for run in runs.iter().filter(|run| run.step == step) {
            let strokes = path::strokes(&run.contour, area);
            let data = if run.contour.closed {
                path::closed(&strokes)
            } else {
                path::open(&path::unseen(strokes, &mut seen))
            };
            if data.starts_with('M') {
                group = group.add(names.path(run.part, data));
            }
        }
        group
    };
    document.work_steps().into_iter().map(group).collect()
}
