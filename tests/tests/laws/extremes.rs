//! Legal jobs at the ends of what a job may say: whatever a maker writes, no shipped style is at fault.
//!
//! Source of the ends: the outside contract, `Job file`: a length is 0.01 to 5,000 mm, or 0 where that makes sense; a
//! caliper is more than 0; a setting goes from its `min` to its `max`.

use std::thread;

use traywright_engine::formula::Value;
use traywright_engine::job::{BoxSize, Cut, ItemShape, Job, Length, Setting, SettingInput};
use traywright_engine::{Refusal, SettingInfo, Style, make};
use traywright_tests::jobs::{Dice, an_item, style};

const STYLES: [&str; 4] = ["single-slot", "multi-slot", "double-wall", "lid-lock"];

/// Random jobs of each style, beside those with one value at an end.
const RANDOM_JOBS: usize = 250;

/// Ends of a size, with what makers write between them.
const SIZES: [f64; 10] = [
    0.01, 1.0, 6.0, 12.0, 34.0, 121.0, 182.0, 400.0, 1500.0, 5000.0,
];
const CALIPERS: [f64; 7] = [f64::MIN_POSITIVE, 1e-6, 0.01, 0.29, 1.5, 40.0, 5000.0];
const CLEARANCES: [f64; 7] = [0.0, 0.01, 0.5, 2.0, 10.0, 60.0, 5000.0];

/// Parts of the caliper at which the fold lines lie, beyond the card too.
const HINGES: [f64; 6] = [-1.0, 0.0, 0.25, 0.5, 0.6, 3.0];

#[test]
fn no_legal_job_shows_an_error_of_a_shipped_style() {
    thread::scope(|scope| {
        for (seed, name) in STYLES.into_iter().enumerate() {
            scope.spawn(move || {
                let style = style(&format!("designs/styles/{name}.ron"));
                for job in one_at_an_end(&style) {
                    is_sound(&style, &job);
                }
                let mut dice = Dice(seed as u64);
                for _ in 0..RANDOM_JOBS {
                    let job = random(&style, &mut dice);
                    is_sound(&style, &job);
                }
            });
        }
    });
}

/// The job gives a tray, or is refused for its own sake.
fn is_sound(style: &Style, job: &Job) {
    if let Err(Refusal::Style(errors)) = make(style, job) {
        panic!("{}: {errors:#?}\n{job:#?}", style.name());
    }
}

/// A job that fits, as a maker writes it.
fn plain(style: &Style) -> Job {
    let box_size = BoxSize {
        length: Length::known(182.0),
        width: Length::known(121.0),
        depth: Length::known(34.0),
    };
    let items = vec![an_item("watch", [56.0, 52.0, 30.0])];
    Job::plain(style.name(), box_size, Length::known(0.29), items)
}

/// The plain job with each of its values at each of its ends, one at a time.
fn one_at_an_end(style: &Style) -> Vec<Job> {
    let plain = plain(style);
    let mut jobs = Vec::new();
    let mut with = |change: &dyn Fn(&mut Job)| {
        let mut job = plain.clone();
        change(&mut job);
        job.box_size.width = Length::known(job.box_size.width.mm().min(job.box_size.length.mm()));
        jobs.push(job);
    };
    for size in SIZES {
        with(&|job| job.box_size.length = Length::known(size));
        with(&|job| job.box_size.width = Length::known(size));
        with(&|job| job.box_size.depth = Length::known(size));
        with(&|job| job.items[0].length = Length::known(size));
        with(&|job| job.items[0].width = Length::known(size));
        with(&|job| job.items[0].depth = Length::known(size));
    }
    for caliper in CALIPERS {
        with(&|job| job.board.caliper = Length::known(caliper));
    }
    for part in HINGES {
        with(&|job| job.board.hinge = Some(part * job.board.caliper.mm()));
    }
    for clearance in CLEARANCES {
        with(&|job| job.fit.around_tray = Length::known(clearance));
        with(&|job| job.fit.around_item = Length::known(clearance));
        with(&|job| job.fit.play = Length::known(clearance));
    }
    for question in style.questions(Some(&plain)) {
        for end in ends(&question) {
            with(&|job| job.settings.push(set(&question, &end)));
        }
    }
    jobs
}

