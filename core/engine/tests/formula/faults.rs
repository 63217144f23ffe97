//! Invalid formulas: the position of each error, and its message for the author of a style.
//!
//! Tables of a formula with the wrong part marked, and parts of the message.

use traywright_engine::formula::{Formula, Kind, Value, ValueFault};

use super::{CARD, faults_of, kind_of, read};

/// The text with the wrong part between `[` and `]`, the error, and the correct form.
///
/// Source: places marked by hand; the words are what a maker with a text editor needs to hear.
const UNREADABLE: &[(&str, &str, &str)] = &[
    ("[]", "the formula is empty", "`box.length`"),
    ("[  ]", "the formula is empty", "`box.length`"),
    ("reach +[]", "ends where a value should stand", "`6mm`"),
    ("reach + [*] 2", "`*` stands where a value", "`6mm`"),
    ("[and] reach", "`and` stands where a value", "`6mm`"),
    ("[(]reach + 2mm", "bracket is not closed", "`)`"),
    ("min[(]reach, 2mm", "bracket is not closed", "`)`"),
    ("reach + 2mm[)]", "no bracket is open", "take this `)` away"),
    ("reach [span]", "a sign is missing before `span`", "`*`"),
    ("2 [reach]", "a sign is missing before `reach`", "`*`"),
    ("reach[,] span", "a comma stands only between", "min("),
    ("[2,5mm] + reach", "decimal point", "`2.5mm`"),
    ("max(reach, 2mm) + [2,5mm]", "decimal point", "`2.5mm`"),
    ("reach - [6 mm]", "right behind its number", "`6mm`"),
    ("6[cm]", "`cm` is no unit", "millimetres"),
    ("6[\"]", "`\"` is no unit", "`0.25in`"),
    ("90[°]", "`°` is no unit", "`90deg`"),
    ("30[%]", "`%` is no unit", "0.3 * span"),
    ("6[mm²]", "`mm²` is no unit", "`mm`, `in` or `deg`"),
    ("1[e3]", "`e3` is no unit", "`mm`, `in` or `deg`"),
    ("[6.]", "a digit is missing", "`6.5`"),
    ("[.]5mm", "`.` is no sign", "`0.5mm`"),
    ("1.2[.]3mm", "second point", "one decimal point"),
    ("box[.] length", "`.` is no sign", "`box.length`"),
    ("tab[_]max", "`_` cannot stand in a name", "`tab-max`"),
    ("h[ö]he", "`ö` cannot stand in a name", "letters a to z"),
    ("has-lid [&&] has-lid", "`&&` is no sign", "`and`"),
    ("has-lid [||] has-lid", "`||` is no sign", "`or`"),
    ("[!]has-lid", "`!` is no sign", "`not`"),
    ("reach [=] span", "`=` is no sign", "`==`"),
    ("reach [≥] span", "`≥` is no sign", "`>=`"),
    ("reach [=>] span", "`=>` is no sign", "`>=`"),
    ("reach [−] span", "`−` is no sign", "`-`"),
    ("reach [^]2", "`^` is no sign", "`a * a`"),
    ("view is [']window'", "`'` is no sign", "without quotes"),
    ("reach [§] 2", "`§` is no sign", "the signs are"),
    (
        "gap < reach [<] span",
        "do not chain",
        "`gap < reach and reach < span`",
    ),
    ("gap < reach [is] window", "do not chain", "`and`"),
    ("view is window [==] otherwise", "do not chain", "`and`"),
    ("[reach + 1mm] is window", "name of a choice", "`==`"),
    ("view is[]", "one word of the choice", "`view is closed`"),
    (
        "view is not [3]",
        "one word of the choice",
        "`view is not closed`",
    ),
    ("[mix](2)", "no function `mix`", "did you mean `min`?"),
    ("[Sqrt](2)", "no function `Sqrt`", "`sqrt`"),
    ("[average](2, 4)", "no function `average`", "min, max"),
    ("[reach](2)", "no function `reach`", "`*`"),
    (
        "[min()]",
        "`min` takes at least one value",
        "`min(a, b, …)`",
    ),
    ("[abs(1, 2)]", "`abs` takes one value", "`abs(value)`"),
    (
        "1mm + [if(has-lid, 2mm)]",
        "`if` takes 3 values",
        "if(condition",
    ),
];

