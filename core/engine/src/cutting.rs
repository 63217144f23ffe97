//! The work of a machine: the lines of the blank in runs, in the order and direction in which a tool goes along them.
//!
//! Given the lines of a blank and what the maker wishes for; gives every line once: creases before cuts, cuts inside
//! before the outline, near neighbours next, open cuts in the fewest runs. Closed cuts are moved off the piece by half
//! the width of the cut, and the outline gets the gaps that hold it, here and nowhere else: so every file that a machine
//! reads is given the same lines, and the panels and the flat keep the piece as it is meant to be.

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

/// Why there is no such work.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum ToolpathError {
    /// The cut is too wide for a corner or a notch here.
    KerfTooWide(Point),
    /// No edge of the outline is long enough for two gaps.
    NoRoomForNicks,
}

/// Puts the lines of a blank into the order of the work.
///
/// # Refuses
/// A cut that is wider than a notch or an opening, and gaps that the outline has no room for.
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

/// A line on its way to being a run.
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

/// The lines with gaps in the outline.
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
