//! The shapes of cut card at a crease, flat and folded.
//!
//! **Input:** nothing. **Output:** pictures around the crease at the origin, in mm of paper, with the face that is worked on
//! upwards. Thickness is the same for all card, so that the pictures can be read. **Does not** cross anything out.

use traywright_document::steady::Steady;
use traywright_look::{Colour, LineStyle};

use crate::line_styles as looks;
use crate::picture::Picture;
use crate::visible::Seen;

/// Half the thickness of the card in a picture.
pub(crate) const HALF: f64 = 2.2;
/// How far a picture reaches from the crease.
pub(crate) const REACH: f64 = 11.0;
/// Where the words stand that say how deep a half-cut is.
pub(crate) const BESIDE_THE_DEPTH: Seen = [3.4, HALF + 1.4];

/// A groove: half its width, and how deep it is.
const GROOVE: [f64; 2] = [2.0, 1.6];
/// The bead at a fold.
const BEAD: f64 = 1.5;
/// Half the width of a half-cut at the face of the card.
const CUT: f64 = 0.35;
/// Half the width in which flutes are crushed, and what is left of them.
const CRUSHED: [f64; 2] = [2.6, 0.9];
/// From one flute to the next.
const FLUTE: f64 = 3.4;
/// The way along which a curve is drawn as a straight line.
const STEP: f64 = 0.25;

/// The deepest a knife or a wheel of a picture stands up.
const TOOL: f64 = 7.5;

/// Card pressed flat: a groove above, a bead below.
pub(crate) fn groove() -> Picture {
    let [half, deep] = GROOVE;
    let steps = (2.0 * half / STEP) as usize;
    // A raised cosine: level at both its ends and in the middle.
    let dip = |step: usize| {
        let part = step as f64 / steps as f64;
        let (_, cos) = (std::f64::consts::TAU * part).steady_sin_cos();
        [(2.0 * part - 1.0) * half, deep * (1.0 - cos) / 2.0]
    };
    let mut ring = vec![[-REACH, HALF]];
    ring.extend((0..=steps).map(dip).map(|[x, down]| [x, HALF - down]));
    ring.extend([[REACH, HALF], [REACH, -HALF]]);
    let below = (0..=steps).rev().map(dip);
    ring.extend(below.map(|[x, down]| [x, -HALF - down]));
    ring.push([-REACH, -HALF]);
    let mut picture = card(vec![ring]);
    let foot = HALF - deep;
    tool(&mut picture, disc([0.0, foot + 1.2], 1.1));
    tool(
        &mut picture,
        vec![
            [-0.8, foot + 1.2],
            [0.8, foot + 1.2],
            [1.4, TOOL],
            [-1.4, TOOL],
        ],
    );
    picture
}

/// Folded away from the groove: the bead is in the inner corner.
pub(crate) fn folded_around_the_bead() -> Picture {
    let inner = [-HALF, -HALF];
    let mut ring = vec![
        [-REACH, HALF],
        [HALF - 0.9, HALF],
        [HALF, HALF - 0.9],
        [HALF, -REACH],
        [-HALF, -REACH],
    ];
    ring.extend(arc(inner, BEAD, [270.0, 180.0]));
    ring.push([-REACH, -HALF]);
    card(vec![ring])
}

/// Folded towards the groove: the bead is outside and bursts.
pub(crate) fn folded_onto_the_groove() -> Picture {
    let outer = [HALF - 0.6, -HALF + 0.6];
    let mut ring = vec![[-REACH, -HALF], [-0.6, -HALF]];
    ring.extend(arc(outer, BEAD + 0.6, [225.0, 405.0]));
    ring.extend([
        [HALF, 0.6],
        [HALF, REACH],
        [-HALF, REACH],
        [-HALF, HALF],
        [-REACH, HALF],
    ]);
    let mut picture = card(vec![ring]);
    let crack = vec![
        [HALF + 0.9, -HALF - 0.9],
        [HALF - 0.5, -HALF + 0.1],
        [HALF - 0.6, -HALF + 1.1],
        [0.2, -0.4],
    ];
    picture.lines.push((looks::MOVING, crack));
    picture
}

