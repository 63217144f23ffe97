//! What the sheets say to the maker, and lengths as the maker reads them.
//!
//! Given the document; gives sentences ready to print. In a job in inches these come first and millimetres follow. It
//! places nothing and measures nothing.

use serde::Deserialize;
use traywright_document::{BoardKind, Document, Length, Page, Unit};
use traywright_look::{Drawing, Lengths, filled};

/// The sentences of the sheets, in the language that the job asks for.
#[derive(Deserialize)]
pub(crate) struct SheetWords {
    /// The decimal sign of the language.
    decimal: char,
    row_and_column: String,
    /// The sentences of every drawing.
    pub(crate) drawing: Drawing,
    sheets: Sheets,
}

/// What the file of words has for sheets alone; gaps in braces are filled here.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Sheets {
    about: String,
    about_without_box: String,
    only: String,
    goal: String,
    goal_mm: String,
    goal_inches: String,
    cause: Causes,
    resort: String,
    resort_corrected: String,
    short: String,
    corrected: String,
    joining: String,
    press: Press,
    lost_one: String,
    lost: String,
    grain: String,
    flutes: String,
    short_side: String,
    long_side: String,
}

/// What a page says to a print shop.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Press {
    scale: String,
    bleed: String,
    inks: String,
    condition: String,
}

/// What a wrong reading comes from.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Causes {
    a4_on_letter: String,
    margins: String,
    letter_on_a4: String,
    enlarged: String,
}

impl SheetWords {
    /// What the tray is for, in one line.
    pub(crate) fn about(&self, document: &Document) -> String {
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
        let card = format!("{}{name}", self.sides(&[document.board.caliper], unit));
        let gaps = [
            ("style", shortened(&document.style, 40)),
            (
                "box",
                self.sides(
                    &[inside.length.mm(), inside.width.mm(), inside.depth.mm()],
                    unit,
                ),
            ),
            ("card", card),
            ("blank", self.sides(&blank, unit)),
        ];
        let form = if document.has_box() {
            &self.sheets.about
        } else {
            &self.sheets.about_without_box
        };
        filled(
            form,
            &gaps.each_ref().map(|(name, value)| (*name, value.as_str())),
        )
    }

    /// Which sheet this is, counted from 1, of so many.
    pub(crate) fn sheet(&self, place: [usize; 2], count: usize) -> String {
        let [row, column] = place.map(|number| number.to_string());
        let place = filled(&self.row_and_column, &[("row", &row), ("column", &column)]);
        match count {
            1 => filled(&self.sheets.only, &[("place", &place)]),
            _ => place,
        }
    }

    /// What the bars must read.
    pub(crate) fn goal(&self, page: &Page, unit: Unit) -> String {
        let paper = shortened(&page.name, 30);
        let goal = self.goal_of(unit);
        filled(&self.sheets.goal, &[("goal", goal), ("paper", &paper)])
    }

    /// What a print shop must know of a page with this bleed.
    pub(crate) fn press(&self, document: &Document, bleed: Length) -> Vec<String> {
        let (press, unit) = (&self.sheets.press, document.unit);
        let scale = filled(&press.scale, &[("goal", self.goal_of(unit))]);
        let mut sentences = vec![scale];
        if bleed > Length::ZERO {
            let bleed = self.length(bleed.mm(), unit);
            sentences.push(filled(&press.bleed, &[("bleed", &bleed)]));
        }
        sentences.push(press.inks.clone());
        let condition = document.output.paper.condition();
        sentences.extend(condition.map(|it| filled(&press.condition, &[("condition", it)])));
        sentences
    }

    /// What a bar of this unit must read.
    fn goal_of(&self, unit: Unit) -> &str {
        match unit {
            Unit::Millimetre => &self.sheets.goal_mm,
            Unit::Inch => &self.sheets.goal_inches,
        }
    }

    /// What wrong readings come from.
    // Derived: a page that is made to fit shrinks by the least ratio of what is there to what is asked for, over both
    // sides: A4 on Letter 279.4/297 = 0.941, A4 within borders of 4.2 mm 0.960, Letter on A4 210/215.9 = 0.973.
    // Borderless printing enlarges by a few hundredths (common practice, no source).
    pub(crate) fn causes(&self, unit: Unit) -> [String; 4] {
        let cause = &self.sheets.cause;
        let bar = unit.check_bar();
        [
            (0.94, &cause.a4_on_letter),
            (0.96, &cause.margins),
            (0.97, &cause.letter_on_a4),
            (1.03, &cause.enlarged),
        ]
        .map(|(share, words)| filled(words, &[("reading", &self.reading(share * bar, unit))]))
    }

