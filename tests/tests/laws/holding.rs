//! How items are held, by pencil and paper: flaps, bearing heights, rise and pads of random jobs in every style and cut.
//!
//! Lengths in mm. The formulas are the project's design of holding, written down from its text; they ask the engine nothing.

use traywright_document::{Document, Item, Pads};
use traywright_engine::job::{Cut, Job, Length};
use traywright_engine::make;
use traywright_tests::jobs::{Dice, an_item, job, style};

/// Trays of each style.
const TRAYS: usize = 80;

/// How many jobs are drawn for each tray that is wanted.
const TRIES: usize = 40;

/// What arithmetic may leave.
const NOISE_MM: f64 = 1e-6;

/// A bearing height nearer to none than this may be none, and a limit of a flap so near may choose another cut.
const NEAR_TIE_MM: f64 = 1e-3;

/// What a flap's tip stays above the floor.
// Source: core/GEOMETRY.md, "Letters".
const FLOOR_AIR: f64 = 0.5;

/// An item in the tray of a job: o and v, and of each pair of edges the depth of its flaps.
struct Figures {
    hinge: f64,
    caliper: f64,
    air: f64,
    /// How far its top, and the end of what keeps its outline, lie below the deck.
    below: f64,
    straight_below: f64,
    /// How far its underside does.
    underside: f64,
    /// At the ends and at the sides; 0 where no flap hangs.
    flaps: [f64; 2],
    /// What is unsure of what stops the item at the ends and at the sides.
    unsure: [f64; 2],
}

/// What is unsure of the room under the lid: the box and the item, each measured to half a millimetre (k = 2).
const UNDER_LID: f64 = 0.816_497;

/// What is unsure of a stop.
// Reasoning: the item, and two lines between the deck and the floor, each to 0.5; for a flap two lines more. Two folds, for a
// flap three, each off by a tenth of carton or a quarter of board; and the caliper, known to 5 %. k = 2 of even limits.
fn unsure(job: &Job, flap: bool) -> f64 {
    let caliper = job.board.caliper.mm();
    let off = match job.board.hinge {
        None if caliper > 0.6 => 0.25,
        _ => 0.1,
    };
    let (lines, folds) = if flap { (5.0, 3.0) } else { (3.0, 2.0) };
    let (folds, card) = (folds * off * caliper, 0.05 * caliper);
    2.0 * ((lines * 0.25 + folds * folds + card * card) / 3.0).sqrt()
}

impl Figures {
    fn of(job: &Job, item: &traywright_engine::job::Item) -> Figures {
        let (caliper, hinge) = (job.board.caliper.mm(), job.board.hinge());
        let depth = job.box_size.depth.mm();
        let usual = depth - job.fit.around_tray.mm();
        let height = job.tray_height.map_or(usual, Length::mm);
        let (pad, up) = (item.pad.mm(), item.straight.unwrap_or(item.depth).mm());
        let hinge = caliper / 2.0 + hinge;
        let fit = job.fit.around_item.mm();
        let slot = [item.length.mm() + fit, item.width.mm() + fit];
        let limit = height - hinge - FLOOR_AIR;
        let flaps = flaps(item.cut.unwrap_or(job.slot.cut), slot, limit);
        Figures {
            unsure: flaps.map(|flap| unsure(job, flap > 0.0)),
            hinge,
            caliper,
            air: depth - height,
            below: height - pad - item.depth.mm(),
            straight_below: height - pad - up,
            underside: height - pad,
            flaps,
        }
    }

    /// The height that the item shares with what stands on a pair of edges.
    fn bears(&self, axis: usize) -> f64 {
        let (high, low) = match self.flaps[axis] {
            0.0 => (0.0, self.caliper),
            flap => (self.hinge, self.hinge + flap),
        };
        low.min(self.underside) - self.straight_below.max(high)
    }

    /// The pads with which what stops the item, and the room under the lid, are more than what is unsure of them.
    fn safe(&self, least: f64, most: f64, straight: f64) -> Option<[f64; 2]> {
        let low = [0, 1].map(|axis| {
            let reach = match self.flaps[axis] {
                0.0 => self.caliper,
                flap => self.hinge + flap,
            };
            straight - reach + self.unsure[axis]
        });
        let low = low[0].max(low[1]).max(least);
        let high = most - UNDER_LID;
        (low <= high).then_some([low, high])
    }

