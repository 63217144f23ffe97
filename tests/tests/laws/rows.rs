//! Hundreds of random jobs with up to six items: where their openings lie, and whether each refusal is true.

use std::collections::BTreeMap;
use std::thread;

use traywright_document::{Document, Point};
use traywright_engine::job::Job;
use traywright_engine::{Finding, Level, Refusal, Style, make};
use traywright_tests::jobs::{drawn_with_items, style};
use traywright_tests::union;

use super::arrangement::{self, WEB};
use super::formulas::{self, Margins, UNKNOWN, in_another_order};

/// A margin so small that the engine's tolerances may decide otherwise.
// Source: core/CONTRACT.md, "Trade figures".
const NEAR_TIE_MM: f64 = 0.01;

/// Codes about one item; its opening may have several causes, of which the first is told.
const OF_AN_ITEM: [&str; 5] = [
    "flap-too-shallow",
    "item-does-not-enter",
    "item-slides",
    "item-too-deep",
    "opening-too-small",
];

/// What came of a run of jobs.
#[derive(Default)]
struct Tally {
    drawn: usize,
    made: usize,
    packed: usize,
    turned: usize,
    several: usize,
    near_ties: usize,
    refused: BTreeMap<String, usize>,
}

#[test]
fn five_hundred_random_trays_of_several_openings_are_right_and_every_refusal_is_true() {
    // Reasoning: core/GEOMETRY.md, "Single-slot: refusals" and "Multi-slot", says what is refused and where rows lie,
    // and what is packed keeps web and field. `TRAYWRIGHT_JOBS=5000` asks for more of them.
    let wanted: usize = std::env::var("TRAYWRIGHT_JOBS")
        .map_or(500, |wanted| wanted.parse().expect("a number of jobs"));
    let multi_slot = style("designs/styles/multi-slot.ron");
    let tallies: Vec<Tally> = thread::scope(|scope| {
        let run = |seed| {
            let multi_slot = &multi_slot;
            scope.spawn(move || judge_many(multi_slot, seed, wanted / 4))
        };
        let running = [21, 22, 23, 24].map(run);
        running
            .into_iter()
            .map(|thread| thread.join().expect("a law is broken, see above"))
            .collect()
    });
    let sum = |of: fn(&Tally) -> usize| tallies.iter().map(of).sum::<usize>();
    println!(
        "{} drawn, {} made, {} of them with several openings; {} packed, {} with one turned; {} near a limit and set apart",
        sum(|one| one.drawn),
        sum(|one| one.made),
        sum(|one| one.several),
        sum(|one| one.packed),
        sum(|one| one.turned),
        sum(|one| one.near_ties)
    );
    let mut refused: BTreeMap<&str, usize> = BTreeMap::new();
    for (code, count) in tallies.iter().flat_map(|one| &one.refused) {
        *refused.entry(code).or_default() += count;
    }
    for (code, count) in &refused {
        println!("{count:5} {code}");
    }
    assert!(sum(|one| one.made) >= wanted && sum(|one| one.packed) * 50 > wanted);
    assert!(refused["openings-do-not-fit"] * 15 > wanted);
    assert!(
        sum(|one| one.near_ties) * 15 < sum(|one| one.drawn),
        "too many are set apart"
    );
}

fn judge_many(style: &Style, seed: u64, wanted: usize) -> Tally {
    let mut tally = Tally::default();
    for job in drawn_with_items(seed) {
        if tally.made >= wanted {
            break;
        }
        tally.drawn += 1;
        let near_tie = is_near_tie(&job);
        tally.near_ties += usize::from(near_tie);
        match make(style, &job) {
            Ok(tray) => {
                tally.made += 1;
                let document = tray.finish().document();
                let mut failing = expected(&job);
                failing.retain(|code| *code != "no-swing-room" || !in_another_order(&tray));
                assert!(near_tie || failing.is_empty(), "made: {job:#?}");
                judge_made(&job, &document, &tray.report().findings, &mut tally);
                union::check(&document);
            }
            Err(Refusal::Tray(report)) => {
                let is_error = |finding: &&Finding| finding.level == Level::Error;
                let told: Vec<&Finding> = report.findings.iter().filter(is_error).collect();
                for finding in &told {
                    *tally.refused.entry(finding.code().to_owned()).or_default() += 1;
                }
                if !near_tie {
                    judge_refused(&job, &told);
                }
            }
            Err(fault) => panic!("not even judged: {fault:#?} {job:#?}"),
        }
    }
    tally
}

