//! Whether all formulas of a style are valid: names are known, kinds agree, and each has the kind that its field
//! requires.
//!
//! **Input:** a style file and its graph. **Output:** errors with source spans. Computes no value, and checks both
//! branches of every condition.

use std::collections::HashMap;

use super::either::Inset;
use super::graph::Graph;
use super::names::{Meaning, Scope, known_names, meaning, setting_kind, undrawn};
use super::text::{
    HingedEntry, HoleEntry, OpeningEntry, PanelEntry, RuleEntry, SettingEntry, Size, SlotEntry,
    StyleFile, ThumbNotchEntry, Trim, ValueId,
};
use super::written::Written;
use crate::finding::SourceError;
use crate::finding::SourceSpan;
use crate::formula::{FormulaFault, Kind};
use crate::wording::nearest;

/// Checks every formula of the style against the kind that its field requires.
pub(super) fn check(sheet: &StyleFile, graph: &Graph) -> Vec<SourceError> {
    let mut kinds = Kinds {
        sheet,
        graph,
        known: HashMap::new(),
        underway: Vec::new(),
        faults: Vec::new(),
    };
    for value in sheet.values.ids() {
        kinds.of_value(value);
    }
    kinds.settings();
    kinds.fallbacks();
    kinds.panels();
    kinds.openings();
    kinds.tongues();
    kinds.rules();
    kinds.faults.sort_by_key(|fault| fault.place.start);
    kinds.faults.dedup();
    kinds.faults
}

/// Maximum depth of values that depend on one another, so that no style exhausts the stack.
// Source: common practice, none published: the shipped styles need 3.
const MOST_WAITING: usize = 64;

/// Number of errors after which messages no longer suggest the nearest known word.
// Source: no rule of the trade; more than anybody reads at once.
const MOST_HINTS: usize = 50;

struct Kinds<'s> {
    sheet: &'s StyleFile,
    graph: &'s Graph,
    /// Kinds of values found so far; none for a value with an error.
    known: HashMap<ValueId, Option<Kind>>,
    underway: Vec<ValueId>,
    faults: Vec<SourceError>,
}

