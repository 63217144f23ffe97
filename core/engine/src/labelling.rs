//! The labels of a job on the panels of its tray: where each stands, how large, on which face, and which way up.
//!
//! **Input:** the lines and the panels of a tray as drawn, and the labels that the job asks for. **Output:** each label
//! in the middle of the free rectangle in which it can be largest, on the face that shows in the finished tray, upright
//! as the maker looks at it. **Errors:** all labels that cannot be printed so: an unknown panel, words too large for
//! it, and labels that would overlap.
//!
//! The rules, which core/CONTRACT.md states under "Labels on panels":
//! - A level panel is read from above with the top of the words to the north; any other panel with their top up.
//! - The root carries them on its upper face; any other panel on the face with more room in front of it. Where both
//!   have the same, a level panel takes its upper face and any other the face that looks away from the tray.

mod free_rectangle;
mod pictures;
mod shown;
#[cfg(test)]
mod tests;

use traywright_document::{Flat, Orientation, Panel, PanelLabel, Point, PrintedFace, Turn, Vector};

use crate::dimensions::width_of_words;
use crate::finding::{SourceError, SourceSpan};
use crate::job::{DrawnFace, Label, Length, Unit};
use crate::wording::nearest;
use free_rectangle::{Frame, FreeRectangle, Wanted, largest};
pub(crate) use pictures::place_pictures;

/// Heights of capitals that a label without a size may have, the largest first.
// Source: ISO 3098-1, nominal sizes of lettering (the series is from memory); the largest is a choice of this project.
const HEIGHTS: [f64; 5] = [10.0, 7.0, 5.0, 3.5, 2.5];
/// The smallest height that a label without a size may have.
// Source: common practice, none published: the smallest words of the drawing.
const LEAST: f64 = 1.8;
/// White between a label and a cut, and from a crease the thickness of the card more.
// Source: common practice, none published.
const MARGIN: f64 = 2.0;
/// Letters such as g reach this share of a capital below the baseline; as much is kept free above the words, so that
/// the capitals stand in the middle.
// Source: common practice, none published.
const BELOW: f64 = 1.0 / 3.0;
/// Lengths that differ by less are the same, in mm.
// Derived: far more than the rounding of sums of lengths, far less than any tool can cut.
pub(super) const SAME_MM: f64 = 1e-6;
/// More panels than these are not listed in a message.
const MOST_NAMED: usize = 12;

/// A tray as drawn.
#[derive(Clone, Copy, Debug)]
pub(crate) struct DrawnTray<'a> {
    pub(crate) flat: &'a Flat,
    pub(crate) panels: &'a [Panel],
    pub(crate) stands: Orientation,
    pub(crate) drawn_face: DrawnFace,
    pub(crate) caliper: f64,
}

impl DrawnTray<'_> {
    /// Which way along z of the flat frame is up in the finished tray.
    // Derived: z comes out of the drawn face. A tray on its root panel has the face that is inside up; one on its walls,
    // that which is outside.
    fn up(&self) -> f64 {
        let inside = self.drawn_face == DrawnFace::Inside;
        if inside == (self.stands == Orientation::RootDown) {
            1.0
        } else {
            -1.0
        }
    }
}

/// Places all labels of a job.
///
/// # Errors
/// Those of all labels.
pub(crate) fn place(
    tray: DrawnTray,
    labels: &[Label],
    unit: Unit,
) -> Result<Vec<PanelLabel>, Vec<SourceError>> {
    let mut placed: Vec<PanelLabel> = Vec::new();
    let mut owners: Vec<&Label> = Vec::new();
    let mut faults = Vec::new();
    for label in labels {
        match place_one(tray, label, (&placed, &owners), unit) {
            Ok(found) => {
                placed.push(found);
                owners.push(label);
            }
            Err(fault) => faults.push(*fault),
        }
    }
    if faults.is_empty() {
        Ok(placed)
    } else {
        Err(faults)
    }
}

fn place_one(
    tray: DrawnTray,
    label: &Label,
    (placed, owners): (&[PanelLabel], &[&Label]),
    unit: Unit,
) -> Result<PanelLabel, Box<SourceError>> {
    let found = tray.panels.iter().position(|it| it.name == label.panel);
    let unknown = || Box::new(unknown_panel(tray, &label.panel, &label.panel_place));
    let panel = found.ok_or_else(unknown)?;
    let top = shown::top(&tray, panel);
    let beside: Vec<[Point; 4]> = placed
        .iter()
        .filter(|other| other.panel == panel)
        .map(PanelLabel::corners)
        .collect();
    let wanted = wanted(label);
    let room = |beside: &[[Point; 4]]| {
        let frame = Frame::of(
            top,
            matches!(label.turn, Turn::Quarter | Turn::ThreeQuarters),
        );
        largest(tray, panel, (frame, beside), wanted)
    };
    let height = |room: &FreeRectangle| height_in(label, room.height);
    match room(&beside).and_then(|room| Some((room, height(&room)?))) {
        Some((room, height)) => Ok(finished(tray, (label, panel), (top, room.middle), height)),
        None => {
            let alone = room(&[]).filter(|room| height(room).is_some());
            let other = owners.iter().rfind(|other| other.panel == label.panel);
            Err(Box::new(match (alone, other) {
                (Some(_), Some(other)) => overlapping(label, other, room(&beside), unit),
                _ => too_large(label, room(&beside), unit),
            }))
        }
    }
}