    /// What helps when nothing else did.
    pub(crate) fn last_resort(&self, page: &Page, unit: Unit) -> String {
        if is_corrected(page) {
            return self.sheets.resort_corrected.clone();
        }
        // A job writes a point, whatever the language.
        let (across, down) = match unit {
            Unit::Millimetre => ("(mm)99.6", "(mm)100.2"),
            Unit::Inch => ("(in)\"3 63/64\"", "(in)\"4 1/64\""),
        };
        filled(&self.sheets.resort, &[("across", across), ("down", down)])
    }

    /// What stands at a bar: its name in the job, its length, and the side of the sheet along which it runs.
    pub(crate) fn bar(&self, is_across: bool, unit: Unit) -> String {
        let (name, side) = if is_across {
            ("bar-across", &self.sheets.short_side)
        } else {
            ("bar-down", &self.sheets.long_side)
        };
        let length = number(unit.check_bar(), unit);
        format!("{name}: {length} {} ({side})", unit.sign())
    }

    /// The shortest form of the same, for a sheet that has no more room.
    pub(crate) fn short_advice(&self, unit: Unit) -> String {
        let goal = match unit {
            Unit::Millimetre => "100 mm".to_owned(),
            Unit::Inch => "4 in".to_owned(),
        };
        filled(&self.sheets.short, &[("goal", &goal)])
    }

    /// That the sheet is made larger or smaller, if it is.
    pub(crate) fn correction(&self, page: &Page, unit: Unit) -> Option<String> {
        let bar = unit.check_bar();
        let bars = [page.bar_across, page.bar_down].map(|it| it.map_or(bar, Length::mm));
        let [across, down] = bars.map(|reading| self.length(reading, unit));
        let [across_factor, down_factor] = bars.map(|bar| self.decimal(&number(bar, unit)));
        let bar = number(bar, unit);
        let gaps = [
            ("bar", bar.as_str()),
            ("across", across.as_str()),
            ("down", &down),
            ("across_factor", &across_factor),
            ("down_factor", &down_factor),
        ];
        is_corrected(page).then(|| filled(&self.sheets.corrected, &gaps))
    }

    /// How sheets become one.
    pub(crate) fn joining(&self, overlap: f64, unit: Unit) -> String {
        let overlap = self.length(overlap, unit);
        filled(&self.sheets.joining, &[("overlap", &overlap)])
    }

    /// The pads to cut.
    pub(crate) fn pads(&self, document: &Document) -> Vec<String> {
        let write = |sides: &[f64]| self.sides(sides, document.unit);
        let kinds = document.kinds_on_pads();
        kinds
            .map(|kind| self.drawing.pads.sentence(kind, &write))
            .collect()
    }

    /// What the maker misses here and finds elsewhere.
    pub(crate) fn lost(&self, count: usize) -> Option<String> {
        match count {
            0 => None,
            1 => Some(self.sheets.lost_one.clone()),
            _ => Some(filled(&self.sheets.lost, &[("count", &count.to_string())])),
        }
    }

    /// What stands at the arrow of the grain, which in corrugated board is the way of the flutes.
    pub(crate) fn grain(&self, kind: BoardKind) -> &str {
        match kind {
            BoardKind::Carton | BoardKind::Solid => &self.sheets.grain,
            BoardKind::Corrugated => &self.sheets.flutes,
        }
    }

    /// How lengths are written.
    fn lengths(&self, unit: Unit) -> Lengths {
        Lengths {
            unit,
            decimal: self.decimal,
        }
    }

    /// A figure with the decimal sign of the language.
    pub(crate) fn decimal(&self, figure: &str) -> String {
        self.lengths(Unit::Millimetre).decimal(figure)
    }

    /// Lengths that belong together, with their unit once.
    fn sides(&self, lengths: &[f64], unit: Unit) -> String {
        self.lengths(unit).sides(lengths)
    }

    /// A length in the maker's unit; in inches millimetres follow.
    fn length(&self, length: f64, unit: Unit) -> String {
        let metric = format!("{} mm", number(length, Unit::Millimetre));
        self.decimal(&match unit {
            Unit::Millimetre => metric,
            Unit::Inch => format!("{} in ({metric})", number(length, unit)),
        })
    }

    fn reading(&self, reading: f64, unit: Unit) -> String {
        match unit {
            Unit::Millimetre => format!("{reading:.0} mm"),
            Unit::Inch => format!("{} in", self.lengths(unit).fraction(reading, 16)),
        }
    }
}

/// Whether the maker has read the bars and found them wrong.
pub(crate) fn is_corrected(page: &Page) -> bool {
    page.bar_across.is_some() || page.bar_down.is_some()
}

/// At most so many characters of a name.
pub(crate) fn shortened(name: &str, most: usize) -> String {
    traywright_look::shortened(name, most, "...")
}

/// A length in the maker's unit, without its sign.
pub(crate) fn number(length: f64, unit: Unit) -> String {
    unit.figure(length)
}
