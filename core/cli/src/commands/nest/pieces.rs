//! From checked jobs to what is laid: outlines, counts and turns.
//!
//! The lines of a kerf stand off the blank; the gap is kept between those lines. Where a job states the grain of its card,
//! a blank turns by halves only.

use traywright_document::{Chords, Document, Grain, Point, ToolKind, Turn, Unit};
use traywright_job::checked_job::CheckedJob;
use traywright_nest::{NestError, Piece};

use super::NestedTray;
use crate::args::{NestArguments, StockGrain};
use crate::commands::make::stem_of;
use crate::error::CliError;

/// How far chords lie inside an arc of an outline.
// Source: measured: finer chords make the regions of round outlines large and the search slow, and win less card than that.
const CHORD_MM: f64 = 0.1;

/// The trays of a call with their counts.
pub(super) fn trays(
    jobs: &[CheckedJob],
    asked: &NestArguments,
) -> Result<Vec<NestedTray>, CliError> {
    let mut trays = Vec::new();
    for job in jobs {
        let Ok(tray) = &job.tray else { continue };
        let name = stem_of(job.path.as_ref())?.to_owned();
        trays.push(NestedTray {
            count: count(&name, asked),
            document: tray.unrounded().document(),
            name,
        });
    }
    Ok(trays)
}

/// The count of a job: the last one that names it, else the last one for all.
fn count(name: &str, asked: &NestArguments) -> usize {
    let last = |wanted: Option<&str>| {
        let mut counts = asked.count.iter().rev();
        counts.find(|count| count.name.as_deref() == wanted)
    };
    last(Some(name))
        .or_else(|| last(None))
        .map_or(1, |count| count.number)
}

/// Errors about counts of jobs that the call does not have.
pub(super) fn unknown_names(asked: &NestArguments) -> Vec<CliError> {
    let stems: Vec<&str> = asked
        .jobs
        .iter()
        .filter_map(|job| stem_of(job).ok())
        .collect();
    let names = asked.count.iter().filter_map(|count| count.name.as_deref());
    let unknown = names.filter(|name| !stems.contains(name));
    let error = |name: &str| {
        CliError::sentence(format_args!(
            "`--count {name}=…` names no job of this call: it has {}",
            stems.join(", ")
        ))
    };
    unknown.map(error).collect()
}

/// What is laid.
pub(super) fn pieces(trays: &[NestedTray], asked: &NestArguments) -> Vec<Piece> {
    let piece = |tray: &NestedTray| Piece {
        outline: tray.document.flat.outline.corners(Chords::Within(CHORD_MM)),
        stand_off: stand_off(&tray.document),
        count: tray.count,
        turns: turns(&tray.document, asked),
    };
    trays.iter().map(piece).collect()
}

/// How far the lines of a blank reach beyond the corners of its outline: an arc beyond its chord, and half the kerf, which
/// at the tip of a sharp corner is more than half.
fn stand_off(document: &Document) -> f64 {
    let outline = document.flat.outline.corners(Chords::Within(CHORD_MM));
    let has_arcs = document
        .flat
        .outline
        .segments
        .iter()
        .any(|segment| segment.bulge() != 0.0);
    let lines = document.all_toolpaths().into_iter();
    let lines = lines.filter(|line| line.part == traywright_document::Part::Outline);
    let corners = lines.flat_map(|line| line.contour.corners(Chords::Within(CHORD_MM)));
    let kerf = document.output.machine.kerf.mm();
    let off = if kerf > 0.0 {
        corners
            .map(|corner| distance(corner, &outline))
            .fold(kerf / 2.0, f64::max)
    } else {
        0.0
    };
    off + if has_arcs { CHORD_MM } else { 0.0 }
}

fn distance(at: Point, outline: &[Point]) -> f64 {
    let ends = outline.iter().cycle().skip(1);
    let beside = |(from, to): (&Point, &Point)| {
        let (way, out) = (*to - *from, at - *from);
        let share = (out.dot(way) / way.dot(way)).clamp(0.0, 1.0);
        (*from + way * share - at).length()
    };
    outline
        .iter()
        .zip(ends)
        .map(beside)
        .fold(f64::INFINITY, f64::min)
}

/// All turns, or those that lay the grain of the blank along the grain of the stock.
fn turns(document: &Document, asked: &NestArguments) -> Vec<Turn> {
    let Some(grain) = document.board.grain else {
        return Turn::ALL.to_vec();
    };
    let stock = asked.grain.unwrap_or(StockGrain::Length);
    let is_along = matches!(
        (grain, stock),
        (Grain::Length, StockGrain::Length) | (Grain::Width, StockGrain::Width)
    );
    if is_along {
        vec![Turn::None, Turn::Half]
    } else {
        vec![Turn::Quarter, Turn::ThreeQuarters]
    }
}

/// A mistake of the program, which it finds before anything is written.
pub(super) fn not_apart(one: &NestedTray, other: &NestedTray) -> CliError {
    CliError::sentence(format_args!(
        "the blanks of {} and {} were laid too near to one another or to the edge, which is a mistake of this program: nothing was written",
        one.name, other.name
    ))
}

/// Why nothing was laid.
pub(super) fn too_large(error: &NestError, trays: &[NestedTray], asked: &NestArguments) -> String {
    let (piece, sides) = match error {
        NestError::NoOutline { piece } => {
            return format!("The blank of {} has no area.", trays[*piece].name);
        }
        NestError::TooLarge { piece, sides, room } => (*piece, [*sides, *room]),
        NestError::NotApart { .. } => return String::new(),
    };
    let tray = &trays[piece];
    let unit = asked.stock.unit;
    let [blank, room] = sides.map(|[length, width]| {
        format!(
            "{} x {} {}",
            unit.figure(length),
            unit.figure(width),
            unit.sign()
        )
    });
    let grain = match tray.document.board.grain {
        Some(_) => " as its grain must lie",
        None => "",
    };
    let margin = unit.figure(asked.margin.mm());
    format!(
        "The blank of {} is {blank}{grain}; a sheet of {} has room for {room} inside its margin of {margin} {}. Take larger stock.",
        tray.name,
        asked.stock.name,
        unit.sign()
    )
}

/// The unit in which the table is written.
pub(super) fn unit(asked: &NestArguments) -> Unit {
    asked.stock.unit
}

/// Whether a machine cuts the blanks.
pub(super) fn by_machine(trays: &[NestedTray]) -> bool {
    trays
        .iter()
        .any(|tray| tray.document.tool.by == ToolKind::Machine)
}
