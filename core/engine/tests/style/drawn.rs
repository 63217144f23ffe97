//! Random styles with typing errors, and random jobs with extreme lengths.
//!
//! Source of all expectations: reasoning, as in `hostile.rs`: read or refused, and never a panic.

use std::fs;

use proptest::prelude::*;
use traywright_engine::job::{BoxSize, Cut, Fit, Job, Length};

use super::hostile::survive;
use super::{job, whole};

/// Styles to break: those that ship, and those of other tests.
fn shelf() -> Vec<String> {
    let folders = [
        "../../designs/styles",
        "../../tests/drafts",
        "../../tests/styles",
    ];
    let files = folders
        .iter()
        .flat_map(|folder| fs::read_dir(folder).expect("styles can be listed"));
    let mut paths: Vec<_> = files
        .map(|file| file.expect("a folder can be read").path())
        .collect();
    paths.sort();
    let texts = paths
        .iter()
        .map(|path| fs::read_to_string(path).expect("a style can be read"));
    texts.collect()
}

/// Jobs with the least and the greatest lengths that a job file can have.
fn extreme() -> impl Strategy<Value = Job> {
    let length = || prop::sample::select(vec![0.01_f64, 1.0, 30.0, 100.0, 5000.0]);
    let lengths = || prop::array::uniform3(length());
    let card = prop::sample::select(vec![
        (0.01, 0.0),
        (0.3, 0.15),
        (3.0, 0.0),
        (100.0, 50.0),
        (5000.0, 0.0),
    ]);
    let fits = prop::array::uniform3(prop::sample::select(vec![0.0, 0.5, 2.0, 5000.0]));
    let cut = prop::sample::select(vec![Cut::Cross, Cut::Doors, Cut::Open]);
    (
        lengths(),
        prop::collection::vec(lengths(), 1..3),
        card,
        fits,
        cut,
    )
        .prop_map(|(size, items, card, fits, cut)| {
            let mut job = job();
            job.box_size = BoxSize {
                length: Length::known(size[0].max(size[1])),
                width: Length::known(size[0].min(size[1])),
                depth: Length::known(size[2]),
            };
            job.items = items
                .iter()
                .enumerate()
                .map(|(number, size)| super::item(&format!("lens{number}"), *size))
                .collect();
            (job.board.caliper, job.board.hinge) = (Length::known(card.0), Some(card.1));
            let [around_tray, around_item, play] = fits.map(Length::known);
            job.fit = Fit {
                around_tray,
                around_item,
                play,
            };
            job.slot.cut = cut;
            job
        })
}

/// A position in a text, and the replacement of the word or character there.
fn slips() -> impl Strategy<Value = Vec<(prop::sample::Index, String)>> {
    let word = prop::sample::select(vec![
        "0mm",
        "-5mm",
        "1000mm",
        "0.0001mm",
        "99999mm",
        "179.9999deg",
        "0.001deg",
        "otherwise",
        "Flat",
        "Inside",
        "Outside",
        "Mountain",
        "caliper",
        "near",
        "far",
        "flanks",
        "edges",
        "deck",
        "item2.depth",
        "1000000",
        "-1",
        "",
        "(",
        ")",
        "\"",
        ",",
    ]);
    let slip = (
        any::<prop::sample::Index>(),
        prop_oneof![4 => word.prop_map(str::to_owned), 1 => ".{0,3}"],
    );
    prop::collection::vec(slip, 0..5)
}

fn signs(text: &str) -> Vec<&str> {
    let in_a_word = |letter: char| letter.is_alphanumeric() || "._-".contains(letter);
    let mut signs = Vec::new();
    let mut rest = text;
    while let Some(first) = rest.chars().next() {
        let end = rest.find(|letter| !in_a_word(letter)).unwrap_or(rest.len());
        let (sign, after) = rest.split_at(end.max(first.len_utf8()));
        signs.push(sign);
        rest = after;
    }
    signs
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 300, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_text_is_read_or_refused(text in "\\PC{0,200}") {
        survive(text.clone(), job());
        survive(whole(&text), job());
    }

    #[test]
    fn styles_with_slips_are_read_or_refused(which in any::<prop::sample::Index>(), slips in slips(), extreme in extreme()) {
        let shelf = shelf();
        let text: &String = which.get(&shelf[..]);
        let mut signs: Vec<String> = signs(text).into_iter().map(str::to_owned).collect();
        for (place, slip) in slips {
            let at = place.index(signs.len());
            signs[at] = slip;
        }
        survive(signs.concat(), job());
        survive(signs.concat(), extreme);
    }

    #[test]
    fn extreme_jobs_are_made_or_refused_in_every_style(which in any::<prop::sample::Index>(), extreme in extreme()) {
        let shelf = shelf();
        let text: &String = which.get(&shelf[..]);
        survive(text.clone(), extreme);
    }
}
