//! A job that shows a flaw, made as plain as it can be while it still shows it.
//!
//! Given a style, a job and its flaw; gives a job in which every parameter stands at its default place unless the flaw
//! needs another, and then as near to it as a round figure can be. Each step is tried out, and `go_on` is asked before
//! it.

use super::parameters::{Parameter, ParameterRange};
use super::trial_job::{Outcome, StyleError, try_out};
use crate::finding::FoundIn;
use crate::job::Job;
use crate::style::Style;

/// Rounds over all parameters; the second one finds what the first one's last steps allow.
// Source: no rule of the trade.
const MOST_ROUNDS: usize = 3;

/// The plainest job found that shows the flaw, with the flaw as it shows there.
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
    /// Answers, all at once and then each, for most flaws need none of them.
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
        // Coarse steps first, so that a figure is as round as the flaw lets it be.
        for step in [10.0 * scale.step, scale.step] {
            self.halve(parameter, ParameterRange { step, ..scale });
        }
    }

    /// Halves the way between the default place, which shows nothing, and where the parameter stands.
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

    /// Takes a job if it shows the flaw, too.
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

    /// The flaw as a job shows it, if it does.
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
