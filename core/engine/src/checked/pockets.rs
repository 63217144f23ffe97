//! Pockets: walls that are folded back onto themselves, with other layers of card trapped between.
//!
//! **Input:** the folded tray. **Output:** each kind of pocket with the clearance of its layers and the chain of that
//! clearance. **Does not** check.

use traywright_document::space::dot;

use crate::folded::{FoldedTray, Reach};
use crate::geometry::TOUCH_MM;
use crate::tolerance::Chain;
use crate::tray::{PanelId, Tray};

/// Cosine of the greatest angle, one degree, between two folds and half a turn, and between a layer and the wall.
const ALONG: f64 = 0.9998;

/// A layer is trapped if it overlaps the wall by at least this much, in both directions.
// Source: a choice of this project: twice what hands can cut.
const OVER_MM: f64 = 1.0;

/// Layers with more clearance than this are not trapped: they are between two walls for another reason.
// Source: a choice of this project: six times the usual play.
const TRAPPED_MM: f64 = 3.0;

/// Layers of card between a wall and the panel folded back from it.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Pocket {
    /// The wall and the panel folded back, by the names of their families.
    pub(super) walls: [String; 2],
    /// The layers between, by the names of their families.
    pub(super) layers: Vec<String>,
    /// The clearance of the layers.
    pub(super) play: f64,
    pub(super) chain: Chain,
}

/// The pockets of a tray: of each kind the one with the least clearance.
pub(super) fn of(tray: &Tray, folded: &FoldedTray) -> Vec<Pocket> {
    let mut pockets: Vec<Pocket> = Vec::new();
    for back in tray.panels.ids() {
        let Some(pocket) = behind(tray, folded, back) else {
            continue;
        };
        let same =
            |other: &&mut Pocket| (&other.walls, &other.layers) == (&pocket.walls, &pocket.layers);
        match pockets.iter_mut().find(same) {
            Some(other) if other.play <= pocket.play + TOUCH_MM => {}
            Some(other) => *other = pocket,
            None => pockets.push(pocket),
        }
    }
    pockets
}

/// The pocket between a panel and the wall two creases before it, if the panel is folded back over other layers.
fn behind(tray: &Tray, folded: &FoldedTray, back: PanelId) -> Option<Pocket> {
    let second = tray.panels[back].hanging.as_ref()?;
    let first = tray.panels[second.parent].hanging.as_ref()?;
    let wall = first.parent;
    if first.fold_deg * second.fold_deg <= 0.0 {
        return None;
    }
    let rises = |panel: PanelId| folded.motions[panel].turn([0.0, 0.0, 1.0]);
    let normal = rises(wall);
    if dot(normal, rises(back)) > -ALONG {
        return None;
    }
    let apart = height_over(tray, folded, wall, back);
    let layers = layers(tray, folded, [wall, second.parent, back], apart);
    if layers.is_empty() {
        return None;
    }
    let count = layers.len() as f64;
    let play = apart.abs() - (1.0 + count) * tray.caliper;
    if play > TRAPPED_MM {
        return None;
    }
    let along = if apart < 0.0 {
        normal.map(|part| -part)
    } else {
        normal
    };
    let [at_back, at_wall] = [back, wall].map(|panel| Reach::of(tray, folded, panel, along));
    let mut chain = at_back.from(&at_wall);
    // Half of each wall and all of each layer take up space.
    chain.calipers -= 1.0 + count;
    Some(Pocket {
        walls: [wall, back].map(|panel| tray.panels[panel].key.clone()),
        layers,
        play,
        chain,
    })
}

/// The layers over a wall up to a height, from the lowest to the highest, by the names of their families; not the wall
/// itself, the panel folded back from it, or the panel between the two creases.
fn layers(tray: &Tray, folded: &FoldedTray, own: [PanelId; 3], apart: f64) -> Vec<String> {
    let wall = own[0];
    let rises = |panel: PanelId| folded.motions[panel].turn([0.0, 0.0, 1.0]);
    let normal = rises(wall);
    let (low, high) = (apart.min(0.0), apart.max(0.0));
    let half = tray.caliper / 2.0;
    let mut trapped: Vec<(f64, &str)> = tray
        .panels
        .ids()
        .filter(|panel| !own.contains(panel) && dot(normal, rises(*panel)).abs() > ALONG)
        .map(|panel| (height_over(tray, folded, wall, panel), panel))
        .filter(|&(height, panel)| {
            height > low + half && height < high - half && lies_over(tray, folded, wall, panel)
        })
        .map(|(height, panel)| (height, tray.panels[panel].key.as_str()))
        .collect();
    trapped.sort_by(|one, other| one.0.total_cmp(&other.0).then(one.1.cmp(other.1)));
    // Panels at one height are one layer: two tabs that share an end.
    trapped.dedup_by(|one, other| (one.0 - other.0).abs() < half);
    trapped.into_iter().map(|(_, key)| key.to_owned()).collect()
}

/// Height of the middle of a panel over the middle of a wall, along the wall's normal.
fn height_over(tray: &Tray, folded: &FoldedTray, wall: PanelId, panel: PanelId) -> f64 {
    let origin = tray.frames[panel].origin;
    let place = folded.motions[panel].apply([origin.x, origin.y, 0.0]);
    folded.motions[wall].inverse().apply(place)[2]
}

/// Whether a panel parallel to a wall overlaps it.
fn lies_over(tray: &Tray, folded: &FoldedTray, wall: PanelId, panel: PanelId) -> bool {
    let back = folded.motions[wall].inverse();
    let extent = |of: PanelId| {
        let places = tray.panels[of].shape.points().map(|point| {
            let flat = tray.frames[of].place(point);
            back.apply(folded.motions[of].apply([flat.x, flat.y, 0.0]))
        });
        let start = ([f64::INFINITY; 2], [f64::NEG_INFINITY; 2]);
        places.fold(start, |(least, most), place| {
            let at = |axis: usize| place[axis];
            (
                [least[0].min(at(0)), least[1].min(at(1))],
                [most[0].max(at(0)), most[1].max(at(1))],
            )
        })
    };
    let (one, other) = (extent(wall), extent(panel));
    (0..2).all(|axis| one.1[axis].min(other.1[axis]) - one.0[axis].max(other.0[axis]) > OVER_MM)
}
