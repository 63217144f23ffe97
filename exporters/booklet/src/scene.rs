//! What stands on the table: opaque surfaces and the edges that are drawn.
//!
//! Given the card and a stage; gives the panels as thin polygons in space with their cuts and creases, and, where asked
//! for, the items and the box around them. It does not know from where it is seen.

use traywright_document::steady::Steady;
use traywright_document::{Document, Item, ItemShape, Orientation, Point, Pose};

use crate::card::Card;
use crate::scene_prints::{SceneLabel, ScenePicture};
use traywright_document::Stage;
use traywright_document::space::{Vec3, cross, plus, unit};

/// Surfaces and edges.
#[derive(Clone, Debug, Default)]
pub(crate) struct Scene {
    pub(crate) surfaces: Vec<Surface>,
    pub(crate) edges: Vec<Edge>,
    /// What is printed on the panels.
    pub(crate) labels: Vec<SceneLabel>,
    pub(crate) pictures: Vec<ScenePicture>,
}

/// A flat, opaque polygon.
#[derive(Clone, Debug)]
pub(crate) struct Surface {
    pub(crate) part: Part,
    /// Its outline, then its holes.
    pub(crate) rings: Vec<Vec<Vec3>>,
    /// The way out of its first face, one long: of a panel the face that is inside the folded tray.
    pub(crate) normal: Vec3,
}

impl Surface {
    /// Its outline as edges.
    pub(crate) fn outline(&self) -> impl Iterator<Item = Edge> {
        let ring = &self.rings[0];
        let part = self.part;
        (0..ring.len()).map(move |at| Edge {
            part,
            kind: EdgeKind::Edge,
            ends: [ring[at], ring[(at + 1) % ring.len()]],
        })
    }
}

/// What a surface or an edge belongs to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Part {
    Panel(usize),
    Item,
    /// What lies under an item.
    Pad,
    Box,
    Table,
}

/// A straight line that is drawn.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Edge {
    pub(crate) part: Part,
    pub(crate) kind: EdgeKind,
    pub(crate) ends: [Vec3; 2],
}

/// What an edge is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum EdgeKind {
    /// The edge of the card, or of a solid thing.
    Edge,
    /// A crease that is folded.
    Folded,
    /// A crease that is not folded yet.
    Unfolded,
    /// Between two sides of something round, with the ways out of both: drawn where one of them is seen and one is not.
    Seam([Vec3; 2]),
    /// The circle on the table on which the tray is turned round.
    Turntable,
}

/// Round things are prisms of so many sides, of which only the outermost upright edges are drawn.
const SIDES: usize = 48;
/// The circle on the table is so much wider than the tray.
const AROUND_TRAY: f64 = 1.04;

impl Scene {
    /// The tray at a stage.
    pub(crate) fn of(card: &Card, stage: &Stage) -> Scene {
        let poses = card.poses(stage);
        let mut scene = Scene {
            labels: SceneLabel::all(card.document(), &poses),
            pictures: ScenePicture::all(card.document(), &poses),
            ..Scene::default()
        };
        for (index, panel) in card.panels.iter().enumerate() {
            let pose = &poses[index];
            let at = |point: &Point| pose.apply(point.in_space());
            let part = Part::Panel(index);
            scene.surfaces.push(Surface {
                part,
                rings: panel
                    .rings
                    .iter()
                    .map(|ring| ring.iter().map(at).collect())
                    .collect(),
                normal: inner_face(stage, pose),
            });
            let cut = |ends: &[Point; 2]| Edge {
                part,
                kind: EdgeKind::Edge,
                ends: [at(&ends[0]), at(&ends[1])],
            };
            scene.edges.extend(panel.cuts.iter().map(cut));
            if let Some(hinge) = panel.hinge {
                let folded = stage.angles[index] != 0.0;
                let parent = &poses[hinge.parent];
                scene.edges.push(Edge {
                    part,
                    kind: if folded {
                        EdgeKind::Folded
                    } else {
                        EdgeKind::Unfolded
                    },
                    ends: hinge.line.map(|end| parent.apply(end.in_space())),
                });
            }
        }
        scene
    }

    /// Least and greatest coordinates of all surfaces.
    pub(crate) fn reach(&self) -> [Vec3; 2] {
        let mut reach = [[f64::INFINITY; 3], [f64::NEG_INFINITY; 3]];
        let corners = self
            .surfaces
            .iter()
            .flat_map(|surface| surface.rings.iter().flatten());
        for corner in corners {
            for axis in 0..3 {
                reach[0][axis] = reach[0][axis].min(corner[axis]);
                reach[1][axis] = reach[1][axis].max(corner[axis]);
            }
        }
        reach
    }

    /// The circle on the table that the tray has room in: its middle, and its radius.
    pub(crate) fn turntable(&self) -> (Vec3, f64) {
        let [least, most] = self.reach();
        let middle = [0, 1].map(|axis| (least[axis] + most[axis]) / 2.0);
        let corners = self.surfaces.iter().flat_map(|surface| &surface.rings[0]);
        let farthest = corners
            .map(|corner| (corner[0] - middle[0]).steady_hypot(corner[1] - middle[1]))
            .fold(0.0, f64::max);
        ([middle[0], middle[1], least[2]], AROUND_TRAY * farthest)
    }

    /// Adds that circle, so far below the tray.
    pub(crate) fn add_turntable(&mut self, below: f64) {
        let (mut middle, radius) = self.turntable();
        middle[2] -= below;
        let place = |step: usize| {
            let (sin, cos) = (std::f64::consts::TAU * step as f64 / SIDES as f64).steady_sin_cos();
            plus(middle, [radius * cos, radius * sin, 0.0], 1.0)
        };
        self.edges.extend((0..SIDES).map(|step| Edge {
            part: Part::Table,
            kind: EdgeKind::Turntable,
            ends: [place(step), place(step + 1)],
        }));
    }

