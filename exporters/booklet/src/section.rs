//! The finished tray cut by an upright plane through the middle of an item.
//!
//! **Input:** the card, how it stands in the end, and an item. **Output:** the cut card as polygons of its caliper, what is
//! seen of the card behind the plane, the box, the item and its pad. Places are along the plane and up, in mm; heights
//! count from the surface on which items stand. **Does not** know how it is drawn.

use traywright_document::space::{Vec3, between};
use traywright_document::steady::Steady;
use traywright_document::{Held, Item, Orientation, Pose, Stage};

use crate::card::{Card, Panel};
use crate::scene::{Edge, Part, Scene, Surface};
use crate::tray::measure;
use crate::view::View;
use crate::visible::{Seen, Sight, kept};

/// A panel that leans nearly along the plane is not cut.
const ALONG_PLANE: f64 = 0.05;
/// An end of cut card nearer to a crease than this lies in it.
// Derived: far more than the rounding of a pose, far less than the thinnest card.
const AT_CREASE_MM: f64 = 1e-3;
/// What hangs or stands at the edge of an opening is no farther from the item.
// Source: a choice of this project: more than any clearance that a job asks for.
const BESIDE_MM: f64 = 10.0;

/// A side of the box.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Axis {
    Along,
    Across,
}

/// The cut tray.
#[derive(Clone, Debug)]
pub(crate) struct Section {
    pub(crate) cards: Vec<CutCard>,
    /// Visible edges of the card behind the plane.
    pub(crate) behind: Vec<[Seen; 2]>,
    /// The item from side to side.
    pub(crate) item: [f64; 2],
    /// The inner faces of the box's walls.
    pub(crate) walls: [f64; 2],
    /// The box's floor, and the underside of its lid.
    pub(crate) heights: [f64; 2],
    /// The panel around the item.
    around: usize,
    /// The ends of the flap or the fence beside the item, upwards.
    pub(crate) hung: Option<[f64; 2]>,
}

/// A stretch of cut card.
#[derive(Clone, Debug)]
pub(crate) struct CutCard {
    panel: usize,
    /// Its ends, in the middle of the card.
    ends: [Seen; 2],
    /// The same as they are drawn: those in creases reach half a caliper farther.
    pub(crate) drawn: [Seen; 2],
    /// Half of what the plane shows of its caliper, as a way across it.
    pub(crate) half: Seen,
}

/// The plane of a section.
#[derive(Clone, Copy)]
struct Plane {
    axis: Axis,
    /// Where it stands on the other axis.
    at: f64,
    /// The surface on which items stand.
    floor: f64,
}

impl Axis {
    /// Its number in the standing tray's frame, and that of the other one.
    fn numbers(self) -> [usize; 2] {
        match self {
            Axis::Along => [0, 1],
            Axis::Across => [1, 0],
        }
    }

    /// The view onto a plane along it, such that it runs to the right.
    fn view(self) -> View {
        View {
            azimuth_deg: match self {
                Axis::Along => -90.0,
                Axis::Across => 0.0,
            },
            elevation_deg: 0.0,
        }
    }

    /// How far a place lies behind a plane along it.
    fn behind(self, place: &Vec3, at: f64) -> f64 {
        match self {
            Axis::Along => place[1] - at,
            Axis::Across => at - place[0],
        }
    }
}

impl Section {
    /// Cuts the tray through an item; none where the item has no place or is not known to be held.
    pub(crate) fn of(card: &Card, last: &Stage, item: &Item, axis: Axis) -> Option<Section> {
        let document = card.document();
        let mut stage = last.clone();
        stage.turned = document.stands == Orientation::RootUp;
        let poses = card.poses(&stage);
        let own = poses.get(item.panel)?;
        let (middle, held) = (own.apply(item.middle?.in_space()), item.held?);
        let [side, other] = axis.numbers();
        let slabs = reach(card, &poses);
        let lift = document.box_size.depth.mm()
            - measure(document, "folded_depth")?
            - measure(document, "box_clearance_depth")?;
        let box_floor = slabs[0][2] - lift;
        let plane = Plane {
            axis,
            at: middle[other],
            floor: floor(card, &poses, (item, held), box_floor),
        };
        let width = item_width(&card.panels[item.panel], own, item, side);
        let item_sides = [-0.5, 0.5].map(|half| middle[side] + half * width);
        let cards = cards(card, &poses, plane);
        let inside = [document.box_size.length, document.box_size.width][side].mm();
        let centre = (slabs[0][side] + slabs[1][side]) / 2.0;
        let ground = box_floor - plane.floor;
        Some(Section {
            around: item.panel,
            hung: hung(card, &cards, item.panel, item_sides[1]),
            behind: behind(&Scene::of(card, &stage), plane, item, item_sides),
            cards,
            item: item_sides,
            walls: [-0.5, 0.5].map(|half| centre + half * inside),
            heights: [ground, ground + document.box_size.depth.mm()],
        })
    }
}

