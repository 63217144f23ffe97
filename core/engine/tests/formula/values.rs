//! Values of formulas, the names and words they use, and how they are printed.
//!
//! Tables of a formula and its value; the source of the values is above each table.

use std::ops::Range;

use traywright_engine::formula::Kind;
use traywright_engine::formula::Relation;
use traywright_engine::formula::Value::{self, *};

use super::{CARD, kind_of, read, value_of, worked_out};

/// Source: each formula written again by hand in Python 3.11 with the names as variables, degrees by `pi / 180` and inches
/// by 25.4; the row of flex from the sagitta, `reach**3 / (24 * (60 * caliper)**2)`; whole numbers counted by hand.
const AMOUNTS: &[(&str, Value)] = &[
    ("6mm", Length(6.0)),
    ("0.25in", Length(6.35)),
    ("1in", Length(25.4)),
    ("90deg", Angle(90.0)),
    ("12", Number(12.0)),
    ("0.05", Number(0.05)),
    ("-3mm", Length(-3.0)),
    ("--3mm", Length(3.0)),
    ("1 + 2 * 3", Number(7.0)),
    ("(1 + 2) * 3", Number(9.0)),
    ("10 - 4 - 3", Number(3.0)),
    ("100 / 5 / 4", Number(5.0)),
    ("100 / (5 / 4)", Number(80.0)),
    ("2 * -3", Number(-6.0)),
    ("-2 * 3 + 1", Number(-5.0)),
    ("1mm + 1in", Length(26.4)),
    ("box.length - 2mm", Length(180.0)),
    ("box.length - fit.item - 2 * caliper", Length(179.42)),
    ("caliper - hinge", Length(0.18999999999999997)),
    ("6mm-caliper", Length(5.71)),
    ("2*(caliper+hinge)", Length(0.78)),
    ("tab-max / 2", Length(91.0)),
    ("floor - 1mm", Length(6.0)),
    ("box.length / box.width", Number(1.5041322314049588)),
    ("box.length * box.width", Area(22022.0)),
    (
        "box.length * box.width / box.depth",
        Length(647.7058823529412),
    ),
    (
        "box.length * box.width / (box.depth * 1mm)",
        Number(647.7058823529412),
    ),
    ("0.5 * box.length * box.width", Area(11011.0)),
    ("3 * taper", Angle(15.0)),
    ("taper / 2 + 1deg", Angle(3.5)),
    ("taper / 2deg", Number(2.5)),
    ("rows * 6mm", Length(18.0)),
    (
        "min(end.reach, tray.width / 2 - gap, tab-max)",
        Length(31.42),
    ),
    ("max(0mm, -caliper)", Length(0.0)),
    ("min(3)", Number(3.0)),
    ("max(2deg, taper, 1deg)", Angle(5.0)),
    ("abs(tray.depth - box.depth)", Length(2.0)),
    ("sqrt(box.length * box.width)", Length(148.39811319555247)),
    ("sqrt(3)", Number(1.7320508075688772)),
    (
        "sqrt(3 * caliper * end.reach / 8)",
        Length(1.8484926291440817),
    ),
    ("reach * tan(taper)", Length(2.6246599057777202)),
    (
        "min(reach * tan(taper), 0.3 * span)",
        Length(2.6246599057777202),
    ),
    ("sin(30deg)", Number(0.49999999999999994)),
    ("cos(60deg) * 2mm", Length(1.0000000000000002)),
    ("tan(-45deg)", Number(-0.9999999999999999)),
    ("floor(2.9)", Number(2.0)),
    ("floor(-2.1)", Number(-3.0)),
    ("ceil(2.1)", Number(3.0)),
    ("round(2.4)", Number(2.0)),
    ("round(2.5)", Number(3.0)),
    ("floor(0.3mm / 0.1mm)", Number(3.0)),
    ("ceil(1.1mm / 0.1mm)", Number(11.0)),
    ("floor(tray.length / (item.length + 6mm))", Number(1.0)),
    ("if(box.depth > 30mm, 2mm, 1mm)", Length(2.0)),
    ("if(box.depth < 30mm, 1 / 0, 1)", Number(1.0)),
    ("if(has-lid and not (rows > 4), 1, 0) * 3mm", Length(3.0)),
    ("outer(90deg)", Length(0.24499999999999997)),
    ("inner(90deg)", Length(0.04499999999999998)),
    ("outer(60deg)", Length(0.1414508159514583)),
    ("outer(178.9deg)", Length(25.521881470925933)),
    ("flex(end.reach)", Length(4.2688294479675895)),
    ("min(caliper, flex(end.reach))", Length(0.29)),
    (
        "(tray.length - item.length) / 2 - (4 * caliper + fit.play + gap) - 3mm",
        Length(37.09),
    ),
    ("-caliper + 3*(caliper + 1mm)", Length(3.58)),
    ("tray.depth\n  - caliper\t- gap", Length(31.46)),
];

