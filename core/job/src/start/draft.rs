//! The draft of a new job.
//!
//! **Input:** the example job, or a job that worked. **Output:** a draft with the example's lengths, in millimetres or
//! in inches of a ruler; or the lines to copy. Never asks and never writes.

use traywright_engine::Style;
use traywright_engine::job::{Board, BoardKind, ItemShape, Job, Length, ToolKind, Unit};

use crate::job_file::keys::LINES;
use crate::job_file::{Choice, Value, line, lines_of, read};
use crate::lengths::{INCH, WrittenLength};
use crate::library::{Boards, StyleText};

/// The example, which ships with the program.
const EXAMPLE: &str = include_str!("../../../../designs/jobs/barometer.kdl");

/// All values of a new job.
#[derive(Clone, Debug, PartialEq)]
pub struct JobDraft {
    /// Name of the style.
    pub style: String,
    /// Inside of the box.
    pub in_box: Measures,
    /// The items, at least one.
    pub items: Vec<ItemDraft>,
    /// The card.
    pub card: Card,
    /// The tool that creases and cuts it.
    pub tool: ToolKind,
    /// Size of the machine's bed, if a machine cuts and its bed was named.
    pub bed: Option<String>,
    /// Name or size of the page; none for the default.
    pub page: Option<String>,
    /// The unit to measure in.
    pub unit: Unit,
    /// Lines of an older job.
    pub carried: Option<Carried>,
    /// Whether the lengths are the maker's own.
    pub answered: bool,
}

/// Items of one kind.
#[derive(Clone, Debug, PartialEq)]
pub struct ItemDraft {
    /// The maker's name for it.
    pub name: String,
    /// Its greatest size.
    pub size: Measures,
    /// Its outline.
    pub shape: ItemShape,
    /// Number of them in the tray.
    pub count: usize,
    /// The pad under each, if it needs one.
    pub pad: Option<WrittenLength>,
}

/// Three lengths.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Measures {
    /// The first side; the longer one of a box.
    pub length: WrittenLength,
    /// The second side.
    pub width: WrittenLength,
    /// The depth.
    pub depth: WrittenLength,
}

/// A card, by its name or its thickness.
#[derive(Clone, Debug, PartialEq)]
pub enum Card {
    /// A name in the list of boards.
    Named(String),
    /// The thickness of one sheet.
    Caliper(WrittenLength),
}

/// Lines copied from an older job, as its maker wrote them.
#[derive(Clone, Debug, PartialEq)]
pub struct Carried {
    /// Each with the name of the line.
    lines: Vec<(&'static str, String)>,
    /// The unit of the older job.
    pub unit: Unit,
    /// The style of the older job.
    pub style: String,
}

impl Carried {
    /// Takes the lines from a job that has been read.
    pub fn new(text: &str, job: &Job) -> Self {
        // The default page depends on the unit of the box, so a page that was not stated is written now.
        let default_page = || {
            let margin = Value::Length(WrittenLength {
                mm: job.output.paper.page().margin.mm(),
                unit: job.unit,
            });
            let name = Value::Text(&job.output.paper.page().name);
            line("page", &[("name or size", name), ("margin", margin)])
        };
        let carried = LINES.iter().filter(|line| line.like).filter_map(|line| {
            let written = lines_of(text, line.name);
            let written = match line.name {
                "page" => written.or_else(|| Some(default_page())),
                _ => written,
            };
            Some((line.name, written?))
        });
        Carried {
            lines: carried.collect(),
            unit: job.unit,
            style: job.style.clone(),
        }
    }

    /// The line with that name, if the older job has it.
    pub fn line(&self, name: &str) -> Option<&str> {
        let found = self.lines.iter().find(|(carried, _)| *carried == name);
        found.map(|(_, line)| line.as_str())
    }
}

impl JobDraft {
    /// Whether a strip of its card should be measured first.
    pub fn wants_strip(&self) -> bool {
        let boards = Boards::shipped();
        let board = match &self.card {
            Card::Caliper(caliper) => Length::new(caliper.mm).ok().map(Board::plain),
            Card::Named(name) => boards.get(name).map(|stock| Board {
                name: Some(name.clone()),
                ..Board::plain(stock.caliper)
            }),
        };
        self.carried.is_none() && board.is_some_and(|board| board.wants_strip())
    }