/// The margins of a job that holds one of the items alone.
fn alone(job: &Job, item: usize, margins: fn(&Job) -> Margins) -> Margins {
    let mut alone = job.clone();
    alone.items = vec![job.items[item].clone()];
    margins(&alone)
}

fn is_near_tie(job: &Job) -> bool {
    let several = job.items.len() > 1;
    let near = |item: usize| {
        let margins = alone(job, item, formulas::errors).into_iter();
        let told = margins.filter(|(code, _)| !several || !code.starts_with("opening-too-near"));
        told.into_iter()
            .any(|(_, margin)| margin.abs() < NEAR_TIE_MM)
    };
    let near_rows = several && arrangement::spare_in_rows(job).abs() < NEAR_TIE_MM;
    let spare = arrangement::spare_in_rows(job);
    let near_packing = several
        && spare < 0.0
        && arrangement::goes_in(job, NEAR_TIE_MM) != arrangement::goes_in(job, -NEAR_TIE_MM);
    // One item is turned or not by the field alone.
    let near_turn = !several && job.items[0].turns;
    near_rows || near_packing || near_turn || (0..job.items.len()).any(near)
}

/// The codes of the errors that must be told, less the consequences of another one.
fn expected(job: &Job) -> Vec<&'static str> {
    let several = job.items.len() > 1;
    let mut codes: Vec<&str> = Vec::new();
    for item in 0..job.items.len() {
        let fails = alone(job, item, formulas::errors).into_iter();
        let mut fails: Vec<&str> = fails
            .filter(|(code, margin)| {
                *margin < 0.0 && !(several && code.starts_with("opening-too-near"))
            })
            .map(|(code, _)| code)
            .collect();
        if fails.contains(&"flap-too-shallow") || fails.contains(&"opening-too-small") {
            fails.retain(|code| *code != "item-does-not-enter");
        }
        codes.extend(
            fails
                .iter()
                .filter(|code| item == 0 || OF_AN_ITEM.contains(code)),
        );
    }
    if several && arrangement::spare_in_rows(job) < 0.0 && !arrangement::goes_in(job, 0.0) {
        codes.push("openings-do-not-fit");
    }
    let body = [
        "walls-too-low",
        "tab-too-short",
        "ends-too-narrow",
        "sides-too-short",
    ];
    if codes.iter().any(|code| body.contains(code)) {
        codes.retain(|code| *code != "flap-too-shallow");
    }
    // What is looked for in a later stage is not told beside an error of an earlier one.
    for later in ["item-slides", "no-swing-room"] {
        if codes.iter().any(|code| *code != later) {
            codes.retain(|code| *code != later);
        }
    }
    codes.sort_unstable();
    codes
}

fn judge_refused(job: &Job, told: &[&Finding]) {
    // A roll-over without room to swing may be blocked in the style's own order alone.
    let code = |finding: &&Finding| match finding.code() {
        "step-blocked" => "no-swing-room".to_owned(),
        code => code.to_owned(),
    };
    let mut codes: Vec<String> = told.iter().map(code).collect();
    codes.sort_unstable();
    assert_eq!(codes, expected(job), "{told:#?} {job:#?}");
}

