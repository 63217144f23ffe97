//! The engine's travel, stops, bearing heights and rise against those of the solids, and what a silent report promises.

use std::collections::BTreeMap;

use traywright_document::{Holder, Item, ItemShape, Stop};
use traywright_engine::Finding;
use traywright_tests::jobs::style;
use traywright_tests::thorough::part_of;

use super::seen::{Pushed, Seen};
use super::{Case, pushed, random};

/// Trays of each of the four styles.
const TRAYS: usize = 110;

/// How far lengths may differ, and those of curves.
// Source: the project's outside check of holding: far less than card cut by hand is true to.
const SAME_MM: f64 = 0.05;
const SAME_CURVE_MM: f64 = 0.2;

/// How much further than its play a held item may go.
// Source: the project's design of holding.
const MORE_THAN_PLAY_MM: f64 = 0.1;

/// Findings that say that an item is not, or hardly, held.
const HARDLY_HELD: [&str; 4] = [
    "item-slides",
    "item-held-by-tips",
    "item-at-the-edge",
    "item-can-leave",
];

#[test]
fn items_of_shipped_styles_go_as_far_as_told_and_no_further_than_their_play_where_nothing_is_said()
{
    let names = ["single-slot", "multi-slot", "double-wall", "lid-lock"];
    let cases = names.iter().flat_map(|name| {
        let style = style(&format!("designs/styles/{name}.ron"));
        random::trays(&style, 51, part_of(TRAYS), |_, _| ())
    });
    compare(&cases.collect::<Vec<Case>>());
}

/// What a run of comparisons saw.
#[derive(Default)]
struct Tally {
    items: usize,
    held: usize,
    silent: usize,
    by: BTreeMap<String, usize>,
    /// The largest difference of each figure.
    worst: BTreeMap<&'static str, f64>,
    wrong: Vec<String>,
}

/// Compares all items of all trays and prints what was seen.
pub(crate) fn compare(cases: &[Case]) {
    let Some(seen) = pushed(cases) else { return };
    let mut tally = Tally::default();
    for (case, seen) in cases.iter().zip(&seen) {
        for (item, seen) in case.document.items.iter().zip(seen) {
            tally.judge(case, item, seen);
        }
    }
    println!(
        "{} trays, {} items, {} held, {} of them without a finding; by {:?}; largest differences {:?}",
        cases.len(),
        tally.items,
        tally.held,
        tally.silent,
        tally.by,
        tally.worst
    );
    let count = tally.wrong.len();
    let first: Vec<&String> = tally.wrong.iter().take(5).collect();
    assert!(first.is_empty(), "{count} differ: {first:#?}");
    assert!(tally.silent * 10 > tally.items, "too few are held");
}

impl Tally {
    fn judge(&mut self, case: &Case, item: &Item, seen: &Seen) {
        assert_eq!(item.name, seen.name);
        self.items += 1;
        let held = item
            .held
            .as_ref()
            .expect("an item of a tray that is made has a place");
        let same = if item.shape == ItemShape::Rectangle {
            SAME_MM
        } else {
            SAME_CURVE_MM
        };
        let mut pairs = vec![
            ("rise", held.rise, seen.rise),
            ("rest", item.rest, item.pad + seen.seat),
        ];
        if held.deck.is_some() {
            pairs.push(("below", told(case, "below_deck", item), seen.below));
        }
        for (stop, pushed) in [&held.along, &held.across].into_iter().zip(&seen.rest) {
            pairs.push(("travel", stop.travel, pushed.travel));
            if stop.by != Holder::Nothing {
                self.held += 1;
                pairs.push(("bears", stop.heights[1] - stop.heights[0], pushed.bears));
                self.check_stop(case, item, stop, pushed);
            }
        }
        for (what, told, seen) in pairs {
            let off = (told - seen).abs();
            let worst = self.worst.entry(what).or_default();
            *worst = worst.max(off);
            if off > same {
                self.fail(case, item, &format!("{what} {told}, seen {seen}"));
            }
        }
        self.check_findings(case, item, seen);
    }