/// What a label asks of a free rectangle.
fn wanted(label: &Label) -> Wanted {
    Wanted {
        // For capitals of 1 mm.
        width: width_of_words(&label.text, 1.0),
        height: 1.0 + 2.0 * BELOW,
        enough: label.size.map_or(HEIGHTS[0], Length::mm),
    }
}

/// The height that a label has where so much has room; none where it does not fit.
fn height_in(label: &Label, most: f64) -> Option<f64> {
    match label.size {
        Some(size) => (size.mm() <= most + SAME_MM).then_some(size.mm()),
        None => {
            let mut usual = HEIGHTS.into_iter();
            let usual = usual.find(|height| *height <= most + SAME_MM);
            usual.or((most >= LEAST).then_some(most))
        }
    }
}

fn finished(
    tray: DrawnTray,
    (label, panel): (&Label, usize),
    (top, middle): (Vector, Point),
    height: f64,
) -> PanelLabel {
    let printed_on = shown::face_at(&tray, panel, middle);
    PanelLabel {
        text: label.text.clone(),
        panel,
        at: middle,
        up: turned_top(top, label.turn, printed_on),
        height,
        width: width_of_words(&label.text, height),
        printed_on,
    }
}

/// The way to the top of what is printed, turned counter-clockwise as whoever looks at it sees it.
fn turned_top(top: Vector, turn: Turn, printed_on: PrintedFace) -> Vector {
    // Whoever looks onto the far face sees the card turned the other way.
    let turned = match printed_on {
        PrintedFace::Drawn => turn.of(top),
        PrintedFace::Far => turn.reversed().of(top),
    };
    // Adding 0 turns -0 into 0.
    Vector::new(turned.x + 0.0, turned.y + 0.0)
}

fn unknown_panel(tray: DrawnTray, panel: &str, place: &SourceSpan) -> SourceError {
    let names: Vec<&str> = tray.panels.iter().map(|it| it.name.as_str()).collect();
    let known = match nearest(panel, names.iter().copied()) {
        Some(best) => format!("did you mean `{best}`?"),
        None => {
            let more = if names.len() > MOST_NAMED {
                ", …"
            } else {
                ""
            };
            let first = names[..names.len().min(MOST_NAMED)].join(", ");
            format!("its panels are {first}{more}")
        }
    };
    let title = format!("this tray has no panel `{panel}`");
    SourceError::new(place.clone(), title, known)
}

fn too_large(label: &Label, room: Option<FreeRectangle>, unit: Unit) -> SourceError {
    let Label { text, panel, .. } = label;
    let place = label.size_place.clone().unwrap_or(label.place.clone());
    let title = format!("the label `{text}` does not fit on `{panel}`");
    let advice = match room.and_then(|room| written(room.height, unit)) {
        Some(size) => format!("at most {size} has room there; fewer words can be larger"),
        None => format!("`{panel}` has no room for words: choose another panel"),
    };
    SourceError::new(place, title, advice)
}

fn overlapping(
    label: &Label,
    other: &Label,
    room: Option<FreeRectangle>,
    unit: Unit,
) -> SourceError {
    let title = format!(
        "the labels `{}` and `{}` would overlap on `{}`",
        other.text, label.text, label.panel
    );
    let advice = match room.and_then(|room| written(room.height, unit)) {
        Some(size) => format!("beside the other one at most {size} has room"),
        None => "beside the other one nothing has room: choose another panel, or a smaller size for the other".to_owned(),
    };
    let fault = SourceError::new(label.place.clone(), title, advice);
    fault.with_context(other.place.clone(), "the other one stands here")
}

/// A size as a job writes it, rounded down so that it fits; none where words would be too small to read.
fn written(height: f64, unit: Unit) -> Option<String> {
    let (step, scale, sign) = match unit {
        Unit::Millimetre => (0.1, 1.0, "mm"),
        Unit::Inch => (0.254, 25.4, "in"),
    };
    let steps = (height / step + SAME_MM).floor();
    let size = steps * step;
    // Tenths of a millimetre, hundredths of an inch.
    let figure = (size / scale * 100.0).round() / 100.0;
    (size >= LEAST).then(|| format!("size=({sign}){figure}"))
}
