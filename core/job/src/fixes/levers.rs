//! Levers: values that a maker can change and that no finding proposes, tried from the smallest change to the largest.

use traywright_engine::Job;
use traywright_engine::finding::Change;
use traywright_engine::formula::Value;
use traywright_engine::job::{SettingInput, Unit};
use traywright_engine::wording::{exact_setting, quoted};

use super::Effort;
use super::trial::Trial;
use crate::lengths::trimmed;
use crate::library::{Boards, Stock};

/// The largest box that is tried, as a multiple of its size.
// Source: a choice of this project: whoever needs more has another box, not a larger one.
const LARGEST_BOX: f64 = 1.6;

/// One value of a job that can be changed, from 0 for its current value to 1 for the largest change.
pub(super) struct Lever {
    change: Change,
    kind: Kind,
    unit: Unit,
}

enum Kind {
    /// From one length to another.
    Length { now: f64, end: f64 },
    /// One of several values, the nearest first.
    Values(Vec<String>),
}

impl Lever {
    /// The effort of the change.
    pub(super) fn effort(&self) -> Effort {
        Effort::of(&self.change)
    }

    /// Positions to try first, from the smallest change: a few fixed ones, and guesses from the shortfall of a finding.
    pub(super) fn positions(&self, short: Option<f64>) -> Vec<f64> {
        let mut positions = match self.effort() {
            Effort::Setting => vec![0.5, 1.0],
            _ => vec![0.1, 0.2, 0.4, 0.7, 1.0],
        };
        if let Kind::Length { now, end } = self.kind {
            let length = (end - now).abs();
            // Half the shortfall suffices if both sides change.
            let guesses = short
                .into_iter()
                .flat_map(|short| [short / 2.0, short, 2.0 * short]);
            positions.extend(guesses.map(|short| short / length));
        }
        positions.retain(|position| (0.0..=1.0).contains(position));
        positions.sort_by(f64::total_cmp);
        positions
    }

    /// The change at a position.
    pub(super) fn change(&self, position: f64) -> Option<Vec<Change>> {
        let to = |to: String| {
            vec![Change {
                to,
                ..self.change.clone()
            }]
        };
        let (now, end) = match &self.kind {
            Kind::Length { now, end } => (*now, *end),
            Kind::Values(values) => {
                let at = (position * values.len() as f64).ceil() as usize;
                return values.get(at.checked_sub(1)?).cloned().map(to);
            }
        };
        let step = step(self.unit);
        // Rounded away from the current value, so that the change is large enough.
        let length = now + (end - now) * position;
        let steps = length / step;
        let steps = if end > now {
            (steps - 1e-6).ceil()
        } else {
            (steps + 1e-6).floor()
        };
        (steps > 0.0).then(|| to(exact_setting(steps * step, self.unit)))
    }

    /// Whether a value between two positions is worth trying.
    pub(super) fn is_coarser(&self, one: f64, other: f64) -> bool {
        match &self.kind {
            Kind::Length { now, end } => ((other - one) * (end - now)).abs() > step(self.unit),
            Kind::Values(values) => (other - one) * values.len() as f64 > 1.0,
        }
    }
}

/// The step of proposed lengths, in mm.
// Source: a choice of this project: what a maker reads off a ruler.
fn step(unit: Unit) -> f64 {
    match unit {
        Unit::Millimetre => 0.5,
        Unit::Inch => 25.4 / 32.0,
    }
}

/// The levers of a job, the easiest change first.
pub(super) fn levers(job: &Job, trial: &Trial<'_>) -> Vec<Lever> {
    let lever = |node, key: &str, kind| Lever {
        change: Change {
            node,
            item: None,
            key: key.to_owned(),
            to: String::new(),
        },
        kind,
        unit: job.unit,
    };
    let length = |node, key: &str, now: f64, end: f64| lever(node, key, Kind::Length { now, end });
    let (size, fit) = (&job.box_size, &job.fit);
    let usual = size.depth.mm() - fit.around_tray.mm();
    let height = job.tray_height.map_or(usual, |height| height.mm());
    let [item, play] = [fit.around_item.mm(), fit.play.mm()];
    let mut levers = vec![
        length("tray", "height", height, 0.3 * height),
        length("fit", "item", item, 0.0),
        length("fit", "item", item, item + 6.0),
        length("fit", "play", play, play + 3.0),
    ];
    let settings = settings(job, trial).into_iter();
    levers.extend(settings.map(|(name, now, end)| length("set", &name, now, end)));
    let key = match job.board.name {
        Some(_) => "name",
        None => "caliper",
    };
    // A reading belongs to this card, so with a reading no other card is proposed.
    let other_cards = cards(job, trial.boards).into_iter();
    let cards = other_cards.filter(|_| job.board.reading.is_none());
    levers.extend(cards.map(|values| lever("board", key, Kind::Values(values))));
    let sides = [
        ("length", size.length),
        ("width", size.width),
        ("depth", size.depth),
    ];
    let sides = sides.map(|(side, now)| length("box", side, now.mm(), LARGEST_BOX * now.mm()));
    levers.extend(sides);
    levers.sort_by_key(Lever::effort);
    levers
}

/// Lengths that the style lets the job set: each down to its minimum and up to its maximum.
fn settings(job: &Job, trial: &Trial<'_>) -> Vec<(String, f64, f64)> {
    let mut ends = Vec::new();
    for setting in trial.style.questions(Some(job)) {
        let length = |value: &Option<Value>| match value {
            Some(Value::Length(length)) => Some(*length),
            _ => None,
        };
        let Some(default) = length(&setting.default.value) else {
            continue;
        };
        let own = job.settings.iter().find(|own| own.name == setting.name);
        let now = match own.map(|own| &own.answer) {
            Some(SettingInput::Length(length)) => *length,
            _ => default,
        };
        for end in setting.possible.iter().filter_map(|end| length(&end.value)) {
            if (end - now).abs() > step(job.unit) {
                ends.push((setting.name.to_owned(), now, end));
            }
        }
    }
    ends
}

/// Thinner and thicker boards of the list, written as the job writes its own: by name or by caliper; no trial paper.
fn cards(job: &Job, boards: &Boards) -> [Vec<String>; 2] {
    let now = job.board.caliper;
    let written = |stock: &Stock| match job.board.name {
        Some(_) => quoted(&stock.name),
        None => format!("(mm){}", trimmed(stock.caliper.mm(), 4)),
    };
    // A kind that the job states is kept.
    let kind = job.board.kind.filter(|_| job.board.name.is_none());
    let holding = boards
        .all()
        .iter()
        .filter(move |stock| !stock.for_trials && kind.is_none_or(|kind| stock.kind == kind));
    let thinner = holding.clone().rev().filter(|stock| stock.caliper < now);
    let thicker = holding.filter(|stock| stock.caliper > now);
    [
        thinner.map(written).collect(),
        thicker.map(written).collect(),
    ]
}
