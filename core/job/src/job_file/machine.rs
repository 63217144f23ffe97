//! The lines of a job about the files for machines: kerf, nicks and dxf.
//!
//! Given the nodes, gives what the maker asks of the files; what is not written is not done. A part that has a fault is
//! left out: the job is refused then all the same.

use traywright_engine::SourceError;
use traywright_engine::job::{Machine, Nicks};

use super::nodes::{Node, Nodes};
use super::words::DXF_VERSIONS;
use crate::lengths::trimmed;

/// So many nicks' lengths lie from one nick to the next, at least.
// Derived: a nick keeps its own length off the corners on both sides, and as much must be cut between two.
const LEAST_APART: f64 = 5.0;

/// What the maker asks of the files.
pub(super) fn machine(nodes: &Nodes<'_>, faults: &mut Vec<SourceError>) -> Machine {
    let kerf = nodes.one("kerf", faults).length("width", faults);
    let nicks_line = nodes.one("nicks", faults);
    let dxf = nodes.one("dxf", faults);
    Machine {
        kerf: kerf.unwrap_or_default(),
        nicks: nicks(nicks_line, faults).filter(|_| nicks_line.is_written),
        dxf: dxf
            .choice("version", &DXF_VERSIONS, faults)
            .unwrap_or_default(),
    }
}

fn nicks(node: &Node<'_>, faults: &mut Vec<SourceError>) -> Option<Nicks> {
    let (length, every) = (node.length("length", faults), node.length("every", faults));
    let nicks = Nicks {
        length: length?,
        every: every?,
    };
    let least = LEAST_APART * nicks.length.mm();
    if nicks.every.mm() >= least {
        return Some(nicks);
    }
    let written = [node.entry("every"), node.entry("length")];
    let place = written.into_iter().flatten().next();
    faults.push(SourceError::new(
        place.map_or(node.place.clone(), |entry| entry.place()),
        "the nicks would run into one another",
        format!(
            "with nicks of {} mm, `every` is at least {} mm",
            trimmed(nicks.length.mm(), 3),
            trimmed(least, 3)
        ),
    ));
    None
}