impl Section {
    /// The lower end of what could stop the item at its right side, if it reached it: a flap, or the panel around it.
    pub(crate) fn low_end(&self) -> Option<f64> {
        let around = || {
            let deck = self.cards.iter().filter(|cut| cut.panel == self.around);
            let deck = deck.map(|cut| cut.ends[0][1] - cut.half[1].abs());
            deck.reduce(f64::min)
        };
        self.hung.map(|[low, _]| low).or_else(around)
    }
}

/// How far an item reaches along an axis of the standing tray.
fn item_width(panel: &Panel, pose: &Pose, item: &Item, side: usize) -> f64 {
    let way = panel.first_axis();
    let lies = pose.turn([way.x, way.y, 0.0]);
    if lies[side].abs() > 0.5 {
        item.length
    } else {
        item.width
    }
}

/// The surface on which items stand.
fn floor(card: &Card, poses: &[Pose], (item, held): (&Item, Held), box_floor: f64) -> f64 {
    let half = card.document().board.caliper / 2.0;
    let middle = |at: Option<traywright_document::Point>, pose: &Pose| {
        at.map_or(pose.shift[2], |at| pose.apply(at.in_space())[2])
    };
    match (held.deck, card.document().stands) {
        (Some(deck), _) => middle(item.middle, &poses[item.panel]) + half - deck,
        (None, Orientation::RootUp) => box_floor,
        (None, Orientation::RootDown) => poses[0].shift[2] + half,
    }
}

/// Least and greatest coordinates of the card with its caliper.
fn reach(card: &Card, poses: &[Pose]) -> [Vec3; 2] {
    let half = card.document().board.caliper / 2.0;
    let mut reach = [[f64::INFINITY; 3], [f64::NEG_INFINITY; 3]];
    for (panel, pose) in card.panels.iter().zip(poses) {
        for corner in &panel.rings[0] {
            let place = pose.apply(corner.in_space());
            for axis in 0..3 {
                let more = half * pose.rows[axis][2].abs();
                reach[0][axis] = reach[0][axis].min(place[axis] - more);
                reach[1][axis] = reach[1][axis].max(place[axis] + more);
            }
        }
    }
    reach
}

/// All stretches of card that a plane cuts.
fn cards(card: &Card, poses: &[Pose], plane: Plane) -> Vec<CutCard> {
    let caliper = card.document().board.caliper;
    let mut cards = Vec::new();
    for (index, panel) in card.panels.iter().enumerate() {
        let hinges = card.panels.iter().enumerate();
        let hinges: Vec<[Vec3; 2]> = hinges
            .filter_map(|(other, panel)| Some((other, panel.hinge?)))
            .filter(|(other, hinge)| *other == index || hinge.parent == index)
            .map(|(_, hinge)| hinge.line.map(|end| end.in_space()))
            .collect();
        cards.extend(cut(panel, &poses[index], plane).map(|ends| {
            let ends = ends.map(|end| (end, is_in_crease(end, &hinges)));
            stretch(index, ends, &poses[index], (plane, caliper))
        }));
    }
    cards
}

/// The stretches of a panel that a plane cuts, in the flat frame.
fn cut(panel: &Panel, pose: &Pose, plane: Plane) -> impl Iterator<Item = [Vec3; 2]> + use<> {
    let [_, other] = plane.axis.numbers();
    let [x, y, _] = pose.rows[other];
    let off = |place: Vec3| x * place[0] + y * place[1] + pose.shift[other] - plane.at;
    let mut crossings: Vec<(f64, Vec3)> = Vec::new();
    let rings = panel
        .rings
        .iter()
        .filter(|_| x.steady_hypot(y) > ALONG_PLANE);
    for ring in rings {
        for (at, from) in ring.iter().enumerate() {
            let [from, to] = [from, &ring[(at + 1) % ring.len()]].map(|end| end.in_space());
            let (start, end) = (off(from), off(to));
            if (start > 0.0) != (end > 0.0) {
                let place = between(from, to, start / (start - end));
                crossings.push((x * place[1] - y * place[0], place));
            }
        }
    }
    crossings.sort_by(|one, other| one.0.total_cmp(&other.0));
    let pairs: Vec<[Vec3; 2]> = crossings
        .chunks_exact(2)
        .map(|pair| [pair[0].1, pair[1].1])
        .collect();
    pairs.into_iter()
}

/// Whether a place of the blank lies in one of some creases.
fn is_in_crease(place: Vec3, hinges: &[[Vec3; 2]]) -> bool {
    hinges.iter().any(|[from, to]| {
        let way = [to[0] - from[0], to[1] - from[1]];
        let length = way[0].steady_hypot(way[1]).max(1e-9);
        let start = [place[0] - from[0], place[1] - from[1]];
        let aside = (way[0] * start[1] - way[1] * start[0]) / length;
        let along = (way[0] * start[0] + way[1] * start[1]) / length;
        aside.abs() < AT_CREASE_MM && (0.0..=length).contains(&along)
    })
}

