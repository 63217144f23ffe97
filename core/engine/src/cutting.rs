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
mod webs;

pub(crate) use machine::Cut;

use traywright_document::{
    Flat, Length, Machine, Nicks, Part, Perforation, ProcessingStep, Toolpath,
};

use crate::geometry::Point;
use crate::job::FILE_ROUNDING_MM;
use stroke::Stroke;

/// Why there are no toolpaths.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum ToolpathError {
    /// The kerf is wider than the notch or opening here.
    KerfTooWide {
        at: Point,
        /// The width of the notch or opening.
        width: f64,
    },
    /// The kerf leaves nothing of the card between two cuts here.
    KerfTakesWeb {
        at: Point,
        /// The width of the card.
        width: f64,
        /// What the kerf takes of it.
        taken: f64,
    },
    /// No edge of the outline is long enough for two nicks.
    NoRoomForNicks,
    /// A crease is too short for one cut between two gaps.
    CreaseTooShort {
        /// Index of the panel that moves at it.
        panel: usize,
        /// The length of the crease.
        length: f64,
    },
}

/// Puts the lines of a blank into the machine's order.
///
/// # Refuses
/// A kerf wider than a notch, an opening or the card between two cuts, nicks for which the outline has no room, and a
/// crease that is too short to be perforated.
pub(crate) fn toolpaths(flat: &Flat, machine: &Machine) -> Result<Vec<Toolpath>, ToolpathError> {
    if let Some(error) = webs::lost(flat, machine.kerf.mm()) {
        return Err(error);
    }
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
        ordered = held(ordered, nicks, machine.smallest)?;
    }
    if let Some(perforation) = machine.perforation {
        ordered = perforated(ordered, &perforation)?;
    }
    Ok(ordered.iter().map(Line::run).collect())
}

/// The lines, with every crease in short cuts.
fn perforated(lines: Vec<Line>, perforation: &Perforation) -> Result<Vec<Line>, ToolpathError> {
    let mut perforated = Vec::new();
    for line in lines {
        let Part::Crease { panel } = line.part else {
            perforated.push(line);
            continue;
        };
        let (from, to) = (line.path.start(), line.path.end());
        let cuts = perforation.cuts(from, to);
        if cuts.is_empty() {
            let length = (to - from).length();
            return Err(ToolpathError::CreaseTooShort { panel, length });
        }
        perforated.extend(cuts.iter().map(|cut| Line {
            step: line.step.perforated(),
            part: line.part,
            path: Stroke::of(cut),
        }));
    }
    Ok(perforated)
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
fn held(
    lines: Vec<Line>,
    nicks: Nicks,
    smallest: Option<Length>,
) -> Result<Vec<Line>, ToolpathError> {
    // A little more, because files are rounded.
    let shortest = smallest.map_or(0.0, |smallest| smallest.mm() + FILE_ROUNDING_MM);
    let mut held = Vec::new();
    for line in lines {
        if line.part != Part::Outline {
            held.push(line);
            continue;
        }
        for path in nicks::with_gaps(&line.path, nicks, shortest)? {
            held.push(Line {
                path,
                ..line.clone()
            });
        }
    }
    Ok(held)
}