    /// The least and the thickest pad, and the one to name, if the item has `pad` under it now.
    fn pads(&self, pad: f64) -> Option<Pads> {
        let (below, straight) = (self.below + pad, self.straight_below + pad);
        let asked = self.flaps.map(|flap| match flap {
            0.0 => straight,
            flap => straight - (self.hinge + flap) + enough(flap),
        });
        let least = asked[0].max(asked[1]).max(below - 8.0).max(0.0);
        let (most, named) = (below + self.air, below + self.air / 2.0);
        if least > most {
            return None;
        }
        let told = [0.5, 0.1].into_iter().find_map(|step| {
            let low = (least / step - NOISE_MM).ceil() * step;
            let high = (most / step + NOISE_MM).floor() * step;
            let named = ((named / step).round() * step).clamp(low.min(high), high.max(low));
            (low <= high).then_some((low, high, named))
        });
        let safe = self.safe(least, most, straight);
        let (least, most, named) = told.unwrap_or((least, most, named.max(least)));
        let Some([low, high]) = safe else {
            let named = (least > 0.0).then_some(named);
            return Some(Pads { least, most, named });
        };
        let inside = [0.5, 0.1].into_iter().find_map(|step| {
            let low = (low / step - NOISE_MM).ceil() * step;
            let high = (high / step + NOISE_MM).floor() * step;
            (low <= high).then(|| named.clamp(low, high))
        });
        let named = inside.unwrap_or(named.clamp(low, high));
        Some(Pads {
            least,
            most,
            named: (least.max(low) > NOISE_MM).then_some(named),
        })
    }
}

/// How much of a flap is enough.
fn enough(flap: f64) -> f64 {
    flap.min((flap / 4.0).max(3.0))
}

/// Depth of the flaps at the ends and at the sides of an opening.
fn flaps(cut: Cut, [length, width]: [f64; 2], limit: f64) -> [f64; 2] {
    let less = length.min(width);
    let mitred = if less / 2.0 <= limit {
        less / 2.0
    } else {
        limit.min(less / 2.0 - 1.0)
    };
    match cut {
        Cut::Open => [0.0; 2],
        Cut::Doors if length >= width => [0.0, mitred],
        Cut::Doors => [mitred, 0.0],
        Cut::Cross if length.max(width) / 2.0 <= limit => [length / 2.0, width / 2.0],
        Cut::Cross => [mitred; 2],
    }
}

#[test]
fn items_in_openings_are_held_as_the_formulas_say() {
    // Reasoning: beside a flap B = min(o + e, b + d) - max(b, o), beside a bare edge B = min(t, b + d) - max(b, 0);
    // held if B > 0, and then within the clear size less the item.
    let (mut items, mut held, mut pads) = (0, 0, 0);
    for name in ["single-slot", "multi-slot", "double-wall"] {
        let style = style(&format!("designs/styles/{name}.ron"));
        let mut dice = Dice(61);
        let jobs = (0..TRAYS * TRIES).map(|_| draw(&mut dice, name));
        let made = jobs.filter_map(|job| Some((make(&style, &job).ok()?, job)));
        let mut trays = 0;
        for (tray, job) in made.take(TRAYS) {
            trays += 1;
            let document = tray.unrounded().document();
            for (asked, item) in job.items.iter().zip(&document.items) {
                let figures = Figures::of(&job, asked);
                items += 1;
                held += check_held(&job, &document, item, &figures);
                pads += usize::from(check_pads(&job, item, &figures));
            }
        }
        assert_eq!(trays, TRAYS, "too few trays of {name} can be made");
    }
    println!(
        "{items} items, {held} of {} directions held, {pads} with pads",
        2 * items
    );
    assert!(held > items / 2 && held < 2 * items && pads > items / 2);
}

/// Compares the measures of an item; gives in how many directions it is held.
fn check_held(job: &Job, document: &Document, item: &Item, figures: &Figures) -> usize {
    let check = |measure: &str, expected: f64| {
        let found = told(document, measure, &item.name);
        assert!(
            (found - expected).abs() < NOISE_MM,
            "{measure} {found} instead of {expected}: {item:#?} {job:#?}"
        );
    };
    check("below_deck", figures.below);
    check("rise", figures.air + figures.below);
    let mut held = 0;
    for axis in [0, 1] {
        let way = ["length", "width"][axis];
        check(["flap_ends", "flap_sides"][axis], figures.flaps[axis]);
        let bears = figures.bears(axis);
        if bears.abs() < NEAR_TIE_MM {
            continue;
        }
        check(&format!("bears_{way}"), bears.max(0.0));
        let loss = match figures.flaps[axis] {
            0.0 => 0.0,
            _ => 2.0 * figures.hinge,
        };
        let play = job.fit.around_item.mm() - loss;
        let travel = told(document, &format!("travel_{way}"), &item.name);
        if bears > 0.0 {
            check(&format!("travel_{way}"), play);
            held += 1;
        } else {
            assert!(travel > play + 0.1, "{travel} {item:#?} {job:#?}");
        }
    }
    held
}

