//! Properties of every formula: it evaluates as plain arithmetic, it prints as it reads, and nothing makes it panic.
//!
//! Formulas are random trees, written by rules of this file, and evaluated here in plain doubles.

use proptest::prelude::*;
use traywright_engine::formula::{Formula, Value};

use super::{faults_of, kind_of, worked_out};

/// A formula as a tree, every operator with two sides.
#[derive(Clone, Debug)]
enum Tree {
    Leaf(String, f64),
    Minus(Box<Tree>),
    Not(Box<Tree>),
    Pair(&'static str, Box<Tree>, Box<Tree>),
    Call(&'static str, Vec<Tree>),
}

/// The precedence of each operator, from LANGUAGE section 1.
fn rank(tree: &Tree) -> u8 {
    match tree {
        Tree::Pair("or", ..) => 0,
        Tree::Pair("and", ..) => 1,
        Tree::Not(_) => 2,
        Tree::Pair("<" | "<=" | ">" | ">=" | "==" | "!=", ..) => 3,
        Tree::Pair("+" | "-", ..) => 4,
        Tree::Pair(..) => 5,
        Tree::Minus(_) => 6,
        Tree::Leaf(..) | Tree::Call(..) => 7,
    }
}

/// The tree as text; terms of lower rank than `least` get brackets, and `generous` puts brackets everywhere.
fn written(tree: &Tree, least: u8, generous: bool) -> String {
    let inner = |tree, least| written(tree, least, generous);
    let own = rank(tree);
    let text = match tree {
        Tree::Leaf(text, _) => return text.clone(),
        Tree::Minus(tree) => format!("-{}", inner(tree, 6)),
        Tree::Not(tree) => format!("not {}", inner(tree, 2)),
        Tree::Pair(sign, left, right) => {
            // A comparison has a sum on either side; all other operators associate to the left.
            let left = inner(left, if own == 3 { 4 } else { own });
            format!("{left} {sign} {}", inner(right, own + 1))
        }
        Tree::Call(name, values) => {
            let values: Vec<_> = values.iter().map(|tree| inner(tree, 0)).collect();
            return format!("{name}({})", values.join(","));
        }
    };
    if own < least || generous {
        format!("( {text})")
    } else {
        text
    }
}

/// The value of the tree in plain doubles, yes as 1 and no as 0; none if there is no result.
fn reckoned(tree: &Tree) -> Option<f64> {
    let yes = |truth: bool| Some(f64::from(truth));
    let result = match tree {
        Tree::Leaf(_, amount) => Some(*amount),
        Tree::Minus(tree) => reckoned(tree).map(|amount| -amount),
        Tree::Not(tree) => reckoned(tree).map(|truth| 1.0 - truth),
        Tree::Pair("or", left, right) if reckoned(left)? == 0.0 => reckoned(right),
        Tree::Pair("and", left, right) if reckoned(left)? == 1.0 => reckoned(right),
        Tree::Pair("or" | "and", left, _) => reckoned(left),
        Tree::Call("if", values) => {
            let taken = if reckoned(&values[0])? == 1.0 { 1 } else { 2 };
            reckoned(&values[taken])
        }
        Tree::Pair(sign, left, right) => {
            let (left, right) = (reckoned(left)?, reckoned(right)?);
            let same = (left - right).abs() <= 1e-9;
            match *sign {
                "+" => Some(left + right),
                "-" => Some(left - right),
                "*" => Some(left * right),
                "/" if right == 0.0 => None,
                "/" => Some(left / right),
                "<" => yes(left < right && !same),
                "<=" => yes(left < right || same),
                ">" => yes(left > right && !same),
                ">=" => yes(left > right || same),
                "==" => yes(same),
                _ => yes(!same),
            }
        }
        Tree::Call(name, values) => {
            let amounts: Option<Vec<f64>> = values.iter().map(reckoned).collect();
            let amounts = amounts?;
            match *name {
                "min" => amounts.into_iter().reduce(f64::min),
                "max" => amounts.into_iter().reduce(f64::max),
                "abs" => Some(amounts[0].abs()),
                _ if amounts[0] < 0.0 => None,
                _ => Some(amounts[0].sqrt()),
            }
        }
    };
    result.filter(|amount| amount.is_finite())
}

/// Trees of one kind each, all of about equal depth.
#[derive(Clone)]
struct Grove {
    numbers: BoxedStrategy<Tree>,
    lengths: BoxedStrategy<Tree>,
    truths: BoxedStrategy<Tree>,
}

fn leaf(text: impl Into<String>, amount: f64) -> Tree {
    Tree::Leaf(text.into(), amount)
}

fn leaves() -> Grove {
    let number = (0..2000u32).prop_map(|tenths| {
        let amount = f64::from(tenths) / 10.0;
        leaf(format!("{amount}"), amount)
    });
    let length = (0..40_000u32, any::<bool>()).prop_map(|(hundredths, inches)| {
        let amount = f64::from(hundredths) / 100.0;
        if inches {
            leaf(format!("{amount}in"), amount * 25.4)
        } else {
            leaf(format!("{amount}mm"), amount)
        }
    });
    let named = [
        ("tab-max", 182.0),
        ("fit.play", 0.5),
        ("caliper", 0.29),
        ("floor", 7.0),
    ];
    let named = prop::sample::select(named.to_vec()).prop_map(|(name, amount)| leaf(name, amount));
    let truth = prop::sample::select(vec![
        leaf("otherwise", 1.0),
        leaf("has-lid", 1.0),
        leaf("view is closed", 0.0),
    ]);
    Grove {
        numbers: number.boxed(),
        lengths: prop_oneof![length, named.boxed()].boxed(),
        truths: truth.boxed(),
    }
}

fn pairs(
    signs: &'static [&'static str],
    left: &BoxedStrategy<Tree>,
    right: &BoxedStrategy<Tree>,
) -> BoxedStrategy<Tree> {
    (prop::sample::select(signs), left.clone(), right.clone())
        .prop_map(|(sign, left, right)| Tree::Pair(sign, Box::new(left), Box::new(right)))
        .boxed()
}

/// Trees with trees inside: first the forms that both kinds have.
fn amounts(own: &BoxedStrategy<Tree>, truths: &BoxedStrategy<Tree>) -> BoxedStrategy<Tree> {
    let chosen = (truths.clone(), own.clone(), own.clone())
        .prop_map(|(condition, yes, no)| Tree::Call("if", vec![condition, yes, no]));
    let extreme = (
        prop::sample::select(&["min", "max"][..]),
        prop::collection::vec(own.clone(), 1..4),
    )
        .prop_map(|(name, values)| Tree::Call(name, values));
    prop_oneof![
        pairs(&["+", "-"], own, own),
        own.clone().prop_map(|tree| Tree::Minus(Box::new(tree))),
        own.clone().prop_map(|tree| Tree::Call("abs", vec![tree])),
        extreme,
        chosen,
    ]
    .boxed()
}

fn grown(from: &Grove) -> Grove {
    let Grove {
        numbers,
        lengths,
        truths,
    } = from;
    let root = (lengths.clone(), lengths.clone()).prop_map(|(one, other)| {
        Tree::Call(
            "sqrt",
            vec![Tree::Pair("*", Box::new(one), Box::new(other))],
        )
    });
    Grove {
        numbers: prop_oneof![
            1 => numbers.clone(),
            4 => amounts(numbers, truths),
            2 => pairs(&["*", "/"], numbers, numbers),
            1 => pairs(&["/"], lengths, lengths),
        ]
        .boxed(),
        lengths: prop_oneof![
            1 => lengths.clone(),
            4 => amounts(lengths, truths),
            2 => pairs(&["*", "/"], lengths, numbers),
            1 => pairs(&["*"], numbers, lengths),
            1 => root,
        ]
        .boxed(),
        truths: prop_oneof![
            1 => truths.clone(),
            2 => pairs(&["<", "<=", ">", ">=", "==", "!="], lengths, lengths),
            2 => pairs(&["and", "or"], truths, truths),
            1 => truths.clone().prop_map(|tree| Tree::Not(Box::new(tree))),
        ]
        .boxed(),
    }
}

fn trees() -> BoxedStrategy<Tree> {
    let levels = std::iter::successors(Some(leaves()), |grove| Some(grown(grove)));
    let levels: Vec<_> = levels.take(6).collect();
    let all = levels
        .into_iter()
        .flat_map(|grove| [grove.numbers, grove.lengths, grove.truths]);
    prop::strategy::Union::new(all).boxed()
}

/// The value of a formula, in the form of [`reckoned`].
fn given(formula: &Formula) -> Option<f64> {
    match worked_out(formula).ok()? {
        Value::Truth(truth) => Some(f64::from(truth)),
        value => value.amount(),
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 500, failure_persistence: None, ..ProptestConfig::default() })]

    // Source: the reckoning of this file, in the same order of operations and therefore the same to the last digit.
    #[test]
    fn a_formula_gives_what_plain_reckoning_gives(tree in trees(), generous in any::<bool>()) {
        let text = written(&tree, 0, generous);
        prop_assume!(text.len() <= 4096);
        let formula = Formula::read(&text).map_err(|fault| TestCaseError::fail(format!("{text}: {fault:?}")))?;
        let kind = formula.check(&mut kind_of).map_err(|faults| TestCaseError::fail(format!("{text}: {faults:?}")))?;
        prop_assert_eq!(given(&formula), reckoned(&tree), "{}", text);
        if let Ok(value) = worked_out(&formula) {
            prop_assert_eq!(value.kind(), kind);
        }
    }

    // Source: reasoning: printing changes spaces and brackets, never the meaning, and a printed formula is printed the same.
    #[test]
    fn a_printed_formula_reads_as_the_same(tree in trees(), generous in any::<bool>()) {
        let text = written(&tree, 0, generous);
        prop_assume!(text.len() <= 4096);
        let formula = Formula::read(&text).map_err(|fault| TestCaseError::fail(format!("{text}: {fault:?}")))?;
        let printed = formula.to_string();
        let again = Formula::read(&printed).map_err(|fault| TestCaseError::fail(format!("{printed}: {fault:?}")))?;
        prop_assert_eq!(worked_out(&again).ok(), worked_out(&formula).ok(), "{} printed as {}", text, printed);
        prop_assert_eq!(again.to_string(), printed);
    }

    // Source: reasoning: whatever the text, an answer; every fault has words and a place that can be pointed at.
    #[test]
    fn no_text_makes_it_panic(text in prop_oneof!["\\PC{0,80}", PIECES, any::<String>()]) {
        faults_can_be_shown(&text)?;
    }

    // Source: as above, close to what is right.
    #[test]
    fn no_slip_in_a_formula_makes_it_panic(
        tree in trees(),
        slips in prop::collection::vec((any::<prop::sample::Index>(), any::<u8>(), 0..4u8), 1..4),
    ) {
        let mut bytes = written(&tree, 0, false).into_bytes();
        for (index, byte, slip) in slips {
            let at = index.index(bytes.len().max(1)).min(bytes.len());
            match slip {
                0 => bytes.insert(at, byte),
                1 => bytes.insert(at, b"()+-*/,<>= .0m"[usize::from(byte) % 14]),
                2 if at < bytes.len() => bytes[at] = byte,
                _ => drop(bytes.drain(at..bytes.len().min(at + usize::from(byte % 8)))),
            }
        }
        faults_can_be_shown(&String::from_utf8_lossy(&bytes))?;
    }
}

/// Pieces of formulas in any order.
const PIECES: &str = "(( |\\(|\\)|,|\\+|-|\\*|/|<|<=|==|is|not|and|or|if\\(|min\\(|tan\\(|6|0\\.5|mm|in|deg|view|tab-max|box\\.length| - ){1}){0,40}";

fn faults_can_be_shown(text: &str) -> Result<(), TestCaseError> {
    for fault in faults_of(text) {
        prop_assert!(
            text.get(fault.place.clone()).is_some(),
            "{:?} in {:?}",
            fault,
            text
        );
        prop_assert!(
            !fault.message.is_empty() && !fault.expected.is_empty(),
            "{:?}",
            fault
        );
    }
    if let Ok(formula) = Formula::read(text) {
        let again = Formula::read(&formula.to_string());
        prop_assert!(again.is_ok(), "{:?} printed as {}", text, formula);
        for (name, place) in formula.names() {
            prop_assert_eq!(&text[place], name);
        }
    }
    Ok(())
}
