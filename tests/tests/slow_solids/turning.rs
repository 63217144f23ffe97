//! Folding in an order: where the engine finds a way, the solids pass, and where it finds none they meet at its angle.

use serde_json::Value;
use traywright_document::Document;
use traywright_engine::job::{Job, Length, Unit};
use traywright_engine::{Finding, Level, Refusal, make};
use traywright_tests::jobs::{Dice, job, style};

use super::orders::{Line, shuffled, style_with, with_steps, wrong};
use super::{
    SINGLE_SLOT, list, measured, number, other_trays, random_trays, without_tongues, word,
};
use traywright_tests::changing::{Change, apply};

/// How finely the outsider turns.
const STEP_DEG: f64 = 0.25;

#[test]
fn trays_fold_in_their_own_order_without_any_panel_coming_into_another() {
    let mut documents: Vec<Document> = Vec::new();
    for (name, count) in [("single-slot", 45), ("double-wall", 20), ("lid-lock", 20)] {
        let random = random_trays(name, 12, count);
        documents.extend(
            random
                .iter()
                .map(|(_, tray)| without_tongues(tray.finish().document())),
        );
    }
    documents.extend(other_trays().iter().map(|tray| tray.finish().document()));
    let Some(seen) = measured("solids_turning.py", &documents) else {
        return;
    };
    let (mut turns, mut near) = (0, 0);
    for (document, seen) in documents.iter().zip(&seen) {
        let hits = list(&seen["hits"]);
        assert!(
            hits.is_empty(),
            "{} {:?} {:?}: {hits:#?}",
            document.style,
            document.box_size,
            document.board
        );
        turns += number(&seen["turns"]) as usize;
        near += list(&seen["near"]).len();
    }
    println!(
        "{} trays, {turns} folds, {near} touches less deep than the engine minds",
        documents.len()
    );
    let folds = |document: &Document| document.panels.len() - 1;
    assert_eq!(turns, documents.iter().map(folds).sum::<usize>());
}

/// What the engine says of an order: nothing, or the step, the panel, what it runs into, and the angle.
#[derive(Debug)]
struct Blocked {
    /// None where no order works at all.
    action: Option<usize>,
    panel: String,
    other: String,
    angle_deg: f64,
}

impl Blocked {
    fn of(finding: &Finding) -> Blocked {
        let message = &finding.message(Unit::default());
        let between = |from: &str, to: &str| {
            let rest = message.split_once(from)?.1;
            Some(rest.split_once(to).map_or(rest, |(word, _)| word))
        };
        let other = between("it hits ", " ").or_else(|| between("touches ", " "));
        let step =
            between("step ", " ").map(|step| step.parse::<usize>().expect("a number of a step"));
        Blocked {
            action: step.map(|step| step - 1),
            panel: finding.place.to_string(),
            other: other
                .unwrap_or_else(|| panic!("it meets nothing: {message}"))
                .trim_end_matches('.')
                .to_owned(),
            angle_deg: finding.value.expect("the angle is told"),
        }
    }
}

/// What the engine makes of an order for a job that can be folded in the style's own: it tells why it takes another.
fn judged(job: &Job, lines: &[Line]) -> Option<Blocked> {
    match make(&style_with(lines), job) {
        Ok(tray) => {
            let mut findings = tray.report().findings.iter();
            findings
                .find(|found| found.code() == "other-order")
                .map(Blocked::of)
        }
        Err(Refusal::Tray(report)) => {
            let errors: Vec<&Finding> = report
                .findings
                .iter()
                .filter(|found| found.level == Level::Error)
                .collect();
            assert_eq!(errors.len(), 1, "{errors:#?}");
            assert_eq!(errors[0].code(), "no-swing-room", "{errors:#?}");
            Some(Blocked::of(errors[0]))
        }
        Err(fault) => panic!("{fault:#?}"),
    }
}

#[derive(Debug, Default)]
struct Agreement {
    free: usize,
    blocked: usize,
    /// Hits whose solids have touched for a while before the engine's angle.
    touches: usize,
}

impl Agreement {
    /// Holds the engine's word against the solids.
    fn judge(&mut self, says: Option<&Blocked>, seen: &Value, name: &str) {
        let Some(says) = says else {
            assert!(
                list(&seen["hits"]).is_empty(),
                "{name}: let pass, but {seen:#}"
            );
            self.free += 1;
            return;
        };
        let told = format!("{} into {} at {}", says.panel, says.other, says.angle_deg);
        let hits = list(&seen["hits"]);
        assert!(
            !hits.is_empty(),
            "{name}: {told}, but no solid meets another: {seen:#}"
        );
        let action = number(&seen["action"]) as usize;
        assert!(
            says.action.is_none_or(|told| told == action),
            "{name}: {told}, {seen:#}"
        );
        let is_it =
            |hit: &&Value| word(&hit["panel"]) == says.panel && word(&hit["other"]) == says.other;
        let hit = hits.iter().find(is_it);
        let hit = hit.unwrap_or_else(|| panic!("{name}: {told}, but {seen:#}"));
        let (first, deep) = (number(&hit["first"]), number(&hit["deep"]));
        let at = says.angle_deg;
        assert!(
            first - 2.0 * STEP_DEG < at && at < deep + 1e-9,
            "{name}: {told}; seen from {first}, deep at {deep}"
        );
        if (at - first).abs() <= STEP_DEG {
            self.blocked += 1;
        } else {
            // They touch, or are in each other a little, for a while before they are deep.
            println!("{name}: {told}; seen from {first}, deep at {deep}");
            self.touches += 1;
        }
    }
}

