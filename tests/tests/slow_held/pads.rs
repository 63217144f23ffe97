//! The pads that the engine names: an item on the thinnest is held and gripped, one a step thinner is not, one on the
//! thickest goes in under the lid, and one a step thicker does not.

use traywright_document::{Item, Pads};
use traywright_engine::job::Length;
use traywright_engine::{Refusal, Style, make};
use traywright_tests::jobs::style;
use traywright_tests::thorough::part_of;

use super::agreement::{allowed, told};
use super::seen::Seen;
use super::{Case, pushed, random};

/// Trays of each style.
const TRAYS: usize = 40;

/// Steps in which pads are told, the coarser first; without one of them they are told as they are.
// Source: the project's design of holding: 0.5 mm, or 0.1 mm where the coarser step leaves nothing, or none at all.
const STEPS_MM: [f64; 2] = [0.5, 0.1];

/// How far below the deck an item's top may lie and still be gripped.
// Source: the project's design of holding.
const SUNK_MM: f64 = 8.0;

/// What arithmetic may leave.
const NOISE_MM: f64 = 1e-6;

/// An end of the pads of an item, and the item on a pad of that thickness.
struct Try {
    end: End,
    pad: f64,
    case: Case,
    index: usize,
}

#[derive(Clone, Copy, Debug, PartialEq)]
enum End {
    Least,
    Thinner,
    Most,
    Thicker,
}

#[test]
fn the_thinnest_and_the_thickest_pad_are_the_ends_of_what_holds() {
    let names = ["single-slot", "multi-slot", "double-wall"];
    let tries = names.iter().flat_map(|name| {
        let style = style(&format!("designs/styles/{name}.ron"));
        let cases = random::trays(&style, 55, part_of(TRAYS), |_, job| {
            job.items
                .iter_mut()
                .for_each(|item| item.pad = Length::ZERO);
        });
        let tries = cases.iter().flat_map(|case| tries(&style, case));
        tries.collect::<Vec<Try>>()
    });
    let (tries, cases): (Vec<(End, f64, usize)>, Vec<Case>) = tries
        .map(|tried| ((tried.end, tried.pad, tried.index), tried.case))
        .unzip();
    let Some(seen) = pushed(&cases) else { return };
    let mut counts = [0; 4];
    for (((end, pad, index), case), seen) in tries.iter().zip(&cases).zip(&seen) {
        let (item, seen) = (&case.document.items[*index], &seen[*index]);
        let (holds, fits) = (holds(case, item, seen), seen.rise > -NOISE_MM);
        let right = match end {
            End::Least | End::Most => holds && fits,
            End::Thinner => !holds,
            End::Thicker => !fits,
        };
        let pads = item.held.as_ref().map(|held| held.pads);
        assert!(
            right,
            "{end:?} {pad} of {pads:?}: {seen:#?} {}",
            case.name(&item.name)
        );
        counts[*end as usize] += 1;
    }
    let [least, thinner, most, thicker] = counts;
    println!(
        "pads: {least} least hold, {thinner} thinner do not, {most} most go in, {thicker} thicker do not"
    );
    assert!(thinner * 4 > least && thicker == most, "{counts:?}");
}

/// Both ends of the pads of every item of a tray, from within and from beyond.
fn tries(style: &Style, case: &Case) -> Vec<Try> {
    let items = case.document.items.iter().enumerate();
    let of_item = |(index, item): (usize, &Item)| {
        let Some(pads) = item.held.as_ref().and_then(|held| held.pads) else {
            return Vec::new();
        };
        let step = step(&pads);
        let mut ends = vec![
            (End::Least, pads.least),
            (End::Most, pads.most),
            (End::Thicker, pads.most + step),
        ];
        if pads.least > NOISE_MM {
            ends.push((End::Thinner, (pads.least - step).max(0.0)));
        }
        let tried = ends.into_iter().map(|(end, pad)| Try {
            end,
            pad,
            case: on_pad(style, case, index, pad, end),
            index,
        });
        tried.collect()
    };
    items.flat_map(of_item).collect()
}

/// The step that both ends are told in, and a hundredth where there is none.
fn step(pads: &Pads) -> f64 {
    let is_whole = |step: &f64| {
        [pads.least, pads.most].iter().all(|pad| {
            let steps = pad / step;
            (steps - steps.round()).abs() < NOISE_MM
        })
    };
    STEPS_MM.into_iter().find(is_whole).unwrap_or(0.01)
}

/// The tray with one item on a pad; one that is too thick is refused, and its item raised in the document.
fn on_pad(style: &Style, case: &Case, index: usize, pad: f64, end: End) -> Case {
    let mut job = case.job.clone();
    job.items[index].pad = Length::known(pad);
    match make(style, &job) {
        Ok(tray) if end != End::Thicker => Case::of(job, &tray),
        Err(Refusal::Tray(report)) if end == End::Thicker => {
            let told = report.findings.iter().map(|found| found.code());
            let told: Vec<&str> = told.collect();
            assert!(
                told.contains(&"item-too-deep"),
                "{told:?} {}",
                case.name("")
            );
            let mut document = case.document.clone();
            let item = &mut document.items[index];
            (item.rest, item.pad) = (item.rest + pad - item.pad, pad);
            Case {
                job,
                document,
                findings: report.findings,
            }
        }
        Ok(_) => panic!("a pad of {pad} goes in: {}", case.name("")),
        Err(refusal) => panic!("{end:?} {pad} is refused: {refusal:#?} {}", case.name("")),
    }
}

/// Whether an item is held well along and across, and can be gripped.
// Source: the project's design of holding: the whole edge bears, or of a flap of depth e at least m = min(e, max(3, e/4)),
// or as much as there is of the item; an item level with the deck bears on the creases of its flaps.
fn holds(case: &Case, item: &Item, seen: &Seen) -> bool {
    let straight = item.straight.unwrap_or(item.depth);
    let below = seen.below + item.depth - straight;
    let allowed = allowed(case, item);
    let well = |axis: usize| {
        let pushed = &seen.rest[axis];
        let flaps = told(case, ["flap_ends", "flap_sides"][axis], item);
        let enough = flaps.min((flaps / 4.0).max(3.0)).min(straight);
        let bears = flaps > 0.0 && pushed.bears > enough - NOISE_MM;
        pushed.travel < allowed[axis] && (below < NOISE_MM || bears)
    };
    seen.below < SUNK_MM + NOISE_MM && well(0) && well(1)
}