/// The openings lie where core/GEOMETRY.md, "Multi-slot", says, or keep web and field where they are packed.
fn judge_made(job: &Job, document: &Document, findings: &[Finding], tally: &mut Tally) {
    let slots = arrangement::slots(job);
    let holes: Vec<[[f64; 2]; 2]> = document.panels[0].holes.iter().map(extent).collect();
    assert_eq!(holes.len(), slots.len());
    let packed = findings
        .iter()
        .any(|finding| finding.code() == "openings-packed");
    for ((hole, slot), item) in holes.iter().zip(&slots).zip(&document.items) {
        let here = [0, 1].map(|axis| hole[1][axis] - hole[0][axis]);
        let there = if item.turned {
            [slot[1], slot[0]]
        } else {
            *slot
        };
        assert!(
            (0..2).all(|axis| (here[axis] - there[axis]).abs() < 1e-7),
            "{here:?} {there:?}"
        );
    }
    tally.packed += usize::from(packed);
    tally.several += usize::from(slots.len() > 1);
    if packed {
        assert!(arrangement::spare_in_rows(job) < NEAR_TIE_MM, "{job:#?}");
        judge_packed(job, &holes);
        let items = document.items.iter().zip(&job.items);
        let turned = items.filter(|(item, asked)| {
            assert!(asked.turns || !item.turned);
            item.turned
        });
        tally.turned += usize::from(turned.count() > 0);
    } else if slots.len() > 1 {
        judge_rows(job, &holes);
    }
    judge_remarks(job, findings, packed);
}

fn judge_packed(job: &Job, holes: &[[[f64; 2]; 2]]) {
    let [corner, size] = arrangement::field(job);
    for (index, one) in holes.iter().enumerate() {
        let inside = |axis: usize| {
            one[0][axis] > corner[axis] - 1e-6 && one[1][axis] < corner[axis] + size[axis] + 1e-6
        };
        assert!((0..2).all(inside), "{one:?} {corner:?} {size:?}");
        let apart = |other: &[[f64; 2]; 2]| {
            (0..2).any(|axis| {
                other[0][axis] > one[1][axis] + WEB - 1e-6
                    || one[0][axis] > other[1][axis] + WEB - 1e-6
            })
        };
        assert!(holes[..index].iter().all(apart), "{holes:?}");
    }
}

fn judge_rows(job: &Job, holes: &[[[f64; 2]; 2]]) {
    let middle = |hole: &[[f64; 2]; 2]| [0, 1].map(|axis| (hole[0][axis] + hole[1][axis]) / 2.0);
    let middles: Vec<[f64; 2]> = holes.iter().map(middle).collect();
    let near = |(one, other): (&[f64; 2], &[f64; 2])| {
        (0..2).all(|axis| (one[axis] - other[axis]).abs() < 1e-7)
    };
    let best = arrangement::in_rows(job);
    assert!(
        best.iter().any(|best| best.iter().zip(&middles).all(near)),
        "{middles:?} is none of {best:?}; {job:#?}"
    );
}

/// The remarks are those of the formulas.
fn judge_remarks(job: &Job, findings: &[Finding], packed: bool) {
    let of_the_body = [
        "bridge-narrow",
        "card-thin",
        "tab-shortened",
        "friction-hold",
    ];
    let mut expected: Vec<&str> = Vec::new();
    for item in 0..job.items.len() {
        let margins = alone(job, item, formulas::remarks);
        if margins.values().any(|margin| margin.abs() < NEAR_TIE_MM) {
            return;
        }
        let remarked = margins.into_iter().filter(|(_, margin)| *margin < 0.0);
        expected.extend(
            remarked
                .map(|(code, _)| code)
                .filter(|code| item == 0 || !of_the_body.contains(code)),
        );
    }
    if job.items.len() > 1 {
        expected.push("item-places");
    }
    if packed {
        expected.push("openings-packed");
    }
    expected.sort_unstable();
    let codes = findings.iter().map(|finding| finding.code());
    let mut codes: Vec<&str> = codes.filter(|code| !UNKNOWN.contains(code)).collect();
    codes.sort_unstable();
    assert_eq!(codes, expected, "{job:#?}");
}

fn extent(hole: &traywright_document::Contour) -> [[f64; 2]; 2] {
    let mut extent = [[f64::INFINITY; 2], [f64::NEG_INFINITY; 2]];
    for segment in &hole.segments {
        let Point { x, y } = segment.to();
        for (axis, place) in [x, y].into_iter().enumerate() {
            extent[0][axis] = extent[0][axis].min(place);
            extent[1][axis] = extent[1][axis].max(place);
        }
    }
    extent
}