/// Sound trays with an order for each: the wrong ones for some boxes, and any order at all for random trays.
fn cases() -> Vec<(String, Job, Vec<Line>)> {
    let mut cases: Vec<(String, Job, Vec<Line>)> = Vec::new();
    let boxes = [
        (
            "the worked tray",
            job([182.0, 121.0, 34.0], [96.0, 61.0, 28.0], 0.29),
        ),
        (
            "a slot near the ends",
            job([182.0, 121.0, 34.0], [150.0, 61.0, 28.0], 0.29),
        ),
        (
            "a deep box",
            job([100.0, 80.0, 60.0], [40.0, 30.0, 57.0], 0.29),
        ),
        (
            "thick card",
            job([182.0, 121.0, 40.0], [96.0, 61.0, 28.0], 1.0),
        ),
    ];
    for (name, job) in boxes {
        let named = wrong()
            .into_iter()
            .map(|(order, lines)| (format!("{name}, {order}"), job.clone(), lines));
        cases.extend(named);
    }
    let mut dice = Dice(5);
    for (job, _) in random_trays("single-slot", 13, 60) {
        let lines = shuffled(&mut dice);
        cases.push((
            format!("{lines:?} {:?} {:?} {:?}", job.box_size, job.board, job.fit),
            job,
            lines,
        ));
    }
    cases
}

#[test]
fn orders_that_do_not_work_are_refused_where_the_solids_meet_and_no_others() {
    let cases = cases();
    let documents: Vec<Document> = cases
        .iter()
        .map(|(_, job, lines)| in_order(job, lines))
        .collect();
    let Some(seen) = measured("solids_turning.py", &documents) else {
        return;
    };
    let mut agreement = Agreement::default();
    for ((name, job, lines), seen) in cases.iter().zip(&seen) {
        agreement.judge(judged(job, lines).as_ref(), seen, name);
    }
    println!("{agreement:?}");
    let Agreement {
        free,
        blocked,
        touches,
    } = agreement;
    assert!(free >= 15 && blocked >= 50, "too few of a kind were drawn");
    assert!(touches * 4 < blocked, "too many are set apart");
}

#[test]
fn an_inner_end_without_room_to_swing_meets_the_other_end_at_the_angle_told() {
    // Reasoning: a tray that cannot be folded in any order has no document, so a sound one is made deeper here: its walls,
    // tabs and inner ends grow by as much. Its bridge carries the inner end over the tray and into the other end.
    let low = job([100.0, 80.0, 90.0], [40.0, 30.0, 87.0], 0.29);
    let sound = make(&style(SINGLE_SLOT), &low).unwrap_or_else(|refusal| panic!("{refusal:#?}"));
    let by = [9.0, 12.0, 20.0];
    let deeper = |by: &f64| {
        let mut document = sound.finish().document();
        for family in ["side", "end", "inner-end"] {
            apply(&mut document, family, Change::Reach(*by));
        }
        apply(&mut document, "tab", Change::Opposite(*by));
        document
    };
    let documents: Vec<Document> = by.iter().map(deeper).collect();
    let Some(seen) = measured("solids_turning.py", &documents) else {
        return;
    };
    for (by, seen) in by.iter().zip(&seen) {
        let mut deep = low.clone();
        deep.box_size.depth = Length::known(deep.box_size.depth.mm() + by);
        let Err(Refusal::Tray(report)) = make(&style(SINGLE_SLOT), &deep) else {
            panic!("{by} deeper is let pass");
        };
        assert_eq!(report.findings[0].code(), "no-swing-room", "{report:#?}");
        let says = Blocked::of(&report.findings[0]);
        println!(
            "{by} deeper: {}",
            report.findings[0].message(Unit::default())
        );
        let mut agreement = Agreement::default();
        agreement.judge(Some(&says), seen, &format!("{by} deeper"));
        assert_eq!(agreement.blocked, 1, "{says:?} {seen:#}");
    }
}

/// The tray in the style's own order, with its steps in another.
fn in_order(job: &Job, lines: &[Line]) -> Document {
    let tray = make(&style(SINGLE_SLOT), job);
    with_steps(
        tray.unwrap_or_else(|refusal| panic!("{refusal:#?}"))
            .finish()
            .document(),
        lines,
    )
}
