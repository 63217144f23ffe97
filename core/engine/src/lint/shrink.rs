//! Shrinks a failing job: simplifies it as long as it still shows its error.
//!
//! **Input:** a style, a job and its error. **Output:** a job in which every parameter is at its default unless the
//! error needs another value, and then as near to it as round values allow. Each step is tried, and `go_on` is called
//! before it.

use super::parameters::{Parameter, ParameterRange};
use super::trial_job::{Outcome, StyleError, try_out};
use crate::finding::FoundIn;
use crate::job::Job;
use crate::style::Style;

/// Rounds over all parameters; the second one finds simplifications that the last steps of the first made possible.
// Source: no rule of the trade.
const MOST_ROUNDS: usize = 3;

/// The simplest job found that shows the error, with the error as this job shows it.
pub fn shrink(
    style: &Style,
    job: &Job,
    flaw: &StyleError,
    go_on: &mut dyn FnMut() -> bool,
) -> (Job, StyleError) {
    let mut search = Search {
        style,
        go_on,
        job: job.clone(),
        flaw: flaw.clone(),
    };
    for _ in 0..MOST_ROUNDS {
        let before = search.job.clone();
        search.drop_answers();
        let mut turned = 0;
        while let Some(&parameter) = Parameter::all(style, &search.job).get(turned) {
            turned += 1;
            search.bring_near(parameter);
        }
        if search.job == before {
            break;
        }
    }
    (search.job, search.flaw)
}

struct Search<'s> {
    style: &'s Style,
    go_on: &'s mut dyn FnMut() -> bool,
    job: Job,
    flaw: StyleError,
}

impl Search<'_> {
    /// Resets settings, all at once and then each, because most errors need none of them.
    fn drop_answers(&mut self) {
        if !self.job.settings.is_empty() {
            let mut plain = self.job.clone();
            plain.settings.clear();
            if self.take(plain) {
                return;
            }
        }
        for answer in self.job.settings.clone() {
            let mut plain = self.job.clone();
            plain.settings.retain(|setting| *setting != answer);
            self.take(plain);
        }
    }

    fn bring_near(&mut self, parameter: Parameter) {
        let Some(scale) = parameter.scale(self.style, &self.job) else {
            return;
        };
        let mut plain = self.job.clone();
        parameter.let_go(self.style, &mut plain);
        if plain == self.job || self.take(plain) || scale.words {
            return;
        }
        // Coarse steps first, so that a value is as round as the error allows.
        for step in [10.0 * scale.step, scale.step] {
            self.halve(parameter, ParameterRange { step, ..scale });
        }
    }

    /// Bisects between the default, which does not show the error, and the current value.
    fn halve(&mut self, parameter: Parameter, scale: ParameterRange) {
        let away = parameter.place(self.style, &self.job) - scale.default;
        let mut sound = 0;
        let mut shows = (away.abs() / scale.step).ceil() as usize;
        while shows > sound + 1 {
            let middle = (sound + shows) / 2;
            let to = scale.round(scale.default + away.signum() * middle as f64 * scale.step);
            if self.turned(parameter, to) {
                shows = middle;
            } else {
                sound = middle;
            }
        }
    }

    fn turned(&mut self, parameter: Parameter, to: f64) -> bool {
        let mut turned = self.job.clone();
        parameter.turn(self.style, &mut turned, to);
        turned != self.job && self.take(turned)
    }

    /// Takes a job if it shows the error, too.
    fn take(&mut self, job: Job) -> bool {
        let fair = job.box_size.width <= job.box_size.length;
        if !fair || !(self.go_on)() {
            return false;
        }
        let Some(flaw) = self.shown(&job) else {
            return false;
        };
        (self.job, self.flaw) = (job, flaw);
        true
    }

    /// The error as a job shows it, if it does.
    fn shown(&self, job: &Job) -> Option<StyleError> {
        let place = |flaw: &StyleError| flaw.fault.as_ref().map(|fault| fault.place.clone());
        match try_out(self.style, job) {
            Outcome::AtFault(found) => {
                let same = found.code == self.flaw.code && place(&found) == place(&self.flaw);
                same.then_some(found)
            }
            Outcome::Made(made) => {
                let same = self.flaw.found_in == Some(FoundIn::Support)
                    && made.loose.contains(&self.flaw.place)
                    && made.panels == self.flaw.panels;
                same.then(|| self.flaw.clone())
            }
            _ => None,
        }
    }
}
