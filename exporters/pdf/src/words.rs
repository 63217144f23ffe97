//! What the sheets say to the maker, and lengths as the maker reads them.
//!
//! Given the document; gives sentences ready to print. In a job in inches these come first and millimetres follow. It
//! places nothing and measures nothing.

use serde::Deserialize;
use traywright_document::{Document, DrawnFace, Page, Unit};
use traywright_paper::filled;

/// Length of a check bar.
pub(crate) const BAR: f64 = 100.0;

/// What the tray is for, in one line.
pub(crate) fn about(document: &Document) -> String {
    let inside = document.box_size;
    let unit = document.unit;
    let extent = document.flat.extent;
    let blank = [
        extent.most.x - extent.least.x,
        extent.most.y - extent.least.y,
    ];
    let name = match &document.board.name {
        Some(name) => format!(" ({})", shortened(name, 40)),
        None => String::new(),
    };
    format!(
        "Style {}, box {}, card {}{name}, blank {}",
        shortened(&document.style, 40),
        sides(&[inside.length, inside.width, inside.depth], unit),
        sides(&[document.board.caliper], unit),
        sides(&blank, unit),
    )
}

/// Lengths that belong together, with their unit once.
fn sides(lengths: &[f64], unit: Unit) -> String {
    let numbers: Vec<String> = lengths.iter().map(|length| number(*length, unit)).collect();
    // A space that does not break keeps the unit with its number.
    format!("{}\u{a0}{}", numbers.join(" × "), unit.sign())
}

/// Which face the maker is looking at.
pub(crate) fn face(drawn: DrawnFace) -> &'static str {
    match drawn {
        DrawnFace::Inside => "Seen from the face that is hidden in the finished tray",
        DrawnFace::Outside => "Seen from the face that shows in the finished tray",
    }
}

/// What the bars must read.
pub(crate) fn goal(page: &Page, unit: Unit) -> String {
    let goal = match unit {
        Unit::Millimetre => "100 mm (99.5 to 100.5 will do)",
        // Derived: 100 mm are 3.937 in, and 3 15/16 in are 100.01 mm.
        Unit::Inch => "3 15/16 in (100 mm = 3.937 in; 3.92 to 3.96 in will do)",
    };
    format!(
        "Lay a ruler on both bars before you cut: each must read {goal}. If not, print again on {} paper at 100 % \
         (\"actual size\"), without \"fit to page\".",
        shortened(&page.name, 30)
    )
}

/// What wrong readings come from.
// Derived: a page that is made to fit shrinks by the least ratio of what is there to what is asked for, over both
// sides: A4 on Letter 279.4/297 = 0.941, A4 within borders of 4.2 mm 0.960, Letter on A4 210/215.9 = 0.973.
// Borderless printing enlarges by a few hundredths (common practice, no source).
pub(crate) fn causes(unit: Unit) -> [String; 4] {
    [
        (94.0, "an A4 page was shrunk onto Letter paper; name the paper that is in the printer, there and in the job."),
        (96.0, "the page was shrunk into the printer's margins; switch off \"fit\" or \"shrink\"."),
        (97.0, "a Letter page was shrunk onto A4 paper; the cure is the same."),
        (103.0, "the page was enlarged; switch off \"borderless\" or \"fill\"."),
    ]
    .map(|(reading, words)| format!("{}: {words}", reading_words(reading, unit)))
}

/// What helps when nothing else did.
pub(crate) fn last_resort(page: &Page, unit: Unit) -> String {
    if is_corrected(page) {
        return "Still wrong? Leave bar-across and bar-down out of the job, make the sheets again and read the bars anew."
            .to_owned();
    }
    let (across, down) = match unit {
        Unit::Millimetre => ("(mm)99.6", "(mm)100.2"),
        Unit::Inch => ("(in)3.92", "(in)3.945"),
    };
    format!(
        "Still wrong? Write what you read into the job, as in page bar-across={across} bar-down={down}, and make the \
         sheets again."
    )
}

