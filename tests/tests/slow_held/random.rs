//! Random jobs whose items lie in every way that a maker can ask for, most of them trays that can be made.
//!
//! Given a style's name and a seed. Items may be loose, so that a tray is made and can be looked at where they slide.

use traywright_document::DrawnFace;
use traywright_engine::job::{Cut, Item, ItemShape, Job, Length};
use traywright_engine::{Style, make};
use traywright_tests::jobs::{Dice, an_item, job};

use super::Case;

/// How many jobs are drawn for each tray that is wanted.
// Derived: of the style that is hardest to please one in eight is made.
const TRIES: usize = 60;

/// So many trays of a style, from random jobs that are adapted to it.
pub(crate) fn trays(
    style: &Style,
    seed: u64,
    count: usize,
    adapt: impl Fn(&mut Dice, &mut Job),
) -> Vec<Case> {
    let mut dice = Dice(seed);
    let jobs = (0..count * TRIES).map(|_| {
        let mut job = draw(&mut dice, style.name());
        adapt(&mut dice, &mut job);
        job
    });
    let made = jobs.filter_map(|job| Some(Case::of(job.clone(), &make(style, &job).ok()?)));
    let made: Vec<Case> = made.take(count).collect();
    assert_eq!(
        made.len(),
        count,
        "too few trays of {} can be made",
        style.name()
    );
    made
}

fn draw(dice: &mut Dice, style: &str) -> Job {
    let (one, other) = (dice.between(100.0, 340.0), dice.between(80.0, 250.0));
    let box_size = [one.max(other), one.min(other), dice.between(18.0, 70.0)];
    let caliper = dice.between(0.2, 1.0);
    let mut job = job(box_size, [10.0; 3], caliper);
    job.style = style.to_owned();
    let between = dice.between(0.0, caliper / 2.0);
    job.board.hinge = Some(dice.one_of([0.0, caliper / 4.0, between]));
    job.fit.around_tray = Length::known(dice.between(1.0, 3.0));
    job.fit.around_item = Length::known(dice.one_of([1.0, 2.0, 3.0]));
    job.slot.cut = dice.one_of([Cut::Cross, Cut::Cross, Cut::Doors, Cut::Open]);
    job.output.drawn_face = dice.one_of([DrawnFace::Inside, DrawnFace::Inside, DrawnFace::Outside]);
    job.rounding.floor_corner = Length::known(dice.one_of([0.0, 0.0, 0.0, 3.0]));
    let usual = box_size[2] - job.fit.around_tray.mm();
    let lower = dice.between(0.8, 1.0) * usual;
    job.tray_height = dice.one_of([None, None, None, Some(Length::known(lower))]);
    if style == "lid-lock" {
        job.tray_height = None;
    }
    let count = if style == "multi-slot" {
        1 + dice.bits() % 4
    } else {
        1
    };
    let item = |number: u64| draw_item(dice, &job, number, count);
    let items = (1..=count).map(item).collect();
    job.items = items;
    job
}

/// An item with its top from well below the deck to the lid.
fn draw_item(dice: &mut Dice, job: &Job, number: u64, count: u64) -> Item {
    let part = (count as f64).sqrt().ceil();
    let room = |size: Length| 0.6 * size.mm() / part;
    let (length, width) = (
        dice.between(18.0, room(job.box_size.length).max(19.0)),
        dice.between(18.0, room(job.box_size.width).max(19.0)),
    );
    let inside = job.box_size.depth.mm();
    let depth = if job.style == "lid-lock" {
        inside - 3.0 * job.board.caliper.mm() - job.fit.around_tray.mm() - dice.between(0.5, 6.0)
    } else {
        dice.between(0.25, 1.0) * inside
    };
    let mut item = an_item(&format!("item{number}"), [length, width, depth]);
    let cut = dice.one_of([None, None, None, Some(Cut::Open)]);
    item.cut = cut;
    if cut.unwrap_or(job.slot.cut) == Cut::Open {
        shape(dice, &mut item);
    }
    let pad = dice.between(0.0, (inside - depth).max(0.0));
    item.pad = Length::known(dice.one_of([0.0, 0.0, pad, pad]));
    let straight = Length::known(dice.between(0.3, 1.0) * depth);
    item.straight = dice.one_of([None, None, None, None, Some(straight)]);
    item.turns = dice.bits().is_multiple_of(4);
    item.loose = true;
    item
}

/// Curves and finger notches go with a clean cut.
fn shape(dice: &mut Dice, item: &mut Item) {
    let finger = Length::known(dice.between(10.0, 18.0));
    item.finger = dice.one_of([None, None, Some(finger)]);
    item.shape = dice.one_of([ItemShape::Rectangle, ItemShape::Round, ItemShape::Oval]);
    if item.shape == ItemShape::Round {
        item.width = item.length;
    }
}