/// A job whose values stand at their ends or near them.
fn random(style: &Style, dice: &mut Dice) -> Job {
    let mut job = plain(style);
    // Most values stay as they are, so that some of the jobs get far into the check.
    let calm = dice.between(0.0, 1.0);
    let touched = |dice: &mut Dice| dice.between(0.0, 1.0) > calm;
    for side in 0..6 {
        if touched(dice) {
            *sides(&mut job)[side] = Length::known(size(dice));
        }
    }
    job.box_size.width = Length::known(job.box_size.width.mm().min(job.box_size.length.mm()));
    if touched(dice) {
        job.board.caliper = Length::known(dice.one_of(CALIPERS));
    }
    if touched(dice) {
        job.board.hinge = Some(dice.one_of(HINGES) * job.board.caliper.mm());
    }
    let fit = &mut job.fit;
    for clearance in [&mut fit.around_tray, &mut fit.around_item, &mut fit.play] {
        if touched(dice) {
            *clearance = Length::known(dice.one_of(CLEARANCES));
        }
    }
    openings(style, &mut job, dice);
    let bare = job.clone();
    for question in style.questions(Some(&bare)) {
        if touched(dice) && dice.bits().is_multiple_of(2) {
            let ends = ends(&question);
            let end = &ends[(dice.bits() % ends.len() as u64) as usize];
            job.settings.push(set(&question, end));
        }
    }
    job
}

fn sides(job: &mut Job) -> [&mut Length; 6] {
    let (in_box, item) = (&mut job.box_size, &mut job.items[0]);
    [
        &mut in_box.length,
        &mut in_box.width,
        &mut in_box.depth,
        &mut item.length,
        &mut item.width,
        &mut item.depth,
    ]
}

fn size(dice: &mut Dice) -> f64 {
    let end = dice.one_of(SIZES);
    if dice.bits().is_multiple_of(2) {
        end
    } else {
        (end * dice.between(0.3, 3.0)).clamp(0.01, 5000.0)
    }
}

/// The cut and the form of the openings, and how many there are.
fn openings(style: &Style, job: &mut Job, dice: &mut Dice) {
    job.slot.cut = dice.one_of([Cut::Cross, Cut::Doors, Cut::Open]);
    if job.slot.cut == Cut::Open {
        job.items[0].shape = dice.one_of([ItemShape::Rectangle, ItemShape::Oval]);
        job.slot.finger = dice
            .one_of([None, Some(0.01), Some(20.0), Some(5000.0)])
            .map(Length::known);
    }
    if style.items().1 > 1 && dice.bits().is_multiple_of(3) {
        let first = job.items[0].clone();
        let copy = |number: i32| {
            let mut item = first.clone();
            item.name = format!("watch.{number}");
            item
        };
        job.items = (0..dice.one_of([2, 5, 9])).map(copy).collect();
    }
}

/// The values at the ends of a setting, or all its words.
fn ends(question: &SettingInfo<'_>) -> Vec<SettingInput> {
    let values = question.possible.iter().map(|possible| {
        let value = possible.value.clone();
        value.unwrap_or_else(|| panic!("`{}` has no {}", question.name, possible.written))
    });
    let ends: Vec<SettingInput> = values
        .map(|value| match value {
            Value::Length(length) => SettingInput::Length(length),
            Value::Angle(angle) => SettingInput::Angle(angle),
            Value::Number(number) | Value::Area(number) => SettingInput::Number(number),
            Value::Word(word) => SettingInput::Word(word),
            Value::Truth(truth) => SettingInput::YesNo(truth),
        })
        .collect();
    if let [SettingInput::Length(min), SettingInput::Length(max)] = ends[..] {
        assert!(min <= max, "`{}` goes from {min} to {max}", question.name);
    }
    ends
}

fn set(question: &SettingInfo<'_>, answer: &SettingInput) -> Setting {
    Setting {
        name: question.name.to_owned(),
        answer: answer.clone(),
        place: 0..0,
    }
}
