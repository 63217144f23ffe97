//! The panels as one mesh: faces that share an edge only where the card is creased or uncut.
//!
//! **Input:** a document. **Output:** numbered vertices, edges and faces, the root's faces first. Faces on both sides
//! of a cut have vertices and edges of their own, and no two edges have the same ends. It folds nothing.

use std::collections::{BTreeMap, BTreeSet};

use traywright_document::{Document, ExportError, Point};

use crate::edges::{either_way, pieces};
use crate::faces::PanelLines;
use crate::places::{Places, SAME_MM, VertexIndex, distance};
use crate::slits;

/// The blank as vertices, edges and faces.
#[derive(Debug, Default)]
pub(crate) struct Mesh {
    pub(crate) vertices: Vec<Vertex>,
    pub(crate) edges: Vec<Edge>,
    pub(crate) faces: Vec<Facet>,
}

/// A corner of one or more faces.
#[derive(Debug)]
pub(crate) struct Vertex {
    pub(crate) at: Point,
    /// The panels of its faces.
    pub(crate) panels: BTreeSet<usize>,
}

/// A line between two vertices.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Edge {
    pub(crate) ends: [usize; 2],
    /// Fold angle between the faces on both sides; none if there is a face on one side only.
    pub(crate) fold_deg: Option<f64>,
}

/// A simple polygon of card, counter-clockwise.
#[derive(Debug)]
pub(crate) struct Facet {
    pub(crate) panel: usize,
    pub(crate) vertices: Vec<usize>,
}

impl Mesh {
    /// The mesh of a document.
    ///
    /// # Refuses
    /// A crease that is not an edge of both its panels.
    pub(crate) fn new(document: &Document) -> Result<Mesh, ExportError> {
        let mut laid = Laid::new(document);
        loop {
            let seams = laid.seams()?;
            let mesh = laid.mesh(&seams);
            let twins = twins(&mesh);
            if twins.is_empty() {
                return Ok(mesh);
            }
            laid.halve(&twins, &seams, &mesh);
        }
    }

    /// Whether any face has an inner corner, in the words of the format.
    pub(crate) fn shape(&self) -> &'static str {
        let turns_inwards = |face: &Facet| {
            let count = face.vertices.len();
            (0..count).any(|corner| {
                let [before, here, after] =
                    [0, 1, 2].map(|step| self.vertices[face.vertices[(corner + step) % count]].at);
                let (x, y) = (after.x - before.x, after.y - before.y);
                let aside =
                    (x * (here.y - before.y) - y * (here.x - before.x)) / distance(before, after);
                aside > SAME_MM
            })
        };
        if self.faces.iter().any(turns_inwards) {
            "nonConvexFaces"
        } else {
            "convexFaces"
        }
    }
}

/// The edge of a face that starts at one of its corners: the face, the corner.
type Side = (usize, usize);

/// Sides that are one edge: for each the other side, and the fold angle between them.
type Seams = BTreeMap<Side, (Side, f64)>;

/// The faces as rings of points.
struct Laid<'d> {
    document: &'d Document,
    places: Places,
    /// The ends of the blank's creases.
    creases: Vec<[VertexIndex; 2]>,
    /// The panel and the edges of lines across its card.
    joins: Vec<(usize, [VertexIndex; 2])>,
    /// Each face's panel and its ring.
    rings: Vec<(usize, Vec<VertexIndex>)>,
}

impl<'d> Laid<'d> {
    fn new(document: &'d Document) -> Self {
        let mut places = Places::default();
        let flat = &document.flat;
        let ends = flat.creases.iter().map(|crease| [crease.from, crease.to]);
        let creases = ends
            .map(|ends| ends.map(|end| places.number(end)))
            .collect();
        let panels = document.panels.iter();
        let mut lines: Vec<PanelLines> = panels
            .map(|panel| PanelLines::new(panel, &mut places))
            .collect();
        slits::lay(&flat.open_cuts, &mut lines, &mut places);
        for panel in &mut lines {
            panel.join(&mut places);
        }
        let mut laid = Laid {
            document,
            places,
            creases,
            joins: Vec::new(),
            rings: Vec::new(),
        };
        for (panel, lines) in lines.iter().enumerate() {
            let joins = lines.join_pieces(&laid.places).into_iter();
            laid.joins.extend(joins.map(|join| (panel, join)));
            let faces = lines.faces(&laid.places).into_iter();
            laid.rings.extend(faces.map(|ring| (panel, ring)));
        }
        laid
    }

