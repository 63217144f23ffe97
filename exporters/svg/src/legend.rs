//! What stands below the blank: the tray's name, a bar to prove the size of the print, and what the lines mean.
//!
//! Given the document and the sheet; gives three groups outside the line groups, placed in the room below the blank and
//! its measures. Nothing in it is meant to be cut or creased, and only the kinds of line that the blank has are named.

use svg::node::element::{Group, Path};
use traywright_document::{Document, DrawnFace, Point, Unit};

use crate::drawing_area::DrawingArea;
use crate::layers::{CREASES, CUTTING, DIMENSIONS, LineStyle};
use crate::path::{Tick, TickPoint};
use crate::words;

/// Capitals of the name; all other words have smaller ones.
// Source: ISO 3098-1, nominal sizes of lettering (from memory).
const NAME_HEIGHT: f64 = 3.5;
const WORD_HEIGHT: f64 = 2.5;
/// From one line of words to the next.
const ROW: f64 = 6.0;
/// Length of a line of the legend.
const SAMPLE: f64 = 24.0;
/// White between what stands side by side.
const BETWEEN: f64 = 12.0;
/// Words that are neither measures nor lines.
const INK: &str = "#333333";

/// The foot.
pub(crate) struct Legend {
    /// Its groups.
    pub(crate) groups: Vec<Group>,
    /// Its lower right corner on the sheet.
    pub(crate) most: Point,
}

/// The bar to measure.
struct ScaleBar {
    length: f64,
    tick: f64,
    /// Every so many ticks one is longer.
    long: u32,
    words: &'static str,
}

/// Lays out the foot of the sheet.
pub(crate) fn legend(document: &Document, area: &DrawingArea) -> Legend {
    let corner = area.foot_corner();
    let bar = ScaleBar::new(document);
    let entries = entries(document);
    let mut lines = vec![
        (words::shortened(&document.title, 60), NAME_HEIGHT),
        (words::about(document), WORD_HEIGHT),
        (face(document.drawn_face).to_owned(), WORD_HEIGHT),
    ];
    let said = words::said(document);
    lines.extend(said.iter().map(|line| (words::begun(line), WORD_HEIGHT)));
    let name_width = widest(
        lines
            .iter()
            .map(|(line, height)| words::width(line, *height)),
    );
    let bar_width = bar.length.max(words::width(bar.words, WORD_HEIGHT));
    let legend_width = SAMPLE
        + 3.0
        + widest(
            entries
                .iter()
                .map(|(_, line)| words::width(line, WORD_HEIGHT)),
        );

    let bar_at = down(corner, NAME_HEIGHT + (lines.len() - 1) as f64 * ROW + 9.0);
    let beside = BETWEEN + name_width.max(bar_width);
    let legend_at = if beside + legend_width <= area.drawn_width() {
        Point {
            x: corner.x + beside.ceil(),
            y: corner.y + NAME_HEIGHT - WORD_HEIGHT,
        }
    } else {
        down(bar_at, WORD_HEIGHT + 8.0)
    };
    let legend_end = legend_at.y + WORD_HEIGHT + ROW * (entries.len() - 1) as f64;
    Legend {
        groups: vec![
            name_group(&lines, corner),
            bar.group(bar_at),
            legend_group(&entries, legend_at),
        ],
        most: Point {
            x: (corner.x + name_width.max(bar_width)).max(legend_at.x + legend_width),
            y: legend_end.max(bar_at.y + 2.0 + WORD_HEIGHT),
        },
    }
}

impl ScaleBar {
    /// Long enough to measure well, and no longer than the blank where that is possible.
    fn new(document: &Document) -> ScaleBar {
        let extent = document.flat.extent;
        let wide = |length: f64| extent.most.x - extent.least.x >= length;
        match document.unit {
            Unit::Millimetre if wide(100.0) => ScaleBar {
                length: 100.0,
                tick: 10.0,
                long: 5,
                words: "100 mm — measure this before you cut",
            },
            Unit::Millimetre => ScaleBar {
                length: 50.0,
                tick: 10.0,
                long: 5,
                words: "50 mm — measure this before you cut",
            },
            Unit::Inch if wide(101.6) => ScaleBar {
                length: 101.6,
                tick: 6.35,
                long: 4,
                words: "4 in — measure this before you cut",
            },
            Unit::Inch => ScaleBar {
                length: 50.8,
                tick: 6.35,
                long: 4,
                words: "2 in — measure this before you cut",
            },
        }
    }

