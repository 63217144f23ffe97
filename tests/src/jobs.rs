//! Jobs for the engine as a library: one written down in a line, or many drawn at random from the ranges of the trade.
//!
//! Given figures or a seed, it gives jobs in plain data, and styles read from the tree. The same seed gives the same
//! jobs on every machine. It never says which of them can be made.

use std::fs;

use traywright_engine::Style;
use traywright_engine::job::{BoxSize, Cut, DrawnFace, Fit, Item, ItemShape, Job, Length};

use crate::repository;

/// A job on A4 with the usual fits (2 in the box, 2 around the item, a play of 0.5) for one item called `item`.
///
/// The box is length, width and depth, and so is the item.
pub fn job(box_size: [f64; 3], item: [f64; 3], caliper: f64) -> Job {
    let [length, width, depth] = box_size.map(Length::known);
    let box_size = BoxSize {
        length,
        width,
        depth,
    };
    let caliper = Length::known(caliper);
    Job::plain("tried", box_size, caliper, vec![an_item("item", item)])
}

/// A rectangular item of these measures.
pub fn an_item(name: &str, size: [f64; 3]) -> Item {
    Item::plain(name, size.map(Length::known))
}

/// The same job with a pad under each item that lies lower than the deck of a tray as high as its box lets it be: all tops
/// are level with it, so that every cut holds them.
pub fn level(mut job: Job) -> Job {
    let deck = job.box_size.depth.mm() - job.fit.around_tray.mm();
    for item in &mut job.items {
        item.pad = Length::known((deck - item.depth.mm()).max(0.0));
    }
    job
}

/// A job as a maker writes it, with one item, for a style.
pub fn written(style: &str, job: &Job) -> String {
    let (size, item, board, fit) = (&job.box_size, &job.items[0], &job.board, &job.fit);
    let measures = |measures: [Length; 3]| {
        let [length, width, depth] = measures.map(Length::mm);
        format!("length=(mm){length} width=(mm){width} depth=(mm){depth}")
    };
    let cut = match job.slot.cut {
        Cut::Cross => "cross",
        Cut::Doors => "doors",
        Cut::Open => "open",
    };
    let shape = match item.shape {
        ItemShape::Oval => "oval",
        ItemShape::Round => "round",
        _ => "rectangle",
    };
    let finger = job.slot.finger;
    let finger = finger.map_or(String::new(), |width| format!(" finger=(mm){}", width.mm()));
    let face = match job.output.drawn_face {
        DrawnFace::Inside => "inside",
        DrawnFace::Outside => "outside",
    };
    [
        format!("tray style=\"{style}\""),
        format!("box {}", measures([size.length, size.width, size.depth])),
        format!(
            "item \"item\" {} shape=\"{shape}\" pad=(mm){}",
            measures([item.length, item.width, item.depth]),
            item.pad.mm()
        ),
        format!(
            "board caliper=(mm){} hinge=(mm){}",
            board.caliper.mm(),
            board.hinge()
        ),
        format!(
            "fit box=(mm){} item=(mm){} play=(mm){}",
            fit.around_tray.mm(),
            fit.around_item.mm(),
            fit.play.mm()
        ),
        format!("slot cut=\"{cut}\"{finger}"),
        format!("draw face=\"{face}\"\n"),
    ]
    .join("\n")
}

/// A style of the tree, by its file's path from the repository's top.
///
/// # Panics
/// When the file is missing or is no style.
pub fn style(path: &str) -> Style {
    let file = repository().join(path);
    let text = fs::read_to_string(&file).unwrap_or_else(|error| panic!("{path}: {error}"));
    let stem = file.file_stem().expect("a style's file has a name");
    Style::read(&stem.to_string_lossy(), &text)
        .unwrap_or_else(|faults| panic!("{path}: {faults:#?}"))
}

/// How many jobs one test may draw: a law that finds no tray to judge fails instead of running for ever.
// Derived: the longest search of the laws draws some 3000 jobs.
const MOST_DRAWN: usize = 20_000;

/// Jobs drawn at random.
///
/// Boxes of 60 to 400 by 40 to 300 by 15 to 120, card of 0.02 to 1.5 with fold lines from its middle to its face, a
/// play of 0 to 1.2, round fits, all cuts, and one item somewhat smaller or larger than the box can take. A pad lifts it to
/// the deck, but for half of those between four flaps.
///
/// # Panics
/// When a test asks for more than [`MOST_DRAWN`]: too few of them can be made.
pub fn drawn(seed: u64) -> impl Iterator<Item = Job> {
    let (mut dice, mut pads) = (Dice(seed), Dice(!seed));
    bounded(move || {
        let mut job = draw(&mut dice);
        job.items[0].pad = pad(&job, &job.items[0], &mut pads);
        job
    })
}

