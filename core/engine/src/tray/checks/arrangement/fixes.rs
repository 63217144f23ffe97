//! Fixes for a job whose openings do not fit together.
//!
//! **Input:** a style and a job whose openings do not fit. **Output:** the fix with its changes. The engine has
//! arranged the openings with each change; a change for which it found no arrangement is not named.

use crate::finding::{Advice, Change, Clause, Fix};
use crate::geometry::TOUCH_MM;
use crate::job::{BoxSize, ItemId, Job, Length, Setting, SettingInput, Unit};
use crate::style::Style;
use crate::values::Values;

/// Search steps of each trial; a fix that is hard to find is not worth naming.
// Derived: some 50 trials of at most 5 ms.
const STEPS: usize = 5_000;

/// The thinnest web that a fix proposes.
// Source: common practice, none published.
const THINNEST_WEB_MM: f64 = 2.0;

/// The largest box that is tried, as a multiple of its size.
// Source: common practice, none published: whoever needs more has another box, not a larger one.
const LARGEST_BOX: f64 = 3.0;

/// The step of proposed lengths.
// Source: common practice, none published.
fn grid(unit: Unit) -> f64 {
    match unit {
        Unit::Millimetre => 0.1,
        Unit::Inch => 0.254,
    }
}

/// The changes of the job that help, and those that were tried and do not.
pub(super) fn of(style: &Style, job: &Job) -> Fix {
    let trial = Trial { style, job };
    let mut ways: Vec<Vec<Change>> = Vec::new();
    let mut fails = Vec::new();
    match trial.turning() {
        Some(changes) => ways.push(changes),
        None if job.items.iter().all(|item| item.turns) => {}
        None => fails.push("turning"),
    }
    match trial.thinner_web() {
        Some(change) => ways.push(vec![change]),
        None => fails.push("a thinner web"),
    }
    ways.extend(trial.larger_box().into_iter().map(|change| vec![change]));
    let what = fails.join(", ");
    let fails = (!fails.is_empty()).then_some(Clause::TriedInVain { what });
    let says = if ways.is_empty() {
        Advice::FewerItems { fails }
    } else {
        Advice::ChangesWouldDo { fails }
    };
    Fix { says, ways }
}

/// A job that may be changed and tried.
struct Trial<'a> {
    style: &'a Style,
    job: &'a Job,
}

impl Trial<'_> {
    fn fits(&self, job: &Job) -> bool {
        let Ok(mut values) = Values::for_job(self.style, job) else {
            return false;
        };
        values.search_steps = STEPS;
        values.graph.openings.ids().all(|opening| {
            let arrangement = values.arrangement(opening);
            arrangement.is_ok_and(|found| found.is_none_or(|found| !found.fails()))
        })
    }

    /// Lets items be rotated by 90°: those rotated when all were allowed to be, with the repeats of the same line.
    fn turning(&self) -> Option<Vec<Change>> {
        let mut all = self.job.clone();
        all.items.iter_mut().for_each(|item| item.turns = true);
        let turned = self.turned(&all)?;
        let mut few = self.job.clone();
        let mut turns: Vec<Change> = Vec::new();
        for item in 0..few.items.len() {
            let line = few.items[item].place.clone();
            let lines_turned = turned
                .iter()
                .filter_map(|&other| self.job.item(other))
                .any(|other| other.place == line);
            if lines_turned && !self.job.items[item].turns {
                few.items[item].turns = true;
                let first = self.job.items.iter().find(|other| other.place == line);
                let turn = Change::turn(first.map_or("", |first| &first.name));
                if !turns.contains(&turn) {
                    turns.push(turn);
                }
            }
        }
        (!turns.is_empty() && self.fits(&few)).then_some(turns)
    }

    /// The items that are rotated when a job's openings are arranged; none if they do not fit.
    fn turned(&self, job: &Job) -> Option<Vec<ItemId>> {
        let mut values = Values::for_job(self.style, job).ok()?;
        values.search_steps = STEPS;
        let mut turned = Vec::new();
        for opening in values.graph.openings.ids() {
            let found = values.arrangement(opening).ok()?;
            if found.is_some_and(|found| found.fails()) {
                return None;
            }
            if values.is_turned(opening).ok()? {
                turned.extend(values.graph.openings[opening].item);
            }
        }
        Some(turned)
    }

    /// The widest web below the requested one with which they fit.
    fn thinner_web(&self) -> Option<Change> {
        let values = Values::for_job(self.style, self.job).ok()?;
        let web = values.built_in_length("web").ok()?;
        let unit = self.job.unit;
        let with = |steps: usize| {
            let mut job = self.job.clone();
            job.settings.retain(|setting| setting.name != "web");
            job.settings.push(Setting {
                name: "web".to_owned(),
                answer: SettingInput::Length(steps as f64 * grid(unit)),
                place: 0..0,
            });
            job
        };
        let least = (THINNEST_WEB_MM / grid(unit)).ceil() as usize;
        let most = ((web - TOUCH_MM) / grid(unit)).floor() as usize;
        let thinner = most.checked_sub(least)?;
        // Bisects from the widest web downwards to the first that fits.
        let down = least_that(thinner, |down| self.fits(&with(most - down)))?;
        let found = (most - down) as f64 * grid(unit);
        Some(Change::at_least("set", "web", found, unit))
    }

    /// The next larger boxes: longer, or wider.
    fn larger_box(&self) -> Vec<Change> {
        let BoxSize { length, width, .. } = self.job.box_size;
        let (length, width) = (length.mm(), width.mm());
        let unit = self.job.unit;
        let longer = |job: &mut Job, to| job.box_size.length = to;
        let wider = |job: &mut Job, to| job.box_size.width = to;
        let longer = self.grown(length, length * LARGEST_BOX, longer);
        let wider = self.grown(width, length, wider);
        let sides = [("length", longer), ("width", wider)];
        sides
            .into_iter()
            .filter_map(|(side, to)| Some(Change::at_least("box", side, to?, unit)))
            .collect()
    }

    /// The shortest side with which they fit.
    fn grown(&self, from: f64, most: f64, grow: impl Fn(&mut Job, Length)) -> Option<f64> {
        let grid = grid(self.job.unit);
        let first = (from / grid).floor() + 1.0;
        let steps = ((most + TOUCH_MM) / grid).floor() - first;
        let side = |step: usize| (first + step as f64) * grid;
        let fits = |step: usize| {
            let mut job = self.job.clone();
            grow(&mut job, Length::known(side(step)));
            self.fits(&job)
        };
        (steps >= 0.0)
            .then(|| least_that(steps as usize, fits))
            .flatten()
            .map(side)
    }
}

/// The least number up to `most` for which `holds` is true, if it is true for all numbers from there to `most`.
fn least_that(most: usize, holds: impl Fn(usize) -> bool) -> Option<usize> {
    if !holds(most) {
        return None;
    }
    let (mut low, mut high) = (0, most);
    while low < high {
        let middle = low + (high - low) / 2;
        if holds(middle) {
            high = middle;
        } else {
            low = middle + 1;
        }
    }
    Some(high)
}