/// Allowed relative difference: a few last digits of a double.
const LAST_DIGITS: f64 = 1e-14;

#[test]
fn formulas_give_what_another_calculator_gives() {
    for (text, expected) in AMOUNTS {
        let formula = read(text);
        assert_eq!(formula.check(&mut kind_of), Ok(expected.kind()), "{text}");
        let value = worked_out(&formula).unwrap_or_else(|fault| panic!("{text}: {fault:?}"));
        assert_eq!(value.kind(), expected.kind(), "{text}");
        let amounts = value.amount().zip(expected.amount());
        let (amount, expected) = amounts.unwrap_or_else(|| panic!("{text} gives an amount"));
        let off = (amount - expected).abs();
        let allowed = LAST_DIGITS * expected.abs().max(1.0);
        assert!(off <= allowed, "{text}: {amount} is not {expected}");
    }
}

/// Source: reasoning by hand on the names of this file's neighbour.
const TRUTHS: &[(&str, bool)] = &[
    ("otherwise", true),
    ("not otherwise", false),
    ("not not has-lid", true),
    ("box.length > box.width", true),
    ("box.length < box.width", false),
    ("rows == 3 and rows != 4", true),
    ("taper >= 5deg", true),
    ("taper < 5deg", false),
    ("25.4mm == 1in", true),
    ("0.1mm + 0.2mm == 0.3mm", true),
    ("0.1mm + 0.2mm <= 0.3mm", true),
    ("0.1mm + 0.2mm > 0.3mm", false),
    ("0.3mm >= 0.1mm + 0.2mm", true),
    ("0.3mm < 0.1mm + 0.2mm", false),
    ("0.3mm != 0.1mm + 0.2mm", false),
    ("1mm < 1.000000002mm", true),
    ("1mm < 1.0000000005mm", false),
    // Numbers are compared exactly: 0.1 + 0.2 is slightly more than 0.3 in doubles.
    ("0.1 + 0.2 > 0.3", true),
    ("has-lid == otherwise", true),
    ("view is window", true),
    ("view is not window", false),
    ("view is closed", false),
    ("(view) is not closed", true),
    ("not view is closed", true),
    // `and` binds before `or`.
    ("otherwise or otherwise and not otherwise", true),
    ("(otherwise or otherwise) and not otherwise", false),
    ("not otherwise and otherwise", false),
    // The deciding operand comes first, so the division is never evaluated.
    ("rows == 3 or 1 / (rows - 3) > 0", true),
    ("rows != 3 and 1 / (rows - 3) > 0", false),
    (
        "view is window and min(item.length, 61mm) - 2 * 6mm >= 10mm",
        true,
    ),
    ("min(caliper, flex(end.reach)) >= 0.2mm", true),
];

#[test]
fn conditions_hold_or_not() {
    for (text, expected) in TRUTHS {
        let formula = read(text);
        assert_eq!(formula.check(&mut kind_of), Ok(Kind::Truth), "{text}");
        assert_eq!(worked_out(&formula), Ok(Truth(*expected)), "{text}");
    }
}

