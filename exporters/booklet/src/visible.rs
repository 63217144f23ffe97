//! What the eye sees: the visible stretches of edges and the visible regions of surfaces, computed, not sampled.
//!
//! Given a scene and a view. A stretch is hidden where a surface lies in front of it, by more than an allowance that keeps
//! an edge from being hidden by the surface it bounds. Between two places where something can change (an edge of a surface
//! is crossed, or its plane is pierced) nothing changes, so one look in the middle is enough.

use i_overlay::core::fill_rule::FillRule;
use i_overlay::core::overlay_rule::OverlayRule;
use i_overlay::float::single::SingleFloatOverlay;

use crate::scene::{Edge, EdgeKind, Scene, Surface};
use crate::view::View;
use traywright_document::space::{Vec3, between, dot};

/// A place as seen: across and up.
pub(crate) type Seen = [f64; 2];

/// A region as seen: rings with the card on their left.
pub(crate) type Region = Vec<Vec<Seen>>;

/// So far in front of an edge a surface must be to hide it.
// Derived: far less than the thinnest card, far more than the noise of poses; half of it is what an edge loses or gains.
const ALLOWANCE_MM: f64 = 0.02;
/// A surface this steeply seen has no area and hides nothing.
const EDGE_ON: f64 = 1e-6;

/// A scene from where the eye is.
pub(crate) struct Sight<'a> {
    scene: &'a Scene,
    view: View,
    /// The view's ways across, up and towards the eye.
    axes: [Vec3; 3],
    screens: Vec<Screen>,
}

/// A surface as seen: what it hides lies behind it.
struct Screen {
    rings: Region,
    /// The rectangles around its rings.
    frames: Vec<Frame>,
    /// How near it is: `[0] * across + [1] * up + [2]`; none when it is seen edge on.
    nearness: Option<[f64; 3]>,
    /// Whether the eye looks onto its first face.
    first_face: bool,
}

/// A rectangle around something.
#[derive(Clone, Copy)]
struct Frame {
    least: Seen,
    most: Seen,
}

impl<'a> Sight<'a> {
    /// Looks at a scene.
    pub(crate) fn of(scene: &'a Scene, view: View) -> Sight<'a> {
        let axes = view.axes();
        let screens = scene.surfaces.iter().map(|surface| screen(surface, axes));
        Sight {
            scene,
            view,
            axes,
            screens: screens.collect(),
        }
    }

    /// The visible stretches of an edge, as seen.
    pub(crate) fn stretches(&self, edge: &Edge) -> Vec<[Seen; 2]> {
        if let EdgeKind::Seam(ways) = edge.kind {
            let [one, other] = ways.map(|way| dot(self.axes[2], way) > 0.0);
            if one == other {
                return Vec::new();
            }
        }
        let [from, to] = edge.ends.map(|end| self.axes.map(|axis| dot(axis, end)));
        let along = Frame::around(&[[from[0], from[1]], [to[0], to[1]]]);
        let mut hidden: Vec<[f64; 2]> = Vec::new();
        for screen in &self.screens {
            if screen.frames[0].meets(along) {
                screen.hides([from, to], along, &mut hidden);
            }
        }
        hidden.sort_by(|one, other| one[0].total_cmp(&other[0]));
        let place = |part: f64| {
            let [x, y, _] = between(from, to, part);
            [x, y]
        };
        let mut seen = Vec::new();
        let mut reached = 0.0;
        for [start, end] in hidden.into_iter().chain([[1.0, 1.0]]) {
            if start > reached + 1e-9 {
                seen.push([place(reached), place(start)]);
            }
            reached = f64::max(reached, end);
        }
        seen
    }

    /// The visible region of a surface.
    pub(crate) fn region(&self, index: usize) -> Vec<Region> {
        let own = &self.screens[index];
        let Some(plane) = own.nearness else {
            return Vec::new();
        };
        let mut cover: Vec<Vec<Seen>> = Vec::new();
        for (other, screen) in self.screens.iter().enumerate() {
            if other != index && screen.frames[0].meets(own.frames[0]) {
                cover.extend(screen.in_front_of(plane, own.frames[0]));
            }
        }
        if cover.is_empty() {
            return vec![own.rings.clone()];
        }
        own.rings
            .overlay(&cover, OverlayRule::Difference, FillRule::NonZero)
    }

    /// Whether the eye looks onto the first face of a surface.
    pub(crate) fn sees_first_face(&self, index: usize) -> bool {
        self.screens[index].first_face
    }

    /// How much of a part's surface is seen, in mm² on paper before scaling.
    pub(crate) fn area(&self, index: usize) -> f64 {
        self.region(index).iter().map(area).sum()
    }

    /// From where it is looked at.
    pub(crate) fn view(&self) -> View {
        self.view
    }

    /// The scene that is looked at.
    pub(crate) fn scene(&self) -> &'a Scene {
        self.scene
    }
}

