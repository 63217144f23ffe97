//! The single-slot tray by pencil and paper: its sizes, and what must be found about it.
//!
//! Given a job with one item, it gives the figures of core/GEOMETRY.md as far as "Single-slot: refusals", written
//! down from its text. It asks the engine nothing.

use std::collections::BTreeMap;

use traywright_engine::CheckedTray;
use traywright_engine::job::{Cut, Job};

/// Card that stays between an opening and what stands behind an edge; what a flap's tip stays above the floor.
// Source: core/GEOMETRY.md, "Letters".
const EDGE_WEB: f64 = 3.0;
const FLOOR_AIR: f64 = 0.5;

/// Findings of which these formulas know nothing: how sure a clearance is follows from tolerances, and whether another
/// order of folds is taken from turning each.
pub(crate) const UNKNOWN: [&str; 6] = [
    "fit-uncertain",
    "hold-uncertain",
    "pocket-tight",
    "lock-by-friction",
    "humidity",
    "other-order",
];

/// Whether the folds of a tray come in another order than its style says.
pub(crate) fn in_another_order(tray: &CheckedTray) -> bool {
    let mut findings = tray.report().findings.iter();
    findings.any(|finding| finding.code() == "other-order")
}

/// Sizes of one tray, under the letters of core/GEOMETRY.md.
pub(crate) struct Sizes {
    pub outside: [f64; 3],
    pub deck: [f64; 2],
    pub side_wall: f64,
    pub end_wall: f64,
    pub second: f64,
    pub bridge: f64,
    pub tab_length: f64,
    pub tab_height: f64,
    pub slot: [f64; 2],
    pub clear: [f64; 2],
    pub deepest_flap: f64,
    /// How far the item's top lies below the face of the deck.
    pub below: f64,
    pub blank: [f64; 2],
}

/// How far a tray is from each thing that can be found about it: below 0 it is found.
pub(crate) type Margins = BTreeMap<&'static str, f64>;

/// Whether flaps hang on the ends and on the sides of the slot.
fn flapped(job: &Job) -> [bool; 2] {
    let item = &job.items[0];
    match job.slot.cut {
        Cut::Cross => [true, true],
        Cut::Open => [false, false],
        // Source: core/GEOMETRY.md, "Single-slot: the opening": doors hang on the long edges.
        Cut::Doors => {
            let sides = item.length.mm() >= item.width.mm();
            [!sides, sides]
        }
    }
}

/// Works the tray out.
// Source: core/GEOMETRY.md, "Single-slot".
pub(crate) fn sizes(job: &Job) -> Sizes {
    let (box_size, item) = (&job.box_size, &job.items[0]);
    let (t, h, g) = (job.board.caliper.mm(), job.board.hinge(), job.fit.play.mm());
    let (f, fi) = (job.fit.around_tray.mm(), job.fit.around_item.mm());
    let c = g / 2.0;
    let [length, width, depth] = [
        box_size.length.mm() - f,
        box_size.width.mm() - f,
        box_size.depth.mm() - f,
    ];
    let deck = [length - t - 2.0 * h, width - t - 2.0 * h];
    let end_wall = depth - t - 2.0 * h;
    let side_wall = depth - t / 2.0 - h;
    let second = depth - 1.5 * t - h;
    let bridge = 2.0 * t + g - 2.0 * h;
    let slot = [item.length.mm() + fi, item.width.mm() + fi];
    let loss = t + 2.0 * h;
    let [ends, sides] = flapped(job);
    let lost = |flaps: bool| if flaps { loss } else { 0.0 };
    Sizes {
        outside: [length, width, depth],
        deck,
        side_wall,
        end_wall,
        second,
        bridge,
        tab_length: end_wall.min(deck[1] / 2.0 - c),
        tab_height: depth - 2.0 * t - g,
        slot,
        clear: [slot[0] - lost(ends), slot[1] - lost(sides)],
        deepest_flap: depth - t / 2.0 - h - FLOOR_AIR,
        below: depth - item.pad.mm() - item.depth.mm(),
        blank: [
            deck[0] + 2.0 * (end_wall + bridge + second),
            deck[1] + 2.0 * side_wall,
        ],
    }
}

