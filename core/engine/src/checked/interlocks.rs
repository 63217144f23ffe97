//! Tongues and their slits, and half-round notches: whether each finds the card that it is meant for.
//!
//! Given the tray; gives a finding for each tongue that misses and each notch that its edge cannot hold, one of a
//! family, and how deep the tongues go.

use super::finding;
use crate::finding::{Finding, Level};
use crate::job::Job;
use crate::tray::{Slit, Tray};
use crate::wording::{length, lengths_apart};

/// Tongues that miss, and notches without room.
pub(super) fn judge(tray: &Tray, job: &Job) -> Vec<Finding> {
    let mut findings: Vec<Finding> = Vec::new();
    for interlock in &tray.interlocks {
        let told = findings
            .iter()
            .any(|finding| finding.place == interlock.name);
        if let (Slit::Missed { by }, false) = (&interlock.slit, told) {
            let message = format!(
                "folded, this tongue of {} misses {} by {}, so there is no slit for it",
                tray.panels[interlock.panel].name,
                tray.panels[interlock.into].name,
                length(*by, job.unit)
            );
            let found = finding(Level::Error, "tongue-misses", &interlock.name, message);
            let fix = "other settings of the style; if it is yours, a longer tongue";
            findings.push(found.measured(*by, 0.0).with_fix(fix));
        }
    }
    for notch in &tray.astray {
        let panel = &tray.panels[notch.panel];
        let half = panel
            .shape
            .edge(&notch.edge)
            .map_or(0.0, |(from, to)| (to - from).length() / 2.0);
        let (wants, has) = lengths_apart(notch.reach, half, job.unit);
        let message = format!(
            "its half-round notch reaches {wants} from the middle of its {} edge (at most {has})",
            notch.edge
        );
        let found = finding(Level::Error, "notch-off-edge", &panel.name, message);
        findings.push(
            found
                .measured(notch.reach, half)
                .with_fix("a larger box, or other settings of the style"),
        );
    }
    findings
}

/// How deep the shallowest tongue of each kind goes into its card: name, panel, depth and how many there are.
pub(super) fn engaged(tray: &Tray) -> Vec<(&str, &str, f64, usize)> {
    let mut kinds: Vec<(&str, &str, f64, usize)> = Vec::new();
    for interlock in &tray.interlocks {
        let (Slit::Hole { deep, .. } | Slit::Bite { deep, .. }) = &interlock.slit else {
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