    fn has_floor(&self) -> bool {
        let style = self.shipped_style();
        style.is_some_and(|style| style.has_floor())
    }

    /// Whether a machine makes the creases, and makes them on the face that is outside their fold.
    fn is_creased_by_machine(&self) -> bool {
        let boards = Boards::shipped();
        let kind = match &self.card {
            Card::Named(name) => boards.get(name).map(|stock| stock.kind),
            Card::Caliper(_) => None,
        };
        self.tool == ToolKind::Machine && kind != Some(BoardKind::Corrugated)
    }

    /// The style, if it ships with the program.
    pub(super) fn shipped_style(&self) -> Option<Style> {
        let text = StyleText::shipped_as(&self.style)?;
        Style::read(&self.style, text).ok()
    }

    /// The value of a key, for an item on the line of items; none if the table's example is used.
    pub(super) fn value(&self, line: &str, key: &str, item: usize) -> Option<Value<'_>> {
        let item = &self.items[item];
        Some(match (line, key, &self.card) {
            ("tray", "style", _) => Value::Text(&self.style),
            ("box", side, _) => self.in_box.side(side)?,
            ("item", "name", _) => Value::Text(&item.name),
            ("item", "pad", _) => Value::Length(item.pad?),
            ("item", "count", _) if item.count > 1 => Value::Count(item.count),
            ("item", "shape", _) if item.shape != ItemShape::Rectangle => {
                Value::Text(item.shape.word()?)
            }
            ("item", side, _) => item.size.side(side)?,
            // The floor of such a tray shows its inside face. A machine creases from above, and most folds of a tray go
            // away from its outside face.
            ("draw", "face", _) if self.has_floor() || self.is_creased_by_machine() => {
                Value::Text("outside")
            }
            ("tool", "by", _) => Value::Text(self.tool.word()?),
            ("board", "sheet", _) if self.tool == ToolKind::Machine => {
                Value::Text(self.bed.as_deref()?)
            }
            ("board", "name", Card::Named(name)) => Value::Text(name),
            ("board", "caliper", Card::Caliper(caliper)) => Value::Length(*caliper),
            ("page", "name or size", _) => Value::Text(self.page.as_deref()?),
            _ => return None,
        })
    }
}

impl Measures {
    fn side(&self, name: &str) -> Option<Value<'static>> {
        match name {
            "length" => Some(Value::Length(self.length)),
            "width" => Some(Value::Length(self.width)),
            "depth" => Some(Value::Length(self.depth)),
            _ => None,
        }
    }
}

/// The example's lengths in that unit; in inches the box is slightly smaller and the item slightly larger, to
/// sixteenths.
///
/// # Panics
/// If the example cannot be read, which a test rules out.
pub fn example(unit: Unit) -> JobDraft {
    let job = read("example", EXAMPLE.as_bytes(), &Boards::shipped())
        .expect("the example is a sound job");
    let item = job.items.first().expect("the example has an item");
    let of_box = |mm: f64| rounded(mm, unit, f64::floor);
    let of_item = |mm: f64| rounded(mm, unit, f64::ceil);
    JobDraft {
        in_box: Measures {
            length: of_box(job.box_size.length.mm()),
            width: of_box(job.box_size.width.mm()),
            depth: of_box(job.box_size.depth.mm()),
        },
        items: vec![ItemDraft {
            name: item.name.clone(),
            size: Measures {
                length: of_item(item.length.mm()),
                width: of_item(item.width.mm()),
                depth: of_item(item.depth.mm()),
            },
            shape: item.shape,
            count: 1,
            pad: None,
        }],
        tool: job.tool.by,
        bed: None,
        card: match &job.board.name {
            Some(name) => Card::Named(name.clone()),
            None => Card::Caliper(WrittenLength {
                mm: job.board.caliper.mm(),
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

fn rounded(mm: f64, unit: Unit, round: fn(f64) -> f64) -> WrittenLength {
    let mm = match unit {
        Unit::Millimetre => mm,
        Unit::Inch => round(mm / INCH * 16.0) / 16.0 * INCH,
    };
    WrittenLength { mm, unit }
}
