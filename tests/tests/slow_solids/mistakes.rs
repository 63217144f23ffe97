//! Mistakes that a style can hold, each with what it does to the panels of the sound tray.

use traywright_engine::job::Job;
use traywright_tests::jobs::job;

use traywright_tests::changing::Change::{self, Angle, Beside, Opposite, Reach, Wider};

/// One mistake: what is written instead of what, and what it does to the panels.
pub(crate) struct Damage {
    pub(crate) name: &'static str,
    pub(crate) job: Job,
    pub(crate) edits: Vec<(&'static str, &'static str)>,
    pub(crate) changes: Vec<(&'static str, Change)>,
    pub(crate) code: &'static str,
}

/// Card of 0.29 with its fold lines 0.05 off the middle.
pub(crate) fn worked() -> Job {
    let mut job = job([182.0, 121.0, 34.0], [96.0, 61.0, 28.0], 0.29);
    job.board.hinge = Some(0.05);
    job
}

/// A box so narrow that two tabs would meet in its end.
fn narrow() -> Job {
    let mut job = job([182.0, 61.0, 40.0], [96.0, 30.0, 28.0], 0.29);
    job.board.hinge = Some(0.05);
    job
}

pub(crate) const COLLIDE: &str = "panels-collide";
const TOO_LARGE: &str = "outside-too-large";

/// Lengths of the worked tray by the formulas of core/GEOMETRY.md, "Single-slot", with h = 0.05.
const CALIPER: f64 = 0.29;
pub(crate) const HINGE: f64 = 0.05;
const PLAY: f64 = 0.5;
const RECESS: f64 = CALIPER / 2.0 - HINGE + PLAY / 2.0;
const TAB_INSET: f64 = CALIPER + PLAY / 2.0;

/// All mistakes that are refused.
// Source of the mistakes: core/GEOMETRY.md, "Where a plain drawing goes wrong".
pub(crate) fn all() -> Vec<Damage> {
    [
        of_roll_overs(),
        of_outsides(),
        of_tabs(),
        of_widths(),
        of_angles(),
    ]
    .into_iter()
    .flatten()
    .collect()
}

fn damage(
    name: &'static str,
    edit: (&'static str, &'static str),
    changes: &[(&'static str, Change)],
    code: &'static str,
) -> Damage {
    Damage {
        name,
        job: worked(),
        edits: vec![edit],
        changes: changes.to_vec(),
        code,
    }
}

fn of_roll_overs() -> Vec<Damage> {
    let reach = "tray.depth - caliper - tuck";
    vec![
        damage(
            "a bridge without play",
            (
                "Inside(\"caliper + fit.play\")",
                "Inside(\"0.5 * caliper\")",
            ),
            &[("bridge", Reach(-0.5 * CALIPER - PLAY))],
            COLLIDE,
        ),
        damage(
            "an inner end that ends in the deck",
            (reach, "tray.depth - caliper + 0.2mm"),
            &[("inner-end", Reach(0.2))],
            COLLIDE,
        ),
        damage(
            "an inner end that goes through the deck",
            (reach, "tray.depth - caliper + 1mm"),
            &[("inner-end", Reach(1.0))],
            TOO_LARGE,
        ),
    ]
}

fn of_outsides() -> Vec<Damage> {
    vec![
        damage(
            "a flap that is not trimmed",
            (
                "Slot(on: \"deck\",",
                "Slot(on: \"deck\", max_flap_depth: Flat(\"60mm\"),",
            ),
            // The two plain diagonals hang half the slot's 98 deep instead of the 30.5 of section 1.6.
            &[("flap", Reach(49.0 - 30.5))],
            TOO_LARGE,
        ),
        damage(
            "an end wall too high",
            (
                "\"deck.ends\", reach: Outside(\"tray.depth\")",
                "\"deck.ends\", reach: Outside(\"tray.depth + 3mm\")",
            ),
            &[("end", Reach(3.0))],
            TOO_LARGE,
        ),
        damage(
            "a side wall too high",
            (
                "gap\", reach: Outside(\"tray.depth\")",
                "gap\", reach: Outside(\"tray.depth + 2mm\")",
            ),
            &[("side", Reach(2.0))],
            TOO_LARGE,
        ),
    ]
}

fn of_tabs() -> Vec<Damage> {
    // Section 1: in the narrow box the end is C - t - 2h high, and a tab is cut to half the deck's width less c.
    let end = 38.0 - CALIPER - 2.0 * HINGE;
    let half = (59.0 - CALIPER - 2.0 * HINGE) / 2.0 - PLAY / 2.0;
    let too_long = damage(
        "a tab longer than half the end",
        ("min(end.reach, deck.width / 2 - gap, tab-max)", "end.reach"),
        &[("tab", Reach(end - half))],
        COLLIDE,
    );
    vec![
        Damage {
            job: narrow(),
            ..too_long
        },
        damage(
            "a tab that begins at the deck",
            ("\"inward\": \"recess\"", "\"inward\": \"0mm\""),
            &[("tab", Beside(RECESS))],
            COLLIDE,
        ),
        damage(
            "a tab as high as its wall",
            ("\"outward\": \"caliper + gap\"", "\"outward\": \"0mm\""),
            &[("tab", Opposite(TAB_INSET))],
            COLLIDE,
        ),
    ]
}

fn of_widths() -> Vec<Damage> {
    vec![
        damage(
            "a side wall as long as the deck",
            ("inset: \"caliper + gap\", reach", "inset: \"0mm\", reach"),
            &[("side", Wider(TAB_INSET))],
            COLLIDE,
        ),
        damage(
            "a roll-over as wide as the end wall",
            (
                "\"end.far\", inset: \"recess\"",
                "\"end.far\", inset: \"0mm\"",
            ),
            &[("bridge", Wider(RECESS)), ("inner-end", Wider(RECESS))],
            COLLIDE,
        ),
        damage(
            "an inner end wider than its bridge",
            (
                "on: \"bridge.far\",",
                "on: \"bridge.far\", overhang: \"0.4mm\",",
            ),
            &[("inner-end", Wider(0.4))],
            COLLIDE,
        ),
    ]
}

fn of_angles() -> Vec<Damage> {
    let mut leaning_in = damage(
        "end walls at 100°",
        (
            "on: \"deck.ends\",",
            "on: \"deck.ends\", angle: \"100deg\",",
        ),
        &[("end", Angle(100.0))],
        COLLIDE,
    );
    // Such a tray does not fill its box either, and that would be told first.
    let fills = ("fills: [Length, Width, Depth]", "fills: []");
    leaning_in.edits.push(fills);
    vec![
        leaning_in,
        damage(
            "side walls at 80°",
            (
                "on: \"deck.sides\",",
                "on: \"deck.sides\", angle: \"80deg\",",
            ),
            &[("side", Angle(80.0))],
            TOO_LARGE,
        ),
        damage(
            "tabs that fold the other way",
            (
                "on: \"side.flanks\",",
                "on: \"side.flanks\", sense: Mountain,",
            ),
            &[("tab", Angle(-90.0))],
            TOO_LARGE,
        ),
    ]
}
