//! The writer of jobs, line by line or whole.
//!
//! **Input:** values by their keys, or a whole job. **Output:** lines of a job. Read again, a job in
//! millimetres has the same values to the last bit; which unit the maker thinks in is not written.

use std::fmt;

use traywright_engine::Job;
use traywright_engine::job::{Board, DrawnFace, DxfVersion, Item, Length, SettingInput, Unit};
use traywright_engine::wording::quoted;

use super::keys::{Key, LINES, Line, Start};
use super::pages::{DefaultPage, WHOLE_PAGE};
use super::words::{CUTS, DXF_VERSIONS, FACES, GRAINS, SHAPES, word_for};
use crate::lengths::{WrittenLength, in_job};

/// A value as a job writes it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Value<'a> {
    /// A length in the unit of the maker, rounded as people write it.
    Length(WrittenLength),
    /// A length in millimetres, exactly.
    Mm(f64),
    /// A length in inches, exactly.
    Inches(f64),
    /// An angle.
    Degrees(f64),
    /// A number without a unit.
    Number(f64),
    /// A whole number.
    Count(usize),
    /// A word or a text.
    Text(&'a str),
    /// `#true` or `#false`.
    YesNo(bool),
}

impl fmt::Display for Value<'_> {
    fn fmt(&self, to: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Value::Length(length) => write!(to, "{}", in_job(*length)),
            Value::Mm(mm) => write!(to, "(mm){mm}"),
            Value::Inches(inches) => write!(to, "(in){inches}"),
            Value::Degrees(degrees) => write!(to, "(deg){degrees}"),
            Value::Number(number) => write!(to, "{number}"),
            Value::Count(count) => write!(to, "{count}"),
            Value::Text(text) => write!(to, "{}", quoted(text)),
            Value::YesNo(yes) => write!(to, "#{yes}"),
        }
    }
}

impl<'a> From<&'a SettingInput> for Value<'a> {
    fn from(input: &'a SettingInput) -> Self {
        match input {
            SettingInput::Length(mm) => Value::Mm(*mm),
            SettingInput::Angle(degrees) => Value::Degrees(*degrees),
            SettingInput::Number(number) => Value::Number(*number),
            SettingInput::Word(word) => Value::Text(word),
            SettingInput::YesNo(yes) => Value::YesNo(*yes),
        }
    }
}

/// One line of a job with these values, in the order of the table of keys; without a line end.
///
/// # Panics
/// When the table has no line of that name.
pub fn line(name: &str, values: &[(&str, Value<'_>)]) -> String {
    let line = Line::named(name).expect("the table of keys has every line that is written");
    line.with(|key| {
        let given = values.iter().find(|(name, _)| *name == key.name);
        given.map(|(_, value)| *value)
    })
}

/// `set "edge-web"=(mm)3`, without a line end.
pub fn setting(name: &str, value: impl fmt::Display) -> String {
    format!("set {}={value}", quoted(name))
}

/// The text of a job. Lengths are in millimetres; what has its default is left out.
pub fn write(job: &Job) -> String {
    let mut text = String::new();
    let mut push = |line: String| {
        text.push_str(&line);
        text.push('\n');
    };
    for line in &LINES {
        match line.name {
            "item" => {
                for kind in job.items.chunk_by(|_, next| next.number > 1) {
                    push(line.unusual(|key| item_value(kind, key)));
                }
            }
            "set" => {
                let settings = job.settings.iter();
                settings.for_each(|set| push(setting(&set.name, Value::from(&set.answer))));
            }
            name => {
                let written = match line.start {
                    // Left out, it means none and not its defaults.
                    Start::Comment => line.with(|key| value(job, name, key.name)),
                    Start::Line | Start::Nothing => line.unusual(|key| value(job, name, key)),
                };
                if written != name {
                    push(written);
                }
            }
        }
    }
    text
}

impl Line {
    /// The line with the values that are given.
    pub(crate) fn with<'v>(&self, value: impl Fn(&Key) -> Option<Value<'v>>) -> String {
        let mut text = self.name.to_owned();
        if let Some(value) = self.argument.as_ref().and_then(&value) {
            text.push_str(&format!(" {value}"));
        }
        for key in self.known_keys() {
            if let Some(value) = value(key) {
                text.push_str(&format!(" {}={value}", key.name));
            }
        }
        text
    }

    /// The line with the values that are not the defaults.
    fn unusual<'v>(&self, value: impl Fn(&str) -> Option<Value<'v>>) -> String {
        self.with(|key| value(key.name).filter(|value| Some(*value) != key.default()))
    }
}

