//! A solid library that knows no tray pushes and lifts the items of folded trays, and finds what the engine tells.
//!
//! Outsider: manifold3d 3.5 (Python, `outside/held.py`), which is given documents alone: flat outlines, creases, and where
//! items lie. `cargo xtask test --thorough` asks for the whole counts, everything else for a tenth of them.

mod agreement;
mod faults;
mod others;
mod pads;
mod random;
mod seen;

use std::fs;

use serde_json::Value;
use traywright_document::{Document, wire};
use traywright_engine::job::Job;
use traywright_engine::{CheckedTray, Finding};
use traywright_tests::jobs::written;
use traywright_tests::python;

use seen::Seen;

/// A tray to look at: what the program says of it, and the job.
pub(crate) struct Case {
    pub(crate) job: Job,
    pub(crate) document: Document,
    pub(crate) findings: Vec<Finding>,
}

impl Case {
    pub(crate) fn of(job: Job, tray: &CheckedTray) -> Case {
        Case {
            document: tray.unrounded().document(),
            findings: tray.report().findings.clone(),
            job,
        }
    }

    /// How a failure names it.
    pub(crate) fn name(&self, item: &str) -> String {
        let Job {
            tray_height,
            rounding,
            items,
            settings,
            ..
        } = &self.job;
        let rest = format!("{tray_height:?} {rounding:?} {items:?} {settings:?}");
        format!("{item} of {} {rest}", written(&self.job.style, &self.job))
    }
}

/// What the solids do, item by item, of each tray; none if they cannot be asked.
pub(crate) fn pushed(cases: &[Case]) -> Option<Vec<Vec<Seen>>> {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let name = |index: usize| format!("{index:04}");
    for (index, case) in cases.iter().enumerate() {
        let encoded = wire::encode(&case.document);
        let mut words: Value = serde_json::from_slice(&encoded).expect("a document is JSON");
        words["lift"] = lift(&case.job).into();
        words["fit"] = case.job.fit.around_item.mm().into();
        let path = folder.path().join(name(index)).with_extension("json");
        fs::write(path, words.to_string()).expect("a document can be written");
    }
    let path = folder.path().to_str().expect("a plain name");
    let text = python("held.py", &[path])?.unwrap_or_else(|fault| panic!("held.py: {fault}"));
    let mut seen: Value = serde_json::from_str(&text).expect("the script prints JSON");
    let entries = (0..cases.len()).map(|index| {
        serde_json::from_value(seen[name(index)].take()).expect("the script prints what is asked")
    });
    Some(entries.collect())
}

/// How high a rounded floor edge lets the tray stand.
// Source: core/CONTRACT.md, `floor-corner`: r - √(r² - (r - fit/2)²) where r > fit/2.
fn lift(job: &Job) -> f64 {
    let (radius, half) = (
        job.rounding.floor_corner.mm(),
        job.fit.around_tray.mm() / 2.0,
    );
    if radius <= half {
        return 0.0;
    }
    radius - (radius * radius - (radius - half) * (radius - half)).sqrt()
}