impl Kinds<'_> {
    /// The kind of a value, found on demand.
    fn of_value(&mut self, value: ValueId) -> Option<Kind> {
        if let Some(kind) = self.known.get(&value) {
            return *kind;
        }
        let (name, written) = &self.sheet.values[value];
        if let Some(from) = self.underway.iter().position(|&other| other == value) {
            let cycle: Vec<&str> = self.underway[from..]
                .iter()
                .map(|&value| self.sheet.values[value].0.word.as_str())
                .collect();
            let message = format!(
                "`{}` needs itself: {} -> {}",
                name.word,
                cycle.join(" -> "),
                name.word
            );
            self.faults.push(SourceError::new(
                written.place.clone(),
                message,
                "one of these must be known without the others",
            ));
            self.known.insert(value, None);
            return None;
        }
        if self.underway.len() >= MOST_WAITING {
            let message = format!(
                "`{}` stands at the end of more than {MOST_WAITING} values",
                name.word
            );
            self.faults.push(SourceError::new(
                written.place.clone(),
                message,
                "state it more directly",
            ));
            self.known.insert(value, None);
            return None;
        }
        self.underway.push(value);
        let kind = self.kind(written, Scope::Style);
        self.underway.pop();
        self.known.insert(value, kind);
        kind
    }

    /// The kind of a formula; its errors are collected.
    fn kind(&mut self, written: &Written, scope: Scope) -> Option<Kind> {
        if let Some(fault) = written.fault() {
            self.faults.push(in_the_text(fault, &written.place));
            return None;
        }
        let formula = written.formula();
        // An error in a value is reported at the value; here the formula that uses the value is only not checked
        // further.
        let mut silent = false;
        let mut found: HashMap<String, Result<Kind, String>> = HashMap::new();
        for (name, _) in formula.names() {
            let kind = match self.kind_of_name(scope, name) {
                Ok(Some(kind)) => Ok(kind),
                Ok(None) => {
                    silent = true;
                    Err(String::new())
                }
                Err(message) => Err(message),
            };
            found.insert(name.to_owned(), kind);
        }
        if silent {
            return None;
        }
        // The check also asks for names that are not in the formula but that its author may have meant.
        let asked = |name: &str| meaning(self.sheet, self.graph, scope, name).map(|_| Kind::Length);
        let other = |name: &str| asked(name).ok_or_else(|| format!("there is no `{name}` here"));
        match formula.check(&mut |name| found.get(name).cloned().unwrap_or_else(|| other(name))) {
            Ok(kind) => {
                self.words(written, scope);
                Some(kind)
            }
            Err(faults) => {
                self.faults.extend(
                    faults
                        .iter()
                        .map(|fault| in_the_text(fault, &written.place)),
                );
                None
            }
        }
    }

    /// The kind of a name; none for a value with an error.
    fn kind_of_name(&mut self, scope: Scope, name: &str) -> Result<Option<Kind>, String> {
        match meaning(self.sheet, self.graph, scope, name) {
            Some(Meaning::Value(value)) => Ok(self.of_value(value)),
            Some(Meaning::Setting(setting)) => {
                Ok(Some(setting_kind(&self.sheet.settings[setting].1)))
            }
            Some(Meaning::Fallback(_)) => Ok(Some(Kind::Word)),
            Some(_) => Ok(Some(Kind::Length)),
            None if undrawn(self.sheet, self.graph, name) => Ok(None),
            None if self.faults.len() > MOST_HINTS => Err(format!("there is no `{name}` here")),
            None => {
                let names = known_names(self.sheet);
                let near = nearest(name, names.iter().map(String::as_str));
                let hint = near
                    .map(|word| format!("; did you mean `{word}`?"))
                    .unwrap_or_default();
                Err(format!("there is no `{name}` here{hint}"))
            }
        }
    }

    /// A word right of `is` must be a possible value of the name left of it.
    fn words(&mut self, written: &Written, scope: Scope) {
        for crate::formula::ComparedWord { name, word, place } in written.formula().words() {
            let answers: Vec<&str> = match meaning(self.sheet, self.graph, scope, name) {
                Some(Meaning::Fallback(fallback)) => self.sheet.fallbacks[fallback]
                    .1
                    .iter()
                    .map(|(option, _)| option.word.as_str())
                    .collect(),
                Some(Meaning::Setting(setting)) => match &self.sheet.settings[setting].1 {
                    SettingEntry::Choice { of, .. } => {
                        of.iter().map(|option| option.word.as_str()).collect()
                    }
                    _ => continue,
                },
                _ => continue,
            };
            if !answers.contains(&word.as_str()) {
                let place = written.place.start + place.start..written.place.start + place.end;
                let label = format!("it can be {}", answers.join(", "));
                self.faults.push(SourceError::new(
                    place,
                    format!("`{name}` is never `{word}`"),
                    label,
                ));
            }
        }
    }

    /// Checks a formula that must have one kind.
    fn want(&mut self, written: &Written, scope: Scope, wanted: Kind) {
        let Some(kind) = self.kind(written, scope) else {
            return;
        };
        if kind != wanted {
            let message = format!("this is {}", kind.with_article());
            self.faults.push(SourceError::new(
                written.place.clone(),
                message,
                format!("{} belongs here", wanted.with_article()),
            ));
        }
    }

    fn want_all<'w>(
        &mut self,
        written: impl IntoIterator<Item = &'w Written>,
        scope: Scope,
        wanted: Kind,
    ) {
        for written in written {
            self.want(written, scope, wanted);
        }
    }

    fn size(&mut self, size: &Size, scope: Scope) {
        let (Size::Outside(written) | Size::Inside(written) | Size::Flat(written)) = size;
        self.want(written, scope, Kind::Length);
    }

    fn settings(&mut self) {
        for (_, setting) in self.sheet.settings.iter() {
            let (SettingEntry::Length {
                default, min, max, ..
            }
            | SettingEntry::Angle {
                default, min, max, ..
            }
            | SettingEntry::Number {
                default, min, max, ..
            }) = setting
            else {
                continue;
            };
            self.want_all([default, min, max], Scope::Style, setting_kind(setting));
        }
    }

    fn fallbacks(&mut self) {
        for (_, options) in self.sheet.fallbacks.iter() {
            self.want_all(
                options.iter().map(|(_, condition)| condition),
                Scope::Style,
                Kind::Truth,
            );
        }
    }

    fn panels(&mut self) {
        for (entry, _, panel) in self.sheet.panels.enumerated() {
            match panel {
                PanelEntry::Rectangle { length, width } => {
                    self.size(length, Scope::Style);
                    self.size(width, Scope::Style);
                }
                PanelEntry::Regular { across, .. } => self.size(across, Scope::Style),
                PanelEntry::Polygon { corners, .. } => {
                    self.want_all(
                        corners.iter().flat_map(|(_, x, y)| [x, y]),
                        Scope::Style,
                        Kind::Length,
                    );
                }
                PanelEntry::Hinged(hinged) => {
                    let drawn = self.graph.family(entry).next();
                    self.hinged(hinged, drawn.map_or(Scope::Undrawn, Scope::Panel));
                }
            }
        }
    }

    fn hinged(&mut self, hinged: &HingedEntry, scope: Scope) {
        self.want_all(&hinged.when, Scope::Style, Kind::Truth);
        match &hinged.inset {
            Inset::None => {}
            Inset::Both(inset) => self.want(inset, scope, Kind::Length),
            Inset::ByFlank(insets) => {
                self.want_all(insets.iter().map(|(_, inset)| inset), scope, Kind::Length)
            }
        }
        self.want_all(&hinged.span, scope, Kind::Length);
        self.want_all(&hinged.angle, scope, Kind::Angle);
        self.want_all(&hinged.overhang, scope, Kind::Length);
        if let Some(reach) = &hinged.reach {
            self.size(reach, scope);
        }
        for (_, trim) in hinged.trim.iter() {
            match trim {
                Trim::Taper(by) | Trim::Chamfer(by) => self.want(by, scope, Kind::Length),
                Trim::Notch(along, out) => self.want_all([along, out], scope, Kind::Length),
            }
        }
        let corners = hinged.outline.iter().flatten();
        self.want_all(corners.flat_map(|(_, x, y)| [x, y]), scope, Kind::Length);
    }

    fn openings(&mut self) {
        for (entry, _, opening) in self.sheet.openings.enumerated() {
            let scope = self
                .graph
                .openings_of(entry)
                .next()
                .map_or(Scope::Style, Scope::Opening);
            match opening {
                OpeningEntry::Slot(slot) => self.slot(slot, scope),
                OpeningEntry::Hole(hole) => {
                    let HoleEntry { when, size, at, .. } = &**hole;
                    self.want_all(when, Scope::Style, Kind::Truth);
                    self.want_all([&size.0, &size.1], scope, Kind::Length);
                    self.want_all(at.iter().flat_map(|(x, y)| [x, y]), scope, Kind::Length);
                }
                OpeningEntry::ThumbNotch(notch) => {
                    let ThumbNotchEntry {
                        when, radius, at, ..
                    } = &**notch;
                    self.want_all(when, Scope::Style, Kind::Truth);
                    self.want_all(
                        std::iter::once(radius).chain(at),
                        Scope::Style,
                        Kind::Length,
                    );
                }
            }
        }
    }

    fn slot(&mut self, slot: &SlotEntry, scope: Scope) {
        self.want_all(&slot.when, Scope::Style, Kind::Truth);
        self.want_all(
            slot.size.iter().flat_map(|(length, width)| [length, width]),
            scope,
            Kind::Length,
        );
        self.want_all(
            slot.at.iter().flat_map(|(x, y)| [x, y]),
            scope,
            Kind::Length,
        );
        self.want_all(
            slot.stacks.iter().map(|(_, stack)| stack),
            scope,
            Kind::Length,
        );
        self.want_all(&slot.max_item_depth, scope, Kind::Length);
        if let Some(hang) = &slot.max_flap_depth {
            self.size(hang, scope);
        }
    }

    fn tongues(&mut self) {
        for (entry, _, tongue) in self.sheet.tongues.enumerated() {
            self.want_all(&tongue.when, Scope::Style, Kind::Truth);
            let lengths = [&tongue.width, &tongue.length]
                .into_iter()
                .chain(&tongue.spacing)
                .chain(&tongue.taper);
            self.want_all(
                lengths.chain(&tongue.chamfer).chain(&tongue.play),
                Scope::Tongue(entry),
                Kind::Length,
            );
        }
    }

    fn rules(&mut self) {
        for (_, rule) in self.sheet.rules.iter() {
            let (RuleEntry::Error(rule) | RuleEntry::Warning(rule) | RuleEntry::Note(rule)) = rule;
            self.want_all(
                rule.need.iter().chain(&rule.when),
                Scope::Style,
                Kind::Truth,
            );
            for figure in rule.value.iter().chain(&rule.limit) {
                self.kind(figure, Scope::Style);
            }
        }
        for (_, measure) in self.sheet.measures.iter() {
            self.want(measure, Scope::Style, Kind::Length);
        }
    }
}

/// A formula's error, with its span moved from the formula's text to the file.
pub(crate) fn in_the_text(fault: &FormulaFault, formula: &SourceSpan) -> SourceError {
    let place = formula.start + fault.place.start..formula.start + fault.place.end;
    SourceError::new(place, fault.message.clone(), fault.expected.clone())
}