/// As above; names are those of `main.rs`.
const UNLIKE: &[(&str, &str, &str)] = &[
    (
        "box.length - [2]",
        "a number cannot be subtracted from a length",
        "`2mm`",
    ),
    (
        "[2] + caliper",
        "a number and a length cannot be added",
        "`2mm`",
    ),
    (
        "taper + [2]",
        "an angle and a number cannot be added",
        "`2deg`",
    ),
    (
        "reach + [taper]",
        "a length and an angle cannot be added",
        "two values of one kind",
    ),
    (
        "reach * span - [gap]",
        "a length cannot be subtracted from an area",
        "two values of one kind",
    ),
    (
        "reach + [has-lid]",
        "a truth (yes or no) and cannot be added",
        "`if(a, b, c)`",
    ),
    (
        "[view] * 2",
        "a word and cannot be multiplied",
        "`if(a, b, c)`",
    ),
    ("-[has-lid]", "cannot be given a minus", "`if(a, b, c)`"),
    ("reach * span * [gap]", "more than an area", "divide before"),
    (
        "reach * [taper]",
        "a length and an angle cannot be multiplied",
        "`tan`",
    ),
    (
        "1 / [reach]",
        "a number cannot be divided by a length",
        "the same kind",
    ),
    (
        "reach > [6]",
        "a length and a number cannot be compared",
        "`6mm`",
    ),
    (
        "[6] < reach",
        "a number and a length cannot be compared",
        "`6mm`",
    ),
    ("[has-lid < otherwise]", "have no order", "`and`"),
    ("[view == view]", "words are not compared by `==`", "`is`"),
    ("[reach is window]", "`reach` is a length", "`reach == …`"),
    (
        "[has-lid is window]",
        "`has-lid` is a truth",
        "`not has-lid`",
    ),
    (
        "has-lid and [reach]",
        "`and` needs yes or no, and `reach` is a length",
        "`reach >= 6mm`",
    ),
    (
        "not [view]",
        "`not` needs yes or no, and `view` is a word",
        "`view is`",
    ),
    ("if([rows], 1, 2)", "`if` needs yes or no", "a comparison"),
    (
        "if(has-lid, reach, [3])",
        "cannot be values of one `if`",
        "`3mm`",
    ),
    ("min(reach, [2])", "cannot be values of one `min`", "`2mm`"),
    ("min([view])", "`min` cannot be taken of a word", "a length"),
    (
        "sqrt([reach])",
        "`sqrt` cannot be taken of a length",
        "the root of an area",
    ),
    ("tan([5])", "`tan` cannot be taken of a number", "`5deg`"),
    (
        "outer([reach])",
        "`outer` cannot be taken of a length",
        "`outer(90deg)`",
    ),
    ("flex([2])", "`flex` cannot be taken of a number", "`2mm`"),
    (
        "round([reach])",
        "`round` cannot be taken of a length",
        "`round(length / 1mm) * 1mm`",
    ),
    ("[edge] + 2mm", "nothing called `edge`", "a name of"),
    (
        "2 * [box.length-caliper]",
        "nothing called",
        "`box.length - caliper`",
    ),
    (
        "[tab-max-gap-2mm]",
        "nothing called",
        "`tab-max - gap - 2mm`",
    ),
    (
        "[lid-gap]",
        "nothing called `lid-gap`",
        "a minus stands between spaces",
    ),
];

/// As above.
const WITHOUT_VALUE: &[(&str, &str, &str)] = &[
    ("reach / [0]", "nothing can be divided by 0", "never 0"),
    ("2mm + 1mm / [(rows - 3)]", "`(rows - 3)` is 0", "never 0"),
    ("sqrt([1 - rows])", "`1 - rows` is -2 here", "0 or more"),
    ("sqrt([reach * -1mm])", "is -30 mm² here", "0 or more"),
    ("outer([taper * 35.8])", "is 179° here", "less than 179deg"),
    ("inner([200deg])", "no corner", "less than 179deg"),
    ("tan([90deg])", "no tangent", "not upright"),
    ("tan([-270deg])", "no tangent", "not upright"),
];

