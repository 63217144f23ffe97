//! All formulas of a style's entries, with the name whose value each defines.
//!
//! **Input:** a style file. **Output:** the formulas of settings, values and fallbacks under their names, and all
//! others as needed by the tray itself. **Does not** read formulas.

use super::either::Inset;
use super::text::{
    HingedEntry, OpeningEntry, PanelEntry, RuleEntry, SettingEntry, Size, SlotEntry, StyleFile,
    Trim,
};
use super::written::Written;

/// A formula and the name that needs it.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Needed<'s> {
    /// The setting, value or fallback that it belongs to; none if the tray itself needs it.
    pub(crate) by: Option<&'s str>,
    /// The formula.
    pub(crate) formula: &'s Written,
}

/// All formulas of a sheet.
pub(crate) fn all(sheet: &StyleFile) -> Vec<Needed<'_>> {
    let mut all = named(sheet);
    let mut of_the_tray: Vec<&Written> = Vec::new();
    for (_, panel) in sheet.panels.iter() {
        panel_formulas(panel, &mut of_the_tray);
    }
    for (_, opening) in sheet.openings.iter() {
        opening_formulas(opening, &mut of_the_tray);
    }
    for (_, tongue) in sheet.tongues.iter() {
        of_the_tray.extend([&tongue.width, &tongue.length]);
        let sizes = [
            &tongue.spacing,
            &tongue.taper,
            &tongue.chamfer,
            &tongue.play,
        ];
        of_the_tray.extend(sizes.into_iter().chain([&tongue.when]).flatten());
    }
    for (_, rule) in sheet.rules.iter() {
        let (RuleEntry::Error(rule) | RuleEntry::Warning(rule) | RuleEntry::Note(rule)) = rule;
        of_the_tray.extend(
            [&rule.need, &rule.when, &rule.value, &rule.limit]
                .into_iter()
                .flatten(),
        );
    }
    of_the_tray.extend(sheet.measures.iter().map(|(_, measure)| measure));
    all.extend(
        of_the_tray
            .into_iter()
            .map(|formula| Needed { by: None, formula }),
    );
    all
}

/// Formulas of settings, values and fallbacks.
fn named(sheet: &StyleFile) -> Vec<Needed<'_>> {
    let mut named = Vec::new();
    for (name, setting) in sheet.settings.iter() {
        if let SettingEntry::Length {
            default, min, max, ..
        }
        | SettingEntry::Angle {
            default, min, max, ..
        }
        | SettingEntry::Number {
            default, min, max, ..
        } = setting
        {
            let by = Some(name.word.as_str());
            named.extend([default, min, max].map(|formula| Needed { by, formula }));
        }
    }
    for (name, formula) in sheet.values.iter() {
        let by = Some(name.word.as_str());
        named.push(Needed { by, formula });
    }
    for (name, options) in sheet.fallbacks.iter() {
        let by = Some(name.word.as_str());
        named.extend(options.iter().map(|(_, formula)| Needed { by, formula }));
    }
    named
}

fn panel_formulas<'s>(panel: &'s PanelEntry, formulas: &mut Vec<&'s Written>) {
    match panel {
        PanelEntry::Rectangle { length, width } => {
            formulas.extend([of_size(length), of_size(width)])
        }
        PanelEntry::Regular { across, .. } => formulas.push(of_size(across)),
        PanelEntry::Polygon { corners, .. } => {
            formulas.extend(corners.iter().flat_map(|(_, x, y)| [x, y]));
        }
        PanelEntry::Hinged(hinged) => hinged_formulas(hinged, formulas),
    }
}

fn hinged_formulas<'s>(hinged: &'s HingedEntry, formulas: &mut Vec<&'s Written>) {
    let plain = [&hinged.when, &hinged.span, &hinged.angle, &hinged.overhang];
    formulas.extend(plain.into_iter().flatten());
    formulas.extend(hinged.reach.iter().map(of_size));
    match &hinged.inset {
        Inset::None => {}
        Inset::Both(inset) => formulas.push(inset),
        Inset::ByFlank(insets) => formulas.extend(insets.iter().map(|(_, inset)| inset)),
    }
    for (_, trim) in hinged.trim.iter() {
        match trim {
            Trim::Taper(by) | Trim::Chamfer(by) => formulas.push(by),
            Trim::Notch(along, out) => formulas.extend([along, out]),
        }
    }
    let corners = hinged.outline.iter().flatten();
    formulas.extend(corners.flat_map(|(_, x, y)| [x, y]));
}

fn opening_formulas<'s>(opening: &'s OpeningEntry, formulas: &mut Vec<&'s Written>) {
    match opening {
        OpeningEntry::Slot(slot) => slot_formulas(slot, formulas),
        OpeningEntry::Hole(hole) => {
            formulas.extend(&hole.when);
            formulas.extend([&hole.size.0, &hole.size.1]);
            formulas.extend(hole.at.iter().flat_map(|(x, y)| [x, y]));
        }
        OpeningEntry::ThumbNotch(notch) => {
            formulas.push(&notch.radius);
            formulas.extend([&notch.when, &notch.at].into_iter().flatten());
        }
    }
}

fn slot_formulas<'s>(slot: &'s SlotEntry, formulas: &mut Vec<&'s Written>) {
    formulas.extend([&slot.when, &slot.max_item_depth].into_iter().flatten());
    let pairs = [&slot.size, &slot.at];
    formulas.extend(pairs.into_iter().flatten().flat_map(|(x, y)| [x, y]));
    formulas.extend(slot.stacks.iter().map(|(_, stack)| stack));
    formulas.extend(slot.max_flap_depth.iter().map(of_size));
}

fn of_size(size: &Size) -> &Written {
    let (Size::Outside(written) | Size::Inside(written) | Size::Flat(written)) = size;
    written
}
