//! What goes into a new job.
//!
//! Given the example job, gives a filling with its measures, in millimetres or in inches of a ruler; given a job that
//! worked, gives the lines that are carried over. Never asks and never writes.

use traywright_engine::job::{Job, Unit};

use crate::job_file::{lines_of, read};
use crate::lengths::{INCH, Length, in_job};
use crate::library::Boards;

/// The example, which ships with the program.
const EXAMPLE: &str = include_str!("../../../../../designs/jobs/barometer.kdl");

/// All that a new job says.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct JobDraft {
    /// Name of the style.
    pub(super) style: String,
    /// Inside of the box.
    pub(super) in_box: Measures,
    /// The maker's name for the item.
    pub(super) item_name: String,
    /// The item at its largest.
    pub(super) item: Measures,
    /// The card.
    pub(super) card: Card,
    /// Name or size of the page; none for the usual one.
    pub(super) page: Option<String>,
    /// The unit to measure in.
    pub(super) unit: Unit,
    /// Lines of an older job.
    pub(super) carried: Option<Carried>,
    /// Whether the measures are the maker's own.
    pub(super) answered: bool,
}

/// Three measures.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Measures {
    pub(super) length: Length,
    pub(super) width: Length,
    pub(super) depth: Length,
}

/// A card, by its name or its thickness.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Card {
    Named(String),
    Caliper(Length),
}

/// Lines that an older job hands on, as its maker wrote them.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Carried {
    pub(super) board: String,
    pub(super) fit: Option<String>,
    pub(super) page: String,
    pub(super) draw: Option<String>,
    /// What is asked of the files for machines.
    pub(super) machine: Vec<String>,
    pub(super) unit: Unit,
}

impl Carried {
    /// Takes the lines from a job that has been read.
    pub(super) fn new(text: &str, job: &Job) -> Self {
        // The usual page depends on the unit of the box, so a page that was not written is written now.
        let usual_page = || {
            let margin = Length {
                mm: job.page.margin,
                unit: job.unit,
            };
            format!("page \"{}\" margin={}", job.page.name, in_job(margin))
        };
        Carried {
            board: lines_of(text, "board").expect("a job that was read has a board"),
            fit: lines_of(text, "fit"),
            page: lines_of(text, "page").unwrap_or_else(usual_page),
            draw: lines_of(text, "draw"),
            machine: ["cut", "hold", "dxf"]
                .into_iter()
                .filter_map(|node| lines_of(text, node))
                .collect(),
            unit: job.unit,
        }
    }
}

/// The example's measures in that unit; in inches the box a little smaller and the item a little larger, to sixteenths.
///
/// # Panics
/// When the example cannot be read, which a test rules out.
pub(super) fn example(unit: Unit) -> JobDraft {
    let job = read("example", EXAMPLE.as_bytes(), &Boards::shipped())
        .expect("the example is a sound job");
    let item = job.items.first().expect("the example has an item");
    let of_box = |mm: f64| rounded(mm, unit, f64::floor);
    let of_item = |mm: f64| rounded(mm, unit, f64::ceil);
    JobDraft {
        in_box: Measures {
            length: of_box(job.box_size.length),
            width: of_box(job.box_size.width),
            depth: of_box(job.box_size.depth),
        },
        item_name: item.name.clone(),
        item: Measures {
            length: of_item(item.length),
            width: of_item(item.width),
            depth: of_item(item.depth),
        },
        card: match &job.board.name {
            Some(name) => Card::Named(name.clone()),
            None => Card::Caliper(Length {
                mm: job.board.caliper,
                unit: Unit::Millimetre,
            }),
        },
        style: job.style,
        page: None,
        unit,
        carried: None,
        answered: false,
    }
}

fn rounded(mm: f64, unit: Unit, round: fn(f64) -> f64) -> Length {
    let mm = match unit {
        Unit::Millimetre => mm,
        Unit::Inch => round(mm / INCH * 16.0) / 16.0 * INCH,
    };
    Length { mm, unit }
}