/// The shortest form of the same, for a sheet that has no more room.
pub(crate) fn short_advice(unit: Unit) -> String {
    match unit {
        Unit::Millimetre => "Both bars must read 100 mm: print at 100 %.".to_owned(),
        Unit::Inch => "Both bars must read 3.937 in (100 mm): print at 100 %.".to_owned(),
    }
}

/// That the sheet is made larger or smaller, if it is.
pub(crate) fn correction(page: &Page, unit: Unit) -> Option<String> {
    let read = |reading: f64| match unit {
        Unit::Millimetre => format!("{} mm", number(reading, unit)),
        Unit::Inch => format!(
            "{} in ({} mm)",
            number(reading, unit),
            number(reading, Unit::Millimetre)
        ),
    };
    is_corrected(page).then(|| {
        let (across, down) = (read(page.bar_across), read(page.bar_down));
        let factors = [page.bar_across, page.bar_down].map(|bar| number(bar, Unit::Millimetre));
        format!(
            "Scaled by 100/{} across and 100/{} down the sheet held upright, for a printer whose bars read {across} and {down}.",
            factors[0], factors[1]
        )
    })
}

/// Whether the maker has read the bars and found them wrong.
pub(crate) fn is_corrected(page: &Page) -> bool {
    page.bar_across != BAR || page.bar_down != BAR
}

/// What stands at a bar; the direction is that of the sheet held upright.
pub(crate) fn bar(is_across: bool, unit: Unit) -> String {
    let name = if is_across { "bar-across" } else { "bar-down" };
    match unit {
        Unit::Millimetre => format!("{name}: 100 mm"),
        Unit::Inch => format!("{name}: 3.937 in (100 mm)"),
    }
}

/// What follows the language that the job asks for.
#[derive(Deserialize)]
pub(crate) struct SheetWords {
    pub(crate) row_and_column: String,
}

/// Which sheet this is, counted from 1.
pub(crate) fn sheet(place_words: &str, place: [usize; 2]) -> String {
    let [row, column] = place.map(|number| number.to_string());
    filled(place_words, &[("row", &row), ("column", &column)])
}

/// How sheets become one.
pub(crate) fn joining(overlap: f64, unit: Unit) -> String {
    let overlap = match unit {
        Unit::Millimetre => format!("{} mm", number(overlap, unit)),
        Unit::Inch => format!(
            "{} in ({} mm)",
            number(overlap, unit),
            number(overlap, Unit::Millimetre)
        ),
    };
    format!(
        "To join: check the bars on every sheet. Lay two neighbours over each other on a window pane, so that crosses with the \
         same number meet; they overlap by {overlap}, up to the faint line. Tape them, then go on by the small map."
    )
}

/// What the maker misses here and finds elsewhere.
pub(crate) fn lost(count: usize) -> Option<String> {
    match count {
        0 => None,
        1 => Some(
            "One measure beside the blank has no room on this paper; the SVG has it.".to_owned(),
        ),
        _ => Some(format!(
            "{count} measures beside the blank have no room on this paper; the SVG has them."
        )),
    }
}

/// What a dimension is written in.
pub(crate) fn measures(unit: Unit) -> &'static str {
    match unit {
        Unit::Millimetre => "Measures in millimetres; neither cut nor creased",
        Unit::Inch => "Measures in inches; neither cut nor creased",
    }
}

/// At most so many characters of a name.
pub(crate) fn shortened(name: &str, most: usize) -> String {
    if name.chars().count() <= most {
        return name.to_owned();
    }
    name.chars().take(most - 3).chain("...".chars()).collect()
}

fn reading_words(reading: f64, unit: Unit) -> String {
    match unit {
        Unit::Millimetre => format!("{reading:.0} mm"),
        Unit::Inch => format!("{:.2} in ({reading:.0} mm)", reading / 25.4),
    }
}

/// A length in the maker's unit, without its sign.
pub(crate) fn number(length: f64, unit: Unit) -> String {
    unit.figure(length)
}
