//! The document on its way to an exporter and back.
//!
//! Given documents written by hand, with numbers of every kind in every place. Source of every expectation: the promise
//! of the document (every number finite, fields only ever added within a schema) and IEEE 754, whose numbers survive
//! a shortest decimal form to the last bit.

use std::panic::catch_unwind;

use proptest::num::f64::{NEGATIVE, NORMAL, POSITIVE, SUBNORMAL, ZERO};
use proptest::prelude::*;
use traywright_document::wire::{DecodeError, decode, encode};
use traywright_document::{
    Action, Document, DxfVersion, FileLines, ItemShape, Part, ProcessingStep, Unknown, example,
};

/// A document with something of every kind in it, that takes its numbers one after the other.
fn document(number: impl FnMut() -> f64) -> Document {
    example::full(number)
}

/// A document without anything that may be absent.
fn bare() -> Document {
    let mut bare = document(|| 0.25);
    bare.board.name = None;
    bare.board.grain = None;
    bare.items[0].middle = None;
    bare.hand_step = None;
    bare.output.paper.page_mut().font = None;
    bare.panels[0].hinge = None;
    bare.output.machine.nicks = None;
    bare
}

/// Equal to the last bit: unlike `==`, the written form tells 0 from -0.
#[track_caller]
fn check_comes_back(sent: &Document) {
    let came = decode(&encode(sent)).expect("what was encoded can be decoded");
    assert_eq!(format!("{sent:?}"), format!("{came:?}"));
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn every_number_comes_back_to_its_last_bit(
        numbers in prop::collection::vec(NORMAL | SUBNORMAL | ZERO | POSITIVE | NEGATIVE, 1..100)
    ) {
        let mut next = numbers.iter().cycle();
        check_comes_back(&document(|| *next.next().expect("a cycle has no end")));
    }
}

#[test]
fn numbers_that_are_hard_to_read_come_back() {
    // Source: IEEE 754, the ends of the range and halves between neighbours; the last is a known trap of readers
    // that multiply by powers of ten in one rounding too many.
    for number in [
        f64::MAX,
        f64::MIN_POSITIVE,
        5e-324,
        -0.0,
        0.1 + 0.2,
        9_007_199_254_740_993.0,
        2.225_073_858_507_201e-308,
        31.245_270_191_439_438,
    ] {
        check_comes_back(&document(|| number));
    }
}

#[test]
fn what_is_absent_is_left_out_and_comes_back_absent() {
    let bytes = encode(&bare());
    let text = String::from_utf8(bytes).expect("JSON is UTF-8");
    assert!(!text.contains("null"), "{text}");
    check_comes_back(&bare());
}

#[test]
fn a_number_that_is_not_finite_cannot_be_sent_from_any_place() {
    let mut places = 0;
    document(|| {
        places += 1;
        0.0
    });
    assert!(places > 60, "only {places} places were tried");
    for place in 0..places {
        for bad in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY] {
            let sent = catch_unwind(|| {
                let mut index = 0;
                encode(&document(|| {
                    index += 1;
                    if index == place + 1 { bad } else { 0.0 }
                }))
            });
            assert!(sent.is_err(), "{bad} in place {place} was sent");
        }
    }
}

#[test]
fn a_number_out_of_range_cannot_be_received() {
    let sent = String::from_utf8(encode(&document(|| 0.125))).expect("JSON is UTF-8");
    for number in ["1e999", "null", "NaN", "\"0.125\""] {
        let spoilt = sent.replacen("0.125", number, 1);
        assert_ne!(spoilt, sent);
        assert!(decode(spoilt.as_bytes()).is_err(), "{number}");
    }
}

#[test]
fn a_negative_length_of_the_job_cannot_be_received() {
    // Source: a box, a page and a tool have sides of 0 or more.
    let sent = encode(&document(|| 0.125));
    let sent: serde_json::Value = serde_json::from_slice(&sent).expect("the document is JSON");
    for place in [
        "/box_size/depth",
        "/output/paper/whole/bleed",
        "/output/paper/whole/page/margin",
        "/output/machine/kerf",
        "/output/machine/nicks/every",
    ] {
        let mut spoilt = sent.clone();
        let number = spoilt["document"].pointer_mut(place);
        *number.unwrap_or_else(|| panic!("no {place}")) = serde_json::json!(-0.125);
        let why = decode(spoilt.to_string().as_bytes()).map_err(|error| error.to_string());
        let names_it = |words: &String| words.contains("-0.125 is no length");
        assert!(why.as_ref().is_err_and(names_it), "{place}: {why:?}");
    }
}

