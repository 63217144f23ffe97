//! Orders of folds for single-slot: once as a style says it, and once as the steps of a document.
//!
//! The engine refuses a wrong order and gives no document, so the outsider is given the document of a right one with
//! its steps put into the wrong order here.

use std::fs;

use traywright_document::{Action, Document, Move, Step};
use traywright_engine::Style;
use traywright_tests::jobs::Dice;
use traywright_tests::repository;

use super::SINGLE_SLOT;

/// One line of an order.
#[derive(Clone, Copy, Debug)]
pub(crate) enum Line {
    /// All panels of a family, one after the other.
    All(&'static str),
    /// For each end the panels of these families that hang on it.
    Each(&'static [&'static str]),
    /// The flaps together.
    Flaps,
}
use Line::{All, Each, Flaps};

/// Families of a single slot's body.
const FAMILIES: [&str; 5] = ["side", "tab", "end", "bridge", "inner-end"];

const ROLL_OVER: &[&str] = &["end", "bridge", "inner-end"];

/// Orders that core/GEOMETRY.md, "Single-slot: the order of folds", calls wrong, and some more.
pub(crate) fn wrong() -> Vec<(&'static str, Vec<Line>)> {
    let body = |families: &[&'static str]| -> Vec<Line> {
        let body = families.iter().map(|family| All(family));
        body.chain([Flaps]).collect()
    };
    let walls = [All("side"), All("tab")];
    let then = |lines: &[Line]| [&walls[..], lines].concat();
    let backwards = Each(&["inner-end", "bridge", "end"]);
    vec![
        (
            "tabs after the ends",
            body(&["side", "end", "tab", "bridge", "inner-end"]),
        ),
        (
            "bridges before the tabs",
            body(&["side", "end", "bridge", "tab", "inner-end"]),
        ),
        (
            "roll-overs folded beforehand",
            body(&["side", "tab", "bridge", "inner-end", "end"]),
        ),
        (
            "both ends at once",
            body(&["side", "tab", "end", "bridge", "inner-end"]),
        ),
        (
            "inner ends before their bridges",
            body(&["side", "tab", "end", "inner-end", "bridge"]),
        ),
        (
            "tabs after the roll-overs",
            vec![All("side"), Each(ROLL_OVER), All("tab"), Flaps],
        ),
        (
            "sides after the ends",
            vec![Each(ROLL_OVER), All("side"), All("tab"), Flaps],
        ),
        ("each roll-over from its edge", then(&[backwards, Flaps])),
        (
            "flaps before the roll-overs",
            then(&[Flaps, Each(ROLL_OVER)]),
        ),
        (
            "flaps first",
            [&[Flaps][..], &walls, &[Each(ROLL_OVER)]].concat(),
        ),
    ]
}

/// The families and the flaps in any order at all.
pub(crate) fn shuffled(dice: &mut Dice) -> Vec<Line> {
    let mut lines: Vec<Line> = FAMILIES.iter().map(|family| Line::All(family)).collect();
    lines.push(Line::Flaps);
    for last in (1..lines.len()).rev() {
        lines.swap(last, (dice.bits() % (last as u64 + 1)) as usize);
    }
    lines
}

/// The shipped style with its steps in another order.
pub(crate) fn style_with(lines: &[Line]) -> Style {
    let text = fs::read_to_string(repository().join(SINGLE_SLOT)).expect("the style ships");
    let (head, _) = text
        .split_once("    steps: [")
        .expect("the style has steps");
    let steps: String = lines
        .iter()
        .map(|line| format!("        {},\n", entry(*line)))
        .collect();
    let text = format!("{head}    steps: [\n{steps}    ],\n)\n");
    Style::read("single-slot", &text).unwrap_or_else(|faults| panic!("{faults:#?}\n{text}"))
}

fn entry(line: Line) -> String {
    let panels = |families: &[&str]| {
        let say = families
            .iter()
            .map(|family| format!("\"{family}\": \"Fold it.\""));
        say.collect::<Vec<_>>().join(", ")
    };
    match line {
        Line::All(family) => format!("Fold(panels: {{{}}})", panels(&[family])),
        Line::Each(families) => format!("Fold(each: \"end\", panels: {{{}}})", panels(families)),
        Line::Flaps => "Flaps(text: \"Push them down.\")".to_owned(),
    }
}

/// The document with its steps in another order.
pub(crate) fn with_steps(mut document: Document, lines: &[Line]) -> Document {
    let of = |family: &str, end: &str| -> Vec<usize> {
        let mut numbers: Vec<usize> = (0..document.panels.len()).collect();
        let name = |number: &usize| &document.panels[*number].name;
        numbers.retain(|number| name(number).starts_with(family) && name(number).ends_with(end));
        numbers
    };
    let mut actions: Vec<Vec<usize>> = Vec::new();
    for line in lines {
        match line {
            Line::All(family) => {
                actions.extend(of(family, "").into_iter().map(|panel| vec![panel]))
            }
            Line::Each(families) => {
                for end in of("end", "") {
                    let end = document.panels[end]
                        .name
                        .trim_start_matches("end")
                        .to_owned();
                    actions.extend(families.iter().map(|family| of(family, &end)));
                }
            }
            Line::Flaps => actions.extend(
                [of("flap", "")]
                    .into_iter()
                    .filter(|flaps| !flaps.is_empty()),
            ),
        }
    }
    let step = |panels: Vec<usize>| Step {
        words: String::new(),
        why: String::new(),
        action: Action::Fold(
            panels
                .into_iter()
                .map(|panel| folded(&document, panel))
                .collect(),
        ),
        stands: false,
        tongues: 0,
    };
    document.steps = actions.into_iter().map(step).collect();
    document
}

fn folded(document: &Document, panel: usize) -> Move {
    let hinge = document.panels[panel]
        .hinge
        .as_ref()
        .expect("what is folded hangs");
    Move {
        panel,
        to_deg: hinge.fold_deg,
    }
}
