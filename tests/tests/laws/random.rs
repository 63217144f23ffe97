//! Hundreds of random jobs: the made ones are proved again, the refused ones refused again with pencil and paper.

use std::collections::BTreeMap;
use std::thread;

use traywright_engine::{CheckedTray, Finding, Job, Level, Refusal, Style, make};
use traywright_tests::jobs::{drawn, style};

use super::formulas::{self, Margins, UNKNOWN, in_another_order};
use traywright_tests::union::{self, Agreement};

/// A margin so small that the engine's tolerances may decide otherwise.
// Source: core/CONTRACT.md, "Trade figures".
const NEAR_TIE_MM: f64 = 0.01;

/// Codes of which the engine tells no more once another one is told.
const FLAPS: [&str; 2] = ["flap-too-shallow", "opening-too-small"];

/// What came of a run of jobs.
#[derive(Default)]
struct Tally {
    drawn: usize,
    made: usize,
    refused: BTreeMap<String, usize>,
    near_ties: usize,
    worst: Agreement,
    worst_figure: f64,
}

#[test]
fn five_hundred_random_trays_are_proved_and_every_refusal_is_true() {
    // Reasoning: panels that are the blank's card share none of it and lack none of it; what
    // core/GEOMETRY.md, "Single-slot: refusals", refuses is refused, and nothing else is. `TRAYWRIGHT_JOBS=5000` asks
    // for more of them.
    let wanted: usize = std::env::var("TRAYWRIGHT_JOBS")
        .map_or(500, |wanted| wanted.parse().expect("a number of jobs"));
    let single_slot = style("designs/styles/single-slot.ron");
    let tallies: Vec<Tally> = thread::scope(|scope| {
        let run = |seed| {
            let single_slot = &single_slot;
            scope.spawn(move || judge_many(single_slot, seed, wanted / 4))
        };
        let running = [1, 2, 3, 4].map(run);
        running
            .into_iter()
            .map(|thread| thread.join().expect("a law is broken, see above"))
            .collect()
    });
    let mut all = Tally::default();
    for tally in tallies {
        all.drawn += tally.drawn;
        all.made += tally.made;
        all.near_ties += tally.near_ties;
        all.worst = all.worst.worse(tally.worst);
        all.worst_figure = all.worst_figure.max(tally.worst_figure);
        for (code, count) in tally.refused {
            *all.refused.entry(code).or_default() += count;
        }
    }
    println!(
        "{} drawn, {} made, {} near a limit and set apart; worst: {:?}, figures {:e} mm",
        all.drawn, all.made, all.near_ties, all.worst, all.worst_figure
    );
    for (code, count) in &all.refused {
        println!("{count:5} {code}");
    }
    assert!(all.made >= wanted, "{} made", all.made);
    assert!(all.near_ties * 50 < all.drawn, "too many are set apart");
}

