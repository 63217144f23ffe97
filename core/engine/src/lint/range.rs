//! The range of a style: jobs of every size that it may meet, each made from its number.
//!
//! Number 0 is the simplest job. Then each of its parameters is set to its ends, one at a time. In all later jobs every
//! parameter is random, often at one of its ends. Some boxes are beyond the range: they only serve to see whether a
//! rule refuses them.

use super::parameters::{Parameter, ParameterRange, default_job};
use super::random::Rng;
use crate::job::Job;
use crate::style::Style;

/// Boxes beyond the range: least and greatest length, width and depth, in mm.
// Source: no rule of the trade; from a box in which nothing can stand to one that no table takes.
const BEYOND_MM: [[f64; 2]; 3] = [[10.0, 900.0], [8.0, 600.0], [5.0, 300.0]];

/// One in this many trays is beyond the range.
const BEYOND_ONE_IN: usize = 10;

/// All jobs of a style, by their numbers.
#[derive(Debug)]
pub struct Range<'s> {
    style: &'s Style,
    default: Job,
    one_at_a_time: Vec<(Parameter, f64)>,
}

impl<'s> Range<'s> {
    /// The range of a style.
    pub fn of(style: &'s Style) -> Self {
        let default = default_job(style);
        let mut one_at_a_time = Vec::new();
        for parameter in Parameter::all(style, &default) {
            let Some(scale) = parameter.scale(style, &default) else {
                // Setting a value, even the default, makes the check report errors in the formulas of its setting.
                one_at_a_time.push((parameter, 1.0));
                continue;
            };
            let places = match scale.words {
                true => (0..=scale.max as usize).map(|place| place as f64).collect(),
                false => vec![scale.min, scale.max],
            };
            let unusual = places.into_iter().filter(|&place| place != scale.default);
            one_at_a_time.extend(unusual.map(|place| (parameter, place)));
        }
        Range {
            style,
            default,
            one_at_a_time,
        }
    }

    /// The job with this number.
    pub fn job(&self, number: usize) -> Job {
        let mut job = self.default.clone();
        match number.checked_sub(1) {
            None => {}
            Some(end) if end < self.one_at_a_time.len() => {
                let (parameter, place) = self.one_at_a_time[end];
                parameter.turn(self.style, &mut job, place);
                // A box is never wider than long.
                if job.box_size.width > job.box_size.length {
                    job.box_size.width = job.box_size.length;
                }
            }
            Some(_) => self.draw(&mut job, number),
        }
        job
    }

    fn draw(&self, job: &mut Job, number: usize) {
        let mut random = Rng::of(number);
        let beyond = random.one_of(BEYOND_ONE_IN) == 0;
        let mut turned = 0;
        // Setting one parameter can add others: more items, each with its sides.
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
    let [min, max] = BEYOND_MM[side];
    let max = if side == 1 {
        max.min(job.box_size.length.mm())
    } else {
        max
    };
    // Sizes of small boxes are drawn in finer steps than those of large ones.
    ParameterRange {
        min,
        default: min,
        max,
        step: 1.0,
        words: false,
    }
}

/// A random value in a range, or none for the default.
fn drawn(parameter: Parameter, scale: ParameterRange, random: &mut Rng) -> Option<f64> {
    if scale.words {
        let default = matches!(parameter, Parameter::Setting(_)) && random.part() < 0.5;
        return (!default).then(|| random.one_of(scale.max as usize + 1) as f64);
    }
    // Probabilities of the default, of the least and of the greatest value; the rest is between.
    // Source: no rule of the trade; many settings at once at their ends would let hardly any tray be made.
    let [default, min, max] = match parameter {
        Parameter::Box(_) => [0.0, 0.1, 0.1],
        Parameter::Item(..) => [0.2, 0.05, 0.05],
        Parameter::Items => [0.3, 0.0, 0.1],
        Parameter::Setting(_) => [0.6, 0.1, 0.1],
        _ => [0.2, 0.2, 0.2],
    };
    let lot = random.part();
    let part = random.part();
    if lot < default {
        return None;
    }
    if lot < default + min {
        return Some(scale.min);
    }
    if lot < default + min + max {
        return Some(scale.max);
    }
    Some(scale.round(match parameter {
        // Settings near their default are drawn more often than others.
        Parameter::Setting(_) => {
            let end = if random.part() < 0.5 {
                scale.min
            } else {
                scale.max
            };
            scale.default + (end - scale.default) * part * part
        }
        _ => scale.min + (scale.max - scale.min) * part,
    }))
}