/// The value of a job by its key; none where the job has none.
fn value<'a>(job: &'a Job, line: &str, key: &str) -> Option<Value<'a>> {
    Some(match (line, key) {
        ("tray", "style") => Value::Text(&job.style),
        ("tray", "name") => Value::Text(&job.title),
        ("box", "length") => Value::Mm(job.box_size.length.mm()),
        ("box", "width") => Value::Mm(job.box_size.width.mm()),
        ("box", "depth") => Value::Mm(job.box_size.depth.mm()),
        ("box", "corner") => Value::Mm(job.rounding.corner.mm()),
        ("box", "floor-corner") => Value::Mm(job.rounding.floor_corner.mm()),
        ("board", key) => return board_value(&job.board, key),
        ("fit", "box") => Value::Mm(job.fit.around_tray.mm()),
        ("fit", "item") => Value::Mm(job.fit.around_item.mm()),
        ("fit", "play") => Value::Mm(job.fit.play.mm()),
        ("slot", "cut") => Value::Text(word_for(&CUTS, &job.slot.cut)),
        ("slot", "finger") => Value::Mm(job.slot.finger?.mm()),
        ("page", key) => return page_value(job, key),
        ("draw", "face") if job.output.drawn_face != DrawnFace::default() => {
            Value::Text(word_for(&FACES, &job.output.drawn_face))
        }
        ("words", "language") if job.output.language != "en" => Value::Text(&job.output.language),
        ("kerf", "width") if job.output.machine.kerf > Length::ZERO => {
            Value::Mm(job.output.machine.kerf.mm())
        }
        ("nicks", "length") => Value::Mm(job.output.machine.nicks?.length.mm()),
        ("nicks", "every") => Value::Mm(job.output.machine.nicks?.every.mm()),
        ("dxf", "version") if job.output.machine.dxf != DxfVersion::default() => {
            Value::Text(word_for(&DXF_VERSIONS, &job.output.machine.dxf))
        }
        _ => return None,
    })
}

/// The value of an item and its repeats by its key.
fn item_value<'a>(kind: &'a [Item], key: &str) -> Option<Value<'a>> {
    let item = kind.first()?;
    Some(match key {
        "name" => Value::Text(&item.name),
        "length" => Value::Mm(item.length.mm()),
        "width" => Value::Mm(item.width.mm()),
        "depth" => Value::Mm(item.depth.mm()),
        "shape" => Value::Text(word_for(&SHAPES, &item.shape)),
        "turn" => Value::YesNo(item.turns),
        "count" => Value::Count(kind.len()),
        _ => return None,
    })
}

fn board_value<'a>(board: &'a Board, key: &str) -> Option<Value<'a>> {
    Some(match key {
        "name" => Value::Text(board.name.as_deref()?),
        "caliper" => Value::Mm(board.caliper.mm()),
        "hinge" => Value::Mm(board.hinge),
        "tolerance" => Value::Mm(board.tolerance?.mm()),
        "sheet" => Value::Text(&board.sheet.as_ref()?.name),
        "grain" => Value::Text(word_for(&GRAINS, &board.grain?)),
        _ => return None,
    })
}

fn page_value<'a>(job: &'a Job, key: &str) -> Option<Value<'a>> {
    let page = job.output.paper.page();
    let default = DefaultPage::of(Unit::Millimetre);
    let (margin, default_margin) = match job.output.paper.bleed() {
        Some(bleed) => (bleed, default.bleed),
        None => (page.margin, default.margin),
    };
    Some(match key {
        "name or size" if job.output.paper.bleed().is_some() => Value::Text(WHOLE_PAGE),
        "name or size" if page.name != default.name => Value::Text(&page.name),
        "margin" if margin != default_margin => Value::Mm(margin.mm()),
        "font" => Value::Text(page.font.as_deref()?),
        "overlap" => Value::Mm(page.overlap.mm()),
        "bar-across" => Value::Mm(page.bar_across.mm()),
        "bar-down" => Value::Mm(page.bar_down.mm()),
        _ => return None,
    })
}
