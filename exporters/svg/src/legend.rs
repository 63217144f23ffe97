//! What stands below the blank: the tray's name, a bar to prove the size of the print, and what the lines mean.
//!
//! Given the document and the sheet; gives three groups outside the line groups, placed in the room below the blank and
//! its measures. Nothing in it is meant to be cut or creased, and only the kinds of line that the blank has are named.

use svg::node::element::{Group, Path};
use traywright_document::{Document, Point, ProcessingStep, Unit};
use traywright_look::{DrawingFile, INK, Layer, filled, shortened};

use crate::drawing_area::DrawingArea;
use crate::layers;
use crate::ticks::TickPoint;
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
/// An inch in millimetres.
// Source: 1 in = 25.4 mm exactly (international yard, 1959).
const INCH: f64 = 25.4;

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
    words: String,
}

/// Lays out the foot of the sheet.
pub(crate) fn legend(document: &Document, file: &DrawingFile, area: &DrawingArea) -> Legend {
    let corner = area.foot_corner();
    let bar = ScaleBar::new(document, file);
    let entries = entries(document, file);
    let lines = lines(document, file);
    let name_width = widest(
        lines
            .iter()
            .map(|(line, height)| words::width(line, *height)),
    );
    let bar_width = bar.length.max(words::width(&bar.words, WORD_HEIGHT));
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

/// The name of the tray and what is said of it, with the heights of their letters.
fn lines(document: &Document, file: &DrawingFile) -> Vec<(String, f64)> {
    let face = file.drawing.face(document.output.drawn_face);
    let mut lines = vec![
        (shortened(&document.title, 60, "…"), NAME_HEIGHT),
        (about(document, file), WORD_HEIGHT),
        (face.to_owned(), WORD_HEIGHT),
    ];
    let machine = file.machine(document).into_iter();
    lines.extend(machine.map(|line| (words::begun(&line), WORD_HEIGHT)));
    let pads = file.pads(document).into_iter();
    lines.extend(pads.map(|pad| (pad, WORD_HEIGHT)));
    let cautions = file.drawing.cautions.of(document.tool.by);
    // One sentence a line keeps a small drawing narrow.
    let sentences = cautions
        .iter()
        .flat_map(|caution| caution.split_inclusive(". "));
    lines.extend(sentences.map(|sentence| (sentence.trim_end().to_owned(), WORD_HEIGHT)));
    let parts = file.drawing.parts(document).into_iter();
    lines.extend(parts.map(|line| (line, WORD_HEIGHT)));
    lines
}

impl ScaleBar {
    /// Long enough to measure well, and no longer than the blank where that is possible.
    fn new(document: &Document, file: &DrawingFile) -> ScaleBar {
        let is_wide = |length: f64| document.flat.extent.size()[0] >= length;
        let [long, short] = match document.unit {
            Unit::Millimetre => [100.0, 50.0],
            Unit::Inch => [4.0 * INCH, 2.0 * INCH],
        };
        let length = if is_wide(long) { long } else { short };
        let (tick, every) = match document.unit {
            Unit::Millimetre => (10.0, 5),
            Unit::Inch => (INCH / 4.0, 4),
        };
        let said = file.lengths(document.unit).length(length);
        ScaleBar {
            length,
            tick,
            long: every,
            words: filled(&file.drawing.scale, &[("length", &said)]),
        }
    }

    /// The bar from this point on, with its ticks above it and its words below.
    fn group(&self, at: Point) -> Group {
        let mut data = format!(
            "M {} L {}",
            TickPoint::new(at.x, at.y),
            TickPoint::new(at.x + self.length, at.y)
        );
        let ticks = (self.length / self.tick).round() as u32;
        for tick in 0..=ticks {
            let height = match tick {
                _ if tick == 0 || tick == ticks => 4.0,
                _ if tick % self.long == 0 => 3.0,
                _ => 1.5,
            };
            let x = at.x + f64::from(tick) * self.tick;
            data += &format!(
                " M {} L {}",
                TickPoint::new(x, at.y - height),
                TickPoint::new(x, at.y)
            );
        }
        let words = words::text(
            &self.words,
            TickPoint::new(at.x, at.y + 2.0 + WORD_HEIGHT),
            WORD_HEIGHT,
            INK,
        );
        Group::new()
            .set("id", "scale")
            .add(
                Path::new()
                    .set("d", data)
                    .set("fill", "none")
                    .set("stroke", INK.hex())
                    .set("stroke-width", "0.25"),
            )
            .add(words)
    }
}

/// The kinds of line on the sheet, and what each asks of the hands.
fn entries<'a>(document: &Document, file: &'a DrawingFile) -> Vec<(Layer, &'a str)> {
    let flat = &document.flat;
    let is_there = |step: &ProcessingStep| match step {
        ProcessingStep::Cutting => true,
        ProcessingStep::Dimensions => !flat.dimensions.is_empty(),
        step => {
            let mut creases = flat.creases.iter();
            creases.any(|crease| document.step_of(crease) == *step)
        }
    };
    let entry = |step| (Layer::Step(step), file.drawing.line(step, document));
    let steps = ProcessingStep::ALL.into_iter().filter(is_there);
    steps.map(entry).collect()
}

/// What the tray is for, in one line.
pub(crate) fn about(document: &Document, file: &DrawingFile) -> String {
    let forms = [&file.drawing.about, &file.drawing.about_without_box];
    file.about(forms.map(String::as_str), " × ", document)
}

/// The name of the tray and what it is for.
fn name_group(lines: &[(String, f64)], corner: Point) -> Group {
    let mut group = Group::new().set("id", "words");
    let mut y = corner.y + NAME_HEIGHT;
    for (line, height) in lines {
        group = group.add(words::text(line, TickPoint::new(corner.x, y), *height, INK));
        y += ROW;
    }
    group
}

/// A sample of each kind of line with its meaning, in the colour of words: the pattern tells the kind.
fn legend_group(entries: &[(Layer, &str)], corner: Point) -> Group {
    let mut group = Group::new().set("id", "legend");
    for (row, (layer, line)) in entries.iter().enumerate() {
        let baseline = corner.y + WORD_HEIGHT + ROW * row as f64;
        let y = baseline - WORD_HEIGHT / 2.0;
        let sample = format!(
            "M {} L {}",
            TickPoint::new(corner.x, y),
            TickPoint::new(corner.x + SAMPLE, y)
        );
        let words = words::text(
            line,
            TickPoint::new(corner.x + SAMPLE + 3.0, baseline),
            WORD_HEIGHT,
            INK,
        );
        group = group
            .add(
                layers::group(&format!("legend-{}", layer.name()), layer.look().sample())
                    .add(Path::new().set("d", sample)),
            )
            .add(words);
    }
    group
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
