//! What goes into a new job.
//!
//! Given the example job, gives a filling with its measures, in millimetres or in inches of a ruler; given a job that
//! worked, gives the lines that are carried over. Never asks and never writes.

use traywright_engine::job::{Job, Unit};

use crate::job_file::{lines_of, read};
use crate::lengths::{INCH, Length, in_job};
use crate::library::Boards;

/// The example, which ships with the program.
const EXAMPLE: &str = include_str!("../../../../designs/jobs/barometer.kdl");

/// All that a new job says.
#[derive(Clone, Debug, PartialEq)]
pub struct JobDraft {
    /// Name of the style.
    pub style: String,
    /// Inside of the box.
    pub in_box: Measures,
    /// The maker's name for the item.
    pub item_name: String,
    /// The item at its largest.
    pub item: Measures,
    /// The card.
    pub card: Card,
    /// Name or size of the page; none for the usual one.
    pub page: Option<String>,
    /// The unit to measure in.
    pub unit: Unit,
    /// Lines of an older job.
    pub carried: Option<Carried>,
    /// Whether the measures are the maker's own.
    pub answered: bool,
}

/// Three measures.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Measures {
    /// The first side; the longer one of a box.
    pub length: Length,
    /// The second side.
    pub width: Length,
    /// The upright side.
    pub depth: Length,
}

/// A card, by its name or its thickness.
#[derive(Clone, Debug, PartialEq)]
pub enum Card {
    /// A name in the list of boards.
    Named(String),
    /// The thickness of one sheet.
    Caliper(Length),
}

/// Lines that an older job hands on, as its maker wrote them.
#[derive(Clone, Debug, PartialEq)]
pub struct Carried {
    /// The card.
    pub board: String,
    /// The clearances; none if the older job has the defaults.
    pub fit: Option<String>,
    /// The paper.
    pub page: String,
    /// The drawn face; none if the older job has the default.
    pub draw: Option<String>,
    /// What is asked of the files for machines.
    pub machine: Vec<String>,
    /// The unit of the older job.
    pub unit: Unit,
}

impl Carried {
    /// Takes the lines from a job that has been read.
    pub fn new(text: &str, job: &Job) -> Self {
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
            machine: ["kerf", "nicks", "dxf"]
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
pub fn example(unit: Unit) -> JobDraft {
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