/// Compares the pads of an item; gives whether it has some.
fn check_pads(job: &Job, item: &Item, figures: &Figures) -> bool {
    let found = item.held.as_ref().expect("a place").pads;
    let expected = figures.pads(item.pad);
    let (Some(found), Some(expected)) = (found, expected) else {
        assert_eq!(found, expected, "{item:#?} {job:#?}");
        return false;
    };
    let pairs = [
        (found.least, expected.least),
        (found.most, expected.most),
        (found.named.unwrap_or(-1.0), expected.named.unwrap_or(-1.0)),
    ];
    let same = pairs
        .iter()
        .all(|(one, other)| (one - other).abs() < NOISE_MM);
    assert!(
        same,
        "{found:?} instead of {expected:?}: {item:#?} {job:#?}"
    );
    true
}

#[test]
fn items_between_fences_are_held_as_the_formulas_say() {
    // Reasoning: the top of a fence of flat reach F stands F - (t/2 - h) over the floor; at rest B = min(d, that - pad); the
    // item rises by the air under the lid.
    let style = style("designs/styles/lid-lock.ron");
    let mut dice = Dice(62);
    let jobs = (0..TRAYS * TRIES).map(|_| draw(&mut dice, "lid-lock"));
    let made = jobs.filter_map(|job| Some((make(&style, &job).ok()?, job)));
    let mut trays = 0;
    for (tray, job) in made.take(TRAYS) {
        trays += 1;
        let document = tray.unrounded().document();
        let (asked, name) = (&job.items[0], &job.items[0].name);
        let inner = job.board.caliper.mm() / 2.0 - job.board.hinge();
        let upright = asked.straight.unwrap_or(asked.depth).mm();
        let measure = |name: &str| {
            let found = document.measures.iter().find(|found| found.name == name);
            found.unwrap_or_else(|| panic!("no {name}")).value
        };
        let pairs = [
            ("fence_ends", "bears_length"),
            ("fence_sides", "bears_width"),
        ];
        for (fence, bears) in pairs {
            let expected = upright.min(measure(fence) - inner - asked.pad.mm());
            let found = told(&document, bears, name);
            assert!(
                (found - expected).abs() < NOISE_MM,
                "{found} {expected} {job:#?}"
            );
        }
        let air = measure("inside_height") - asked.depth.mm() - asked.pad.mm();
        let rise = told(&document, "rise", name);
        assert!((rise - air).abs() < NOISE_MM, "{rise} {air} {job:#?}");
    }
    assert_eq!(trays, TRAYS, "too few trays can be made");
}

fn told(document: &Document, measure: &str, item: &str) -> f64 {
    let name = format!("{measure}.{item}");
    let found = document.measures.iter().find(|found| found.name == name);
    found.unwrap_or_else(|| panic!("no {name}")).value
}

/// A job whose items lie anywhere between the floor and the lid.
fn draw(dice: &mut Dice, style: &str) -> Job {
    let (one, other) = (dice.between(100.0, 340.0), dice.between(80.0, 250.0));
    let box_size = [one.max(other), one.min(other), dice.between(20.0, 70.0)];
    let caliper = dice.between(0.2, 1.0);
    let mut job = job(box_size, [10.0; 3], caliper);
    job.style = style.to_owned();
    job.board.hinge = Some(dice.one_of([0.0, caliper / 4.0, caliper / 2.0]));
    job.fit.around_tray = Length::known(dice.between(1.0, 3.0));
    job.fit.around_item = Length::known(dice.one_of([2.0, 3.0]));
    job.slot.cut = dice.one_of([Cut::Cross, Cut::Cross, Cut::Doors, Cut::Open]);
    let (fit, fenced) = (job.fit.around_tray.mm(), style == "lid-lock");
    let lower = Length::known(dice.between(0.8, 1.0) * (box_size[2] - fit));
    if !fenced {
        job.tray_height = dice.one_of([None, None, Some(lower)]);
    }
    let count = if style == "multi-slot" {
        1 + dice.bits() % 4
    } else {
        1
    };
    job.items = (1..=count)
        .map(|number| {
            let part = (count as f64).sqrt().ceil();
            let size = [0, 1].map(|axis| dice.between(18.0, 0.6 * box_size[axis] / part + 1.0));
            let depth = if fenced {
                box_size[2] - fit - 3.0 * caliper - dice.between(0.5, 6.0)
            } else {
                dice.between(0.1, 1.0) * box_size[2]
            };
            let mut item = an_item(&format!("item{number}"), [size[0], size[1], depth]);
            let pad = dice.between(0.0, (box_size[2] - depth).max(0.0));
            item.pad = Length::known(dice.one_of([0.0, pad]));
            item.cut = dice.one_of([None, None, Some(Cut::Cross), Some(Cut::Open)]);
            let straight = Length::known(dice.between(0.3, 1.0) * depth);
            item.straight = dice.one_of([None, None, Some(straight)]);
            item.loose = true;
            item
        })
        .collect();
    job
}
