//! `check --explain CODE`: the meaning of a finding for the maker, its check and its fix.
//!
//! **Input:** a code. **Output:** its page: the program's own for a finding of the engine, and for a style's code the
//! rule of each style that has it. Never looks at a tray.

mod formulas;
mod rules;

use crate::error::InputError;
use crate::library::Styles;
use crate::nearest::suggestion;
use crate::report::sentence::paragraph;
use rules::Ruled;
use traywright_engine::finding::BuiltIn;
use traywright_engine::renamed::{CODES, new_name};
use traywright_engine::wording::{list, nearest};

/// The explanation of a code, one page for each meaning it has.
///
/// # Refuses
/// A code that neither the engine nor a style has, with the nearest one; and the errors of styles that cannot be read,
/// because the code may be one of theirs.
pub fn explanation(typed: &str, styles: &Styles) -> Result<String, Vec<InputError>> {
    // A report prints codes in brackets, and users copy the brackets.
    let code = typed.trim_matches(['[', ']']);
    let mut ruled = Vec::new();
    let mut unread = Vec::new();
    for style_text in styles.all() {
        match Ruled::read(style_text) {
            Ok(style) => ruled.push(style),
            Err(error) => unread.push(error),
        }
    }
    let mut pages: Vec<String> = BuiltIn::page(code).map(str::to_owned).into_iter().collect();
    pages.extend(of_styles(code, &ruled));
    if pages.is_empty() {
        unread.insert(0, unknown(typed, &ruled));
        return Err(unread);
    }
    Ok(pages.join("\n"))
}

/// The meanings of a code in styles; equal meanings share a page.
fn of_styles(code: &str, ruled: &[Ruled]) -> Vec<String> {
    let mut pages: Vec<(String, Vec<String>)> = Vec::new();
    for style in ruled {
        let Some(page) = style.explained(code) else {
            continue;
        };
        let name = format!("`{}`", style.name());
        match pages.iter_mut().find(|(known, _)| *known == page) {
            Some((_, names)) => names.push(name),
            None => pages.push((page, vec![name])),
        }
    }
    let titled = pages.into_iter().map(|(page, names)| {
        let kind = if names.len() == 1 { "style" } else { "styles" };
        let title = format!("{code}: a finding of the {kind} {}", list(&names));
        format!("{}\n{page}", paragraph("", &title))
    });
    titled.collect()
}

fn unknown(typed: &str, ruled: &[Ruled]) -> InputError {
    let of_styles: Vec<String> = ruled.iter().flat_map(Ruled::codes).collect();
    let mut known = BuiltIn::codes();
    known.extend(of_styles.iter().map(String::as_str));
    known.sort_unstable();
    known.dedup();
    let code = typed.trim_matches(['[', ']']);
    if let Some(new) = new_name(CODES, code, &known) {
        return InputError::sentence(format_args!(
            "the finding `{code}` is now called `{new}`; `traywright check --explain {new}` describes it"
        ));
    }
    if nearest(typed, known.iter().copied()).is_some() {
        let near = suggestion(typed, &known);
        return InputError::sentence(format_args!("there is no finding `{typed}`; {near}"));
    }
    let all = paragraph("  ", &list(&known));
    InputError::sentence(format_args!(
        "there is no finding `{typed}`; known here are\n{}",
        all.trim_end()
    ))
}
