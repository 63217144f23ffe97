//! The parameters of a job, and their ranges.
//!
//! **Input:** a style and a job. A [`Parameter`] gives its [`ParameterRange`], reads its value in a job and sets it. A
//! range has a default, so that a job can be described by its differences from the defaults. Words, truths and counts
//! are whole numbers.

use crate::finding::Refusal;
use crate::geometry::TOUCH_MM;
use crate::job::{Board, BoxSize, Cut, Item, Job, Length, Setting, SettingInput};
use crate::style::Style;
use crate::style::names::Scope;
use crate::style::text::{OpeningEntry, Orientation, SettingEntry, SettingId};
use crate::style::written::Written;
use crate::values::Values;

/// Insides of the boxes of the range: least, default and greatest of length, width and depth, in mm.
// Source: core/GEOMETRY.md, "How it was verified": it drew from these; the default box is our own choice.
pub(super) const BOXES_MM: [[f64; 3]; 3] = [
    [60.0, 180.0, 400.0],
    [40.0, 120.0, 300.0],
    [15.0, 40.0, 120.0],
];

/// Thicknesses of card of the range: least, default and greatest, in mm.
// Source: the same section, from a fiftieth instead of nothing.
const CALIPERS_MM: [f64; 3] = [0.02, 0.3, 1.5];

/// Maximum number of items of a tray of the range.
// Source: no rule of the trade; enough for three rows of three.
const MOST_ITEMS: usize = 9;

/// A parameter of a job.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Parameter {
    /// A side of the box: 0 length, 1 width, 2 depth.
    Box(usize),
    Caliper,
    Hinge,
    AroundTray,
    AroundItem,
    Play,
    Cut,
    /// The number of items.
    Items,
    /// A side of an item.
    Item(usize, usize),
    /// A setting of the style.
    Setting(SettingId),
}

/// The range of a parameter.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct ParameterRange {
    pub(super) min: f64,
    pub(super) default: f64,
    pub(super) max: f64,
    /// Round values are multiples of this.
    pub(super) step: f64,
    /// Whether its values are words, without an order.
    pub(super) words: bool,
}

impl ParameterRange {
    /// A value rounded, within the range.
    pub(super) fn round(&self, figure: f64) -> f64 {
        let round = if self.step < 1.0 {
            // Divided at the end, so that a round value has no more decimals than it shows.
            let per_one = (1.0 / self.step).round();
            (figure * per_one).round() / per_one
        } else {
            (figure / self.step).round() * self.step
        };
        round.clamp(self.min, self.max.max(self.min))
    }

    fn lengths([min, default, max]: [f64; 3], step: f64) -> Self {
        ParameterRange {
            min,
            default,
            max,
            step,
            words: false,
        }
    }

    fn words(count: usize, default: usize) -> Self {
        let max = (count - 1) as f64;
        ParameterRange {
            min: 0.0,
            default: default as f64,
            max,
            step: 1.0,
            words: true,
        }
    }
}

const CUTS: [Cut; 3] = [Cut::Cross, Cut::Doors, Cut::Open];

impl Parameter {
    /// All parameters of a job; those on which others depend come first.
    pub(super) fn all(style: &Style, job: &Job) -> Vec<Parameter> {
        let card = [Parameter::Caliper, Parameter::Hinge, Parameter::Play];
        let mut all: Vec<Parameter> = Vec::new();
        if job.has_box() {
            all.extend((0..3).map(Parameter::Box));
            all.extend(card);
            all.extend([Parameter::AroundTray, Parameter::AroundItem]);
            all.extend([Parameter::Cut, Parameter::Items]);
        } else {
            all.extend(card);
        }
        all.extend(
            (0..job.items.len())
                .flat_map(|item| (0..3).map(move |side| Parameter::Item(item, side))),
        );
        all.extend(style.sheet.settings.ids().map(Parameter::Setting));
        all
    }

    /// Its range in this job; none if the style's own formulas for it fail.
    pub(super) fn scale(self, style: &Style, job: &Job) -> Option<ParameterRange> {
        Some(match self {
            Parameter::Box(side) => {
                let [min, default, max] = BOXES_MM[side];
                let max = if side == 1 {
                    max.min(job.box_size.length.mm())
                } else {
                    max
                };
                ParameterRange::lengths([min.min(max), default.min(max), max], 1.0)
            }
            Parameter::Caliper => ParameterRange::lengths(CALIPERS_MM, 0.01),
            Parameter::Hinge => {
                let caliper = job.board.caliper;
                let default = Board::plain(caliper).hinge();
                ParameterRange::lengths([0.0, default, caliper.mm() / 2.0], 0.01)
            }
            // Source: core/CONTRACT.md, "Job file", and core/GEOMETRY.md, "How it was verified", for the ends.
            Parameter::AroundTray => ParameterRange::lengths([0.5, 2.0, 3.0], 0.5),
            Parameter::AroundItem => ParameterRange::lengths([1.0, 2.0, 3.0], 0.5),
            Parameter::Play => ParameterRange::lengths([0.0, 0.5, 1.2], 0.1),
            Parameter::Cut => ParameterRange::words(CUTS.len(), 0),
            Parameter::Items => {
                let (min, max) = style.items();
                let max = max.min(MOST_ITEMS.max(min));
                ParameterRange::lengths([min as f64, min as f64, max as f64], 1.0)
            }
            Parameter::Item(_, side) => {
                let [along, across, deep] = default_item(job, job.items.len());
                let max = [1.9 * along, 1.9 * across, job.box_size.depth.mm() + 2.0][side];
                let default = [along, across, deep][side];
                ParameterRange::lengths([default.min(5.0), default, max.round()], 1.0)
            }
            Parameter::Setting(setting) => return setting_range(style, job, setting),
        })
    }

