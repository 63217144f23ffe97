//! A style is data: no name of a style or of a panel stands in the program.
//!
//! Reads the names from `designs/styles/*.ron` and looks for string literals that are one of them in the Rust files
//! of `core` and `exporters`, unit tests aside.

use super::House;
use super::rust_source::RustSource;

/// Functions of formulas that a panel is called after, too, and the file that lists them.
const FUNCTIONS: [&str; 1] = ["floor"];
const FORMULAS: &str = "formula/function.rs";

/// Judges the literals of the program.
pub(super) fn judge(house: &House, faults: &mut Vec<String>) {
    let names = names(house);
    let program = house.rust().filter(|(file, _)| {
        let is_program = file.path.starts_with("core") || file.path.starts_with("exporters");
        is_program
            && !file
                .path
                .iter()
                .any(|part| part == "tests" || part == "tests.rs")
    });
    for (file, source) in program {
        let literals = source
            .literals
            .iter()
            .filter(|(place, _)| *place < source.tests_begin());
        for (place, literal) in literals {
            let function = FUNCTIONS.contains(&literal.as_str()) && file.path.ends_with(FORMULAS);
            if function {
                continue;
            }
            if let Some((_, origin)) = names.iter().find(|(name, _)| name == literal) {
                let words = format!(
                    "\"{literal}\" is a name of the style {origin}: the program knows none"
                );
                faults.push(file.fault(source.line_of(*place), &words));
            }
        }
    }
}

/// Every name of a style or a panel, with the style's.
fn names(house: &House) -> Vec<(String, String)> {
    let mut names = Vec::new();
    let styles = house.texts.iter().filter(|file| {
        file.path.starts_with("designs/styles")
            && file.path.extension().is_some_and(|ending| ending == "ron")
    });
    for style in styles {
        let stem = style.path.file_stem().unwrap_or_default().to_string_lossy();
        names.push((stem.to_string(), stem.to_string()));
        for panel in panels(&RustSource::read(&style.text)) {
            names.push((panel, stem.to_string()));
        }
    }
    names
}

/// The keys of the map `panels: { … }`.
fn panels(style: &RustSource) -> Vec<String> {
    let Some(begin) = style.code.find("panels: {") else {
        return Vec::new();
    };
    let begin = begin + "panels: ".len();
    let mut keys = Vec::new();
    let mut depth = 0_usize;
    for (place, letter) in style.code[begin..].char_indices() {
        match letter {
            '{' | '(' | '[' => depth += 1,
            '}' | ')' | ']' => depth -= 1,
            '"' if depth == 1 => keys.extend(
                style
                    .literals
                    .iter()
                    .find(|(literal, _)| *literal == begin + place)
                    .map(|(_, key)| key.clone()),
            ),
            _ => {}
        }
        if depth == 0 {
            break;
        }
    }
    keys
}

#[cfg(test)]
mod tests {
    use super::{RustSource, panels};

    #[test]
    fn the_keys_of_the_panels_are_read_and_no_others() {
        // Source: the guide to the style language: `panels` is a map from names to panels.
        let style = "Style(settings: {\"play\": 1}, panels: { // \"no\"\n \"rim\": Hinged(on: \"x\", inset: {\"far\": 1}),\n \"lip\": 2 }, measures: {\"m\": 1})";
        assert_eq!(panels(&RustSource::read(style)), ["rim", "lip"]);
    }
}
