//! Faults planted into sound trays: the solids see them in the changed document, and the engine in the job that draws
//! the same fault.

use traywright_document::{Document, DrawnFace, ItemShape};
use traywright_engine::job::{Cut, Job, Length, SettingInput};
use traywright_engine::{Finding, Refusal, Style, make};
use traywright_tests::changing::{Change, apply};
use traywright_tests::jobs::Dice;
use traywright_tests::thorough::part_of;

use super::agreement::allowed;
use super::others::{of_this_test, set};
use super::seen::{Pushed, Reach, Seen};
use super::{Case, pushed, random};

/// Trays with a fault of each kind.
const TRAYS: usize = 60;

/// Nearer to its limit than this a fault may be one for either side.
const NEAR_TIE_MM: f64 = 0.02;

/// How far lengths may differ.
const SAME_MM: f64 = 0.05;

/// A sound tray and what is changed about it: the panels, and the setting that draws them so.
struct Plant {
    family: &'static str,
    change: Change,
    setting: &'static str,
    answer: SettingInput,
}

impl Plant {
    /// The changed document, with what the engine says of the job that asks for it.
    fn into(self, style: &Style, case: &Case) -> Case {
        let mut document: Document = case.document.clone();
        apply(&mut document, self.family, self.change);
        let mut job = case.job.clone();
        set(&mut job, self.setting, self.answer);
        let findings = match make(style, &job) {
            Ok(tray) => tray.report().findings.clone(),
            Err(Refusal::Tray(report)) => report.findings,
            Err(fault) => panic!("not even judged: {fault:#?}"),
        };
        Case {
            job,
            document,
            findings,
        }
    }
}

/// Trays of a style of this test, all with a plant, and what the solids see in them.
fn planted(
    name: &str,
    adapt: impl Fn(&mut Dice, &mut Job),
    plant: impl Fn(&mut Dice, &Case) -> Plant,
) -> Option<Vec<(Case, Vec<Seen>)>> {
    let style = of_this_test(name);
    let mut dice = Dice(54);
    let sound = random::trays(&style, 53, part_of(TRAYS), adapt);
    let cases: Vec<Case> = sound
        .iter()
        .map(|case| plant(&mut dice, case).into(&style, case))
        .collect();
    let seen = pushed(&cases)?;
    Some(cases.into_iter().zip(seen).collect())
}

/// The finding of a code about the one item.
fn finding<'a>(case: &'a Case, code: &str) -> Option<&'a Finding> {
    case.findings.iter().find(|found| found.code() == code)
}

#[test]
fn flaps_cut_short_let_the_item_slide_by_what_the_engine_tells() {
    let deep = |_: &mut Dice, job: &mut Job| {
        upright(job);
        set(job, "apron-depth", SettingInput::Length(12.0));
    };
    let cut_short = |dice: &mut Dice, case: &Case| {
        let depth = dice.between(3.0, 11.0);
        let reach = reach(case, "apron");
        Plant {
            family: "apron",
            change: Change::Reach(depth.min(reach) - reach),
            setting: "apron-depth",
            answer: SettingInput::Length(depth),
        }
    };
    let Some(planted) = planted("hanging", deep, cut_short) else {
        return;
    };
    let mut slid = 0;
    for (case, seen) in &planted {
        let allowed = allowed(case, &case.document.items[0]);
        let over = [0, 1].map(|axis: usize| seen[0].rest[axis].travel - allowed[axis]);
        let found = finding(case, "item-slides");
        if over.iter().all(|over| over.abs() > NEAR_TIE_MM) {
            let name = || format!("{found:#?} {seen:#?} {}", case.name("item1"));
            assert_eq!(found.is_some(), over[0].max(over[1]) > 0.0, "{}", name());
            if let Some(value) = found.and_then(|found| found.value) {
                let travels = seen[0].rest.iter().map(|pushed| pushed.travel);
                let off = value - travels.fold(0.0, f64::max);
                assert!(off.abs() < SAME_MM, "{}", name());
                slid += 1;
            }
        }
    }
    println!("{} trays with flaps cut short, {slid} slide", planted.len());
    assert!(slid * 4 > planted.len() && slid < planted.len(), "{slid}");
}

#[test]
fn fences_that_lean_let_the_item_go_where_the_engine_says_so() {
    let straight = |_: &mut Dice, job: &mut Job| {
        upright(job);
        set(job, "fence-height", SettingInput::Length(14.0));
    };
    let lean = |dice: &mut Dice, _: &Case| {
        let turn = dice.between(62.0, 90.0);
        Plant {
            family: "fence",
            change: Change::Angle(turn),
            setting: "turn",
            answer: SettingInput::Angle(turn),
        }
    };
    let Some(planted) = planted("leaning", straight, lean) else {
        return;
    };
    let (mut slid, mut goes) = (0, 0);
    for (case, seen) in &planted {
        let allowed = allowed(case, &case.document.items[0]);
        let over = |pushed: &[Pushed; 2]| {
            let over = [0, 1].map(|axis: usize| pushed[axis].travel - allowed[axis]);
            over[0].max(over[1])
        };
        let (at_rest, risen) = (over(&seen[0].rest), over(&seen[0].risen));
        let [slides, leaves] =
            ["item-slides", "item-can-leave"].map(|code| finding(case, code).is_some());
        let name = || format!("{seen:#?} {:#?} {}", case.findings, case.name("item1"));
        if at_rest.abs() > NEAR_TIE_MM {
            assert_eq!(slides, at_rest > 0.0, "{}", name());
            slid += usize::from(slides);
        }
        if risen > NEAR_TIE_MM {
            // An item that slides where it lies is told as that alone.
            assert!(slides || leaves, "{}", name());
            goes += usize::from(leaves);
        }
    }
    println!(
        "{} trays with fences that lean: {slid} items slide, {goes} more go when they are lifted",
        planted.len()
    );
    assert!(slid > 0 && goes > 0, "{slid} {goes}");
}

