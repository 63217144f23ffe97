//! Items, pads and box, for the scene that shows the tray in use.
//!
//! **Input:** the finished tray. **Output:** one solid for each. An item is a block over its whole outline and depth,
//! also where the job gives it a narrower top; the box has walls and floor of [`WALL_MM`] around its inside.

use std::f64::consts::TAU;

use traywright_document::steady::Steady;
use traywright_document::{Document, Item, ItemShape, Point, Resting, Vector};

use crate::profile::{Place, Profile};
use crate::solid::{End, Solid, Surface, Surfaces};

/// Thickness of the walls of the box, which the job does not tell.
// Source: a choice of this project.
const WALL_MM: f64 = 2.0;
/// Corners of an oval.
// Derived: a chord leaves an oval of 100 mm by 0.03 mm.
const CORNERS: u32 = 120;

/// An item in the tray, and its pad if it lies on one.
pub(crate) fn item(document: &Document, item: &Item) -> Option<(Solid, Option<Solid>)> {
    let resting = document.resting(item)?;
    let whole = prism(document, item, &resting, [0.0, item.depth], Surface::Item);
    let pad =
        (item.pad > 0.0).then(|| prism(document, item, &resting, [-item.pad, 0.0], Surface::Pad));
    Some((whole, pad))
}

/// The outline of an item between two heights over its underside.
fn prism(
    document: &Document,
    item: &Item,
    resting: &Resting,
    heights: [f64; 2],
    surface: Surface,
) -> Solid {
    let profile = Profile::fan(outline(item));
    let (along, across) = (resting.along, resting.along.left());
    let place = |[x, y]: Place, height: f64| {
        let at = Point::new(resting.at[0], resting.at[1]) + along * x + across * y;
        (at, resting.at[2] + document.up() * height)
    };
    upright(document, &profile, heights, surface, place)
}

/// A profile between two heights. `place` gives a point of the folded frame.
fn upright(
    document: &Document,
    profile: &Profile,
    [low, high]: [f64; 2],
    surface: Surface,
    place: impl Fn(Place, f64) -> (Point, f64),
) -> Solid {
    // Where up is against z, the lower end is the far one.
    let ends = if document.up() > 0.0 {
        [low, high]
    } else {
        [high, low]
    };
    let mut solid = Solid::default();
    let at = |corner: Place, end: End| {
        let height = if end == End::Near { ends[0] } else { ends[1] };
        let (point, z) = place(corner, height);
        [point.x, point.y, z]
    };
    let (near, far, side) = (surface, surface, |_| surface);
    solid.extrude(profile, at, Surfaces { near, far, side });
    solid
}

/// The outline of an item about its middle, counter-clockwise.
fn outline(item: &Item) -> Vec<Place> {
    let half = Vector::new(item.length / 2.0, item.width / 2.0);
    match item.shape {
        ItemShape::Oval | ItemShape::Round => (0..CORNERS)
            .map(|corner| {
                let angle = TAU * f64::from(corner) / f64::from(CORNERS);
                let (sin, cos) = angle.steady_sin_cos();
                [half.x * cos, half.y * sin]
            })
            .collect(),
        _ => rectangle(half).to_vec(),
    }
}

fn rectangle(half: Vector) -> [Place; 4] {
    [(-1.0, -1.0), (1.0, -1.0), (1.0, 1.0), (-1.0, 1.0)].map(|(x, y)| [x * half.x, y * half.y])
}

/// The box, open above: four walls and a floor around its inside. None for a piece without a box.
pub(crate) fn open_box(document: &Document) -> Option<Vec<Solid>> {
    if !document.has_box() {
        return None;
    }
    let [length, width, depth] = [
        &document.box_size.length,
        &document.box_size.width,
        &document.box_size.depth,
    ]
    .map(|side| side.mm());
    let inside = Vector::new(length / 2.0, width / 2.0);
    let outside = Vector::new(inside.x + WALL_MM, inside.y + WALL_MM);
    let seat = document.seat();
    let place = |[x, y]: Place, height: f64| {
        let at = Point::new(seat[0] + x, seat[1] + y);
        (at, seat[2] + document.up() * height)
    };
    let mut hole = rectangle(inside).to_vec();
    hole.reverse();
    let walls = Profile::rest(vec![rectangle(outside).to_vec(), hole], Vec::new());
    let floor = Profile::fan(rectangle(outside).to_vec());
    let solids = [(walls, [0.0, depth]), (vec![floor], [-WALL_MM, 0.0])];
    let solids = solids.iter().flat_map(|(profiles, heights)| {
        let each = profiles.iter();
        each.map(|profile| upright(document, profile, *heights, Surface::Box, place))
    });
    Some(solids.collect())
}
