//! The numbers of a job: each is finite, and a length that cannot be negative is not.
//!
//! **Input:** a job made by any caller. **Output:** an error for each number that is none, at the place of its line where
//! the job has one. The reader of job files refuses such numbers itself, in the words of the file.

use super::{Job, SettingInput};
use crate::finding::{SourceError, SourceSpan};

/// A number of a job with its name there.
struct Number<'a> {
    line: &'static str,
    key: &'a str,
    value: f64,
    may_be_negative: bool,
    place: SourceSpan,
}

/// All numbers that a tray cannot have.
pub(crate) fn errors(job: &Job) -> Vec<SourceError> {
    let is_wrong = |number: &Number<'_>| {
        !number.value.is_finite() || number.value < 0.0 && !number.may_be_negative
    };
    numbers(job)
        .into_iter()
        .filter(is_wrong)
        .map(Number::error)
        .collect()
}

impl Number<'_> {
    fn error(self) -> SourceError {
        let message = format!("`{} {}` is {}", self.line, self.key, self.value);
        let label = match self.may_be_negative {
            true => "it is a finite number",
            false => "it is a finite number of millimetres, 0 or more",
        };
        SourceError::new(self.place, message, label)
    }
}

fn numbers(job: &Job) -> Vec<Number<'_>> {
    let (in_box, paper, machine) = (&job.box_size, &job.output.paper, &job.output.machine);
    let page = paper.page();
    let mut lengths = vec![
        ("box", "length", Some(in_box.length)),
        ("box", "width", Some(in_box.width)),
        ("box", "depth", Some(in_box.depth)),
        ("box", "corner", Some(job.rounding.corner)),
        ("box", "floor-corner", Some(job.rounding.floor_corner)),
        ("board", "caliper", Some(job.board.caliper)),
        ("board", "tolerance", job.board.tolerance),
        ("fit", "box", Some(job.fit.around_tray)),
        ("fit", "item", Some(job.fit.around_item)),
        ("fit", "play", Some(job.fit.play)),
        ("slot", "finger", job.slot.finger),
        ("page", "width", Some(page.width)),
        ("page", "height", Some(page.height)),
        ("page", "margin", Some(page.margin)),
        ("page", "overlap", Some(page.overlap)),
        ("page", "bar-across", Some(page.bar_across)),
        ("page", "bar-down", Some(page.bar_down)),
        ("page", "bleed", paper.bleed()),
        ("kerf", "width", Some(machine.kerf)),
        ("nicks", "length", machine.nicks.map(|nicks| nicks.length)),
        ("nicks", "every", machine.nicks.map(|nicks| nicks.every)),
    ];
    if let Some(sheet) = &job.board.sheet {
        lengths.push(("board", "sheet", Some(sheet.width)));
        lengths.push(("board", "sheet", Some(sheet.height)));
    }
    let of_job = lengths.into_iter().filter_map(|(line, key, value)| {
        Some(Number {
            line,
            key,
            value: value?,
            may_be_negative: false,
            place: 0..0,
        })
    });
    of_job.chain(of_items(job)).chain(signed(job)).collect()
}

fn of_items(job: &Job) -> impl Iterator<Item = Number<'_>> {
    job.items.iter().flat_map(|item| {
        let sides = [
            ("length", item.length),
            ("width", item.width),
            ("depth", item.depth),
        ];
        sides.map(|(key, value)| Number {
            line: "item",
            key,
            value,
            may_be_negative: false,
            place: item.place.clone(),
        })
    })
}

/// Numbers that other rules of the program hold to their range.
fn signed(job: &Job) -> impl Iterator<Item = Number<'_>> {
    let of_settings = job.settings.iter().filter_map(|setting| {
        let value = match setting.answer {
            SettingInput::Length(value) | SettingInput::Angle(value) => value,
            SettingInput::Number(value) => value,
            SettingInput::Word(_) | SettingInput::YesNo(_) => return None,
        };
        Some(Number {
            line: "set",
            key: &setting.name,
            value,
            may_be_negative: true,
            place: setting.place.clone(),
        })
    });
    let hinge = Number {
        line: "board",
        key: "hinge",
        value: job.board.hinge,
        may_be_negative: true,
        place: 0..0,
    };
    std::iter::once(hinge).chain(of_settings)
}
