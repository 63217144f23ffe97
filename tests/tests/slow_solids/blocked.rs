//! Trays that are refused because no order folds them: solids find none either.
//!
//! A refused tray has no document, so a lower one of the same job, which folds, is made as high here as the refused one:
//! walls, inner walls and ends grow by as much, tabs as far as the deck lets them.

use traywright_document::{Document, Panel, Point};
use traywright_engine::job::{Job, Length};
use traywright_engine::{Level, Refusal, Style, make};
use traywright_tests::changing::{Change, apply};
use traywright_tests::jobs::{drawn_for, style};
use traywright_tests::thorough::part_of;

use super::{measured, number, without_tongues};

/// Random jobs that fold, or are refused because they do not.
// Source: the plan of the project.
const JOBS: usize = 500;

const DOUBLE_WALL: &str = "designs/styles/double-wall.ron";

/// How high a tray of the job is.
fn height(job: &Job) -> f64 {
    job.tray_height.map_or(
        job.box_size.depth.mm() - job.fit.around_tray.mm(),
        Length::mm,
    )
}

/// Whether a job is refused because its folds are blocked; none where it is refused for another reason.
fn is_blocked(style: &Style, job: &Job) -> Option<bool> {
    let report = match make(style, job) {
        Ok(_) => return Some(false),
        Err(Refusal::Tray(report)) => report,
        Err(fault) => panic!("{fault:#?}"),
    };
    let errors = report.findings.iter();
    let mut errors = errors.filter(|found| found.level == Level::Error);
    let is_it = |code: &str| matches!(code, "no-swing-room" | "step-blocked");
    errors.all(|found| is_it(found.code())).then_some(true)
}

/// The same job with a lower tray, and an item that is level with its deck.
fn lower(job: &Job, to: f64) -> Job {
    let mut job = job.clone();
    job.tray_height = Some(Length::known(to));
    let item = &mut job.items[0];
    item.depth = Length::known(item.depth.mm().min(to));
    item.pad = Length::known(to - item.depth.mm());
    job
}

/// The highest lower tray of a job that folds, and the same made as high as the job asks for.
fn low_and_high(style: &Style, job: &Job) -> Option<[Document; 2]> {
    let asked = height(job);
    let parts = (1..19).map(|part| 1.0 - f64::from(part) / 20.0);
    let mut heights = parts.map(|part| part * asked);
    heights.find_map(|height| {
        let tray = make(style, &lower(job, height)).ok()?;
        let document = tray.unrounded().document();
        let high = higher(document.clone(), job, asked - height);
        Some([without_tongues(document), high])
    })
}

/// A double-wall tray made higher.
// Source: core/GEOMETRY.md, "Double-wall": walls, inner walls, ends and inner ends are as much lower than the tray
// whatever its height; tabs reach as far as the end is high, at most to c short of the deck's middle, inner tabs to
// c + t + g short of it.
fn higher(document: Document, job: &Job, by: f64) -> Document {
    // Where tongues are does not follow their panels.
    let mut document = without_tongues(document);
    let measure = |name: &str| {
        let mut measures = document.measures.iter();
        measures
            .find(|found| found.name == name)
            .expect("it is reported")
            .value
    };
    let (end, half) = (measure("end_height"), measure("deck_width") / 2.0);
    let (caliper, play) = (job.board.caliper.mm(), job.fit.play.mm());
    let more = |most: f64| (end + by).min(most) - end.min(most);
    let tab = more(half - play / 2.0);
    let inner_tab = more(half - play / 2.0 - caliper - play);
    for family in ["side-south", "side-north", "inner-side", "end", "inner-end"] {
        apply(&mut document, family, Change::Reach(by));
    }
    for (family, more) in [("tab", tab), ("inner-tab", inner_tab)] {
        apply(&mut document, family, Change::Opposite(by));
        apply(&mut document, family, Change::Reach(more));
    }
    document
}

/// Left, lower, right and upper end of the outline of each panel but the flaps, by its name.
fn extents(document: &Document) -> Vec<(&str, [f64; 4])> {
    let of = |panel: &Panel| {
        let mut extent = [
            f64::INFINITY,
            f64::INFINITY,
            f64::NEG_INFINITY,
            f64::NEG_INFINITY,
        ];
        for segment in &panel.outline.segments {
            let Point { x, y } = segment.to();
            let [left, lower, right, upper] = extent;
            extent = [left.min(x), lower.min(y), right.max(x), upper.max(y)];
        }
        extent
    };
    let own = document
        .panels
        .iter()
        .filter(|panel| !panel.name.starts_with("flap"));
    own.map(|panel| (panel.name.as_str(), of(panel))).collect()
}

#[test]
fn a_lower_tray_made_higher_is_the_tray_of_that_height() {
    // Reasoning: without this the next test would fold trays that nobody asked for.
    let style = style(DOUBLE_WALL);
    let mut compared = 0;
    for job in drawn_for("double-wall", 23).take(part_of(JOBS)) {
        let asked = height(&job);
        let both = [lower(&job, asked), lower(&job, 0.9 * asked)];
        let [Ok(full), Ok(low)] = both.each_ref().map(|job| make(&style, job)) else {
            continue;
        };
        let full = full.unrounded().document();
        let made = higher(low.unrounded().document(), &job, 0.1 * asked);
        let full = without_tongues(full);
        for ((name, one), (_, other)) in extents(&full).into_iter().zip(extents(&made)) {
            let near = |axis: usize| (one[axis] - other[axis]).abs() < 1e-6;
            assert!((0..4).all(near), "{name}: {one:?}, not {other:?}; {job:#?}");
        }
        compared += 1;
    }
    println!("{compared} trays compared");
    assert!(compared * 10 >= part_of(JOBS), "only {compared}");
}

#[test]
fn trays_that_are_refused_as_blocked_fold_in_no_order_that_solids_find() {
    let style = style(DOUBLE_WALL);
    let jobs = drawn_for("double-wall", 29);
    let judged = jobs.filter_map(|job| Some((is_blocked(&style, &job)?, job)));
    let judged = judged.take(part_of(JOBS));
    let blocked: Vec<Job> = judged
        .filter_map(|(blocked, job)| blocked.then_some(job))
        .collect();
    let documents = blocked.iter().map(|job| low_and_high(&style, job));
    let documents: Vec<[Document; 2]> =
        documents.collect::<Option<_>>().expect("a lower one folds");
    println!("{} jobs are blocked", blocked.len());
    assert!(!blocked.is_empty(), "no job is blocked");
    let Some(seen) = measured("solids_orders.py", documents.as_flattened()) else {
        return;
    };
    for (job, seen) in blocked.iter().zip(seen.chunks(2)) {
        let [low, high] = [0, 1].map(|at| number(&seen[at]["turns"]));
        println!("{:?}: {low} and {high} turns", job.box_size);
        // The search finds an order where there is one.
        assert!(seen[0]["order"].is_array(), "{:#} {job:#?}", seen[0]);
        assert!(seen[1]["order"].is_null(), "{:#} {job:#?}", seen[1]);
    }
    let given_up = seen.iter().filter(|seen| seen["given_up"] == true).count();
    assert_eq!(given_up, 0, "searches that were not finished");
}
