//! Edges between numbered points, taken from paths and rings.
//!
//! **Does not** know coordinates.

use crate::places::VertexIndex;

/// An edge independent of its direction.
pub(crate) fn either_way([one, other]: [VertexIndex; 2]) -> [VertexIndex; 2] {
    [one.min(other), one.max(other)]
}

/// The edges of a path, except those without length.
pub(crate) fn pieces(run: &[VertexIndex]) -> impl Iterator<Item = [VertexIndex; 2]> {
    run.windows(2)
        .map(|ends| [ends[0], ends[1]])
        .filter(|[from, to]| from != to)
}

/// A ring with its first point repeated at its end.
pub(crate) fn closed(ring: &[VertexIndex]) -> Vec<VertexIndex> {
    ring.iter().chain(ring.first()).copied().collect()
}

/// The edges of a closed ring.
pub(crate) fn edges_of(ring: &[VertexIndex]) -> impl Iterator<Item = [VertexIndex; 2]> {
    let next = ring.iter().cycle().skip(1);
    ring.iter().zip(next).map(|(&from, &to)| [from, to])
}
