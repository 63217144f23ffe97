//! Variations as a maker types them.
//!
//! Source of what is expected: core/CONTRACT.md, "check --vary"; the values of the ranges are counted by hand.

use traywright_engine::job::{BoxSize, Item, Job, Length};

use super::{Combination, Variation, combinations};

fn job(items: &[&str]) -> Job {
    let mm = Length::known;
    let size = BoxSize {
        length: mm(182.0),
        width: mm(121.0),
        depth: mm(34.0),
    };
    let item = |name: &&str| Item::plain(name, [mm(20.0), mm(20.0), mm(20.0)]);
    let items = items.iter().map(item).collect();
    Job::plain("single-slot", size, mm(0.3), items)
}

fn made(words: &[&str], items: &[&str]) -> Result<Vec<Combination>, String> {
    let variations: Result<Vec<Variation>, String> = words.iter().map(|one| one.parse()).collect();
    combinations(&variations?, &job(items))
}

/// The values of one place, as a job writes them.
fn values(words: &str) -> Vec<String> {
    let made = made(&[words], &["vial"]).unwrap_or_else(|why| panic!("{words}: {why}"));
    made.iter().map(|one| one.changes[0].to.clone()).collect()
}

#[test]
fn a_range_has_both_its_ends_and_a_list_its_words_in_quotes() {
    let tenths: Vec<String> = (1..=9).map(|tenth| format!("(mm)0.{tenth}")).collect();
    for (words, expected) in [
        (
            "fit.item=(mm)1..3 by (mm)0.5",
            vec!["(mm)1", "(mm)1.5", "(mm)2", "(mm)2.5", "(mm)3"],
        ),
        ("fit.item=(mm)1..(mm)2 by (mm)0.7", vec!["(mm)1", "(mm)1.7"]),
        (
            "fit.box=(mm)0.1..0.9 by (mm)0.1",
            tenths.iter().map(String::as_str).collect(),
        ),
        (
            "fit.box=(in)1/16..1/8 by (in)1/16",
            vec!["(in)\"1/16\"", "(in)\"1/8\""],
        ),
        (
            "board=index-255, greyboard-1000",
            vec!["\"index-255\"", "\"greyboard-1000\""],
        ),
        ("page=\"210x297 mm\",A3", vec!["\"210x297 mm\"", "\"A3\""]),
        ("item.turn=true,#false", vec!["#true", "#false"]),
        ("item.vial.count=1..3 by 1", vec!["1", "2", "3"]),
        (
            "box.depth=(in)1 1/2,(mm)40",
            vec!["(in)\"1 1/2\"", "(mm)40"],
        ),
        ("set.taper=(deg)1..3 by (deg)2", vec!["(deg)1", "(deg)3"]),
        (
            "board.hinge=(mm)-0.1..0.1 by (mm)0.1",
            vec!["(mm)-0.1", "(mm)0", "(mm)0.1"],
        ),
        (
            "page.font=../fonts/plain.ttf",
            vec!["\"../fonts/plain.ttf\""],
        ),
    ] {
        assert_eq!(values(words), expected, "{words}");
    }
}

#[test]
fn several_places_make_the_product_and_the_last_varies_fastest() {
    let all = made(&["fit.item=(mm)1,(mm)2", "slot.cut=cross,open"], &["vial"]).expect("four");
    let words: Vec<String> = all.iter().map(Combination::words).collect();
    assert_eq!(
        words,
        [
            "fit.item=(mm)1 slot.cut=cross",
            "fit.item=(mm)1 slot.cut=open",
            "fit.item=(mm)2 slot.cut=cross",
            "fit.item=(mm)2 slot.cut=open",
        ]
    );
}

#[test]
fn what_cannot_vary_is_refused_with_the_word_that_was_meant() {
    for (words, said) in [
        (vec!["fti.item=(mm)1"], "did you mean `fit`?"),
        (vec!["fit.itme=(mm)1"], "did you mean `item`?"),
        (vec!["item.vail.pad=(mm)1"], "did you mean `vial`?"),
        (vec!["item.vial.padd=(mm)1"], "did you mean `pad`?"),
        (vec!["item.pad=(mm)1"], "item.vial.pad or item.label.pad"),
        (vec!["fit=(mm)1"], "fit.box, fit.item, fit.play"),
        (vec!["item=vial"], "says no key"),
        (vec!["item.vial.name=lens"], "has no `name`"),
        (vec!["set=(mm)1"], "set.NAME"),
        (vec!["fit.item"], "names no values"),
        (vec!["fit.item="], "empty value"),
        (vec!["fit.item=(mm)1..3"], "says its step"),
        (vec!["fit.item=(mm)1..3 by 0.5"], "the unit of its values"),
        (
            vec!["fit.item=(mm)1..3 by (in)0.5"],
            "the unit of its values",
        ),
        (vec!["fit.item=(mm)1..(in)3 by (mm)1"], "one unit"),
        (vec!["fit.item=(mm)1..3 by (mm)0"], "more than 0"),
        (vec!["fit.item=(mm)1..3 by (mm)-1"], "more than 0"),
        (
            vec!["fit.item=(mm)3..1 by (mm)1"],
            "smaller value to the larger",
        ),
        (vec!["fit.item=(mm)1..x by (mm)1"], "ends with a number"),
        (vec!["fit.item=(mm)0..1e300 by (mm)1e-300"], "the most"),
        (vec!["fit.item=(mm)0..400 by (mm)1"], "401 values"),
        (
            vec!["fit.item=(mm)1..21 by (mm)1", "fit.box=(mm)1..20 by (mm)1"],
            "21 × 20 make 420 variations",
        ),
        (vec!["fit.item=(mm)1", "fit.item=(mm)2"], "varies twice"),
    ] {
        let why = made(&words, &["vial", "label"]).expect_err(words[0]);
        assert!(why.contains(said), "{words:?}: {why}");
    }
}