// Source: LANGUAGE section 2, `floor` is free for a panel since a function is always followed by a bracket.
#[test]
fn a_function_is_one_only_before_a_bracket() {
    let formula = read("floor(floor / 2mm) * 1mm");
    assert_eq!(worked_out(&formula), Ok(Length(3.0)));
    let names: Vec<_> = formula.names().collect();
    assert_eq!(names, [("floor", 6..11)]);
}

// Source: places counted by hand in the text.
#[test]
fn names_and_words_have_their_places() {
    let formula = read("if(view is not closed, min(gap, reach), gap - otherwise.x) + tab-max");
    let names: Vec<_> = formula.names().collect();
    let expected: [(&str, Range<usize>); 5] = [
        ("view", 3..7),
        ("gap", 27..30),
        ("reach", 32..37),
        ("otherwise.x", 46..57),
        ("tab-max", 61..68),
    ];
    assert_eq!(names, expected);
    let words: Vec<_> = formula.words().collect();
    assert_eq!(words.len(), 1);
    assert_eq!(
        (words[0].name.as_str(), words[0].word.as_str()),
        ("view", "closed")
    );
    assert_eq!(words[0].place, 15..21);
}

// Source: LANGUAGE section 1, only the branch that is taken runs.
#[test]
fn a_branch_not_taken_needs_no_value() {
    let mut asked = Vec::new();
    let formula = read("if(rows > 2, reach, missing) + if(rows > 4, missing, span)");
    let value = formula.value(&CARD, &mut |name| {
        asked.push(name.to_owned());
        value_of(name)
    });
    assert_eq!(value, Ok(Length(60.92)));
    assert_eq!(asked, ["rows", "reach", "rows", "span"]);
}

// Source: reasoning; the sides of a rule are its value and its limit.
#[test]
fn a_comparison_has_two_sides() {
    let formula = read("(min(reach, span) >= max(20mm, 3 * 6mm))");
    let comparison = formula.comparison().expect("one comparison");
    assert_eq!(comparison.relation, Relation::AtLeast);
    assert_eq!(comparison.left.text(), "min(reach, span)");
    assert_eq!(comparison.right.text(), "max(20mm, 3 * 6mm)");
    assert_eq!(comparison.right.place(), 21..39);
    assert_eq!(
        comparison.left.value(&CARD, &mut value_of),
        Ok(Length(30.0))
    );
    assert_eq!(
        comparison.right.value(&CARD, &mut value_of),
        Ok(Length(20.0))
    );
    for other in [
        "not reach > span",
        "reach > span and otherwise",
        "view is window",
        "reach",
    ] {
        assert!(read(other).comparison().is_none(), "{other}");
    }
}

/// Source: written by hand; a bracket is kept where without it the formula would mean something else.
const PRINTED: &[(&str, &str)] = &[
    ("1+2*3", "1 + 2 * 3"),
    ("((1+2))*(3)", "(1 + 2) * 3"),
    ("10 - (4 - 3)", "10 - (4 - 3)"),
    ("-(reach+span) / -2", "-(reach + span) / -2"),
    ("0.250in- gap", "0.25in - gap"),
    (
        "not (has-lid)and(rows>2 or view   is not closed)",
        "not has-lid and (rows > 2 or view is not closed)",
    ),
    ("not (has-lid and has-lid)", "not (has-lid and has-lid)"),
    ("(rows > 2) == has-lid", "(rows > 2) == has-lid"),
    ("min( reach,span )", "min(reach, span)"),
    ("otherwise", "otherwise"),
    ("007", "7"),
];

#[test]
fn formulas_are_printed_evenly() {
    for (text, printed) in PRINTED {
        assert_eq!(read(text).to_string(), *printed);
        assert_eq!(read(text).text(), *text);
    }
}
