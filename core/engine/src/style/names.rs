//! What a name in a formula means: the table of the language's own words, and the style's.
//!
//! Given a name and where it stands (a [`Scope`]), gives its [`Meaning`]. Knows kinds, never values.

use super::graph::{Graph, HingeParent};
use super::text::{PanelEntry, SettingEntry, StyleFile};
use crate::formula::Kind;

/// Where a formula stands: some names are short for what it belongs to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Scope {
    /// Anywhere else.
    Style,
    /// At a hung panel, by its place in the graph.
    Panel(usize),
    /// At a hung panel that could not be drawn.
    Undrawn,
    /// At an opening, by its place in the graph.
    Opening(usize),
    /// At a tongue, by its entry.
    Tongue(usize),
}

/// What a name stands for.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Meaning {
    /// A figure of the job or the board.
    Job(JobFigure),
    /// A side of an item, counted from 0.
    Item(usize, Side),
    /// A setting, a value or a fallback, by its entry.
    SettingEntry(usize),
    Value(usize),
    Fallback(usize),
    /// A figure of panels, openings (by their places in the graph) or of a tongue (by its entry).
    Panel(Vec<usize>, PanelFigure),
    Opening(Vec<usize>, OpeningFigure),
    Tongue(usize, Side),
}

/// A figure that the job or its board gives.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum JobFigure {
    BoxLength,
    BoxWidth,
    BoxDepth,
    FitBox,
    FitItem,
    FitPlay,
    Gap,
    Caliper,
    Hinge,
    TrayLength,
    TrayWidth,
    TrayDepth,
    Recess,
}

/// A side of something with three.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub(crate) enum Side {
    Length,
    Width,
    Depth,
}

/// A figure of a panel.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub(crate) enum PanelFigure {
    /// Flat, away from its crease.
    Reach,
    /// Length of its crease.
    Span,
    /// Length of the edge it hangs on.
    Edge,
    /// Flat extent of the root in x.
    Length,
    /// Flat extent of the root in y.
    Width,
}

/// A figure of an opening.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub(crate) enum OpeningFigure {
    Length,
    Width,
    /// Its middle, as in `at`.
    X,
    Y,
    /// Least distance to its panel's outline.
    Web,
}

/// Figures of the job and the board, with their names.
pub(crate) const JOB_FIGURES: [(&str, JobFigure); 13] = [
    ("box.length", JobFigure::BoxLength),
    ("box.width", JobFigure::BoxWidth),
    ("box.depth", JobFigure::BoxDepth),
    ("fit.box", JobFigure::FitBox),
    ("fit.item", JobFigure::FitItem),
    ("fit.play", JobFigure::FitPlay),
    ("gap", JobFigure::Gap),
    ("caliper", JobFigure::Caliper),
    ("hinge", JobFigure::Hinge),
    ("tray.length", JobFigure::TrayLength),
    ("tray.width", JobFigure::TrayWidth),
    ("tray.depth", JobFigure::TrayDepth),
    ("recess", JobFigure::Recess),
];

/// Names of one word that no entry of a style may take.
pub(crate) const RESERVED: [&str; 19] = [
    "gap",
    "caliper",
    "hinge",
    "recess",
    "item",
    "box",
    "fit",
    "tray",
    "otherwise",
    "reach",
    "span",
    "edge",
    "across",
    "length",
    "width",
    "and",
    "or",
    "not",
    "is",
];

/// What a name means at a place, if it means anything.
pub(crate) fn meaning(
    sheet: &StyleFile,
    graph: &Graph,
    scope: Scope,
    word: &str,
) -> Option<Meaning> {
    own(graph, scope, word)
        .or_else(|| of_the_job(sheet, graph, scope, word))
        .or_else(|| of_the_style(sheet, graph, word))
}

/// Short names of the panel, opening or tongue that a formula stands at.
fn own(graph: &Graph, scope: Scope, word: &str) -> Option<Meaning> {
    match (scope, word) {
        (Scope::Panel(panel), "reach") => Some(Meaning::Panel(vec![panel], PanelFigure::Reach)),
        (Scope::Panel(panel), "span") => Some(Meaning::Panel(vec![panel], PanelFigure::Span)),
        (Scope::Panel(panel), "edge") => Some(Meaning::Panel(vec![panel], PanelFigure::Edge)),
        (Scope::Panel(panel), "across") => {
            let hang = graph.members[panel].hangs.as_ref()?;
            let HingeParent::Opening(opening) = hang.on else {
                return None;
            };
            let [lower, _, upper, _] = &graph.openings[opening].edges;
            let along_length = hang.edge == *lower || hang.edge == *upper;
            let figure = if along_length {
                OpeningFigure::Width
            } else {
                OpeningFigure::Length
            };
            Some(Meaning::Opening(vec![opening], figure))
        }
        (Scope::Undrawn, "reach" | "span" | "edge" | "across") => {
            Some(Meaning::Panel(Vec::new(), PanelFigure::Span))
        }
        (Scope::Opening(opening), "length") => {
            Some(Meaning::Opening(vec![opening], OpeningFigure::Length))
        }
        (Scope::Opening(opening), "width") => {
            Some(Meaning::Opening(vec![opening], OpeningFigure::Width))
        }
        (Scope::Tongue(tongue), "length") => Some(Meaning::Tongue(tongue, Side::Length)),
        (Scope::Tongue(tongue), "width") => Some(Meaning::Tongue(tongue, Side::Width)),
        _ => None,
    }
}

fn of_the_job(sheet: &StyleFile, graph: &Graph, scope: Scope, word: &str) -> Option<Meaning> {
    if let Some((_, figure)) = JOB_FIGURES.iter().find(|(name, _)| *name == word) {
        return Some(Meaning::Job(*figure));
    }
    item_figure(graph, scope, word)
        .filter(|(item, _)| *item < sheet.items.max)
        .map(|(item, side)| Meaning::Item(item, side))
}

