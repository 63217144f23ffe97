//! The clause sheets of exporters: a function that one names, as `module::name`, is in a module of that name.

use std::ffi::OsStr;
use std::path::Path;

use super::House;

/// Reports every function of a clause sheet that is not there.
pub(super) fn judge(house: &House, faults: &mut Vec<String>) {
    let sheets = house.texts.iter();
    for sheet in sheets.filter(|file| file.path.ends_with("CLAUSES.md")) {
        for (index, line) in sheet.text.lines().enumerate() {
            for named in line.split('`').skip(1).step_by(2) {
                if is_function(named) && !is_there(house, named) {
                    let fault = format!("`{named}` is in no module of that name");
                    faults.push(sheet.fault(index + 1, &fault));
                }
            }
        }
    }
}

/// Whether it is a path of modules, types and functions, such as `tiles::Tiles::lay`.
fn is_function(named: &str) -> bool {
    let is_name = |part: &str| {
        part.starts_with(|letter: char| letter.is_ascii_alphabetic())
            && part
                .bytes()
                .all(|letter| letter.is_ascii_alphanumeric() || letter == b'_')
    };
    named.starts_with(|letter: char| letter.is_ascii_lowercase())
        && named.contains("::")
        && named.split("::").all(is_name)
}

/// Whether a file `MODULE.rs`, or one below a folder of that name, has the last word of the path.
fn is_there(house: &House, named: &str) -> bool {
    let (module, rest) = named.split_once("::").unwrap_or((named, ""));
    let last = rest.rsplit("::").next().unwrap_or_default();
    let is_module = |path: &Path| {
        let below = path.iter().any(|part| part == OsStr::new(module));
        path.file_stem() == Some(OsStr::new(module)) || below
    };
    let has_word = |text: &str| {
        let mut words = text.split(|letter: char| !letter.is_ascii_alphanumeric() && letter != '_');
        words.any(|word| word == last)
    };
    let mut sources = house.rust().map(|(file, _)| file);
    sources.any(|file| is_module(&file.path) && has_word(&file.text))
}