    /// Finds both sides of every join and crease.
    fn seams(&self) -> Result<Seams, ExportError> {
        let mut sides: BTreeMap<(usize, [VertexIndex; 2]), Side> = BTreeMap::new();
        for (face, (panel, ring)) in self.rings.iter().enumerate() {
            for (corner, &from) in ring.iter().enumerate() {
                let to = ring[(corner + 1) % ring.len()];
                sides.insert((*panel, [from, to]), (face, corner));
            }
        }
        let both = |panel: usize, other: usize, [from, to]: [VertexIndex; 2]| {
            let side = sides.get(&(panel, [from, to]))?;
            Some((*side, *sides.get(&(other, [to, from]))?))
        };
        let mut seams = Seams::new();
        let mut sew = |(one, other): (Side, Side), fold_deg: f64| {
            seams.insert(one, (other, fold_deg));
            seams.insert(other, (one, fold_deg));
        };
        for &(panel, join) in &self.joins {
            if let Some(sides) = both(panel, panel, join) {
                sew(sides, 0.0);
            }
        }
        for (crease, &[from, to]) in self.document.flat.creases.iter().zip(&self.creases) {
            let panel = &self.document.panels[crease.panel];
            let astray = || {
                let name = &panel.name;
                ExportError::Refused(format!(
                    "the crease of {name} is no edge of both its panels"
                ))
            };
            let parent = panel.hinge.as_ref().ok_or_else(astray)?.parent;
            for [from, to] in pieces(&self.places.way(from, to)) {
                let found = both(crease.panel, parent, [from, to])
                    .or_else(|| both(crease.panel, parent, [to, from]));
                sew(found.ok_or_else(astray)?, crease.fold_deg);
            }
        }
        Ok(seams)
    }

    /// Numbers vertices and edges in the order of the faces.
    fn mesh(&self, seams: &Seams) -> Mesh {
        let mut corners = Corners::new(&self.rings, seams);
        let mut mesh = Mesh::default();
        let mut numbers: BTreeMap<Side, usize> = BTreeMap::new();
        for (face, (panel, ring)) in self.rings.iter().enumerate() {
            let mut vertices = Vec::new();
            for (corner, &place) in ring.iter().enumerate() {
                let number = *numbers
                    .entry(corners.first((face, corner)))
                    .or_insert_with(|| {
                        let at = self.places.point(place);
                        mesh.vertices.push(Vertex {
                            at,
                            panels: BTreeSet::new(),
                        });
                        mesh.vertices.len() - 1
                    });
                mesh.vertices[number].panels.insert(*panel);
                vertices.push(number);
            }
            mesh.faces.push(Facet {
                panel: *panel,
                vertices,
            });
        }
        for (face, seen) in mesh.faces.iter().enumerate() {
            for (corner, &from) in seen.vertices.iter().enumerate() {
                let seam = seams.get(&(face, corner));
                if seam.is_none_or(|(other, _)| (face, corner) < *other) {
                    let to = seen.vertices[(corner + 1) % seen.vertices.len()];
                    let fold_deg = seam.map(|(_, fold_deg)| *fold_deg);
                    mesh.edges.push(Edge {
                        ends: [from, to],
                        fold_deg,
                    });
                }
            }
        }
        mesh
    }

    /// Inserts a point in the middle of every cut side with one of these pairs of ends.
    fn halve(&mut self, twins: &BTreeSet<[usize; 2]>, seams: &Seams, mesh: &Mesh) {
        for (face, (_, ring)) in self.rings.iter_mut().enumerate() {
            let vertices = &mesh.faces[face].vertices;
            for corner in (0..vertices.len()).rev() {
                let next = (corner + 1) % vertices.len();
                let ends = either_way([vertices[corner], vertices[next]]);
                if twins.contains(&ends) && !seams.contains_key(&(face, corner)) {
                    let [from, to] = [ring[corner], ring[next]].map(|end| self.places.point(end));
                    let middle = Point {
                        x: (from.x + to.x) / 2.0,
                        y: (from.y + to.y) / 2.0,
                    };
                    let middle = self.places.number(middle);
                    ring.insert(corner + 1, middle);
                }
            }
        }
    }
}

/// The corners of faces, grouped by shared vertex.
struct Corners {
    above: BTreeMap<Side, Side>,
}

impl Corners {
    fn new(rings: &[(usize, Vec<VertexIndex>)], seams: &Seams) -> Corners {
        let mut corners = Corners {
            above: BTreeMap::new(),
        };
        let after = |(face, corner): Side| (face, (corner + 1) % rings[face].1.len());
        for (&side, &(other, _)) in seams {
            corners.unite(side, after(other));
            corners.unite(after(side), other);
        }
        corners
    }

    fn unite(&mut self, one: Side, other: Side) {
        let (one, other) = (self.first(one), self.first(other));
        if one != other {
            self.above.insert(one.max(other), one.min(other));
        }
    }

    /// The representative of the corners that share this vertex.
    fn first(&mut self, corner: Side) -> Side {
        let mut first = corner;
        while let Some(&above) = self.above.get(&first) {
            first = above;
        }
        if first != corner {
            self.above.insert(corner, first);
        }
        first
    }
}

/// The pairs of vertices with more than one edge between them.
fn twins(mesh: &Mesh) -> BTreeSet<[usize; 2]> {
    let mut seen = BTreeSet::new();
    let ends = mesh.edges.iter().map(|edge| either_way(edge.ends));
    ends.filter(|&ends| !seen.insert(ends)).collect()
}