    /// The bar from this point on, with its ticks above it and its words below.
    fn group(&self, at: Point) -> Group {
        let mut data = format!(
            "M {} L {}",
            place(at.x, at.y),
            place(at.x + self.length, at.y)
        );
        let ticks = (self.length / self.tick).round() as u32;
        for tick in 0..=ticks {
            let height = match tick {
                _ if tick == 0 || tick == ticks => 4.0,
                _ if tick % self.long == 0 => 3.0,
                _ => 1.5,
            };
            let x = at.x + f64::from(tick) * self.tick;
            data += &format!(" M {} L {}", place(x, at.y - height), place(x, at.y));
        }
        let words = words::text(
            self.words,
            place(at.x, at.y + 2.0 + WORD_HEIGHT),
            WORD_HEIGHT,
            INK,
        );
        Group::new()
            .set("id", "scale")
            .add(
                Path::new()
                    .set("d", data)
                    .set("fill", "none")
                    .set("stroke", INK)
                    .set("stroke-width", "0.25"),
            )
            .add(words)
    }
}

/// The kinds of line on the sheet, and what each asks of the hands.
fn entries(document: &Document) -> Vec<(LineStyle, &'static str)> {
    let mut entries = vec![(CUTTING, "Cut")];
    for ((look, step), words) in CREASES.into_iter().zip([
        "Crease; fold with this face inwards",
        "Crease; fold with this face outwards",
    ]) {
        if document
            .flat
            .creases
            .iter()
            .any(|crease| crease.step() == step)
        {
            entries.push((look, words));
        }
    }
    if !document.flat.dimensions.is_empty() {
        entries.push((
            DIMENSIONS,
            match document.unit {
                Unit::Millimetre => "Measures in millimetres; neither cut nor creased",
                Unit::Inch => "Measures in inches; neither cut nor creased",
            },
        ));
    }
    entries
}

/// Which face the maker is looking at.
fn face(drawn: DrawnFace) -> &'static str {
    match drawn {
        DrawnFace::Inside => "Seen from the face that is inside the folded tray",
        DrawnFace::Outside => "Seen from the face that is outside on the folded tray",
    }
}

/// The name of the tray and what it is for.
fn name_group(lines: &[(String, f64)], corner: Point) -> Group {
    let mut group = Group::new().set("id", "words");
    let mut y = corner.y + NAME_HEIGHT;
    for (line, height) in lines {
        group = group.add(words::text(line, place(corner.x, y), *height, INK));
        y += ROW;
    }
    group
}

/// A sample of each kind of line with its meaning.
fn legend_group(entries: &[(LineStyle, &str)], corner: Point) -> Group {
    let mut group = Group::new().set("id", "legend");
    for (row, (look, line)) in entries.iter().enumerate() {
        let legend = corner.y + WORD_HEIGHT + ROW * row as f64;
        let y = legend - WORD_HEIGHT / 2.0;
        let sample = format!("M {} L {}", place(corner.x, y), place(corner.x + SAMPLE, y));
        let words = words::text(
            line,
            place(corner.x + SAMPLE + 3.0, legend),
            WORD_HEIGHT,
            INK,
        );
        group = group
            .add(
                look.group(&format!("legend-{}", look.id))
                    .add(Path::new().set("d", sample)),
            )
            .add(words);
    }
    group
}

/// A place on the sheet.
fn place(x: f64, y: f64) -> TickPoint {
    TickPoint {
        x: Tick::new(x),
        y: Tick::new(y),
    }
}

/// The point so far below another on the sheet.
fn down(point: Point, by: f64) -> Point {
    Point {
        y: point.y + by,
        ..point
    }
}

/// The largest of some widths.
fn widest(widths: impl Iterator<Item = f64>) -> f64 {
    widths.fold(0.0, f64::max)
}
