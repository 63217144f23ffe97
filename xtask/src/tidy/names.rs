//! The names that the house does not use, for types everywhere and for other words in the engine.
//!
//! It reads what is declared or written as code; comments and messages may use any word. Names of loop variables and
//! the like are left to the reader.

use super::House;
use super::rust_source::RustSource;

/// Type names that are wrong as a whole, with what is right.
const WRONG_TYPES: [(&str, &str); 17] = [
    ("Engine", "the noun it makes"),
    ("Template", "`Style`, `Tray` or `Blank`"),
    ("Layout", "`Style`, `Tray` or `Blank`"),
    ("Model", "`Style`, `Tray` or `Blank`"),
    ("Net", "`Blank`"),
    ("Shape", "`Outline`, for a panel's edge"),
    ("Polygon", "`Outline`, for a panel's edge"),
    ("Path", "`Outline`, for a panel's edge"),
    ("Face", "`Panel`"),
    ("Thickness", "`Caliper` or `Solid`"),
    ("Config", "`Job` or `Parameter`"),
    ("Options", "`Job` or `Parameter`"),
    ("Params", "`Job` or `Parameter`"),
    ("Data", "what it is"),
    ("Info", "what it is"),
    ("Utils", "what it holds"),
    ("Helper", "what it does"),
];

/// Parts of type names that say only that code runs, or what kind of file it is.
const WRONG_PARTS: [&str; 5] = ["Manager", "Processor", "Handler", "Context", "Plugin"];

/// Words of the engine's code that are wrong there, with what is right.
const WRONG_ENGINE_WORDS: [(&str, &str); 9] = [
    ("face", "`panel`"),
    ("thickness", "`caliper` (stock) or `solid` (in space)"),
    ("mountain", "a signed `fold_deg`"),
    ("valley", "a signed `fold_deg`"),
    ("template", "`style`, `tray` or `blank`"),
    ("layout", "`style`, `tray` or `blank`"),
    ("validate", "`check`"),
    ("is_valid", "`check`"),
    ("tmp", "what it is now"),
];

/// Judges the names in every Rust file.
pub(super) fn judge(house: &House, faults: &mut Vec<String>) {
    for (file, source) in house.rust() {
        for (place, name) in declared_types(source) {
            let whole = WRONG_TYPES.iter().find(|(wrong, _)| *wrong == name);
            let part = WRONG_PARTS.iter().find(|wrong| name.contains(**wrong));
            if let Some(right) = whole
                .map(|(_, right)| *right)
                .or(part.map(|_| "the noun it makes"))
            {
                let words = format!("a type is not called `{name}`: say {right}");
                faults.push(file.fault(source.line_of(place), &words));
            }
        }
        if !file.path.starts_with("core/engine") {
            continue;
        }
        for (wrong, right) in WRONG_ENGINE_WORDS {
            let mut places = source.words().filter(|(_, word)| *word == wrong);
            if let Some((first, _)) = places.next() {
                let more = places.count();
                let words =
                    format!("`{wrong}` in the engine ({more} more in this file): say {right}");
                faults.push(file.fault(source.line_of(first), &words));
            }
        }
    }
}

fn declared_types(source: &RustSource) -> Vec<(usize, &str)> {
    let words: Vec<(usize, &str)> = source.words().collect();
    words
        .windows(2)
        .filter(|pair| matches!(pair[0].1, "struct" | "enum" | "trait" | "type" | "union"))
        .map(|pair| pair[1])
        .collect()
}