/// What makes a tray impossible.
// Source: core/GEOMETRY.md, "Single-slot: refusals"; the least roll-over and side wall from the style's own rules.
pub(crate) fn errors(job: &Job) -> Margins {
    let sizes = sizes(job);
    let (t, h, g) = (job.board.caliper.mm(), job.board.hinge(), job.fit.play.mm());
    let (outer, inner, c) = (t / 2.0 + h, t / 2.0 - h, g / 2.0);
    let [ends, sides] = flapped(job);
    let own = |flaps: bool| if flaps { inner } else { 0.0 };
    let [length, width, _] = sizes.outside;
    let swing = outer + sizes.bridge + sizes.second.hypot(outer);
    let mut margins = Margins::from([
        ("walls-too-low", sizes.tab_height - 6.0),
        ("tab-too-short", sizes.tab_length - 6.0),
        ("ends-too-narrow", sizes.deck[1] - 2.0 * (inner + c) - 10.0),
        ("sides-too-short", sizes.deck[0] - 2.0 * (t + c) - 10.0),
        ("no-swing-room", length - (3.0 * t + g) - swing),
        (
            "opening-too-near-end",
            length / 2.0 - sizes.slot[0] / 2.0 - own(ends) - (3.0 * t + g + EDGE_WEB),
        ),
        (
            "opening-too-near-side",
            width / 2.0 - sizes.slot[1] / 2.0 - own(sides) - (t + EDGE_WEB),
        ),
        (
            "item-too-deep",
            job.box_size.depth.mm() - job.items[0].pad.mm() - job.items[0].depth.mm(),
        ),
        ("bridge-too-narrow", sizes.bridge),
    ]);
    // What hangs or stands at the ends and at the sides has to share height with the item.
    let bearing = [0, 1].map(|pair| bearing(job, &sizes, pair));
    margins.insert("item-slides", bearing[0].min(bearing[1]));
    let item = &job.items[0];
    let play = (sizes.clear[0] - item.length.mm()).min(sizes.clear[1] - item.width.mm());
    margins.insert("item-does-not-enter", play);
    if let Some((depth, least)) = flap(job, &sizes) {
        let code = if sizes.deepest_flap >= least {
            "opening-too-small"
        } else {
            "flap-too-shallow"
        };
        margins.insert(code, depth - least);
    }
    margins
}

/// How deep the shallowest flap hangs, and how deep it must.
// Source: core/GEOMETRY.md, "Single-slot: the opening"; a door's least depth is the window's margin of the same
// section.
fn flap(job: &Job, sizes: &Sizes) -> Option<(f64, f64)> {
    let (t, h, c) = (
        job.board.caliper.mm(),
        job.board.hinge(),
        job.fit.play.mm() / 2.0,
    );
    let depth = shallowest(sizes);
    match job.slot.cut {
        Cut::Cross => Some((depth, t / 2.0 + h + c + 1.0)),
        Cut::Doors => Some((depth, 1.0)),
        Cut::Open => None,
    }
}

/// The depth of the shallowest flap: half the way across, and with a window in the middle as deep as may be.
fn shallowest(sizes: &Sizes) -> f64 {
    let less = sizes.slot[0].min(sizes.slot[1]);
    if less / 2.0 <= sizes.deepest_flap {
        less / 2.0
    } else {
        sizes.deepest_flap.min(less / 2.0 - 1.0)
    }
}