/// Card cut half through from above, flat, with the measure of its depth.
pub(crate) fn half_cut() -> Picture {
    let ring = vec![
        [-REACH, HALF],
        [-CUT, HALF],
        [0.0, 0.0],
        [CUT, HALF],
        [REACH, HALF],
        [REACH, -HALF],
        [-REACH, -HALF],
    ];
    let mut picture = card(vec![ring]);
    tool(&mut picture, vec![[0.0, 0.1], [0.3, TOOL], [-2.2, TOOL]]);
    let at = BESIDE_THE_DEPTH[0] + 0.8;
    let lines = [
        (looks::UNFOLDED, vec![[0.4, 0.0], [at + 1.0, 0.0]]),
        (looks::THICK_MEASURE, vec![[at, 0.0], [at, HALF]]),
    ];
    picture.lines.extend(lines);
    picture
}

/// Folded away from the cut: the inner half bends in its own middle.
// Derived: the fold line lies a quarter of the thickness over the inner face; what is left bends around it.
pub(crate) fn folded_with_the_cut_outside() -> Picture {
    let quarter = HALF / 2.0;
    let mut ring = vec![[-REACH, HALF], [0.0, HALF]];
    ring.extend(arc([0.0, -quarter], quarter, [90.0, 0.0]));
    ring.extend([
        [3.0 * quarter, -quarter],
        [3.0 * quarter, -REACH],
        [-quarter, -REACH],
        [-quarter, -HALF],
        [-REACH, -HALF],
    ]);
    card(vec![ring])
}

/// Folded towards the cut: what is left tears.
pub(crate) fn folded_onto_the_cut() -> Picture {
    let torn = [
        [0.0, HALF],
        [0.0, 0.0],
        [0.4, -0.5],
        [-0.3, -1.1],
        [0.3, -1.6],
        [0.0, -HALF],
    ];
    let mut left = vec![[-REACH, HALF]];
    left.extend(torn);
    left.push([-REACH, -HALF]);
    let (sin, cos) = 55.0_f64.to_radians().steady_sin_cos();
    let turned = |[x, y]: Seen| {
        let up = y - HALF;
        [x * cos - up * sin, HALF + x * sin + up * cos]
    };
    let mut right = vec![[REACH - 1.5, -HALF], [REACH - 1.5, HALF]];
    right.extend(torn);
    card(vec![left, right.into_iter().map(turned).collect()])
}

/// Cut through: the panel comes off.
pub(crate) fn cut_through() -> Picture {
    let (apart, down) = (0.5, 1.3);
    let left = vec![
        [-REACH, HALF],
        [-apart, HALF],
        [-apart, -HALF],
        [-REACH, -HALF],
    ];
    let right = vec![
        [apart, HALF - down],
        [REACH, HALF - down],
        [REACH, -HALF - down],
        [apart, -HALF - down],
    ];
    let mut picture = card(vec![left, right]);
    tool(
        &mut picture,
        vec![[0.0, -HALF - 1.0], [0.3, TOOL - 1.5], [-1.9, TOOL - 1.5]],
    );
    picture
}

/// Corrugated board, its flutes crushed from above and both its liners whole.
pub(crate) fn crushed_flutes() -> Picture {
    let [half, left] = CRUSHED;
    let mut picture = Picture::default();
    let foot = -HALF + left;
    let upper = vec![
        [-REACH, HALF],
        [-half, HALF],
        [-0.6, foot],
        [0.6, foot],
        [half, HALF],
        [REACH, HALF],
    ];
    let flutes = [wave([-REACH, -half]), wave([half, REACH])];
    picture
        .lines
        .extend(flutes.map(|flutes| (looks::EDGE, flutes)));
    let crushed = vec![
        [-half, 0.0],
        [-1.0, foot - 0.5],
        [1.0, foot - 0.5],
        [half, 0.0],
    ];
    picture.lines.push((looks::EDGE, crushed));
    liners(&mut picture, [upper, vec![[-REACH, -HALF], [REACH, -HALF]]]);
    tool(&mut picture, disc([0.0, foot + 1.5], 1.3));
    tool(
        &mut picture,
        vec![
            [-0.3, foot + 1.5],
            [0.3, foot + 1.5],
            [0.3, TOOL],
            [-0.3, TOOL],
        ],
    );
    picture
}

