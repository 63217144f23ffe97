//! Toolpaths: the lines of the blank in strokes, in the order and direction in which a machine makes them.
//!
//! **Input:** the lines of a blank and the job's machine options. **Output:** every line once: creases before cuts,
//! inner cuts before the outline, the nearest line next, open cuts in the fewest strokes. Closed cuts are offset by
//! half the kerf and the outline gets its nicks here and nowhere else, so that every file for a machine has the same
//! lines, while the panels and the flat stay the nominal piece.

mod join;
mod kerf;
mod machine;
mod nicks;
mod order;
mod stroke;
#[cfg(test)]
mod tests;

pub(crate) use machine::Cut;

use traywright_document::{Flat, Machine, Part, ProcessingStep, Toolpath};

use crate::geometry::Point;
use stroke::Stroke;

/// Why there are no toolpaths.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum ToolpathError {
    /// The kerf is too wide for a corner or a notch here.
    KerfTooWide(Point),
    /// No edge of the outline is long enough for two nicks.
    NoRoomForNicks,
}

/// Puts the lines of a blank into the machine's order.
///
/// # Refuses
/// A kerf wider than a notch or an opening, and nicks for which the outline has no room.
pub(crate) fn toolpaths(flat: &Flat, machine: &Machine) -> Result<Vec<Toolpath>, ToolpathError> {
    let mut lines: Vec<Line> = flat.toolpaths().iter().map(Line::of).collect();
    let (slits, mut others): (Vec<Line>, Vec<Line>) =
        lines.drain(..).partition(|line| line.part == Part::Slit);
    let slits = join::fewest(slits.into_iter().map(|line| line.path).collect());
    for line in &mut others {
        if machine.kerf.mm() > 0.0 && line.path.closed {
            line.path = kerf::beside(&line.path, machine.kerf.mm() / 2.0)?;
        }
    }
    lines = others;
    lines.extend(slits.into_iter().map(|path| Line {
        step: ProcessingStep::Cutting,
        part: Part::Slit,
        path,
    }));
    let start = Point::new(flat.extent.least.x, flat.extent.least.y);
    let mut ordered = order::by_nearness(lines, start);
    if let Some(nicks) = machine.nicks {
        ordered = held(ordered, nicks)?;
    }
    Ok(ordered.iter().map(Line::run).collect())
}

/// A line that is being made into a toolpath.
#[derive(Clone, Debug)]
struct Line {
    step: ProcessingStep,
    part: Part,
    path: Stroke,
}

impl Line {
    fn of(run: &Toolpath) -> Line {
        Line {
            step: run.step,
            part: run.part,
            path: Stroke::of(&run.contour),
        }
    }

    fn run(&self) -> Toolpath {
        Toolpath {
            step: self.step,
            part: self.part,
            contour: self.path.contour(),
        }
    }
}

/// The lines, with nicks in the outline.
fn held(lines: Vec<Line>, nicks: traywright_document::Nicks) -> Result<Vec<Line>, ToolpathError> {
    let mut held = Vec::new();
    for line in lines {
        if line.part != Part::Outline {
            held.push(line);
            continue;
        }
        for path in nicks::with_gaps(&line.path, nicks)? {
            held.push(Line {
                path,
                ..line.clone()
            });
        }
    }
    Ok(held)
}