/// Jobs like those of [`drawn`], each with one to six items; some of up to five items may be turned.
///
/// # Panics
/// As [`drawn`].
pub fn drawn_with_items(seed: u64) -> impl Iterator<Item = Job> {
    let (mut dice, mut pads) = (Dice(seed), Dice(!seed));
    bounded(move || {
        let mut job = draw(&mut dice);
        let count = 1 + (dice.bits() % 6) as usize;
        let turns = count <= 5 && dice.bits().is_multiple_of(3);
        let size = job.box_size;
        // As many as there are in a row and in a column of a square field.
        let part = (count as f64).sqrt().ceil();
        job.items.clear();
        for number in 1..=count {
            let size = [
                dice.between(8.0, 1.35 * size.length.mm() / part),
                dice.between(8.0, 1.25 * size.width.mm() / part),
                dice.between(5.0, size.depth.mm() + 1.0),
            ];
            let mut item = an_item(&format!("item{number}"), size);
            item.turns = turns && dice.bits().is_multiple_of(2);
            item.pad = pad(&job, &item, &mut pads);
            job.items.push(item);
        }
        job
    })
}

/// Jobs drawn at random for a shipped style: with several items where it takes them, and without pads where the item stands
/// on the tray's own floor.
///
/// # Panics
/// As [`drawn`].
pub fn drawn_for(style: &str, seed: u64) -> Box<dyn Iterator<Item = Job>> {
    match style {
        "multi-slot" => Box::new(drawn_with_items(seed)),
        "lid-lock" => Box::new(drawn(seed).map(on_the_floor)),
        _ => Box::new(drawn(seed)),
    }
}

/// The same job without pads, for a style whose fences stand at the foot of an item.
pub fn on_the_floor(mut job: Job) -> Job {
    for item in &mut job.items {
        item.pad = Length::default();
    }
    job
}

fn bounded(mut draw: impl FnMut() -> Job) -> impl Iterator<Item = Job> {
    (0..).map(move |count| {
        assert!(
            count < MOST_DRAWN,
            "of {MOST_DRAWN} jobs too few gave a tray"
        );
        draw()
    })
}

fn draw(dice: &mut Dice) -> Job {
    let (one, other) = (dice.between(60.0, 400.0), dice.between(40.0, 300.0));
    let box_size = [one.max(other), one.min(other), dice.between(15.0, 120.0)];
    let item = [
        dice.between(10.0, box_size[0] - 10.0),
        dice.between(8.0, box_size[1] - 5.0),
        dice.between(5.0, box_size[2] + 2.0),
    ];
    let between = dice.between(0.02, 1.5);
    let caliper = dice.one_of([between, between, between, 0.02, 1.5]);
    let mut job = job(box_size, item, caliper);
    let half = caliper / 2.0;
    let between = dice.between(0.0, half);
    job.board.hinge = Some(dice.one_of([0.0, between, half]));
    let between = dice.between(0.0, 1.2);
    job.fit = Fit {
        around_tray: Length::known(dice.one_of([0.5, 2.0, 3.0])),
        around_item: Length::known(dice.one_of([1.0, 2.0, 3.0])),
        play: Length::known(dice.one_of([0.0, between, between, 1.2])),
    };
    job.slot.cut = dice.one_of([Cut::Cross, Cut::Doors, Cut::Open]);
    job
}

/// A pad that brings the top of an item somewhere between the lid and a little below the deck's face, where an edge of the
/// deck still holds it. Four flaps mostly hold an item without one.
// Derived: below the face by less than the caliper, the edge and the item share height.
fn pad(job: &Job, item: &Item, dice: &mut Dice) -> Length {
    let around_tray = job.fit.around_tray.mm();
    let level = job.box_size.depth.mm() - around_tray - item.depth.mm();
    let above = dice.between(-0.4 * job.board.caliper.mm(), around_tray);
    let lies_bare = dice.one_of([true, false]) && job.slot.cut == Cut::Cross;
    let pad = if lies_bare { 0.0 } else { level + above };
    Length::known(pad.max(0.0))
}

/// A random number generator that is the same everywhere.
// Source: the splitmix64 algorithm, from memory; nothing rests on its values.
pub struct Dice(pub u64);

impl Dice {
    /// The next 64 bits.
    pub fn bits(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut bits = self.0;
        bits = (bits ^ (bits >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        bits = (bits ^ (bits >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        bits ^ (bits >> 31)
    }

    /// A number from `least` to `most`.
    pub fn between(&mut self, least: f64, most: f64) -> f64 {
        let part = (self.bits() >> 11) as f64 / (1_u64 << 53) as f64;
        least + part * (most - least)
    }

    /// One of these, each as likely as another.
    pub fn one_of<T: Copy, const N: usize>(&mut self, these: [T; N]) -> T {
        these[(self.bits() % N as u64) as usize]
    }
}
