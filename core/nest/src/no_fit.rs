//! The no-fit region of two outlines: where the one may not lie, seen from the other.
//!
//! **Input:** two polygons and the gap between them. **Output:** with the first at the origin, the places of
//! the second one's origin at which the two are closer than the gap; and how deep such a place lies in this region, which
//! is how far the second has to be moved to be free.
// Source: the no-fit polygon is the Minkowski sum of the first and the reflected second (Bennell and Oliveira, "The
// geometry of nesting problems", 2008, from memory); here the union of the sums of their convex pieces and a circle.

use i_overlay::core::fill_rule::FillRule;
use i_overlay::float::simplify::SimplifyShape;
use traywright_document::{Extent, Point, Vector};

use crate::convex::{self, Convex};
use crate::polygon::{beside, crosses};

/// A place that lies less deep than this in a no-fit region counts as free. The regions are larger than the gap asks by
/// more than that, so what counts as free keeps the gap.
pub(crate) const FREE_MM: f64 = 1e-3;

/// A region that a place must not lie in.
#[derive(Clone, Debug)]
pub(crate) struct NoFit {
    pub(crate) edges: Vec<[Point; 2]>,
    pub(crate) extent: Extent,
}

impl NoFit {
    /// The region for two outlines in convex pieces.
    pub(crate) fn new(first: &[Convex], second: &[Convex], gap: f64) -> NoFit {
        let circle = convex::around_circle(gap + 2.0 * FREE_MM);
        let reflected: Vec<Convex> = second
            .iter()
            .map(|piece| {
                piece
                    .iter()
                    .map(|corner| Point::ORIGIN + (Point::ORIGIN - *corner))
                    .collect()
            })
            .collect();
        let mut sums: Vec<Vec<[f64; 2]>> = Vec::new();
        for one in first {
            let wider = convex::sum(one, &circle);
            for other in &reflected {
                let sum = convex::sum(&wider, other);
                sums.push(sum.iter().map(|corner| [corner.x, corner.y]).collect());
            }
        }
        let mut edges = Vec::new();
        for shape in sums.simplify_shape(FillRule::NonZero) {
            for ring in shape {
                let ends = ring.iter().cycle().skip(1);
                let point = |place: &[f64; 2]| Point::new(place[0], place[1]);
                edges.extend(
                    ring.iter()
                        .zip(ends)
                        .map(|(from, to)| [point(from), point(to)]),
                );
            }
        }
        let extent = Extent::around(edges.iter().flatten().copied());
        NoFit { edges, extent }
    }

    /// How deep a place lies in the region; 0 outside.
    pub(crate) fn depth(&self, at: Vector) -> f64 {
        let at = Point::ORIGIN + at;
        let Extent { least, most } = self.extent;
        if at.x <= least.x || at.x >= most.x || at.y <= least.y || at.y >= most.y {
            return 0.0;
        }
        let mut inside = false;
        for edge in &self.edges {
            inside ^= crosses(*edge, at);
        }
        if !inside {
            return 0.0;
        }
        let nearest = self.edges.iter().map(|edge| beside(*edge, at));
        nearest.fold(f64::INFINITY, f64::min).sqrt()
    }
}