#[test]
fn what_is_wrong_has_its_place_and_its_words() {
    for (marked, message, expected) in [UNREADABLE, UNLIKE, WITHOUT_VALUE].concat() {
        let open = marked.find('[').expect("a marked place");
        let close = marked.rfind(']').expect("a marked place") - 1;
        let text = marked.replace(['[', ']'], "");
        let faults = faults_of(&text);
        assert_eq!(faults.len(), 1, "{text}: {faults:?}");
        let fault = &faults[0];
        assert_eq!(fault.place, open..close, "{text}: {}", fault.message);
        assert!(fault.message.contains(message), "{text}: {}", fault.message);
        assert!(
            fault.expected.contains(expected),
            "{text}: {}",
            fault.expected
        );
    }
}

// Source: reasoning: each of these is a fault of its own, and none follows from another one.
#[test]
fn all_faults_of_a_formula_are_told_at_once() {
    let text = "if(edge > 2, reach + 2, missing * 2 + 3deg) + min(reach, 5, tan(4) * 1mm)";
    let faults = faults_of(text);
    let wrong: Vec<_> = faults
        .iter()
        .map(|fault| &text[fault.place.clone()])
        .collect();
    assert_eq!(wrong, ["edge", "2", "missing", "4", "5"]);
}

// Source: LANGUAGE section 1: kinds are checked on both branches, only the taken one runs.
#[test]
fn a_branch_that_is_not_taken_is_checked_for_kinds() {
    let faults = faults_of("if(otherwise, 2mm, reach + 3)");
    assert_eq!(faults.len(), 1);
    assert_eq!(faults[0].expected, "write `3mm`");
    assert!(faults_of("if(otherwise, 2mm, reach / 0)").is_empty());
}

// Source: the largest double is about 1.8e308.
#[test]
fn a_number_too_large_is_a_fault() {
    let large = format!("1{}", "0".repeat(307));
    assert!(
        faults_of(&format!("{large}0000"))
            .iter()
            .any(|fault| fault.place == (0..312))
    );
    let faults = faults_of(&format!("2mm + 1mm * ({large} * 10 * {large})"));
    assert!(faults[0].message.contains("too large"), "{faults:?}");
    let faults = faults_of(&format!("flex({large}mm)"));
    assert!(faults[0].message.contains("too large"), "{faults:?}");
    let never = read("reach").value(&CARD, &mut |_| Ok::<_, ()>(Value::Length(f64::INFINITY)));
    assert!(matches!(never, Err(ValueFault::Formula(fault)) if fault.place == (0..5)));
}

// Source: the agreement with whoever asks; what a name's value lacks is passed on as it is.
#[test]
fn what_a_name_lacks_is_passed_on() {
    let value = read("reach + rim").value(&CARD, &mut |name| match name {
        "reach" => Ok(Value::Length(1.0)),
        other => Err(other.len()),
    });
    assert_eq!(value, Err(ValueFault::Name(3)));
}

// Source: reasoning: a formula that nobody checked, or whose names changed their kind, still gives a fault.
#[test]
fn kinds_that_do_not_agree_are_faults_when_worked_out_too() {
    for text in [
        "rim + 2mm",
        "rim * rim * 2mm",
        "rim < 2mm",
        "not rim",
        "min(rim, 2mm)",
        "tan(rim)",
        "-rim",
    ] {
        for kind in [
            Value::Truth(true),
            Value::Word("closed".to_owned()),
            Value::Area(2.0),
        ] {
            let formula = read(text);
            let agrees = formula.check(&mut |_| Ok(kind.kind()));
            let value = formula.value(&CARD, &mut |_| Ok::<_, ()>(kind.clone()));
            assert_eq!(
                agrees.is_ok(),
                value.is_ok(),
                "{text} with {kind:?}: {value:?}"
            );
        }
    }
    assert_eq!(
        read("not rim").check(&mut |_| Ok(Kind::Truth)),
        Ok(Kind::Truth)
    );
}

// Source: reasoning: a hint must not ask for names without end.
#[test]
fn a_name_of_very_many_hyphens_is_refused_at_once() {
    let name = ["a"; 2000].join("-");
    let mut asked = 0;
    let formula = Formula::read(&name).expect("one long name");
    let faults = formula.check(&mut |name| {
        asked += 1;
        kind_of(name)
    });
    assert!(faults.is_err());
    assert_eq!(asked, 1);
}