    /// Its value.
    pub(super) fn place(self, style: &Style, job: &Job) -> f64 {
        match self {
            Parameter::Box(side) => [
                job.box_size.length.mm(),
                job.box_size.width.mm(),
                job.box_size.depth.mm(),
            ][side],
            Parameter::Caliper => job.board.caliper.mm(),
            Parameter::Hinge => job.board.hinge(),
            Parameter::AroundTray => job.fit.around_tray.mm(),
            Parameter::AroundItem => job.fit.around_item.mm(),
            Parameter::Play => job.fit.play.mm(),
            Parameter::Cut => (0..CUTS.len())
                .find(|&cut| CUTS[cut] == job.slot.cut)
                .unwrap_or(0) as f64,
            Parameter::Items => job.items.len() as f64,
            Parameter::Item(item, side) => {
                let item = &job.items[item];
                [item.length.mm(), item.width.mm(), item.depth.mm()][side]
            }
            Parameter::Setting(setting) => {
                let (name, entry) = &style.sheet.settings[setting];
                let set = job
                    .settings
                    .iter()
                    .find(|setting| setting.name == name.word);
                set.map(|setting| place_of(&setting.answer, entry))
                    .or_else(|| self.scale(style, job).map(|scale| scale.default))
                    .unwrap_or(0.0)
            }
        }
    }

    /// Sets it. Items with default sizes keep default sizes when the box or the number of items changes.
    pub(super) fn turn(self, style: &Style, job: &mut Job, to: f64) {
        let default = job.items == default_items(style, job, job.items.len());
        // Every range of a length begins at 0 or above.
        let length = || Length::known(to);
        match self {
            Parameter::Box(0) => job.box_size.length = length(),
            Parameter::Box(1) => job.box_size.width = length(),
            Parameter::Box(_) => job.box_size.depth = length(),
            Parameter::Caliper => {
                job.board.caliper = length();
                job.board.hinge = job.board.hinge.map(|hinge| hinge.min(to / 2.0));
            }
            Parameter::Hinge => {
                job.board.hinge = None;
                job.board.hinge = Some(to).filter(|&to| to != job.board.hinge());
            }
            Parameter::AroundTray => job.fit.around_tray = length(),
            Parameter::AroundItem => job.fit.around_item = length(),
            Parameter::Play => job.fit.play = length(),
            Parameter::Cut => job.slot.cut = CUTS[to as usize],
            Parameter::Items => job.items = default_items(style, job, to as usize),
            Parameter::Item(item, 0) => job.items[item].length = length(),
            Parameter::Item(item, 1) => job.items[item].width = length(),
            Parameter::Item(item, _) => job.items[item].depth = length(),
            Parameter::Setting(setting) => answer(style, job, setting, to),
        }
        if default && matches!(self, Parameter::Box(_)) {
            job.items = default_items(style, job, job.items.len());
        }
        lay_pads(style, job);
    }

    /// Resets it to its default, so that the job does not state it.
    pub(super) fn let_go(self, style: &Style, job: &mut Job) {
        if let Parameter::Setting(setting) = self {
            let name = &style.sheet.settings[setting].0.word;
            job.settings.retain(|setting| setting.name != *name);
        } else if let Some(scale) = self.scale(style, job) {
            self.turn(style, job, scale.default);
        }
    }
}

/// The range of a setting.
fn setting_range(style: &Style, job: &Job, setting: SettingId) -> Option<ParameterRange> {
    let (name, entry) = &style.sheet.settings[setting];
    let (default, min, max, step) = match entry {
        SettingEntry::Length {
            default, min, max, ..
        } => (default, min, max, 0.1),
        SettingEntry::Angle {
            default, min, max, ..
        } => (default, min, max, 0.5),
        SettingEntry::Number {
            default, min, max, ..
        } => (default, min, max, 0.1),
        SettingEntry::Choice { default, of, .. } => {
            let default = of.iter().position(|word| word.word == default.word);
            return Some(ParameterRange::words(of.len(), default.unwrap_or(0)));
        }
        SettingEntry::YesNo { default, .. } => {
            return Some(ParameterRange::words(2, usize::from(*default)));
        }
    };
    let mut bare = job.clone();
    bare.settings.retain(|setting| setting.name != name.word);
    let [min, default, max] = figures(style, &bare, [min, default, max])?;
    let whole = |figure: f64| (figure - figure.round()).abs() < TOUCH_MM;
    let counts =
        matches!(entry, SettingEntry::Number { .. }) && [min, default, max].into_iter().all(whole);
    (min <= max)
        .then(|| ParameterRange::lengths([min, default, max], if counts { 1.0 } else { step }))
}

