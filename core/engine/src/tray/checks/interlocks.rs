//! Tongues and their slits, and half-round notches: whether each meets the card it is meant for.
//!
//! **Input:** the tray. **Output:** a finding for each tongue that misses and each notch too large for its edge, one
//! per family, and the depth of the tongues.

use crate::finding::{Advice, BuiltIn, Finding, Mm, Place};
use crate::tray::{Slit, Tray};

/// Tongues that miss, and notches that do not fit their edge.
pub(super) fn judge(tray: &Tray) -> Vec<Finding> {
    let mut findings: Vec<Finding> = Vec::new();
    for interlock in &tray.interlocks {
        let place = Place::Tongue(interlock.name.clone());
        let reported = findings.iter().any(|finding| finding.place == place);
        if let (Slit::Missed { by }, false) = (&interlock.slit, reported) {
            let found = BuiltIn::TongueMisses {
                panel: tray.panels[interlock.panel].name.clone(),
                into: tray.panels[interlock.into].name.clone(),
                by: Mm(*by),
            };
            let found = Finding::new(found, place).measured(*by, 0.0);
            findings.push(found.with_fix(Advice::LongerTongue));
        }
    }
    for notch in &tray.astray {
        let panel = &tray.panels[notch.panel];
        let half = panel
            .shape
            .edge(&notch.edge)
            .map_or(0.0, |(from, to)| (to - from).length() / 2.0);
        let edge = notch.edge.clone();
        let place = Place::Panel(panel.key.clone());
        if findings.iter().any(|finding| finding.place == place) {
            continue;
        }
        let found = Finding::new(BuiltIn::NotchOffEdge { edge }, place);
        let found = found.measured(notch.reach, half);
        findings.push(found.with_fix(Advice::LargerBoxOrSettings));
    }
    findings
}

/// The depth of the shallowest tongue of each kind: name, panel, depth and number of tongues.
pub(crate) fn engaged(tray: &Tray) -> Vec<(&str, &str, f64, usize)> {
    let mut kinds: Vec<(&str, &str, f64, usize)> = Vec::new();
    for interlock in &tray.interlocks {
        let (Slit::Hole { deep, .. } | Slit::EdgeCutout { deep, .. }) = &interlock.slit else {
            continue;
        };
        let into = tray.panels[interlock.into].key.as_str();
        match kinds.iter_mut().find(|(name, ..)| *name == interlock.name) {
            Some((_, _, least, count)) => (*least, *count) = (least.min(*deep), *count + 1),
            None => kinds.push((&interlock.name, into, *deep, 1)),
        }
    }
    kinds
}
