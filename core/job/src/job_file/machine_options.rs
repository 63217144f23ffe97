//! The lines of a job about the files for machines: kerf, nicks and dxf.
//!
//! Given the nodes, gives what the maker asks of the files; what is not written is not done. A part that has a fault is
//! left out: the job is refused then all the same.

use traywright_engine::SourceError;
use traywright_engine::job::{DxfVersion, MachineOptions, Nicks};

use super::nodes::{Node, Nodes};
use super::values::{SIZE, choice, length};
use crate::lengths::trimmed;

/// What `nicks` takes where it does not say.
// Source: the contract of the job file, whose figures are the defaults (common practice, no source).
const DEFAULT: Nicks = Nicks {
    length: 0.4,
    every: 60.0,
};
/// So many nicks' lengths lie from one nick to the next, at least.
// Derived: a nick keeps its own length off the corners on both sides, and as much must be cut between two.
const LEAST_APART: f64 = 5.0;

/// What the maker asks of the files.
pub(super) fn machine_options(
    nodes: &Nodes<'_>,
    whole_page: Option<f64>,
    faults: &mut Vec<SourceError>,
) -> MachineOptions {
    MachineOptions {
        kerf_width: kerf_width(nodes.one("kerf"), faults),
        nicks: nodes.one("nicks").and_then(|node| nicks(node, faults)),
        dxf: dxf(nodes.one("dxf"), faults),
        whole_page,
    }
}

fn kerf_width(node: Option<&Node<'_>>, faults: &mut Vec<SourceError>) -> f64 {
    let example = "width=(mm)0.2, what the tool takes away; without the line the machine's own program sees to it";
    let entry = node.and_then(|node| node.required("width", example, faults));
    entry
        .and_then(|entry| length(entry, SIZE, faults))
        .unwrap_or_default()
}

fn nicks(node: &Node<'_>, faults: &mut Vec<SourceError>) -> Option<Nicks> {
    let mut measure = |name: &str, default: f64| match node.property(name) {
        Some(entry) => length(entry, SIZE, faults),
        None => Some(default),
    };
    let (length, every) = (
        measure("length", DEFAULT.length),
        measure("every", DEFAULT.every),
    );
    let nicks = Nicks {
        length: length?,
        every: every?,
    };
    let least = LEAST_APART * nicks.length;
    if nicks.every >= least {
        return Some(nicks);
    }
    let written = [node.property("every"), node.property("length")];
    let place = written.into_iter().flatten().next();
    faults.push(SourceError::new(
        place.map_or(node.place.clone(), |entry| entry.place()),
        "the nicks would run into one another",
        format!(
            "with nicks of {} mm, `every` is at least {} mm",
            trimmed(nicks.length, 3),
            trimmed(least, 3)
        ),
    ));
    None
}

fn dxf(node: Option<&Node<'_>>, faults: &mut Vec<SourceError>) -> DxfVersion {
    let known = [("R2000", DxfVersion::R2000), ("R12", DxfVersion::R12)];
    let example = "version=\"R2000\", or version=\"R12\" for an older program";
    let entry = node.and_then(|node| node.required("version", example, faults));
    entry
        .and_then(|entry| choice(entry, &known, faults))
        .unwrap_or_default()
}
