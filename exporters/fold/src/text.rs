//! Numbers, lists and objects in the file's format.
//!
//! **Input:** values. **Output:** text, one row per line. Numbers are rounded once, here, to twelve decimals.

use serde_json::{Value, json};

/// Steps per millimetre or degree in written numbers.
// Derived: in both frames a face 0.1 mm narrow has one area to 1e-9 of it, and most noise of arithmetic is hidden.
const STEPS: f64 = 1e12;

/// A key and its value as text.
pub(crate) type Entry = (&'static str, String);

/// A number as written.
pub(crate) fn written(number: f64) -> Value {
    let rounded = (number * STEPS).round() / STEPS;
    // Adding 0 turns -0 into 0.
    let rounded = rounded + 0.0;
    if rounded.fract() == 0.0 && rounded.abs() < SAFE {
        json!(rounded as i64)
    } else {
        json!(rounded)
    }
}

/// Whole numbers below this are exact.
const SAFE: f64 = 9e15;

/// An array with one row per line.
pub(crate) fn rows(values: impl Iterator<Item = Value>, indent: &str) -> String {
    let rows: Vec<String> = values.map(|value| format!("\n{indent}  {value}")).collect();
    format!("[{}\n{indent}]", rows.join(","))
}

/// An object with one entry per line.
pub(crate) fn object(entries: &[Entry], indent: &str) -> String {
    let lines: Vec<String> = entries
        .iter()
        .map(|(key, value)| format!("\n{indent}  {}: {value}", json!(key)))
        .collect();
    format!("{{{}\n{indent}}}", lines.join(","))
}
