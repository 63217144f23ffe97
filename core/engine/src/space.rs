//! Convex solids and their penetration depth.
//!
//! Lengths in mm. A solid is the space between its planes; solids that only touch do not overlap.

use traywright_document::Pose;
use traywright_document::steady::Steady;

pub(crate) use traywright_document::space::{Vec3, cross, dot, minus, plus};

/// A convex solid by its corners, planes and edges.
#[derive(Clone, Debug)]
pub(crate) struct ConvexSolid {
    pub(crate) corners: Vec<Vec3>,
    /// Outward unit normal, and the distance of the face along it.
    pub(crate) planes: Vec<(Vec3, f64)>,
    /// Edges as pairs of corners.
    pub(crate) edges: Vec<(usize, usize)>,
    /// The edges whose directions cover those of all others.
    ways: Vec<usize>,
}

impl ConvexSolid {
    /// An upright prism over a convex polygon run counter-clockwise, from -half to half.
    pub(crate) fn prism(polygon: &[[f64; 2]], half: f64) -> ConvexSolid {
        let count = polygon.len();
        let level = |height: f64| {
            polygon
                .iter()
                .map(move |point| [point[0], point[1], height])
        };
        let corners: Vec<Vec3> = level(-half).chain(level(half)).collect();
        let mut planes = vec![([0.0, 0.0, 1.0], half), ([0.0, 0.0, -1.0], half)];
        let mut edges = Vec::new();
        for here in 0..count {
            let next = (here + 1) % count;
            let way = minus(corners[next], corners[here]);
            let length = way[0].steady_hypot(way[1]);
            let normal = [way[1] / length, -way[0] / length, 0.0];
            planes.push((normal, dot(normal, corners[here])));
            edges.extend([
                (here, next),
                (count + here, count + next),
                (here, count + here),
            ]);
        }
        // Upper edges are parallel to the lower ones, and all upright edges are parallel.
        let ways = (0..count).map(|side| 3 * side).chain([2]).collect();
        ConvexSolid {
            corners,
            planes,
            edges,
            ways,
        }
    }

    /// The same solid moved rigidly.
    pub(crate) fn moved(&self, pose: &Pose) -> ConvexSolid {
        let corners: Vec<Vec3> = self
            .corners
            .iter()
            .map(|&corner| pose.apply(corner))
            .collect();
        // The first corner of an upright prism is on its lower face; each side face has the corner it begins at.
        let count = corners.len() / 2;
        let on_plane = |plane: usize| match plane {
            0 => corners[count],
            1 => corners[0],
            side => corners[side - 2],
        };
        let planes = self.planes.iter().enumerate().map(|(plane, (normal, _))| {
            let normal = pose.turn(*normal);
            (normal, dot(normal, on_plane(plane)))
        });
        let planes = planes.collect();
        ConvexSolid {
            corners,
            planes,
            edges: self.edges.clone(),
            ways: self.ways.clone(),
        }
    }

    /// Its lowest and highest point.
    pub(crate) fn heights(&self) -> [f64; 2] {
        let (least, most) = self.reach([0.0, 0.0, 1.0]);
        [least, most]
    }

    /// The corners of each of its faces, in order.
    pub(crate) fn sides(&self) -> impl Iterator<Item = Vec<Vec3>> + '_ {
        let (lower, upper) = self.corners.split_at(self.corners.len() / 2);
        let side = move |at: usize| {
            let next = (at + 1) % lower.len();
            vec![lower[at], lower[next], upper[next], upper[at]]
        };
        let ends = [lower, upper].into_iter().map(<[Vec3]>::to_vec);
        ends.chain((0..lower.len()).map(side))
    }

    /// The directions of its edges.
    fn ways(&self) -> impl Iterator<Item = Vec3> {
        let way = |(from, to): (usize, usize)| minus(self.corners[to], self.corners[from]);
        self.ways.iter().map(move |&edge| way(self.edges[edge]))
    }

    /// Least and greatest extent of the solid along a vector.
    fn reach(&self, way: Vec3) -> (f64, f64) {
        self.corners.iter().fold(
            (f64::INFINITY, f64::NEG_INFINITY),
            |(least, most), &corner| {
                let along = dot(corner, way);
                (least.min(along), most.max(along))
            },
        )
    }

    /// Penetration depth of two solids: the shortest move that separates them; 0 if they do not overlap.
    // Source: separating axis theorem for convex polyhedra: face normals, and cross products of edges.
    pub(crate) fn depth(&self, other: &ConvexSolid) -> f64 {
        let mut depth = f64::INFINITY;
        let mut shared = |way: Vec3| {
            let (one, two) = (self.reach(way), other.reach(way));
            depth = depth.min((one.1 - two.0).min(two.1 - one.0));
            depth > 0.0
        };
        for (normal, _) in self.planes.iter().chain(&other.planes) {
            if !shared(*normal) {
                return 0.0;
            }
        }
        for one in self.ways() {
            for two in other.ways() {
                let across = cross(one, two);
                let length = dot(across, across).sqrt();
                // Parallel edges give no direction of their own; the planes cover this case.
                if length > 1e-9 && !shared(across.map(|part| part / length)) {
                    return 0.0;
                }
            }
        }
        depth
    }
}