fn figures(style: &Style, job: &Job, of: [&Written; 3]) -> Option<[f64; 3]> {
    let for_job: Result<Values, Refusal> = Values::for_job(style, job);
    let values = for_job.ok()?;
    let mut figures = [0.0; 3];
    for (figure, written) in figures.iter_mut().zip(of) {
        // The style outlives the values, so the formula does, too.
        *figure = values.amount(written, Scope::Style).ok()?;
    }
    Some(figures)
}

fn answer(style: &Style, job: &mut Job, setting: SettingId, to: f64) {
    let (name, entry) = &style.sheet.settings[setting];
    let answer = match entry {
        SettingEntry::Length { .. } => SettingInput::Length(to),
        SettingEntry::Angle { .. } => SettingInput::Angle(to),
        SettingEntry::Number { .. } => SettingInput::Number(to),
        SettingEntry::Choice { of, .. } => SettingInput::Word(of[to as usize].word.clone()),
        SettingEntry::YesNo { .. } => SettingInput::YesNo(to > 0.5),
    };
    job.settings.retain(|setting| setting.name != name.word);
    job.settings.push(Setting {
        name: name.word.clone(),
        answer,
        place: 0..0,
    });
}

fn place_of(answer: &SettingInput, entry: &SettingEntry) -> f64 {
    match (answer, entry) {
        (
            SettingInput::Length(figure)
            | SettingInput::Angle(figure)
            | SettingInput::Number(figure),
            _,
        ) => *figure,
        (SettingInput::YesNo(truth), _) => f64::from(u8::from(*truth)),
        (SettingInput::Word(word), SettingEntry::Choice { of, .. }) => {
            of.iter()
                .position(|option| option.word == *word)
                .unwrap_or(0) as f64
        }
        (SettingInput::Word(_), _) => 0.0,
    }
}

/// The simplest job of a style: a default box, the minimum number of items, and no settings.
pub(super) fn default_job(style: &Style) -> Job {
    let [length, width, depth] = BOXES_MM.map(|[_, default, _]| Length::known(default));
    let box_size = BoxSize {
        length,
        width,
        depth,
    };
    let caliper = Length::known(CALIPERS_MM[1]);
    let box_size = if style.items().1 > 0 {
        box_size
    } else {
        BoxSize::NONE
    };
    let mut job = Job::plain(style.name(), box_size, caliper, Vec::new());
    job.items = default_items(style, &job, style.items().0);
    job
}

/// Adds a pad under each item that raises its top to the deck, so that every cut holds it, because a loose item would
/// be the job's error and not the style's. Without a deck, or if the style states how deep an item may be, items get no
/// pad.
fn lay_pads(style: &Style, job: &mut Job) {
    let deck = job.box_size.depth.mm() - job.fit.around_tray.mm();
    let padded = has_decks(style);
    for item in &mut job.items {
        let pad = if padded { deck - item.depth.mm() } else { 0.0 };
        item.pad = Length::known(pad.max(0.0));
    }
}

/// Whether items are in openings of a deck as high as the tray.
fn has_decks(style: &Style) -> bool {
    let mut openings = style.sheet.openings.enumerated();
    let low = |entry: &OpeningEntry| matches!(entry, OpeningEntry::Slot(slot) if slot.max_item_depth.is_some());
    matches!(style.sheet.stands, Orientation::RootUp) && !openings.any(|(_, _, entry)| low(entry))
}

/// Items of the default size for the job's box.
fn default_items(style: &Style, job: &Job, count: usize) -> Vec<Item> {
    let size = default_item(job, count).map(Length::known);
    let item = |number: usize| match count {
        1 => Item::plain("item", size),
        _ => Item::plain(&format!("item {number}"), size),
    };
    let mut padded = Job {
        items: (1..=count).map(item).collect(),
        ..job.clone()
    };
    lay_pads(style, &mut padded);
    padded.items
}

/// Half of each item's share of the box if they are in a square field, and somewhat less deep than the box.
fn default_item(job: &Job, count: usize) -> [f64; 3] {
    let in_a_row = (count as f64).sqrt().ceil();
    let rows = (count as f64 / in_a_row).ceil();
    let size = &job.box_size;
    let of = |size: f64, part: f64| (size * part).round().max(1.0);
    [
        of(size.length.mm(), 0.5 / in_a_row),
        of(size.width.mm(), 0.5 / rows),
        of(size.depth.mm(), 0.75),
    ]
}