/// Folded over what is crushed: the outer liner runs round the fold.
pub(crate) fn folded_over_the_flutes() -> Picture {
    let ([half, left], thick) = (CRUSHED, 2.0 * HALF);
    let mut picture = Picture::default();
    // The standing part is the lying one turned about the outer liner.
    let ends = [-thick - half, HALF + half];
    let inner = vec![
        [-REACH, HALF],
        [ends[0], HALF],
        [-left, -HALF + left],
        [-thick, ends[1]],
        [-thick, REACH],
    ];
    let mut outer = vec![[-REACH, -HALF]];
    outer.extend(arc([-left, -HALF + left], left, [270.0, 360.0]));
    outer.push([0.0, REACH]);
    let standing = wave([ends[1], REACH]).into_iter();
    let standing = standing.map(|[x, y]| [y - HALF, x]).collect();
    let flutes = [wave([-REACH, ends[0]]), standing];
    picture
        .lines
        .extend(flutes.map(|flutes| (looks::EDGE, flutes)));
    liners(&mut picture, [inner, outer]);
    picture
}

/// Cut from the outside: the liner that holds the fold is gone.
pub(crate) fn liner_cut() -> Picture {
    let apart = 0.5;
    let mut picture = Picture::default();
    let flutes = [wave([-REACH, -apart]), wave([apart, REACH])];
    picture
        .lines
        .extend(flutes.map(|flutes| (looks::EDGE, flutes)));
    let lower = [[-REACH, -apart], [apart, REACH]].map(|ends| ends.map(|x| [x, -HALF]).to_vec());
    liners(&mut picture, lower);
    liners(&mut picture, [vec![[-REACH, HALF], [REACH, HALF]]]);
    tool(
        &mut picture,
        vec![[0.0, HALF - 0.6], [0.3, -TOOL], [-2.2, -TOOL]],
    );
    picture
}

/// Cut card.
fn card(rings: Vec<Vec<Seen>>) -> Picture {
    let mut picture = Picture::default();
    for ring in rings {
        let around = ring.iter().chain(ring.first()).copied().collect();
        picture.lines.push((looks::EDGE, around));
        picture.fills.push((looks::BOX_TINT, vec![ring]));
    }
    picture
}

fn tool(picture: &mut Picture, ring: Vec<Seen>) {
    picture.fills.push((TOOL_TINT, vec![ring]));
}

const TOOL_TINT: Colour = Colour([0x77, 0x77, 0x77]);

fn liners<const N: usize>(picture: &mut Picture, liners: [Vec<Seen>; N]) {
    const LINER: LineStyle = looks::MOVING;
    picture.lines.extend(liners.map(|liner| (LINER, liner)));
}

/// The flutes between two liners, from one place to another.
fn wave([from, to]: [f64; 2]) -> Vec<Seen> {
    let steps = ((to - from) / STEP) as usize;
    let place = |step: usize| {
        let x = from + (to - from) * step as f64 / steps as f64;
        let (sin, _) = (std::f64::consts::TAU * x / FLUTE).steady_sin_cos();
        [x, (HALF - 0.3) * sin]
    };
    (0..=steps).map(place).collect()
}

/// Places on an arc from one angle to another, in degrees, both ends among them.
fn arc([x, y]: Seen, radius: f64, [from, to]: [f64; 2]) -> Vec<Seen> {
    const STEPS: usize = 12;
    let place = |step: usize| {
        let angle = from + (to - from) * step as f64 / STEPS as f64;
        let (sin, cos) = angle.to_radians().steady_sin_cos();
        [x + radius * cos, y + radius * sin]
    };
    (0..=STEPS).map(place).collect()
}

fn disc(centre: Seen, radius: f64) -> Vec<Seen> {
    arc(centre, radius, [0.0, 360.0])
}
