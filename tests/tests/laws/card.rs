//! What the thickness of the card asks for: each finding a hundredth of a millimetre to either side of its limit.
//!
//! Lengths in mm; t is the caliper, h the hinge, g the play. Card up to 0.6 is pressed and has h = 0; above it is half-cut
//! and has h = t/4; both are written out in each job, so that no default decides.

use traywright_engine::job::{BoardKind, CreaseKind, Cut, Job, Length, Setting, SettingInput};
use traywright_engine::{Level, Refusal, make};
use traywright_tests::jobs::{an_item, job, style};

/// How far each limit is missed.
const BESIDE_MM: f64 = 0.01;

const CARTON: (BoardKind, CreaseKind) = (BoardKind::Carton, CreaseKind::Pressed);
const HALF_CUT: (BoardKind, CreaseKind) = (BoardKind::Solid, CreaseKind::HalfCut);
const CORRUGATED: (BoardKind, CreaseKind) = (BoardKind::Corrugated, CreaseKind::Pressed);

/// The levels at which a code is told of a job; none where it is not.
fn levels(style_name: &str, job: &Job, code: &str) -> Vec<Level> {
    let style = style(&format!("designs/styles/{style_name}.ron"));
    let findings = match make(&style, job) {
        Ok(tray) => tray.report().findings.clone(),
        Err(Refusal::Tray(report)) => report.findings,
        Err(fault) => panic!("not even judged: {fault:#?}"),
    };
    let of_it = findings.iter().filter(|found| found.code() == code);
    of_it.map(|found| found.level).collect()
}

/// Asserts that a code is told once, at that level, below the limit and not above it.
#[track_caller]
fn told_below(style: &str, code: &str, level: Level, limit: f64, job: impl Fn(f64) -> Job) {
    let (below, above) = (job(limit - BESIDE_MM), job(limit + BESIDE_MM));
    assert_eq!(levels(style, &below, code), [level], "{code} below {limit}");
    let above = levels(style, &above, code);
    assert!(!above.contains(&level), "{code} above {limit}: {above:?}");
}

/// A large box with an item that its deck holds, of card of some kind, with some play.
fn large((kind, crease): (BoardKind, CreaseKind), caliper: f64, hinge: f64, play: f64) -> Job {
    let mut job = job([260.0, 190.0, 60.0], [120.0, 80.0, 58.0], caliper);
    job.board.kind = Some(kind);
    job.board.crease = Some(crease);
    job.board.hinge = Some(hinge);
    job.fit.play = Length::known(play);
    job.slot.cut = Cut::Open;
    job
}

fn set(job: &mut Job, name: &str, length: f64) {
    job.settings.push(Setting {
        name: name.to_owned(),
        answer: SettingInput::Length(length),
        place: 0..0,
    });
}

#[test]
fn card_is_paper_below_fifteen_hundredths() {
    // Source: core/CONTRACT.md, "Findings about the card".
    let of = |caliper| large(CARTON, caliper, 0.0, 0.5);
    told_below("single-slot", "card-thin", Level::Warning, 0.15, of);
}

#[test]
fn pressed_creases_run_into_one_below_a_millimetre_and_below_two_calipers() {
    // Derived: the bridge of the single-slot tray is 2t + g - 2h wide: core/GEOMETRY.md, "Single-slot".
    let thin = |play| large(CARTON, 0.2, 0.0, play);
    told_below(
        "single-slot",
        "bridge-narrow",
        Level::Warning,
        1.0 - 0.4,
        thin,
    );
    let thick = |play| large(CARTON, 0.58, 0.1, play);
    told_below("single-slot", "bridge-narrow", Level::Warning, 0.2, thick);
}

#[test]
fn between_half_cut_creases_a_millimetre_and_one_caliper_have_to_stay() {
    // Derived: the side-bridge of the double-wall tray is t + g - 2h wide: core/GEOMETRY.md, "Double-wall".
    let thin = |play| large(HALF_CUT, 0.8, 0.2, play);
    told_below(
        "double-wall",
        "bridge-narrow",
        Level::Warning,
        1.0 - 0.4,
        thin,
    );
    let thick = |play| large(HALF_CUT, 2.0, 0.5, play);
    told_below(
        "double-wall",
        "bridge-narrow",
        Level::Warning,
        2.0 - 1.0,
        thick,
    );
}

#[test]
fn corrugated_board_is_rolled_over_on_two_calipers_at_least_and_well_on_three() {
    // Derived: the same widths as above with h = 0; the bridge of the single-slot tray holds one layer, the side-bridge of
    // the double-wall tray none.
    let of = |play| large(CORRUGATED, 1.6, 0.0, play);
    let code = "roll-over-corrugated";
    told_below("double-wall", code, Level::Error, 2.0 * 1.6 - 1.6, of);
    told_below("double-wall", code, Level::Warning, 3.0 * 1.6 - 1.6, of);
    told_below("single-slot", code, Level::Warning, 3.0 * 1.6 - 3.2, of);
    let of_carton = |play| large(CARTON, 1.6, 0.0, play);
    assert_eq!(levels("double-wall", &of_carton(0.5), code), []);
}

#[test]
fn a_web_beside_an_edge_is_weak_below_two_calipers() {
    // Derived: the deck is 190 - 2 - t - 2h = 184.25 wide, and the opening is 2 wider than its item, both in the middle.
    let beside = |web: f64| {
        let mut job = large(HALF_CUT, 2.5, 0.625, 0.5);
        job.items = vec![an_item("item", [120.0, 184.25 - 2.0 * web - 2.0, 58.0])];
        job
    };
    let code = "web-weak";
    told_below("single-slot", code, Level::Warning, 2.0 * 2.5, beside);
}

#[test]
fn a_web_between_two_openings_is_weak_below_two_calipers() {
    // Source: core/GEOMETRY.md, "Multi-slot": openings of a row keep exactly the web where equal gaps would be less.
    // Derived: two rows of 102 are too wide; U = 258 - 2 (3t + g + t/2 - h + 3) = 239.3, and (239.3 - 2 × 116) / 3 is less than 2t = 3.6.
    let between = |web: f64| {
        let mut job = large(HALF_CUT, 1.8, 0.45, 0.5);
        job.items = vec![
            an_item("one", [114.0, 100.0, 58.0]),
            an_item("two", [114.0, 100.0, 58.0]),
        ];
        set(&mut job, "web", web);
        job
    };
    told_below("multi-slot", "web-weak", Level::Warning, 2.0 * 1.8, between);
}