/// Area of a region.
// Source: the shoelace formula.
pub(crate) fn area(region: &Region) -> f64 {
    let twice = |ring: &Vec<Seen>| -> f64 {
        let next = ring.iter().cycle().skip(1);
        let pairs = ring.iter().zip(next);
        pairs
            .map(|(one, two)| one[0] * two[1] - one[1] * two[0])
            .sum()
    };
    region.iter().map(twice).sum::<f64>().abs() / 2.0
}

fn screen(surface: &Surface, axes: [Vec3; 3]) -> Screen {
    let [across, up, _] = axes;
    let seen = |ring: &Vec<Vec3>| -> Vec<Seen> {
        let places = ring.iter();
        places
            .map(|&place| [dot(across, place), dot(up, place)])
            .collect()
    };
    let mut rings: Region = surface.rings.iter().map(seen).collect();
    let [across, up, towards] = axes.map(|axis| dot(axis, surface.normal));
    let nearness = (towards.abs() > EDGE_ON).then(|| {
        let level = dot(surface.normal, surface.rings[0][0]);
        [-across / towards, -up / towards, level / towards]
    });
    // Whichever face is seen, the outline runs with its inside on the left, so that regions add up.
    if signed_area(&rings[0]) < 0.0 {
        rings.iter_mut().for_each(|ring| ring.reverse());
    }
    Screen {
        frames: rings.iter().map(|ring| Frame::around(ring)).collect(),
        rings,
        nearness,
        first_face: towards > 0.0,
    }
}

fn signed_area(ring: &[Seen]) -> f64 {
    let next = ring.iter().cycle().skip(1);
    let pairs = ring.iter().zip(next);
    pairs
        .map(|(one, two)| one[0] * two[1] - one[1] * two[0])
        .sum()
}

/// The least and the greatest coordinates of places; infinite and the wrong way round where there are none.
pub(crate) fn bounds(places: impl IntoIterator<Item = Seen>) -> [Seen; 2] {
    let nothing = [[f64::INFINITY; 2], [f64::NEG_INFINITY; 2]];
    places.into_iter().fold(nothing, |[least, most], place| {
        [
            [0, 1].map(|axis| least[axis].min(place[axis])),
            [0, 1].map(|axis| most[axis].max(place[axis])),
        ]
    })
}

impl Frame {
    fn around(places: &[Seen]) -> Frame {
        let [least, most] = bounds(places.iter().copied());
        Frame { least, most }
    }

    fn meets(self, other: Frame) -> bool {
        (0..2).all(|axis| {
            self.least[axis] <= other.most[axis] && other.least[axis] <= self.most[axis]
        })
    }
}

impl Screen {
    /// Adds the parts of a line in a frame that it hides. Its ends are across, up and towards the eye.
    fn hides(&self, [from, to]: [Vec3; 2], along: Frame, hidden: &mut Vec<[f64; 2]>) {
        let Some(plane) = self.nearness else { return };
        let in_front = |place: Vec3| nearness(plane, [place[0], place[1]]) - place[2];
        let (start, end) = (in_front(from) - ALLOWANCE_MM, in_front(to) - ALLOWANCE_MM);
        if start <= 0.0 && end <= 0.0 {
            return;
        }
        let near: Vec<&[Seen]> = self.rings_near(along).collect();
        let mut changes = vec![0.0, 1.0];
        if (start > 0.0) != (end > 0.0) {
            changes.push(start / (start - end));
        }
        for ring in &near {
            for (at, &corner) in ring.iter().enumerate() {
                changes.extend(crossing(from, to, corner, ring[(at + 1) % ring.len()]));
            }
        }
        changes.sort_by(f64::total_cmp);
        for pair in changes.windows(2) {
            let middle = between(from, to, (pair[0] + pair[1]) / 2.0);
            if pair[1] > pair[0]
                && in_front(middle) > ALLOWANCE_MM
                && contains(near.iter().copied(), [middle[0], middle[1]])
            {
                hidden.push([pair[0], pair[1]]);
            }
        }
    }

