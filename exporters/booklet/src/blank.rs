//! Figures of the blank lying flat.
//!
//! Given the lines of the blank; gives figures in which one kind of line stands out and the rest is thin. Creases keep
//! the patterns that they have on the template.

use traywright_document::steady::Steady;
use traywright_document::{Contour, Document, Flat, Point, ProcessingStep};
use traywright_look::{CREASING, Colour, INK, LineStyle, REVERSE_CREASING};

use crate::card::chords;
use crate::detail::Detail;
use crate::figure::Figure;
use crate::line_styles;
use crate::points::{RELIEF_MM, is_relief};
use crate::visible::Seen;
use crate::{printed, printed_pictures};

/// What a figure of the blank is about.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(crate) enum About {
    Creases,
    Openings,
    Outline,
    All,
}

/// A cut that is made now, one that is not, and a crease that is not the matter.
const NOW: LineStyle = line(Colour([0, 0, 0]), 0.6);
pub(crate) const LATER: LineStyle = line(Colour([0x99, 0x99, 0x99]), 0.14);

const fn line(colour: Colour, width: f64) -> LineStyle {
    LineStyle {
        colour,
        width,
        dashes: &[],
    }
}

/// The blank, with what the figure is about in heavy lines.
pub(crate) fn figure(flat: &Flat, about: About) -> Figure {
    let mut figure = Figure::default();
    let look = |is_now: bool| match about {
        About::All => line_styles::EDGE,
        _ if is_now => NOW,
        _ => LATER,
    };
    for crease in &flat.creases {
        let pattern = match crease.step() {
            ProcessingStep::ReverseCreasing => REVERSE_CREASING,
            _ => CREASING,
        };
        let look = if matches!(about, About::Creases | About::All) {
            pattern
        } else {
            LATER
        };
        figure
            .picture
            .lines
            .push((look, vec![seen(crease.from), seen(crease.to)]));
    }
    let inner = look(about == About::Openings);
    figure
        .picture
        .lines
        .extend(flat.holes.iter().map(|hole| (inner, way(hole))));
    figure
        .picture
        .lines
        .extend(flat.open_cuts.iter().map(|cut| (inner, way(cut))));
    figure
        .picture
        .lines
        .push((look(about == About::Outline), way(&flat.outline)));
    let ink = match about {
        About::All => INK,
        _ => LATER.colour,
    };
    figure.picture.words.extend(printed::on_blank(flat, ink));
    if about == About::All {
        figure
            .picture
            .prints
            .extend(printed_pictures::on_blank(flat));
    }
    figure
}

/// A corner of the blank's cuts, enlarged, where one is too small for a knife to turn in: a relief, or one of the outline.
pub(crate) fn relief(document: &Document) -> Option<Figure> {
    let flat = &document.flat;
    let mut reliefs = flat.holes.iter().filter(|hole| is_relief(hole));
    let (about, corner) = match reliefs.find_map(short_edge) {
        Some(corner) => (About::Openings, corner),
        None => (About::Outline, short_edge(&flat.outline)?),
    };
    let mut figure = figure(flat, about);
    figure.detail = Some(Detail {
        at: corner,
        radius: 2.5,
        at_left: false,
    });
    Some(figure)
}

/// The middle of the first edge that is shorter than a knife can turn in.
fn short_edge(contour: &Contour) -> Option<Seen> {
    let corners = chords(contour);
    let is_straight = contour
        .segments
        .iter()
        .all(|segment| matches!(segment, traywright_document::Segment::Line { .. }));
    let edges = corners.iter().zip(corners.iter().cycle().skip(1));
    let short = |(from, to): (&Point, &Point)| {
        let length = (to.x - from.x).steady_hypot(to.y - from.y);
        (is_straight && length < RELIEF_MM).then(|| [(from.x + to.x) / 2.0, (from.y + to.y) / 2.0])
    };
    edges.into_iter().find_map(short)
}

/// The corners of a contour, closed where it is.
fn way(contour: &Contour) -> Vec<Seen> {
    let mut corners: Vec<Seen> = chords(contour).into_iter().map(seen).collect();
    if contour.closed {
        corners.push(corners[0]);
    }
    corners
}

fn seen(point: Point) -> Seen {
    [point.x, point.y]
}
