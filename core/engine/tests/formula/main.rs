//! Formulas of styles: values, errors with their positions, and properties of all formulas.
//!
//! The modules share a card and a few names with round values. Never reads a shipped style.

mod faults;
mod laws;
mod limits;
mod values;

use traywright_engine::formula::{Card, Formula, FormulaFault, Kind, Value, ValueFault};

/// The card of every test here.
const CARD: Card = Card {
    caliper: 0.29,
    hinge: 0.1,
};

/// The names for formulas in these tests: a box for vials, with round values.
fn known(name: &str) -> Option<Value> {
    Some(match name {
        "box.length" | "tab-max" => Value::Length(182.0),
        "box.width" => Value::Length(121.0),
        "box.depth" => Value::Length(34.0),
        "tray.length" => Value::Length(180.0),
        "tray.width" => Value::Length(119.0),
        "tray.depth" => Value::Length(32.0),
        "item.length" => Value::Length(96.0),
        "fit.item" => Value::Length(2.0),
        "fit.play" => Value::Length(0.5),
        "gap" => Value::Length(0.25),
        "caliper" => Value::Length(0.29),
        "hinge" => Value::Length(0.1),
        "end.reach" => Value::Length(31.42),
        "reach" => Value::Length(30.0),
        "span" => Value::Length(30.92),
        "floor" => Value::Length(7.0),
        "taper" => Value::Angle(5.0),
        "rows" => Value::Number(3.0),
        "has-lid" => Value::Truth(true),
        "view" => Value::Word("window".to_owned()),
        _ => return None,
    })
}

fn kind_of(name: &str) -> Result<Kind, String> {
    known(name)
        .map(|value| value.kind())
        .ok_or_else(|| format!("there is nothing called `{name}`"))
}

fn value_of(name: &str) -> Result<Value, String> {
    known(name).ok_or_else(|| format!("`{name}` has no value"))
}

fn read(text: &str) -> Formula {
    Formula::read(text).unwrap_or_else(|fault| panic!("{text}: {fault:?}"))
}

fn worked_out(formula: &Formula) -> Result<Value, ValueFault<String>> {
    formula.value(&CARD, &mut value_of)
}

/// Every error of a text, from the first step that fails: reading, kinds, or evaluation.
fn faults_of(text: &str) -> Vec<FormulaFault> {
    let formula = match Formula::read(text) {
        Ok(formula) => formula,
        Err(fault) => return vec![fault],
    };
    if let Err(faults) = formula.check(&mut kind_of) {
        return faults;
    }
    match worked_out(&formula) {
        Ok(_) => Vec::new(),
        Err(ValueFault::Formula(fault)) => vec![fault],
        Err(ValueFault::Name(sentence)) => panic!("{text}: a name passed the check: {sentence}"),
    }
}
