//! Styles with one mistake each: the engine refuses the tray, and the solids show why.
//!
//! The engine gives no document of a tray that it refuses, so the same mistake is made in the document of the sound one
//! here: panels become longer, wider or turn by another angle. The two never see each other's work.

use std::fs;

use serde_json::Value;
use traywright_document::Document;
use traywright_engine::job::Unit;
use traywright_engine::{Finding, Refusal, Style, make};
use traywright_tests::jobs::style;
use traywright_tests::repository;

use super::mistakes::{COLLIDE, Damage, HINGE, all, worked};
use super::{SINGLE_SLOT, list, measured, number, word};
use traywright_tests::changing::{Change::Reach, apply};

#[test]
fn every_mistake_is_refused_and_seen_in_the_solids() {
    let damages = all();
    assert!(damages.len() >= 12);
    let sound = style(SINGLE_SLOT);
    let damaged = |damage: &Damage| {
        let mut document = make(&sound, &damage.job)
            .expect("the sound tray can be made")
            .finish()
            .document();
        damage
            .changes
            .iter()
            .for_each(|(family, change)| apply(&mut document, family, *change));
        document
    };
    let documents: Vec<Document> = damages.iter().map(damaged).collect();
    let Some(seen) = measured("solids.py", &documents) else {
        return;
    };
    for (damage, seen) in damages.iter().zip(&seen) {
        let finding = refused(damage);
        assert_eq!(finding.code(), damage.code, "{}: {finding:#?}", damage.name);
        println!("{}: {}", damage.name, finding.message(Unit::default()));
        match damage.code {
            COLLIDE => check_collision(damage, &finding, seen),
            _ => check_outside(damage, &finding, seen),
        }
    }
}

/// The tray of a damaged style is refused for one reason.
fn refused(damage: &Damage) -> Finding {
    match make(&edited(&damage.edits), &damage.job) {
        Err(Refusal::Tray(report)) => report.findings[0].clone(),
        other => panic!("{}: {other:#?}", damage.name),
    }
}

fn edited(edits: &[(&str, &str)]) -> Style {
    let mut text = fs::read_to_string(repository().join(SINGLE_SLOT)).expect("the style ships");
    for (from, to) in edits {
        assert_eq!(text.matches(from).count(), 1, "{from}");
        text = text.replace(from, to);
    }
    Style::read("single-slot", &text).unwrap_or_else(|faults| panic!("{faults:#?}"))
}

/// The solids of the two panels are in each other, and no deeper than the shortest way that the engine finds to part them.
fn check_collision(damage: &Damage, finding: &Finding, seen: &Value) {
    let told = finding.value.expect("a depth is told");
    let is_it = |meeting: &&Value| {
        [&meeting["one"], &meeting["other"]]
            .iter()
            .all(|panel| finding.message(Unit::default()).contains(word(panel)))
    };
    let at_crease = list(&seen["creases"])
        .iter()
        .find(is_it)
        .map(|crease| number(&crease["beyond"]));
    let elsewhere = list(&seen["meetings"])
        .iter()
        .find(is_it)
        .map(|meeting| number(&meeting["depth"]));
    let depth = at_crease.into_iter().chain(elsewhere).fold(0.0, f64::max);
    println!("    told {told:.4}, seen {depth:.4}");
    assert!(
        depth > 1e-3 && depth < told + 1e-6,
        "{}: {finding:#?} {seen:#}",
        damage.name
    );
}

/// The solids reach as far as the engine says, and farther than the box less its fit.
fn check_outside(damage: &Damage, finding: &Finding, seen: &Value) {
    let (told, limit) = (
        finding.value.expect("a size is told"),
        finding.limit.expect("a limit is told"),
    );
    let sizes: Vec<f64> = list(&seen["outside"]).iter().map(number).collect();
    println!("    told {told:.4} of {limit:.4}, seen {sizes:.4?}");
    // The mistake may change other panels a little, too: the style works out the deck from the angle of its walls.
    let size = &damage.job.box_size;
    let axis = [size.length, size.width, size.depth]
        .iter()
        .position(|inside| (inside.mm() - limit - damage.job.fit.around_tray.mm()).abs() < 1e-9);
    let found = sizes[axis.expect("one direction is at fault")];
    assert!(
        found > limit + 0.01 && (found - told).abs() < 0.1,
        "{}: {finding:#?} {sizes:?}",
        damage.name
    );
}

#[test]
fn a_pocket_too_wide_by_two_hinges_is_only_looser() {
    // Source: core/GEOMETRY.md, "Where a plain drawing goes wrong", 3: 2t + g instead of 2t + g - 2h makes the pocket
    // 2h too wide. Nothing collides then and nothing is too large, so no proof can refuse it, and the solids agree.
    let damage = Damage {
        name: "a bridge without its two hinges",
        job: worked(),
        edits: vec![(
            "Inside(\"caliper + fit.play\")",
            "Flat(\"2 * caliper + fit.play\")",
        )],
        changes: vec![("bridge", Reach(2.0 * HINGE))],
        code: "",
    };
    let tray =
        make(&edited(&damage.edits), &damage.job).unwrap_or_else(|refusal| panic!("{refusal:#?}"));
    let mut document = make(&style(SINGLE_SLOT), &damage.job)
        .expect("the sound tray can be made")
        .finish()
        .document();
    damage
        .changes
        .iter()
        .for_each(|(family, change)| apply(&mut document, family, *change));
    let Some(seen) = measured("solids.py", &[tray.finish().document(), document]) else {
        return;
    };
    for seen in &seen {
        assert!(
            list(&seen["meetings"])
                .iter()
                .all(|meeting| number(&meeting["depth"]) < 1e-6),
            "{seen:#}"
        );
    }
}
