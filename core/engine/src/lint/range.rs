//! The range of a style: jobs of every size that it may meet, each by its number.
//!
//! Number 0 is the plainest job. Then each dial of it stands at its ends, one at a time; behind these, all dials are
//! drawn by lot, their ends often. Some boxes lie beyond the range: a rule may be for them, and only that is looked for.

use super::parameters::{Parameter, ParameterRange, usual_job};
use super::random::Rng;
use crate::job::Job;
use crate::style::Style;

/// Boxes beyond the range: least and most of length, width and depth, in mm.
// Source: no rule of the trade; from a box in which nothing can stand to one that no table takes.
const BEYOND_MM: [[f64; 2]; 3] = [[10.0, 900.0], [8.0, 600.0], [5.0, 300.0]];

/// One tray in so many is beyond the range.
const BEYOND_ONE_IN: usize = 10;

/// All jobs of a style, by their numbers.
#[derive(Debug)]
pub struct Range<'s> {
    style: &'s Style,
    usual: Job,
    one_at_a_time: Vec<(Parameter, f64)>,
}

impl<'s> Range<'s> {
    /// The range of a style.
    pub fn of(style: &'s Style) -> Self {
        let usual = usual_job(style);
        let mut one_at_a_time = Vec::new();
        for parameter in Parameter::all(style, &usual) {
            let Some(scale) = parameter.scale(style, &usual) else {
                // An answer, whatever it is, makes the check tell what is wrong with the formulas of its ask.
                one_at_a_time.push((parameter, 1.0));
                continue;
            };
            let places = match scale.words {
                true => (0..=scale.most as usize)
                    .map(|place| place as f64)
                    .collect(),
                false => vec![scale.least, scale.most],
            };
            let unusual = places.into_iter().filter(|&place| place != scale.usual);
            one_at_a_time.extend(unusual.map(|place| (parameter, place)));
        }
        Range {
            style,
            usual,
            one_at_a_time,
        }
    }

    /// The job of a number.
    pub fn job(&self, number: usize) -> Job {
        let mut job = self.usual.clone();
        match number.checked_sub(1) {
            None => {}
            Some(end) if end < self.one_at_a_time.len() => {
                let (parameter, place) = self.one_at_a_time[end];
                parameter.turn(self.style, &mut job, place);
                // A box stays no wider than long.
                job.box_size.width = job.box_size.width.min(job.box_size.length);
            }
            Some(_) => self.draw(&mut job, number),
        }
        job
    }

    fn draw(&self, job: &mut Job, number: usize) {
        let mut random = Rng::of(number);
        let beyond = random.one_of(BEYOND_ONE_IN) == 0;
        let mut turned = 0;
        // Turning one dial can bring others: more items, each with its sides.
        while let Some(&parameter) = Parameter::all(self.style, job).get(turned) {
            turned += 1;
            let scale = match parameter {
                Parameter::Box(side) if beyond => beyond_scale(job, side),
                _ => match parameter.scale(self.style, job) {
                    Some(scale) => scale,
                    None => continue,
                },
            };
            match drawn(parameter, scale, &mut random) {
                Some(place) => parameter.turn(self.style, job, place),
                None => parameter.let_go(self.style, job),
            }
        }
    }
}

fn beyond_scale(job: &Job, side: usize) -> ParameterRange {
    let [least, most] = BEYOND_MM[side];
    let most = if side == 1 {
        most.min(job.box_size.length)
    } else {
        most
    };
    // Small boxes are told apart more finely than large ones.
    ParameterRange {
        least,
        usual: least,
        most,
        step: 1.0,
        words: false,
    }
}

/// A place on a scale, or none for the usual one.
fn drawn(parameter: Parameter, scale: ParameterRange, random: &mut Rng) -> Option<f64> {
    if scale.words {
        let usual = matches!(parameter, Parameter::SettingEntry(_)) && random.part() < 0.5;
        return (!usual).then(|| random.one_of(scale.most as usize + 1) as f64);
    }
    // Chances of the usual place, of the least and of the most; the rest lies between.
    // Source: no rule of the trade; many asks at once at their ends would let hardly any tray be made.
    let [usual, least, most] = match parameter {
        Parameter::Box(_) => [0.0, 0.1, 0.1],
        Parameter::Item(..) => [0.2, 0.05, 0.05],
        Parameter::Items => [0.3, 0.0, 0.1],
        Parameter::SettingEntry(_) => [0.6, 0.1, 0.1],
        _ => [0.2, 0.2, 0.2],
    };
    let lot = random.part();
    let part = random.part();
    if lot < usual {
        return None;
    }
    if lot < usual + least {
        return Some(scale.least);
    }
    if lot < usual + least + most {
        return Some(scale.most);
    }
    Some(scale.round(match parameter {
        // Answers near the usual one are asked for more often than others.
        Parameter::SettingEntry(_) => {
            let end = if random.part() < 0.5 {
                scale.least
            } else {
                scale.most
            };
            scale.usual + (end - scale.usual) * part * part
        }
        _ => scale.least + (scale.most - scale.least) * part,
    }))
}