/// A stretch of a panel as it stands, each end with whether it lies in a crease.
// Derived: a plane that meets card at a slant shows more than its caliper: by the share of the card's way across that lies
// in the plane. Around a crease two panels fill the square of a caliper between them.
fn stretch(
    panel: usize,
    ends: [(Vec3, bool); 2],
    pose: &Pose,
    (plane, caliper): (Plane, f64),
) -> CutCard {
    let [side, _] = plane.axis.numbers();
    let across = [pose.rows[side][2], pose.rows[2][2]];
    let share = across[0].steady_hypot(across[1]).max(ALONG_PLANE);
    let half = across.map(|part| part / share * caliper / 2.0 / share);
    let seen = ends.map(|(end, _)| {
        let place = pose.apply(end);
        [place[side], place[2] - plane.floor]
    });
    let way = [seen[1][0] - seen[0][0], seen[1][1] - seen[0][1]];
    let length = way[0].steady_hypot(way[1]).max(1e-9);
    let mut drawn = seen;
    for (end, sign) in [(0, -1.0), (1, 1.0)] {
        if ends[end].1 {
            drawn[end] =
                [0, 1].map(|part| seen[end][part] + sign * way[part] / length * caliper / 2.0);
        }
    }
    CutCard {
        panel,
        ends: seen,
        drawn,
        half,
    }
}

/// The ends of what hangs or stands at the edge of an opening, right of its item.
fn hung(card: &Card, cards: &[CutCard], around: usize, item: f64) -> Option<[f64; 2]> {
    let caliper = card.document().board.caliper;
    let starts = cards.iter().filter(|cut| cut.panel == around);
    let deck = starts
        .map(|cut| cut.ends[0][0].min(cut.ends[1][0]))
        .filter(|start| *start > item - caliper);
    let nearest = deck.fold(item + BESIDE_MM, f64::min) + 2.0 * caliper;
    let hangs = |cut: &&CutCard| {
        let parent = card.panels[cut.panel].hinge.map(|hinge| hinge.parent);
        let places = cut.ends.map(|end| end[0]);
        let [low, high] = cut.span();
        parent == Some(around)
            && places
                .iter()
                .all(|place| (item - caliper..=nearest).contains(place))
            && high - low > 2.0 * caliper
    };
    cards.iter().find(hangs).map(CutCard::span)
}

impl CutCard {
    /// The heights of its ends, upwards.
    fn span(&self) -> [f64; 2] {
        let [one, other] = self.ends.map(|end| end[1]);
        [one.min(other), one.max(other)]
    }
}

/// What is seen of the card behind a plane, the item and its pad in front of it.
fn behind(scene: &Scene, plane: Plane, item: &Item, sides: [f64; 2]) -> Vec<[Seen; 2]> {
    let depth = |place: &Vec3| plane.axis.behind(place, plane.at);
    let mut rest = Scene::default();
    for surface in &scene.surfaces {
        let rings = surface.rings.iter().map(|ring| kept(ring, &depth));
        let rings: Vec<Vec<Vec3>> = rings.filter(|ring| ring.len() > 2).collect();
        // The outline comes first: a hole alone is no card.
        if kept(&surface.rings[0], &depth).len() > 2 {
            rest.surfaces.push(Surface {
                rings,
                ..surface.clone()
            });
        }
    }
    rest.edges.extend(scene.edges.iter().filter_map(|edge| {
        let [start, end] = [depth(&edge.ends[0]), depth(&edge.ends[1])];
        let place = |part: f64| between(edge.ends[0], edge.ends[1], part);
        let ends = match [start > 0.0, end > 0.0] {
            [true, true] => edge.ends,
            [true, false] => [edge.ends[0], place(start / (start - end))],
            [false, true] => [place(start / (start - end)), edge.ends[1]],
            _ => return None,
        };
        Some(Edge { ends, ..*edge })
    }));
    rest.surfaces.push(front(plane, item, sides));
    let sight = Sight::of(&rest, plane.axis.view());
    let seen = rest.edges.iter().flat_map(|edge| sight.stretches(edge));
    // An edge that runs away from the eye is a point.
    let long = seen.filter(|[from, to]| (from[0] - to[0]).steady_hypot(from[1] - to[1]) > 0.05);
    long.map(|line| line.map(|[along, up]| [along, up - plane.floor]))
        .collect()
}

/// The item and its pad as they stand in a plane.
fn front(plane: Plane, item: &Item, sides: [f64; 2]) -> Surface {
    let heights = [item.rest - item.pad, item.rest + item.depth].map(|height| plane.floor + height);
    let corners = [(0, 0), (1, 0), (1, 1), (0, 1)];
    let place = |(side, height): (usize, usize)| match plane.axis {
        Axis::Along => [sides[side], plane.at, heights[height]],
        Axis::Across => [plane.at, sides[side], heights[height]],
    };
    Surface {
        part: Part::Item,
        rings: vec![corners.map(place).to_vec()],
        normal: match plane.axis {
            Axis::Along => [0.0, -1.0, 0.0],
            Axis::Across => [1.0, 0.0, 0.0],
        },
    }
}