#[test]
fn a_panel_through_the_item_is_seen_by_both() {
    let clear = |_: &mut Dice, job: &mut Job| {
        upright(job);
        job.items[0].cut = Some(Cut::Open);
        set(job, "foot-width", SettingInput::Length(6.0));
        set(job, "fin-height", SettingInput::Length(8.0));
    };
    let move_fin = |dice: &mut Dice, case: &Case| {
        let item = &case.document.items[0];
        let tray = case.job.box_size.width.mm() - case.job.fit.around_tray.mm();
        let beside = (tray - item.width) / 2.0;
        let width = dice.between(beside - 4.0, beside + 5.0).max(5.0);
        Plant {
            family: "foot",
            change: Change::Reach(width - 6.0),
            setting: "foot-width",
            answer: SettingInput::Length(width),
        }
    };
    let Some(planted) = planted("finned", clear, move_fin) else {
        return;
    };
    let in_place = |seen: &Seen| seen.in_place.clone();
    let (hit, free) = compare_reach(&planted, "item-in-the-way", in_place);
    println!("{hit} trays with a panel through the item, {free} beside it");
    assert!(hit * 4 > planted.len() && free > 0, "{hit} {free}");
}

#[test]
fn a_panel_over_the_item_is_seen_by_both() {
    let clear = |_: &mut Dice, job: &mut Job| {
        upright(job);
        let item = &mut job.items[0];
        item.cut = Some(Cut::Open);
        item.pad = Length::ZERO;
        let height = item.depth.mm() + 2.0;
        set(job, "foot-width", SettingInput::Length(6.0));
        set(job, "fin-height", SettingInput::Length(height));
        set(job, "lip-width", SettingInput::Length(1.0));
    };
    let turn_in = |dice: &mut Dice, case: &Case| {
        let tray = case.job.box_size.width.mm() - case.job.fit.around_tray.mm();
        let beside = (tray - case.document.items[0].width) / 2.0 - 6.0;
        let width = dice.between(beside - 3.0, beside + 6.0).max(1.0);
        Plant {
            family: "lip",
            change: Change::Reach(width - 1.0),
            setting: "lip-width",
            answer: SettingInput::Length(width),
        }
    };
    let Some(planted) = planted("finned", clear, turn_in) else {
        return;
    };
    let way_in = |seen: &Seen| seen.way_in.clone();
    let (hit, free) = compare_reach(&planted, "item-blocked", way_in);
    println!("{hit} trays with a panel over the item, {free} beside it");
    assert!(hit * 4 > planted.len() && free > 0, "{hit} {free}");
}

/// How often solids and engine see a panel in the item's room, and how often neither does.
fn compare_reach(
    planted: &[(Case, Vec<Seen>)],
    code: &str,
    reaching: impl Fn(&Seen) -> Vec<Reach>,
) -> (usize, usize) {
    let (mut hit, mut free) = (0, 0);
    for (case, seen) in planted {
        let reaching = reaching(&seen[0]);
        let deepest = reaching.iter().map(|reach| reach.depth).fold(0.0, f64::max);
        let found = finding(case, code);
        let name = || format!("{reaching:#?} {:#?} {}", case.findings, case.name("item1"));
        if deepest > NEAR_TIE_MM {
            let found = found.unwrap_or_else(|| panic!("not told: {}", name()));
            let message = found.message(case.job.unit);
            let named = reaching.iter().any(|reach| message.contains(&reach.panel));
            assert!(named, "{message}: {}", name());
            // Deeper than a caliper the solids tell how thick the card is.
            let value = found.value.unwrap_or(0.0);
            if deepest < case.job.board.caliper.mm() - SAME_MM {
                assert!((value - deepest).abs() < SAME_MM, "{value}: {}", name());
            }
            hit += 1;
        } else if deepest == 0.0 {
            assert!(found.is_none(), "{}", name());
            free += 1;
        }
    }
    (hit, free)
}

/// A rectangle that keeps its outline up to its top, drawn from inside.
fn upright(job: &mut Job) {
    let item = &mut job.items[0];
    item.shape = ItemShape::Rectangle;
    item.straight = None;
    item.finger = None;
    job.output.drawn_face = DrawnFace::Inside;
}

/// How far a family reaches from its crease, from its first member.
fn reach(case: &Case, family: &str) -> f64 {
    let mut panels = case.document.panels.iter();
    let panel = panels.find(|panel| panel.name.starts_with(family));
    let panel = panel.unwrap_or_else(|| panic!("no {family}"));
    let [from, to] = panel.hinge.as_ref().expect("it hangs").line;
    let along = (to - from).unit();
    let ends = panel.outline.segments.iter();
    ends.map(|end| along.cross(end.to() - from).abs())
        .fold(0.0, f64::max)
}
