//! The size and shape of a room: lines of a file, its head, lines and arguments of a function.
//!
//! Given the tree, it names each room and function that is too large. It counts; whether a room has one purpose is
//! for a reader to say.

use super::rust_source::RustSource;
use super::{House, TextFile};

/// Lines of a file.
const MOST_LINES: usize = 400;
/// Lines of a function: a screen.
const MOST_FUNCTION_LINES: usize = 50;
/// Arguments of a function, `self` aside.
const MOST_ARGUMENTS: usize = 5;
/// Lines of the words at the head of a file.
const HEAD_LINES: std::ops::RangeInclusive<usize> = 1..=15;
/// Lines of the guide for developers.
const MOST_GUIDE_LINES: usize = 250;

/// Judges every room.
pub(super) fn judge(house: &House, faults: &mut Vec<String>) {
    for file in &house.texts {
        let lines = file.text.lines().count();
        let most = if file.path.ends_with("DEVELOPERS.md") {
            MOST_GUIDE_LINES
        } else {
            MOST_LINES
        };
        if is_room(file) && lines > most {
            faults.push(file.fault(lines, &format!("{lines} lines; a room has at most {most}")));
        }
    }
    for (file, source) in house.rust() {
        judge_head(file, faults);
        for function in functions(source) {
            let name = &function.name;
            if function.lines > MOST_FUNCTION_LINES {
                let words = format!(
                    "`{name}` has {} lines; a screen has {MOST_FUNCTION_LINES}",
                    function.lines
                );
                faults.push(file.fault(function.line, &words));
            }
            if function.arguments > MOST_ARGUMENTS {
                let words = format!(
                    "`{name}` takes {} arguments, at most {MOST_ARGUMENTS}",
                    function.arguments
                );
                faults.push(file.fault(function.line, &words));
            }
        }
    }
}

fn is_room(file: &TextFile) -> bool {
    let ending = file.path.extension().and_then(|ending| ending.to_str());
    file.path.ends_with("DEVELOPERS.md") || matches!(ending, Some("rs" | "py" | "h" | "c"))
}

fn judge_head(file: &TextFile, faults: &mut Vec<String>) {
    let head = file.text.lines().take_while(|line| line.starts_with("//!"));
    let lines = head.filter(|line| line.len() > 4).count();
    let is_test = file
        .path
        .iter()
        .any(|part| part == "tests" || part == "tests.rs");
    if lines == 0 || !is_test && !HEAD_LINES.contains(&lines) {
        let (least, most) = (HEAD_LINES.start(), HEAD_LINES.end());
        let words = format!(
            "the head (`//!`) has {lines} lines: say in {least} to {most} what the file is given, gives, and never does"
        );
        faults.push(file.fault(1, &words));
    }
}

struct Function {
    name: String,
    line: usize,
    lines: usize,
    arguments: usize,
}

/// Every function that has a name and a body.
fn functions(source: &RustSource) -> Vec<Function> {
    let words: Vec<(usize, &str)> = source.words().collect();
    words
        .windows(2)
        .filter(|pair| pair[0].1 == "fn" && source.code[pair[0].0 + 2..pair[1].0].trim().is_empty())
        .filter_map(|pair| function(source, pair[0].0, pair[1].1))
        .collect()
}

fn function(source: &RustSource, place: usize, name: &str) -> Option<Function> {
    let code = source.code.as_str();
    let open = place + code[place..].find('(')?;
    let close = open + closing(&code[open..])?;
    let body = close + code[close..].find(['{', ';'])?;
    let end = if code[body..].starts_with('{') {
        body + closing(&code[body..])?
    } else {
        body
    };
    Some(Function {
        name: name.to_owned(),
        line: source.line_of(place),
        lines: 1 + code[place..end].matches('\n').count(),
        arguments: arguments(&code[open + 1..close]),
    })
}

/// The place of the bracket that closes the first one.
fn closing(code: &str) -> Option<usize> {
    let mut depth = 0_usize;
    for (place, letter) in code.char_indices() {
        match letter {
            '(' | '[' | '{' => depth += 1,
            ')' | ']' | '}' => depth -= 1,
            _ => {}
        }
        if depth == 0 {
            return Some(place);
        }
    }
    None
}

/// How many arguments stand between the brackets, `self` aside.
fn arguments(code: &str) -> usize {
    let mut depth = 0_isize;
    let mut parts = vec![String::new()];
    for letter in code.replace("->", "").chars() {
        match letter {
            '(' | '[' | '{' | '<' => depth += 1,
            ')' | ']' | '}' | '>' => depth -= 1,
            ',' if depth == 0 => parts.push(String::new()),
            _ => {}
        }
        if let Some(part) = parts.last_mut() {
            part.push(letter);
        }
    }
    parts
        .iter()
        .map(|part| part.trim_matches([',', ' ', '\n']))
        .filter(|part| !part.is_empty() && !part.ends_with("self"))
        .count()
}

#[cfg(test)]
mod tests {
    use super::{RustSource, functions};

    #[test]
    fn functions_are_measured_from_their_name_to_their_last_bracket() {
        let source = RustSource::read(
            "impl A {\n    fn first(&self, a: Vec<(u8, u8)>, b: impl Fn(u8, u8) -> u8) -> u8 {\n        '}'\n    }\n}\n\
             type B = fn(u8);\nfn second() {}\n",
        );
        let found: Vec<_> = functions(&source)
            .into_iter()
            .map(|function| {
                (
                    function.name,
                    function.line,
                    function.lines,
                    function.arguments,
                )
            })
            .collect();
        // Source: counted by hand.
        assert_eq!(
            found,
            [
                ("first".to_owned(), 2, 3, 2),
                ("second".to_owned(), 7, 1, 0)
            ]
        );
    }
}