/// The depth of the flaps at the ends (0) or at the sides (1), if any hang there.
// Source: core/GEOMETRY.md, "Single-slot: the opening".
fn flap_at(job: &Job, sizes: &Sizes, pair: usize) -> Option<f64> {
    let more = sizes.slot[0].max(sizes.slot[1]);
    let plain = job.slot.cut == Cut::Cross && more / 2.0 <= sizes.deepest_flap;
    let depth = if plain {
        sizes.slot[pair] / 2.0
    } else {
        shallowest(sizes)
    };
    flapped(job)[pair].then_some(depth)
}

/// The height that the item shares with the flaps, or with the bare edge of the deck, at its ends or at its sides.
// Source: core/GEOMETRY.md, "How an item is held".
fn bearing(job: &Job, sizes: &Sizes, pair: usize) -> f64 {
    let (t, hinge) = (job.board.caliper.mm(), crease_below(job));
    let (top, foot) = (sizes.below, sizes.below + job.items[0].depth.mm());
    match flap_at(job, sizes, pair) {
        Some(depth) => foot.min(hinge + depth) - top.max(hinge),
        None => foot.min(t) - top.max(0.0),
    }
}

/// How far the creases of flaps lie below the face of the deck.
fn crease_below(job: &Job) -> f64 {
    job.board.caliper.mm() / 2.0 + job.board.hinge()
}

/// How an item that is held is remarked on.
// Source: core/GEOMETRY.md, "How an item is held".
fn held(job: &Job, sizes: &Sizes) -> Margins {
    let (depth, air) = (job.items[0].depth.mm(), job.fit.around_tray.mm());
    let mut margins = Margins::from([
        ("item-proud", sizes.below),
        ("item-sunk", 8.0 - sizes.below),
    ]);
    let flaps = [0, 1].map(|pair| flap_at(job, sizes, pair));
    if flaps.contains(&None) {
        margins.insert("item-at-the-edge", -sizes.below);
    }
    // Of an item below the deck's face a quarter of a flap has to stand beside it, 3 mm at least, or all of a short one.
    let spare = (0..2).filter_map(|pair| {
        let enough = flaps[pair]?.min((flaps[pair]? / 4.0).max(3.0));
        Some(bearing(job, sizes, pair) - enough)
    });
    if sizes.below > 0.0 {
        margins.insert("item-held-by-tips", spare.fold(1.0, f64::min));
    }
    // At the lid, 2 mm of it stay beside the edge or below the creases.
    if air + sizes.below > 0.0 {
        let creases = if flaps == [None; 2] {
            0.0
        } else {
            crease_below(job)
        };
        margins.insert("item-can-leave", depth - air - creases - 2.0);
    }
    margins
}

/// What a tray that is possible is remarked on.
// Source: core/GEOMETRY.md, "Narrow bridges", "Card for its thickness" and "Single-slot"; no web of this style is weak, for
// it is 3 mm at least and the card 1.5 mm at most.
pub(crate) fn remarks(job: &Job) -> Margins {
    let sizes = sizes(job);
    let (t, c) = (job.board.caliper.mm(), job.fit.play.mm() / 2.0);
    let (less, more) = (
        sizes.slot[0].min(sizes.slot[1]),
        sizes.slot[0].max(sizes.slot[1]),
    );
    // Card up to 0.6 mm is carton and pressed, other board half-cut.
    let narrow = f64::max(1.0, if t <= 0.6 { 2.0 * t } else { t });
    let mut margins = Margins::from([
        ("bridge-narrow", sizes.bridge - narrow),
        ("card-thin", t - 0.15),
        ("tab-shortened", sizes.deck[1] / 2.0 - c - sizes.end_wall),
        ("friction-hold", -1.0),
        ("clear-opening", -1.0),
    ]);
    margins.extend(held(job, &sizes));
    if job.slot.cut != Cut::Open {
        margins.insert("slot-tight", job.fit.around_item.mm() - 2.0 * t - 0.5);
        margins.insert("flap-trimmed", sizes.deepest_flap - less / 2.0);
    }
    if job.slot.cut == Cut::Cross {
        margins.insert("cut-variant", sizes.deepest_flap - more / 2.0);
    }
    margins
}