#[test]
fn the_schema_stands_first_and_is_judged_before_the_rest() {
    assert!(encode(&bare()).starts_with(b"{\"schema\":2,\"document\":{"));
    let other = |bytes: &[u8]| decode(bytes).expect_err("this is no document of ours");

    let newer = other(br#"{"schema":3,"document":{"title":"in another shape"}}"#);
    assert_eq!(newer, DecodeError::OtherSchema(3));
    let said = newer.to_string();
    assert!(said.contains("the exporter is older"), "{said}");

    let older = other(br#"{"schema":1,"tray":[]}"#);
    assert_eq!(older, DecodeError::OtherSchema(1));
    let said = older.to_string();
    assert!(said.contains("the program is older"), "{said}");

    for text in [
        "",
        "{}",
        "[]",
        "null",
        "{\"schema\":\"1\"}",
        "{\"schema\":1.5}",
        "\u{feff}{\"schema\":1}",
    ] {
        let fault = other(text.as_bytes());
        assert!(matches!(fault, DecodeError::NoSchema(_)), "{text}: {fault}");
    }
    let fault = other(br#"{"schema":2}"#);
    assert!(matches!(fault, DecodeError::Broken(_)), "{fault}");
}

#[test]
fn a_field_of_a_later_release_is_skipped() {
    let sent = String::from_utf8(encode(&bare())).expect("JSON is UTF-8");
    let later = sent.replacen(
        "\"title\":",
        "\"colour_of_the_sky\":{\"blue\":[1,null]},\"title\":",
        1,
    );
    assert_ne!(sent, later);
    assert_eq!(
        decode(later.as_bytes()).expect("added fields do no harm"),
        bare()
    );
}

#[test]
fn damaged_bytes_are_refused_and_never_break_the_reader() {
    let sent = encode(&bare());
    for end in 0..sent.len() {
        assert!(
            decode(&sent[..end]).is_err(),
            "cut at {end} it was read all the same"
        );
    }
    for place in 0..sent.len() {
        let mut spoilt = sent.clone();
        spoilt[place] ^= 0x80;
        let _ = decode(&spoilt);
    }
    let deep = [
        b"{\"schema\":2,\"document\":".as_slice(),
        &vec![b'['; 100_000],
    ]
    .concat();
    assert!(decode(&deep).is_err());
}

/// The fields that an exporter in another language reads by name.
#[test]
fn the_fields_of_the_document_have_these_names() {
    // Source: schema 2, as the header and the cut list in C read it.
    let sent = encode(&document(|| 0.25));
    let sent: serde_json::Value = serde_json::from_slice(&sent).expect("a document is JSON");
    let keys = |value: &serde_json::Value| -> Vec<String> {
        let object = value.as_object().expect("an object");
        object.keys().cloned().collect()
    };
    let sent = &sent["document"];
    for (value, names) in [
        (
            sent,
            "board box_size flat friction hand_step interlocks items measures output panels stands steps style title tool toolpaths unit warnings",
        ),
        (
            &sent["board"],
            "caliper crease grain hinge kind name wants_strip",
        ),
        (&sent["tool"], "accuracy by"),
        (&sent["output"], "drawn_face language letters machine paper"),
        (&sent["flat"]["letters"][0], "at height text"),
        (
            &sent["output"]["machine"],
            "dxf kerf lines nicks perforation smallest",
        ),
        (&sent["output"]["machine"]["nicks"], "every length"),
        (&sent["output"]["paper"]["whole"], "bleed condition page"),
        (
            &sent["items"][0],
            "depth held kind length loose middle name number pad panel rest shape straight turned width",
        ),
        (&sent["items"][0]["held"], "across along deck pads rise"),
        (&sent["items"][0]["held"]["along"], "by firm heights travel"),
        (&sent["items"][0]["held"]["pads"], "least most named"),
    ] {
        assert_eq!(keys(value).join(" "), names);
    }
}

/// Words of a later release, as a later program would send them to a reader of today.
#[test]
fn a_word_of_a_later_release_is_passed_over_and_a_broken_one_is_not() {
    let sent = String::from_utf8(encode(&document(|| 0.25))).expect("JSON is UTF-8");
    let with = |old: &str, new: &str| {
        assert!(sent.contains(old), "no {old}");
        decode(sent.replacen(old, new, 1).as_bytes())
    };
    let came = |old: &str, new: &str| with(old, new).expect("a later word does no harm");
    let glued = came(
        "\"action\":\"turn\"",
        "\"action\":{\"glue\":{\"panel\":3,\"with\":[1,2]}}",
    );
    assert_eq!(glued.steps[1].action, Action::Other(Unknown));
    assert_eq!(glued.steps[2].action, Action::Place);
    // The stages go on from one action that is known to the next.
    assert_eq!(glued.stages().len(), glued.steps.len() + 1);
    let pressed = came("\"action\":\"turn\"", "\"action\":\"press\"");
    assert_eq!(pressed.steps[1].action, Action::Other(Unknown));
    // Each enum knows its own words alone.
    let holed = came("\"action\":\"turn\"", "\"action\":\"hole\"");
    assert_eq!(holed.steps[1].action, Action::Other(Unknown));
    let placed = came("\"part\":\"hole\"", "\"part\":\"place\"");
    assert_eq!(placed.toolpaths[2].part, Part::Other(Unknown));
    let window = came("\"part\":\"hole\"", "\"part\":{\"window\":{\"film\":true}}");
    assert_eq!(window.toolpaths[2].part, Part::Other(Unknown));
    let drilled = came("\"step\":\"cutting\"", "\"step\":\"drilling\"");
    assert_eq!(drilled.toolpaths[0].step, ProcessingStep::Other);
    let star = came("\"shape\":\"oval\"", "\"shape\":\"star\"");
    assert_eq!(star.items[0].shape, ItemShape::Other);
    let later = came("\"dxf\":\"R12\"", "\"dxf\":\"R2032\"");
    assert_eq!(later.output.machine.dxf, DxfVersion::Other);
    let later = came("\"lines\":\"bare\"", "\"lines\":\"outline\"");
    assert_eq!(later.output.machine.lines, FileLines::Other);
    for broken in [
        "{\"fold\":5}",
        "{\"fold\":[{\"panel\":-1}]}",
        "{\"turn\":[]}",
        "5",
        "{}",
    ] {
        let broken = format!("\"action\":{broken}");
        assert!(with("\"action\":\"turn\"", &broken).is_err(), "{broken}");
    }
    for broken in ["{\"crease\":{}}", "{\"hole\":1}"] {
        let broken = format!("\"part\":{broken}");
        assert!(with("\"part\":\"hole\"", &broken).is_err(), "{broken}");
    }
}
