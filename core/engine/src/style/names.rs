//! The meaning of a name in a formula: the table of the language's own words, and the style's names.
//!
//! **Input:** a name and its formula's position (a [`Scope`]). **Output:** its [`Meaning`]. Knows kinds, never values.

use super::graph::{Graph, HingeParent, MemberId, OpeningMemberId};
use super::text::{FallbackId, PanelEntry, SettingEntry, SettingId, StyleFile, TongueId, ValueId};
use crate::formula::Kind;
use crate::job::ItemId;

/// The position of a formula, which decides about short names.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Scope {
    /// Anywhere else.
    Style,
    /// At a hinged panel.
    Panel(MemberId),
    /// At a hinged panel that could not be drawn.
    Undrawn,
    /// At an opening.
    Opening(OpeningMemberId),
    /// At a tongue.
    Tongue(TongueId),
}

/// The meaning of a name.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Meaning {
    /// A value of the job or the board.
    Job(JobFigure),
    /// A value of an item.
    Item(ItemId, ItemFigure),
    /// A setting, a value or a fallback.
    Setting(SettingId),
    Value(ValueId),
    Fallback(FallbackId),
    /// A value of panels, openings or a tongue.
    Panel(Vec<MemberId>, PanelFigure),
    Opening(Vec<OpeningMemberId>, OpeningFigure),
    Tongue(TongueId, TongueSide),
}

/// A value of the job or its board.
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

impl JobFigure {
    /// Whether it depends on the box, which a piece for no item does not have.
    pub(crate) fn is_of_the_box(self) -> bool {
        matches!(
            self,
            JobFigure::BoxLength
                | JobFigure::BoxWidth
                | JobFigure::BoxDepth
                | JobFigure::TrayLength
                | JobFigure::TrayWidth
                | JobFigure::TrayDepth
        )
    }
}

/// A value of an item.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub(crate) enum ItemFigure {
    Length,
    Width,
    Depth,
    /// Thickness of the pad under it.
    Pad,
}

/// A side of a tongue.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub(crate) enum TongueSide {
    /// Out of its panel.
    Length,
    /// Along the edge of its panel.
    Width,
}

/// A value of a panel.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub(crate) enum PanelFigure {
    /// Flat, away from its crease.
    Reach,
    /// Length of its crease.
    Span,
    /// Length of the edge that it is hinged to.
    Edge,
    /// Flat extent of the root in x.
    Length,
    /// Flat extent of the root in y.
    Width,
}

/// A value of an opening.
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

/// Values of the job and the board, by name.
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

/// Values of an item, by the last word of their names.
const ITEM_FIGURES: [(&str, ItemFigure); 4] = [
    ("length", ItemFigure::Length),
    ("width", ItemFigure::Width),
    ("depth", ItemFigure::Depth),
    ("pad", ItemFigure::Pad),
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

/// The meaning of a name at a position, if it has one.
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

/// Short names of the panel, opening or tongue with the formula.
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
        (Scope::Tongue(tongue), "length") => Some(Meaning::Tongue(tongue, TongueSide::Length)),
        (Scope::Tongue(tongue), "width") => Some(Meaning::Tongue(tongue, TongueSide::Width)),
        _ => None,
    }
}

fn of_the_job(sheet: &StyleFile, graph: &Graph, scope: Scope, word: &str) -> Option<Meaning> {
    if let Some((_, figure)) = JOB_FIGURES.iter().find(|(name, _)| *name == word) {
        let has_box = sheet.items.max > 0;
        return (has_box || !figure.is_of_the_box()).then_some(Meaning::Job(*figure));
    }
    item_figure(graph, scope, word)
        .filter(|(item, _)| item.index() < sheet.items.max)
        .map(|(item, figure)| Meaning::Item(item, figure))
}

fn item_figure(graph: &Graph, scope: Scope, word: &str) -> Option<(ItemId, ItemFigure)> {
    let (number, figure) = word.strip_prefix("item")?.rsplit_once('.')?;
    let (_, figure) = ITEM_FIGURES.into_iter().find(|(name, _)| *name == figure)?;
    let item = match (number, scope) {
        ("", Scope::Opening(opening)) => graph.openings[opening].item.unwrap_or(ItemId::FIRST),
        ("", _) => ItemId::FIRST,
        (number, _) if !number.starts_with('0') => {
            ItemId::at(number.parse::<usize>().ok()?.checked_sub(1)?)
        }
        _ => return None,
    };
    Some((item, figure))
}

fn of_the_style(sheet: &StyleFile, graph: &Graph, word: &str) -> Option<Meaning> {
    let setting = sheet.settings.id(word).map(Meaning::Setting);
    let value = || sheet.values.id(word).map(Meaning::Value);
    let fallback = || sheet.fallbacks.id(word).map(Meaning::Fallback);
    let one_word = setting.or_else(value).or_else(fallback);
    if one_word.is_some() {
        return one_word;
    }
    let (key, figure) = word.rsplit_once('.')?;
    if let Some(tongue) = sheet.tongues.id(key) {
        return tongue_side(figure).map(|side| Meaning::Tongue(tongue, side));
    }
    let panels = graph.called(sheet, key);
    if let Some(&first) = panels.first() {
        let root = graph.members[first].hangs.is_none();
        return panel_figure(figure, root).map(|figure| Meaning::Panel(panels, figure));
    }
    let openings: Vec<OpeningMemberId> = match sheet.openings.id(key) {
        Some(entry) => graph.openings_of(entry).collect(),
        None => graph
            .openings
            .ids_where(|opening| opening.name == key)
            .collect(),
    };
    let figure = opening_figure(figure).filter(|_| !openings.is_empty())?;
    Some(Meaning::Opening(openings, figure))
}

fn tongue_side(word: &str) -> Option<TongueSide> {
    match word {
        "length" => Some(TongueSide::Length),
        "width" => Some(TongueSide::Width),
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

/// Whether a name belongs to a panel or an opening that could not be drawn, so that its kind is unknown.
pub(crate) fn undrawn(sheet: &StyleFile, graph: &Graph, word: &str) -> bool {
    let (key, figure) = word.rsplit_once('.').unwrap_or((word, "reach"));
    let known = panel_figure(figure, true)
        .or(panel_figure(figure, false))
        .is_some();
    // A member's name is its entry's key, then its edges after a hyphen.
    let means = |entry: &str| {
        key.strip_prefix(entry)
            .is_some_and(|rest| rest.is_empty() || rest.starts_with('-'))
    };
    let panel = sheet
        .panels
        .enumerated()
        .any(|(entry, name, _)| known && means(&name.word) && graph.family(entry).next().is_none());
    let opening = sheet.openings.enumerated().any(|(entry, name, _)| {
        opening_figure(figure).is_some()
            && means(&name.word)
            && graph.openings_of(entry).next().is_none()
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

/// All names that can be used anywhere in a style, for suggesting the one nearest to an unknown name.
pub(crate) fn known_names(sheet: &StyleFile) -> Vec<String> {
    let has_box = sheet.items.max > 0;
    let mut names: Vec<String> = JOB_FIGURES
        .iter()
        .filter(|(_, figure)| has_box || !figure.is_of_the_box())
        .map(|(name, _)| (*name).to_owned())
        .collect();
    names.extend(ITEM_FIGURES.map(|(name, _)| format!("item.{name}")));
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