    /// The kind of the stop, and its heights.
    fn check_stop(&mut self, case: &Case, item: &Item, stop: &Stop, seen: &Pushed) {
        let by = format!("{:?}", stop.by).to_lowercase();
        if !seen.by.contains(&by) {
            self.fail(case, item, &format!("stopped by {by}, seen {:?}", seen.by));
        }
        let same = |span: &[f64; 2]| {
            let off = [0, 1].map(|end: usize| (span[end] - stop.heights[end]).abs());
            off[0].max(off[1]) < SAME_CURVE_MM
        };
        if !seen.spans.is_empty() && !seen.spans.iter().any(same) {
            let spans = &seen.spans;
            self.fail(
                case,
                item,
                &format!("{by} at {:?}, seen {spans:?}", stop.heights),
            );
        }
        *self.by.entry(by).or_default() += 1;
    }

    /// An item slides where that is said and nowhere else; where nothing is said it is held risen and upside down, too.
    fn check_findings(&mut self, case: &Case, item: &Item, seen: &Seen) {
        let place = item.name.clone();
        let about = |finding: &&Finding| finding.place.to_string() == place;
        let codes: Vec<&str> = case
            .findings
            .iter()
            .filter(about)
            .map(Finding::code)
            .collect();
        let allowed = allowed(case, item);
        let slides = |pushed: &[Pushed; 2]| (0..2).any(|axis| pushed[axis].travel > allowed[axis]);
        let says = codes
            .iter()
            .any(|code| ["item-slides", "opening-holds-nothing"].contains(code));
        let near = |axis: usize| (seen.rest[axis].travel - allowed[axis]).abs() < 0.01;
        if slides(&seen.rest) != says && !near(0) && !near(1) {
            self.fail(case, item, &format!("{codes:?}, seen {:?}", seen.rest));
        }
        if codes.iter().any(|code| HARDLY_HELD.contains(code)) {
            return;
        }
        self.silent += 1;
        for (state, pushed) in [("risen", &seen.risen), ("upside down", &seen.down)] {
            if slides(pushed) {
                self.fail(
                    case,
                    item,
                    &format!("{state} it slides: {pushed:?}, {allowed:?}"),
                );
            }
        }
    }

    fn fail(&mut self, case: &Case, item: &Item, what: &str) {
        self.wrong
            .push(format!("{what}: {}", case.name(&item.name)));
    }
}

/// A measure of an item.
pub(crate) fn told(case: &Case, measure: &str, item: &Item) -> f64 {
    let name = format!("{measure}.{}", item.name);
    let found = case
        .document
        .measures
        .iter()
        .find(|found| found.name == name);
    found.unwrap_or_else(|| panic!("no {name}")).value
}

/// How far an item may go along and across: its play, what its curve enters finger notches, and a little.
// Derived: a curve of radius r enters a gap of width w by r - √(r² - (w/2)²); the notches lie in the longer edges, and at
// the end of its axis a the radius of an ellipse of half axes a and b is b² / a.
pub(crate) fn allowed(case: &Case, item: &Item) -> [f64; 2] {
    let jobs = case.job.items.iter().find(|asked| asked.name == item.name);
    let asked = jobs.expect("an item of the job");
    let finger = asked.finger.or(case.job.slot.finger);
    let sizes = [item.length, item.width];
    let clear = ["clear_length", "clear_width"].map(|name| told(case, name, item));
    let across_is_longer = sizes[1] > sizes[0] + 1e-9;
    // An opening is told in the axes of its panel; one that hangs on an end has its own across those of the box.
    let lies_across = case.job.style == "shelved";
    [0, 1].map(|axis: usize| {
        let own = if lies_across { 1 - axis } else { axis };
        let play = clear[own] - sizes[axis];
        let notched = axis == usize::from(!across_is_longer);
        let enters = match finger {
            Some(finger) if item.shape != ItemShape::Rectangle && notched => {
                let radius = (sizes[1 - axis] / 2.0).powi(2) / (sizes[axis] / 2.0);
                let half = (finger.mm() / 2.0).min(radius);
                2.0 * (radius - (radius * radius - half * half).sqrt())
            }
            _ => 0.0,
        };
        play + enters + MORE_THAN_PLAY_MM
    })
}
