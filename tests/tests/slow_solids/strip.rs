//! The strip that measures a card, folded as solids about fold lines that the program does not know: what it reads there
//! gives the job's hinge, and the tray that is made with it is as large outside as its box allows.

use std::fs;

use serde_json::{Value, json};
use traywright_document::{BoxSize, Document, wire};
use traywright_engine::job::{Job, Length};
use traywright_engine::make;
use traywright_tests::jobs::{job, style};
use traywright_tests::python;

use super::{SINGLE_SLOT, list, made, measured, number, without_tongues};

/// Cards from copier paper to thick board, in mm.
const CALIPERS: [f64; 7] = [0.1, 0.29, 0.45, 0.8, 1.0, 2.0, 3.0];

/// Where they fold, as parts of the caliper.
const HINGES: [f64; 5] = [0.0, 0.1, 0.25, 0.37, 0.5];

/// How far the creases of the U lie beside their lines, in mm: what hands do.
// Source: core/CONTRACT.md, "Job file": by hand 0.5 mm.
const BESIDE: [[f64; 2]; 3] = [[0.0, 0.0], [0.5, -0.35], [-0.2, 0.5]];

/// How near the hinge and the outside of the tray come.
// Source: core/CONTRACT.md, "Trade figures": the outside is right within 0.01 mm.
const NEAR_MM: f64 = 0.01;

/// A card: its caliper, where it folds, and how far its creases lie beside their lines.
type Card = (f64, f64, [f64; 2]);

#[test]
fn a_reading_of_the_strip_gives_the_hinge_and_a_tray_of_the_size_promised() {
    let mut cards: Vec<Card> = Vec::new();
    for caliper in CALIPERS {
        for (number, part) in HINGES.into_iter().enumerate() {
            cards.push((caliper, part * caliper, BESIDE[number % BESIDE.len()]));
        }
    }
    let Some(readings) = readings(&cards) else {
        return;
    };
    let single = style(SINGLE_SLOT);
    let (mut trays, mut names) = (Vec::new(), Vec::new());
    for ((caliper, hinge, beside), reading) in cards.iter().zip(readings) {
        let mut job = job([260.0, 190.0, 60.0], [120.0, 80.0, 52.0], *caliper);
        job.board.reading = Some(Length::known(reading));
        let name = format!("card of {caliper} folded at {hinge}, creased {beside:?} beside");
        let found = job.board.hinge();
        assert!((found - hinge).abs() < NEAR_MM, "{name}: {found}");
        // Some thick cards leave no room for a roll-over: the hinge is what is asked of them.
        if let Ok(tray) = make(&single, &job) {
            trays.push(folded_at(tray.finish().document(), *hinge));
            names.push(name);
        }
    }
    assert!(trays.len() > cards.len() / 2, "{} trays", trays.len());
    let Some(seen) = measured("solids.py", &trays) else {
        return;
    };
    for ((tray, name), seen) in trays.iter().zip(&names).zip(&seen) {
        let room = &tray.box_size;
        for (axis, side) in [room.length, room.width, room.depth].iter().enumerate() {
            // Source: core/CONTRACT.md, "Job file": the fit is 2 mm.
            let (promised, outside) = (side.mm() - 2.0, number(&seen["outside"][axis]));
            assert!(
                (outside - promised).abs() < NEAR_MM,
                "{name}, side {axis}: {outside}"
            );
        }
    }
    println!("{} strips, {} trays", cards.len(), trays.len());
}

/// What the strip of each card is longer folded than flat; none if the solids cannot be asked.
fn readings(cards: &[Card]) -> Option<Vec<f64>> {
    let strip = style("designs/trials/strip.ron");
    let folder = tempfile::tempdir().expect("a folder can be made");
    for (index, (caliper, hinge, beside)) in cards.iter().enumerate() {
        let job = Job::plain(strip.name(), BoxSize::NONE, Length::known(*caliper), vec![]);
        let document = made(&strip, &job).finish().document();
        let path = folder.path().join(format!("{index:04}.json"));
        fs::write(&path, wire::encode(&document)).expect("a document can be written");
        let truth = json!({"hinge": hinge, "beside": beside}).to_string();
        fs::write(path.with_extension("truth"), truth).expect("a truth can be written");
    }
    let path = folder.path().to_str().expect("a plain name");
    let text = python("strip.py", &[path])?.unwrap_or_else(|fault| panic!("strip.py: {fault}"));
    let seen: Value = serde_json::from_str(&text).expect("the script prints JSON");
    let reading = |index: usize| {
        let lengths = &seen[format!("{index:04}")];
        let legs: f64 = list(&lengths["legs"]).iter().map(number).sum();
        number(&lengths["across"]) + legs - number(&lengths["flat"])
    };
    Some((0..cards.len()).map(reading).collect())
}

/// The tray as its card really folds, whatever the document says.
fn folded_at(document: Document, hinge: f64) -> Document {
    let mut document = without_tongues(document);
    for panel in &mut document.panels {
        if let Some(own) = &mut panel.hinge {
            own.height = hinge;
        }
    }
    document
}
