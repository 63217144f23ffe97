//! Values and lists as the maker reads them.
//!
//! From values in mm to words; no style and no job is needed.

use traywright_engine::formula::Value;
use traywright_engine::job::Unit::{Inch, Millimetre};
use traywright_engine::wording::{
    length, lengths_apart, list, nearest, setting, setting_at_most, size,
};

// Source: rounded by hand to hundredths of a millimetre and thousandths of an inch, 1 in = 25.4 mm exactly.
#[test]
fn lengths_are_written_in_the_makers_unit() {
    for (value_mm, in_millimetres, in_inches) in [
        (31.71, "31.71 mm", "1.248 in"),
        (31.705_1, "31.71 mm", "1.248 in"),
        (25.4, "25.4 mm", "1 in"),
        (100.0, "100 mm", "3.937 in"),
        (6.35, "6.35 mm", "0.25 in"),
        (0.0, "0 mm", "0 in"),
        (-0.001, "0 mm", "0 in"),
        (-2.5, "-2.5 mm", "-0.098 in"),
        (2540.0, "2540 mm", "100 in"),
    ] {
        assert_eq!(length(value_mm, Millimetre), in_millimetres);
        assert_eq!(length(value_mm, Inch), in_inches);
    }
    assert_eq!(size(&[98.0, 63.0], Millimetre), "98 × 63 mm");
    assert_eq!(size(&[50.8, 25.4, 12.7], Inch), "2 × 1 × 0.5 in");
}

// Source: rounded by hand, up where more is enough and down where less is, to tenths of a millimetre and hundredths of an
// inch; what is off a step by less than a thousandth of it is on it.
#[test]
fn settings_are_rounded_to_the_side_that_is_enough() {
    for (value_mm, unit, up, down) in [
        (41.9, Millimetre, "(mm)41.9", "(mm)41.9"),
        (41.91, Millimetre, "(mm)42", "(mm)41.9"),
        (41.900_01, Millimetre, "(mm)41.9", "(mm)41.9"),
        (41.899_99, Millimetre, "(mm)41.9", "(mm)41.9"),
        (41.75, Inch, "(in)1.65", "(in)1.64"),
        (25.4, Inch, "(in)1", "(in)1"),
    ] {
        assert_eq!(setting(value_mm, unit), up);
        assert_eq!(setting_at_most(value_mm, unit), down);
    }
}

// Source: reasoning: a maker who reads that 6 mm are less than 6 mm learns nothing.
#[test]
fn lengths_that_differ_are_written_so_that_it_shows() {
    let apart = |value, limit, unit| {
        let (value, limit) = lengths_apart(value, limit, unit);
        format!("{value} of {limit}")
    };
    assert_eq!(apart(5.0, 6.0, Millimetre), "5 mm of 6 mm");
    assert_eq!(apart(5.999, 6.0, Millimetre), "5.999 mm of 6 mm");
    assert_eq!(apart(5.999_96, 6.0, Millimetre), "5.99996 mm of 6 mm");
    assert_eq!(apart(6.0, 6.0, Millimetre), "6 mm of 6 mm");
    assert_eq!(apart(25.39, 25.4, Inch), "0.9996 in of 1 in");
}

// Source: written by hand; 645.16 mm² = 1 in² exactly.
#[test]
fn values_carry_the_unit_of_their_kind() {
    for (given, in_millimetres, in_inches) in [
        (Value::Length(25.4), "25.4 mm", "1 in"),
        (Value::Area(645.16), "645.16 mm²", "1 in²"),
        (Value::Angle(5.25), "5.25°", "5.25°"),
        (Value::Number(0.333_333), "0.333", "0.333"),
        (Value::Number(40.0), "40", "40"),
        (Value::Truth(true), "yes", "yes"),
        (Value::Truth(false), "no", "no"),
        (Value::Word("closed".to_owned()), "closed", "closed"),
    ] {
        assert_eq!(given.in_words(Millimetre), in_millimetres);
        assert_eq!(given.in_words(Inch), in_inches);
    }
}

// Source: common practice of English, without a comma before the last.
#[test]
fn lists_read_as_in_a_sentence() {
    assert_eq!(list::<&str>(&[]), "");
    assert_eq!(list(&["a"]), "a");
    assert_eq!(list(&["a", "b"]), "a and b");
    assert_eq!(list(&["a", "b", "c"]), "a, b and c");
    assert_eq!(
        list(&["a", "b", "c", "d"].map(String::from)),
        "a, b, c and d"
    );
}

// Source: slips counted by hand: a letter too many, too few, wrong, or two changed round is one.
#[test]
fn a_slip_in_three_letters_still_leads_to_the_word() {
    let known = ["spine", "second", "side", "tab", "tab-max"];
    for (slip, meant) in [
        ("spnie", Some("spine")),
        ("Second", Some("second")),
        ("secnd", Some("second")),
        ("tabs", Some("tab")),
        ("tax-man", Some("tab-max")),
        ("tabmax", Some("tab-max")),
        ("spin", Some("spine")),
        ("tub", Some("tab")),
        ("ta", None),
        ("lid", None),
        ("", None),
        ("spine-west-north", None),
    ] {
        assert_eq!(nearest(slip, known), meant, "{slip}");
    }
    assert_eq!(nearest(&"a".repeat(100_000), known), None);
    assert_eq!(nearest("tab", []), None);
}