    /// Adds the items that have a place, each on its pad and lifted by so much over it.
    pub(crate) fn add_items(&mut self, card: &Card, stage: &Stage, lifted: f64) {
        let document = card.document();
        let [least, _] = self.reach();
        let poses = card.poses(stage);
        for item in &document.items {
            let (Some(middle), Some(pose)) = (item.middle, poses.get(item.panel)) else {
                continue;
            };
            let floor = match document.stands {
                Orientation::RootUp => least[2],
                Orientation::RootDown => stage.lie().shift[2],
            };
            let [x, y, _] = pose.apply(middle.in_space());
            let way = card.panels[item.panel].first_axis();
            let [across, up, _] = pose.turn([way.x, way.y, 0.0]);
            let at = |height: f64| -> Vec<Vec3> {
                let corner = |[along, aside]: [f64; 2]| {
                    [
                        x + along * across - aside * up,
                        y + along * up + aside * across,
                        floor + height,
                    ]
                };
                footprint(item).map(corner).collect()
            };
            self.add_prism(Part::Item, &at(item.rest + lifted), item.depth);
            if item.pad > 0.0 {
                self.add_prism(Part::Pad, &at(item.rest - item.pad), item.pad);
            }
        }
    }

    /// Adds the box around the tray, open above, its floor under the tray lowered by so much.
    pub(crate) fn add_box(&mut self, document: &Document, lowered: f64) {
        if !document.has_box() {
            return;
        }
        let [least, most] = self.reach();
        let inside = document.box_size;
        let [half_length, half_width] = [inside.length.mm() / 2.0, inside.width.mm() / 2.0];
        let centre = [
            (least[0] + most[0]) / 2.0,
            (least[1] + most[1]) / 2.0,
            least[2] - lowered,
        ];
        let corners = [[-1.0, -1.0], [1.0, -1.0], [1.0, 1.0], [-1.0, 1.0]]
            .map(|[x, y]| plus(centre, [x * half_length, y * half_width, 0.0], 1.0));
        self.add_sheet(Part::Box, corners.to_vec());
        for (at, &corner) in corners.iter().enumerate() {
            let next = corners[(at + 1) % corners.len()];
            let up = [0.0, 0.0, inside.depth.mm()];
            let wall = vec![corner, next, plus(next, up, 1.0), plus(corner, up, 1.0)];
            self.add_sheet(Part::Box, wall);
        }
    }

    /// Adds a polygon with all its edges.
    fn add_sheet(&mut self, part: Part, ring: Vec<Vec3>) {
        for (at, &corner) in ring.iter().enumerate() {
            self.edges.push(Edge {
                part,
                kind: EdgeKind::Edge,
                ends: [corner, ring[(at + 1) % ring.len()]],
            });
        }
        let normal = unit(cross(
            plus(ring[1], ring[0], -1.0),
            plus(ring[2], ring[0], -1.0),
        ));
        self.surfaces.push(Surface {
            part,
            rings: vec![ring],
            normal,
        });
    }

    /// Adds an upright prism over a polygon; one of many sides is round.
    fn add_prism(&mut self, part: Part, foot: &[Vec3], height: f64) {
        let count = foot.len();
        let up = |place: Vec3| plus(place, [0.0, 0.0, height], 1.0);
        let outwards = |at: usize| {
            let way = plus(foot[(at + 1) % count], foot[at], -1.0);
            unit(cross(way, [0.0, 0.0, 1.0]))
        };
        for (at, &corner) in foot.iter().enumerate() {
            let next = foot[(at + 1) % count];
            let normal = outwards(at);
            let seam = EdgeKind::Seam([outwards((at + count - 1) % count), normal]);
            let upright = if count < SIDES { EdgeKind::Edge } else { seam };
            let edge = |kind, ends| Edge { part, kind, ends };
            self.edges.extend([
                edge(EdgeKind::Edge, [corner, next]),
                edge(EdgeKind::Edge, [up(corner), up(next)]),
                edge(upright, [corner, up(corner)]),
            ]);
            self.surfaces.push(Surface {
                part,
                rings: vec![vec![corner, next, up(next), up(corner)]],
                normal,
            });
        }
        self.surfaces.push(Surface {
            part,
            rings: vec![foot.iter().map(|&corner| up(corner)).collect()],
            normal: [0.0, 0.0, 1.0],
        });
    }
}

/// The outline of an item around its middle, seen from above.
fn footprint(item: &Item) -> impl Iterator<Item = [f64; 2]> {
    let [half_length, half_width] = [item.length / 2.0, item.width / 2.0];
    let (count, reach, start) = match item.shape {
        ItemShape::Oval | ItemShape::Round => (SIDES, 1.0, 0.0),
        _ => (4, std::f64::consts::SQRT_2, 0.5),
    };
    (0..count).map(move |corner| {
        let angle = std::f64::consts::TAU * (corner as f64 + start) / count as f64;
        let (sin, cos) = angle.steady_sin_cos();
        [half_length * reach * cos, half_width * reach * sin]
    })
}

/// The way out of the face that is inside the folded tray.
fn inner_face(stage: &Stage, pose: &Pose) -> Vec3 {
    // The hands begin with that face up: where the root has not moved, the way is up.
    let lie = stage.lie();
    let up = if stage.turned { -1.0 } else { 1.0 };
    let sign = lie.rows[2][2] * up;
    pose.turn([0.0, 0.0, sign])
}
