//! The line `nicks`: its lengths must leave something to cut.

use traywright_engine::SourceError;

use super::form::Form;
use super::nodes::Node;
use crate::lengths::trimmed;

/// Minimum distance from one nick to the next, in lengths of a nick.
// Derived: a nick keeps its own length off the corners on both sides, and as much must be cut between two.
const LEAST_APART: f64 = 5.0;

/// A line without lengths gives the default nicks; nicks that touch are rejected.
pub(super) fn finish(node: &Node<'_>, form: &mut Form, faults: &mut Vec<SourceError>) {
    let nicks = form.job.output.machine.nicks.get_or_insert_default();
    let least = LEAST_APART * nicks.length.mm();
    if !node.unread.is_empty() || nicks.every.mm() >= least {
        return;
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
}