fn judge_many(style: &Style, seed: u64, wanted: usize) -> Tally {
    let mut tally = Tally::default();
    for job in drawn(seed) {
        if tally.made >= wanted {
            break;
        }
        tally.drawn += 1;
        let near = |margins: &Margins| margins.values().any(|margin| margin.abs() < NEAR_TIE_MM);
        let near_tie = near(&formulas::errors(&job));
        tally.near_ties += usize::from(near_tie);
        match make(style, &job) {
            Ok(tray) => {
                tally.made += 1;
                let mut failing = failing(&job);
                failing.retain(|code| *code != "no-swing-room" || !in_another_order(&tray));
                assert!(near_tie || failing.is_empty(), "made: {job:#?}");
                let worst = judge_made(&job, &tray);
                tally.worst_figure = tally.worst_figure.max(worst);
                tally.worst = tally.worst.worse(union::check(&tray.finish().document()));
            }
            Err(Refusal::Tray(report)) => {
                let told = errors(&report.findings);
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

fn errors(findings: &[Finding]) -> Vec<&Finding> {
    let is_error = |finding: &&Finding| finding.level == Level::Error;
    findings.iter().filter(is_error).collect()
}

fn failing(job: &Job) -> Vec<&'static str> {
    let errors = formulas::errors(job);
    let fails = errors.into_iter().filter(|(_, margin)| *margin < 0.0);
    fails.map(|(code, _)| code).collect()
}

/// The codes told are those of the formulas, less the consequences of another one.
fn judge_refused(job: &Job, told: &[&Finding]) {
    let mut expected = failing(job);
    let body = [
        "walls-too-low",
        "tab-too-short",
        "ends-too-narrow",
        "sides-too-short",
    ];
    if expected.iter().any(|code| body.contains(code)) {
        expected.retain(|code| *code != "flap-too-shallow");
    }
    if expected.iter().any(|code| FLAPS.contains(code)) {
        expected.retain(|code| *code != "item-does-not-enter");
    }
    // What is looked for in a later stage is not told beside an error of an earlier one.
    for later in ["item-slides", "no-swing-room"] {
        if expected.len() > 1 {
            expected.retain(|code| *code != later);
        }
    }
    // A roll-over without room to swing may be blocked in the style's own order alone.
    let code = |finding: &&Finding| match finding.code() {
        "step-blocked" => "no-swing-room".to_owned(),
        code => code.to_owned(),
    };
    let mut codes: Vec<String> = told.iter().map(code).collect();
    codes.sort_unstable();
    assert_eq!(
        codes,
        expected,
        "{told:#?} {:#?} {job:#?}",
        formulas::errors(job)
    );
    let margins = formulas::errors(job);
    let other_figures = ["no-swing-room", "step-blocked", "item-slides"];
    for finding in told
        .iter()
        .filter(|finding| !other_figures.contains(&finding.code()))
    {
        let (value, limit) = (
            finding.value.expect("an error has a value"),
            finding.limit.expect("an error has a limit"),
        );
        let margin = margins[finding.code()];
        let off = ((value - limit).abs() - margin.abs()).abs();
        assert!(off < 1e-6, "{finding:#?}: {margin} short; {job:#?}");
    }
}

/// The figures are those of the formulas, and so are the remarks. Gives the worst difference.
fn judge_made(job: &Job, tray: &CheckedTray) -> f64 {
    let sizes = formulas::sizes(job);
    let fit = job.fit.around_tray.mm();
    let expected = [
        ("deck_length", sizes.deck[0]),
        ("deck_width", sizes.deck[1]),
        ("wall_height", sizes.side_wall),
        ("end_height", sizes.end_wall),
        ("inner_end_height", sizes.second),
        ("bridge_width", sizes.bridge),
        ("tab_length", sizes.tab_length),
        ("tab_height", sizes.tab_height),
        ("folded_length", sizes.outside[0]),
        ("folded_width", sizes.outside[1]),
        ("folded_depth", sizes.outside[2]),
        ("box_clearance_length", fit),
        ("box_clearance_width", fit),
        ("box_clearance_depth", fit),
        ("blank_length", sizes.blank[0]),
        ("blank_width", sizes.blank[1]),
        ("slot_length.item", sizes.slot[0]),
        ("slot_width.item", sizes.slot[1]),
        ("clear_length.item", sizes.clear[0]),
        ("clear_width.item", sizes.clear[1]),
    ];
    let mut worst = 0.0_f64;
    for (name, figure) in expected {
        let mut measures = tray.report().measures.iter();
        let found = measures.find(|measure| measure.of.to_string() == name);
        let found = found.unwrap_or_else(|| panic!("no {name}")).value;
        worst = worst.max((found - figure).abs());
        assert!(
            (found - figure).abs() < 1e-9,
            "{name}: {found} instead of {figure}; {job:#?}"
        );
    }
    let margins = formulas::remarks(job);
    if margins.values().all(|margin| margin.abs() > NEAR_TIE_MM) {
        let remarked = margins.into_iter().filter(|(_, margin)| *margin < 0.0);
        let expected: Vec<&str> = remarked.map(|(code, _)| code).collect();
        let findings = tray.report().findings.iter();
        let codes = findings.map(Finding::code);
        let mut codes: Vec<&str> = codes.filter(|code| !UNKNOWN.contains(code)).collect();
        codes.sort_unstable();
        assert_eq!(codes, expected, "{job:#?}");
    }
    worst
}
