//! Tongues in their slits, and edges that jam against another panel: the locks of the folded tray.
//!
//! **Input:** the folded tray. **Output:** each kind of lock with its depth and the chain of that depth, and findings
//! about locks too small for the tool, which hold by friction alone.

use traywright_document::space::{Vec3, dot};

use crate::finding::{Advice, BuiltIn, Chance, Finding, Place};
use crate::folded::{Folded, FoldedTray, Reach, is_cut};
use crate::geometry::{Point, TOUCH_MM};
use crate::job::Job;
use crate::tolerance::{Chain, Limits, Sum};
use crate::tray::{PanelId, Slit, Tray};

/// Maximum gap between an edge and the face that it jams against.
// Source: a choice of this project: far below what a tool can cut, far above the rounding of arithmetic.
const JAMS_MM: f64 = 0.01;

/// A part that keeps two panels together.
#[derive(Clone, Debug)]
pub(crate) struct Lock {
    pub(crate) part: Part,
    /// The panel that the part enters or jams against, by the name of its family.
    pub(crate) other: String,
    /// How far the part's tip reaches beyond the near face of that panel.
    pub(crate) reach: f64,
    /// The error limits of the reach.
    pub(crate) sum: Sum,
}

/// The part that locks.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Part {
    /// A tongue, by name.
    Tongue(String),
    /// The far edge of a panel, by the name of its family.
    Edge(String),
}

impl Lock {
    /// All locks of a tray: of each kind the one with the least reach.
    pub(crate) fn all(folded: &Folded) -> Vec<Lock> {
        let (tray, job) = (folded.tray(), &folded.laid.drawn.job);
        let found = tongues(tray, &folded.folded)
            .into_iter()
            .chain(jams(tray, &folded.folded))
            .map(|(part, other, reach, chain)| Lock {
                part,
                other,
                reach,
                sum: chain.sum(&Limits::of(job)),
            });
        let mut locks: Vec<Lock> = Vec::new();
        for lock in found {
            let same = |other: &&mut Lock| other.part == lock.part && other.other == lock.other;
            match locks.iter_mut().find(same) {
                Some(other) if other.reach <= lock.reach + TOUCH_MM => {}
                Some(other) => *other = lock,
                None => locks.push(lock),
            }
        }
        locks
    }

    /// Whether the tip is smaller than the tool of a job can cut, so that it holds by friction at most.
    pub(crate) fn is_friction(&self, job: &Job) -> bool {
        self.reach < job.tool.accuracy()
    }
}

/// Tongues that are smaller than the tool can cut.
pub(super) fn judge(job: &Job, locks: &[Lock]) -> Vec<Finding> {
    let found = |lock: &Lock| match &lock.part {
        Part::Tongue(name) if lock.is_friction(job) => {
            let found = BuiltIn::LockByFriction {
                into: lock.other.clone(),
                chance: Chance(lock.sum.chance_below_nothing(lock.reach)),
            };
            let found = Finding::new(found, Place::Tongue(name.clone()));
            let found = found.measured(lock.reach, job.tool.accuracy());
            Some(found.with_fix(Advice::TapeOrMachine))
        }
        _ => None,
    };
    locks.iter().filter_map(found).collect()
}

/// Name, panel, reach and chain of each tongue that enters its panel.
fn tongues(tray: &Tray, folded: &FoldedTray) -> Vec<(Part, String, f64, Chain)> {
    let lock = |interlock: &crate::tray::Interlock| {
        if let Slit::Missed { .. } = interlock.slit {
            return None;
        }
        let run = &tray.panels[interlock.panel].tongues[interlock.tongue];
        let at = |corner: Point| height_of(tray, folded, interlock.panel, corner, interlock.into);
        let foot = at(run.first().at);
        let heights = run.corners.iter().map(|corner| at(corner.at));
        let tip = heights.fold(foot, |tip, height| {
            if (height - foot).abs() > (tip - foot).abs() {
                height
            } else {
                tip
            }
        });
        let sense = (tip - foot).signum();
        let reach = sense * tip + tray.caliper / 2.0;
        let chain = chain(tray, folded, interlock.panel, interlock.into, sense);
        let into = tray.panels[interlock.into].key.clone();
        Some((Part::Tongue(interlock.name.clone()), into, reach, chain))
    };
    tray.interlocks.iter().filter_map(lock).collect()
}

/// Far edges that meet the face of another panel squarely, unless a tongue of the same panel enters it.
fn jams(tray: &Tray, folded: &FoldedTray) -> Vec<(Part, String, f64, Chain)> {
    let mut jams = Vec::new();
    let own = tray.panels.ids_where(|panel| panel.entry.is_some());
    for panel in own {
        let shape = &tray.panels[panel].shape;
        let Some((from, to)) = shape
            .edge("far")
            .filter(|_| is_cut(tray, panel, Some("far")))
        else {
            continue;
        };
        let tongued = tray.interlocks.iter().any(|lock| lock.panel == panel);
        if tray.panels[panel].hanging.is_none() || tongued {
            continue;
        }
        let out = tray.frames[panel].turn((to - from).unit().right());
        let out = folded.motions[panel].turn([out.x, out.y, 0.0]);
        for into in tray.panels.ids_where(|other| other.entry.is_some()) {
            let sense = dot(out, normal(folded, into));
            if into == panel || sense.abs() < 0.999 {
                continue;
            }
            let gap = [from, to].map(|end| {
                -sense.signum() * height_of(tray, folded, panel, end, into) - tray.caliper / 2.0
            });
            let within = meets_inside(tray, folded, panel, from.middle(to), into);
            if within && gap.iter().all(|gap| gap.abs() < JAMS_MM) {
                let chain = chain(tray, folded, panel, into, sense.signum());
                let keys = [panel, into].map(|of| tray.panels[of].key.clone());
                let [edge, other] = keys;
                jams.push((Part::Edge(edge), other, -gap[0], chain));
            }
        }
    }
    jams
}

/// The chain from the near face of a panel to the cut tip of another panel that points at it.
fn chain(tray: &Tray, folded: &FoldedTray, tip: PanelId, into: PanelId, sense: f64) -> Chain {
    let way = normal(folded, into).map(|part| sense * part);
    let tip = Reach::of(tray, folded, tip, way).ending(1.0, 0.0);
    let near = Reach::of(tray, folded, into, way).ending(0.0, -0.5);
    tip.from(&near)
}

fn normal(folded: &FoldedTray, panel: PanelId) -> Vec3 {
    folded.motions[panel].turn([0.0, 0.0, 1.0])
}

/// A point in the mid-plane of one panel's card, in the flat frame of another panel.
fn seen_from(tray: &Tray, folded: &FoldedTray, panel: PanelId, at: Point, from: PanelId) -> Vec3 {
    let flat = tray.frames[panel].place(at);
    let place = folded.motions[panel].apply([flat.x, flat.y, 0.0]);
    folded.motions[from].inverse().apply(place)
}

fn height_of(tray: &Tray, folded: &FoldedTray, panel: PanelId, at: Point, over: PanelId) -> f64 {
    seen_from(tray, folded, panel, at, over)[2]
}

/// Whether a point of one panel is over the card of another.
fn meets_inside(
    tray: &Tray,
    folded: &FoldedTray,
    panel: PanelId,
    at: Point,
    into: PanelId,
) -> bool {
    let [x, y, _] = seen_from(tray, folded, panel, at, into);
    let own = tray.frames[into].from_outside(Point::new(x, y));
    tray.panels[into].shape.distance_outside(own) < TOUCH_MM
}