    /// The rings that a thing within a frame can meet: a hole beside it changes nothing there.
    fn rings_near(&self, frame: Frame) -> impl Iterator<Item = &[Seen]> {
        let near = self.rings.iter().zip(&self.frames);
        near.filter(move |(_, own)| own.meets(frame))
            .map(|(ring, _)| ring.as_slice())
    }

    /// Its rings that come near a frame, as far as they lie in front of a plane.
    fn in_front_of(&self, plane: [f64; 3], frame: Frame) -> Vec<Vec<Seen>> {
        let Some(own) = self.nearness else {
            return Vec::new();
        };
        let ahead = |place: &Seen| nearness(own, *place) - nearness(plane, *place) - ALLOWANCE_MM;
        if self.rings[0].iter().all(|place| ahead(place) <= 0.0) {
            return Vec::new();
        }
        if self.rings[0].iter().all(|place| ahead(place) >= 0.0) {
            return self.rings_near(frame).map(<[Seen]>::to_vec).collect();
        }
        let rings = self.rings_near(frame).map(|ring| kept(ring, &ahead));
        rings.filter(|ring| ring.len() > 2).collect()
    }
}

/// Whether a place lies within an outline and in no hole.
pub(crate) fn contains<'a>(rings: impl IntoIterator<Item = &'a [Seen]>, place: Seen) -> bool {
    let mut inside = false;
    for ring in rings {
        for (at, one) in ring.iter().enumerate() {
            let two = ring[(at + 1) % ring.len()];
            if (one[1] > place[1]) != (two[1] > place[1]) {
                let part = (place[1] - one[1]) / (two[1] - one[1]);
                inside ^= one[0] + part * (two[0] - one[0]) > place[0];
            }
        }
    }
    inside
}

/// How near a plane is at a place.
fn nearness(plane: [f64; 3], place: Seen) -> f64 {
    plane[0] * place[0] + plane[1] * place[1] + plane[2]
}

/// Where a line crosses the way from one corner to the next, as a share of its length.
fn crossing(from: Vec3, to: Vec3, corner: Seen, next: Seen) -> Option<f64> {
    let way = [to[0] - from[0], to[1] - from[1]];
    let side = [next[0] - corner[0], next[1] - corner[1]];
    let turn = way[0] * side[1] - way[1] * side[0];
    if turn == 0.0 {
        return None;
    }
    let start = [corner[0] - from[0], corner[1] - from[1]];
    let part = (start[0] * side[1] - start[1] * side[0]) / turn;
    let on_side = (start[0] * way[1] - start[1] * way[0]) / turn;
    (part > 0.0 && part < 1.0 && (-1e-9..=1.0 + 1e-9).contains(&on_side)).then_some(part)
}

/// The part of a ring where a value that changes evenly is above 0.
// Source: Sutherland and Hodgman, clipping against one side.
pub(crate) fn kept<const N: usize>(
    ring: &[[f64; N]],
    value: &impl Fn(&[f64; N]) -> f64,
) -> Vec<[f64; N]> {
    let mut kept = Vec::new();
    for (at, one) in ring.iter().enumerate() {
        let two = &ring[(at + 1) % ring.len()];
        let (here, next) = (value(one), value(two));
        if here > 0.0 {
            kept.push(*one);
        }
        if (here > 0.0) != (next > 0.0) {
            let part = here / (here - next);
            kept.push(std::array::from_fn(|axis| {
                one[axis] + (two[axis] - one[axis]) * part
            }));
        }
    }
    kept
}