fn item_figure(graph: &Graph, scope: Scope, word: &str) -> Option<(usize, Side)> {
    let (number, side) = word.strip_prefix("item")?.rsplit_once('.')?;
    let side = side_of(side)?;
    let item = match (number, scope) {
        ("", Scope::Opening(opening)) => graph.openings[opening].item.unwrap_or(0),
        ("", _) => 0,
        (number, _) if !number.starts_with('0') => number.parse::<usize>().ok()?.checked_sub(1)?,
        _ => return None,
    };
    Some((item, side))
}

fn of_the_style(sheet: &StyleFile, graph: &Graph, word: &str) -> Option<Meaning> {
    let entry = |at: Option<usize>, meaning: fn(usize) -> Meaning| at.map(meaning);
    if let Some(known) = entry(sheet.settings.position(word), Meaning::SettingEntry)
        .or_else(|| entry(sheet.values.position(word), Meaning::Value))
        .or_else(|| entry(sheet.fallbacks.position(word), Meaning::Fallback))
    {
        return Some(known);
    }
    let (key, figure) = word.rsplit_once('.')?;
    if let Some(tongue) = sheet.tongues.position(key) {
        return side_of(figure)
            .filter(|side| *side != Side::Depth)
            .map(|side| Meaning::Tongue(tongue, side));
    }
    let panels = graph.called(sheet, key);
    if let Some(&first) = panels.first() {
        let root = graph.members[first].hangs.is_none();
        return panel_figure(figure, root).map(|figure| Meaning::Panel(panels, figure));
    }
    let openings = match sheet.openings.position(key) {
        Some(entry) => graph.openings_of(entry),
        None => (0..graph.openings.len())
            .filter(|&opening| graph.openings[opening].name == key)
            .collect(),
    };
    let figure = opening_figure(figure).filter(|_| !openings.is_empty())?;
    Some(Meaning::Opening(openings, figure))
}

fn side_of(word: &str) -> Option<Side> {
    match word {
        "length" => Some(Side::Length),
        "width" => Some(Side::Width),
        "depth" => Some(Side::Depth),
        _ => None,
    }
}

fn panel_figure(word: &str, root: bool) -> Option<PanelFigure> {
    match word {
        "reach" if !root => Some(PanelFigure::Reach),
        "span" if !root => Some(PanelFigure::Span),
        "length" if root => Some(PanelFigure::Length),
        "width" if root => Some(PanelFigure::Width),
        _ => None,
    }
}

fn opening_figure(word: &str) -> Option<OpeningFigure> {
    match word {
        "length" => Some(OpeningFigure::Length),
        "width" => Some(OpeningFigure::Width),
        "x" => Some(OpeningFigure::X),
        "y" => Some(OpeningFigure::Y),
        "web" => Some(OpeningFigure::Web),
        _ => None,
    }
}

/// Whether a name speaks of a panel or an opening that could not be drawn, so that nothing is known of it.
pub(crate) fn undrawn(sheet: &StyleFile, graph: &Graph, word: &str) -> bool {
    let (key, figure) = word.rsplit_once('.').unwrap_or((word, "reach"));
    let known = panel_figure(figure, true)
        .or(panel_figure(figure, false))
        .is_some();
    // A member is called after its entry, with its edges behind a hyphen.
    let means = |entry: &str| {
        key.strip_prefix(entry)
            .is_some_and(|rest| rest.is_empty() || rest.starts_with('-'))
    };
    let panel = (0..sheet.panels.0.len()).any(|entry| {
        known && means(&sheet.panels.0[entry].0.word) && graph.family(entry).is_empty()
    });
    let opening = (0..sheet.openings.0.len()).any(|entry| {
        opening_figure(figure).is_some()
            && means(&sheet.openings.0[entry].0.word)
            && graph.openings_of(entry).is_empty()
    });
    panel || opening
}

/// The kind of a setting.
pub(crate) fn setting_kind(setting: &SettingEntry) -> Kind {
    match setting {
        SettingEntry::Length { .. } => Kind::Length,
        SettingEntry::Angle { .. } => Kind::Angle,
        SettingEntry::Number { .. } => Kind::Number,
        SettingEntry::Choice { .. } => Kind::Word,
        SettingEntry::YesNo { .. } => Kind::Truth,
    }
}

/// All names that may be written anywhere in a style, for the nearest one to a name that is not known.
pub(crate) fn known_names(sheet: &StyleFile) -> Vec<String> {
    let mut names: Vec<String> = JOB_FIGURES
        .iter()
        .map(|(name, _)| (*name).to_owned())
        .collect();
    names.extend(["item.length", "item.width", "item.depth"].map(str::to_owned));
    let plain = sheet
        .settings
        .iter()
        .map(|(name, _)| name)
        .chain(sheet.values.iter().map(|(name, _)| name));
    names.extend(
        plain
            .chain(sheet.fallbacks.iter().map(|(name, _)| name))
            .map(|name| name.word.clone()),
    );
    for (name, panel) in sheet.panels.iter() {
        let figures = if matches!(panel, PanelEntry::Hinged(_)) {
            ["reach", "span"]
        } else {
            ["length", "width"]
        };
        names.extend(figures.map(|figure| format!("{}.{figure}", name.word)));
    }
    for (name, _) in sheet.openings.iter() {
        names.extend(
            ["length", "width", "x", "y", "web"].map(|figure| format!("{}.{figure}", name.word)),
        );
    }
    for (name, _) in sheet.tongues.iter() {
        names.extend(["length", "width"].map(|figure| format!("{}.{figure}", name.word)));
    }
    names
}
