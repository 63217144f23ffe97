//! `check --explain CODE`: what a finding means for the maker, how it is judged, what cures it.
//!
//! Given a code, gives the page of words that belongs to it: the program's own for what the engine finds by itself, and
//! for a style's code the rule of each style that has it. Never looks at a tray.

mod formulas;
mod rules;

use std::path::PathBuf;

use crate::error::CliError;
use crate::library::Styles;
use crate::nearest::suggestion;
use crate::report::sentence::paragraph;
use rules::Ruled;
use traywright_engine::renamed::{CODES, new_name};
use traywright_engine::wording::{list, nearest};

/// The codes that the engine gives by itself, each with its page.
const PAGES: &[(&str, &str)] = &[
    (
        "box-too-small",
        include_str!("../explanations/box-too-small.txt"),
    ),
    (
        "bridge-narrow",
        include_str!("../explanations/bridge-narrow.txt"),
    ),
    (
        "bridge-too-narrow",
        include_str!("../explanations/bridge-too-narrow.txt"),
    ),
    (
        "clear-opening",
        include_str!("../explanations/clear-opening.txt"),
    ),
    (
        "corner-touches",
        include_str!("../explanations/corner-touches.txt"),
    ),
    (
        "crease-off-edge",
        include_str!("../explanations/crease-off-edge.txt"),
    ),
    (
        "cut-variant",
        include_str!("../explanations/cut-variant.txt"),
    ),
    (
        "does-not-fill",
        include_str!("../explanations/does-not-fill.txt"),
    ),
    (
        "finger-too-wide",
        include_str!("../explanations/finger-too-wide.txt"),
    ),
    (
        "fit-uncertain",
        include_str!("../explanations/fit-uncertain.txt"),
    ),
    (
        "flap-too-shallow",
        include_str!("../explanations/flap-too-shallow.txt"),
    ),
    (
        "flap-trimmed",
        include_str!("../explanations/flap-trimmed.txt"),
    ),
    (
        "floor-corner",
        include_str!("../explanations/floor-corner.txt"),
    ),
    (
        "hinge-range",
        include_str!("../explanations/hinge-range.txt"),
    ),
    (
        "item-does-not-enter",
        include_str!("../explanations/item-does-not-enter.txt"),
    ),
    (
        "item-places",
        include_str!("../explanations/item-places.txt"),
    ),
    ("item-proud", include_str!("../explanations/item-proud.txt")),
    ("item-sunk", include_str!("../explanations/item-sunk.txt")),
    (
        "item-too-deep",
        include_str!("../explanations/item-too-deep.txt"),
    ),
    (
        "kerf-too-wide",
        include_str!("../explanations/kerf-too-wide.txt"),
    ),
    (
        "measure-board",
        include_str!("../explanations/measure-board.txt"),
    ),
    (
        "no-room-for-nicks",
        include_str!("../explanations/no-room-for-nicks.txt"),
    ),
    (
        "no-swing-room",
        include_str!("../explanations/no-swing-room.txt"),
    ),
    (
        "notch-off-edge",
        include_str!("../explanations/notch-off-edge.txt"),
    ),
    (
        "opening-too-near-edge",
        include_str!("../explanations/opening-too-near-edge.txt"),
    ),
    (
        "opening-too-near-end",
        include_str!("../explanations/opening-too-near-end.txt"),
    ),
    (
        "opening-too-near-side",
        include_str!("../explanations/opening-too-near-side.txt"),
    ),
    (
        "opening-too-small",
        include_str!("../explanations/opening-too-small.txt"),
    ),
    (
        "openings-do-not-fit",
        include_str!("../explanations/openings-do-not-fit.txt"),
    ),
    (
        "openings-overlap",
        include_str!("../explanations/openings-overlap.txt"),
    ),
    (
        "openings-packed",
        include_str!("../explanations/openings-packed.txt"),
    ),
    (
        "outline-broken",
        include_str!("../explanations/outline-broken.txt"),
    ),
    (
        "outside-too-large",
        include_str!("../explanations/outside-too-large.txt"),
    ),
    (
        "page-margin",
        include_str!("../explanations/page-margin.txt"),
    ),
    (
        "panel-too-small",
        include_str!("../explanations/panel-too-small.txt"),
    ),
    (
        "panels-collide",
        include_str!("../explanations/panels-collide.txt"),
    ),
    (
        "panels-overlap",
        include_str!("../explanations/panels-overlap.txt"),
    ),
    (
        "shape-as-rectangle",
        include_str!("../explanations/shape-as-rectangle.txt"),
    ),
    (
        "sheet-too-small",
        include_str!("../explanations/sheet-too-small.txt"),
    ),
    (
        "slot-ignored",
        include_str!("../explanations/slot-ignored.txt"),
    ),
    ("slot-tight", include_str!("../explanations/slot-tight.txt")),
    (
        "step-blocked",
        include_str!("../explanations/step-blocked.txt"),
    ),
    (
        "tongue-misses",
        include_str!("../explanations/tongue-misses.txt"),
    ),
    (
        "turn-ignored",
        include_str!("../explanations/turn-ignored.txt"),
    ),
    (
        "wall-not-held",
        include_str!("../explanations/wall-not-held.txt"),
    ),
];

/// The explanation of a code, one page for each meaning it has.
///
/// # Refuses
/// A code that neither the engine nor a style gives, with the nearest one; and with the faults of styles that cannot be
/// read, for it may be one of theirs.
pub(crate) fn explanation(typed: &str, folders: &[PathBuf]) -> Result<String, Vec<CliError>> {
    // A report writes codes in brackets, and so they are copied.
    let code = typed.trim_matches(['[', ']']);
    let styles = Styles::find(folders)?;
    let mut ruled = Vec::new();
    let mut unread = Vec::new();
    for style_text in styles.all() {
        match Ruled::read(style_text) {
            Ok(style) => ruled.push(style),
            Err(error) => unread.push(error),
        }
    }
    let own = PAGES.iter().find(|(known, _)| *known == code);
    let mut pages: Vec<String> = own
        .map(|(_, page)| (*page).to_owned())
        .into_iter()
        .collect();
    pages.extend(of_styles(code, &ruled));
    if pages.is_empty() {
        unread.insert(0, unknown(typed, &ruled));
        return Err(unread);
    }
    Ok(pages.join("\n"))
}

/// What styles mean by a code; those that mean the same share a page.
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

fn unknown(typed: &str, ruled: &[Ruled]) -> CliError {
    let of_styles: Vec<String> = ruled.iter().flat_map(Ruled::codes).collect();
    let mut known: Vec<&str> = PAGES.iter().map(|(code, _)| *code).collect();
    known.extend(of_styles.iter().map(String::as_str));
    known.sort_unstable();
    known.dedup();
    let code = typed.trim_matches(['[', ']']);
    if let Some(new) = new_name(CODES, code, &known) {
        return CliError::sentence(format_args!(
            "the finding `{code}` is now called `{new}`; `traywright check --explain {new}` describes it"
        ));
    }
    if nearest(typed, known.iter().copied()).is_some() {
        let near = suggestion(typed, &known);
        return CliError::sentence(format_args!("there is no finding `{typed}`; {near}"));
    }
    let all = paragraph("  ", &list(&known));
    CliError::sentence(format_args!(
        "there is no finding `{typed}`; known here are\n{}",
        all.trim_end()
    ))
}
