//! Rules, measures and steps: LANGUAGE sections 9 to 11.
//!
//! Source of all expectations: those sections, and figures worked out by hand.

use traywright_document::Action;
use traywright_engine::job::Unit;
use traywright_engine::{Finding, Level};

use super::{faults, job, made, report};

const PANELS: &str = r#"panels: {"deck": Rectangle(length: Flat("60mm"), width: Flat("40mm")),
    "side": Hinged(on: "deck.sides", inset: "3mm", reach: Flat("9mm")),
    "lip": Hinged(on: "side.far", reach: Flat("4mm"), angle: "20deg"),
    "lid": Hinged(on: "deck.west", when: "box.depth > 90mm", reach: Flat("9mm"))}"#;

fn finding(rule: &str, unit: Unit) -> Option<Finding> {
    let mut job = job();
    job.unit = unit;
    let sections = format!(r#"{PANELS}, rules: {{"tried": {rule}}}"#);
    let findings = report(&sections, &job).findings;
    findings
        .into_iter()
        .find(|finding| finding.code() == "tried")
}

#[test]
fn a_rule_is_told_when_its_need_is_false_with_both_sides_as_figures() {
    let told = finding(
        r#"Error(need: "side.reach >= 12.5mm", message: "the walls are {value} high", fix: "a deeper box")"#,
        Unit::Millimetre,
    );
    let told = told.expect("9 is less than 12.5");
    assert_eq!(
        told.message(Unit::default()),
        "the walls are 9 mm high (at least 12.5 mm)"
    );
    assert_eq!((told.value, told.limit), (Some(9.0), Some(12.5)));
    assert_eq!(
        (told.level, told.place.to_string()),
        (Level::Error, "side".to_owned())
    );
    let fix = told.fix.map(|fix| fix.message(Unit::Millimetre));
    assert_eq!(fix.as_deref(), Some("a deeper box"));
    assert_eq!(
        finding(
            r#"Error(need: "side.reach >= 9mm", message: "low")"#,
            Unit::Millimetre
        ),
        None
    );
}

#[test]
fn figures_stand_in_the_jobs_unit_and_the_limit_only_once() {
    let rule = r#"Warning(need: "side.reach <= 0.2in", message: "{value} is more than {limit}")"#;
    let told = finding(rule, Unit::Inch).expect("9 mm are more than 0.2 in");
    // 9 / 25.4 = 0.35433…
    assert_eq!(told.message(Unit::Inch), "0.354 in is more than 0.2 in");
    let rule = r#"Note(need: "side.reach > 2mm and deck.length < 50mm", value: "deck.length", limit: "50mm", at: "deck", message: "long: {value}")"#;
    let told = finding(rule, Unit::Millimetre).expect("60 is not less than 50");
    assert_eq!((told.value, told.limit), (Some(60.0), Some(50.0)));
    assert_eq!(
        (told.level, told.place.to_string()),
        (Level::Note, "deck".to_owned())
    );
    assert!(told.message(Unit::default()).starts_with("long: 60 mm"));
}

#[test]
fn a_rule_without_need_is_told_always_and_one_about_nothing_never() {
    assert!(finding(r#"Note(message: "so it is")"#, Unit::Millimetre).is_some());
    assert!(
        finding(
            r#"Note(when: "box.depth > 90mm", message: "so it is")"#,
            Unit::Millimetre
        )
        .is_none()
    );
    assert!(
        finding(
            r#"Error(need: "lid.reach > 90mm", message: "short")"#,
            Unit::Millimetre
        )
        .is_none()
    );
}

#[test]
fn a_measure_of_what_does_not_exist_is_left_out() {
    let sections = format!(
        r#"{PANELS}, measures: {{"wall_height": "side.reach", "lid": "lid.reach", "two": "2 * lip.reach"}}"#
    );
    let report = report(&sections, &job());
    let figure = |name: &str| {
        report
            .measures
            .iter()
            .find(|found| found.of.to_string() == name)
            .map(|found| found.value)
    };
    assert_eq!(
        (figure("wall_height"), figure("lid"), figure("two")),
        (Some(9.0), None, Some(8.0))
    );
}

/// The panels that each step folds.
fn folded(steps: &str) -> Vec<Vec<String>> {
    let document = made(&format!("{PANELS}, steps: [{steps}]"));
    let moved = document.steps.iter().filter_map(|step| match &step.action {
        Action::Fold(moves) => Some(
            moves
                .iter()
                .map(|one| document.panels[one.panel].name.clone())
                .collect(),
        ),
        _ => None,
    });
    moved.collect()
}

#[test]
fn steps_go_panel_by_panel_or_member_by_member() {
    let words =
        r#"panels: {"side": "Fold the side up.", "lip": "Fold its lip.", "lid": "Fold the lid."}"#;
    let by_panel = folded(&format!("Fold({words})"));
    assert_eq!(
        by_panel,
        [["side-south"], ["side-north"], ["lip-south"], ["lip-north"]]
    );
    let words = r#"panels: {"side": "Fold the side up.", "lip": "Fold its lip."}"#;
    let by_member = folded(&format!(
        r#"Fold(each: "side", {words}), Fold(panels: {{"lid": "Fold the lid."}})"#
    ));
    // The far one, above in the drawing, comes first.
    assert_eq!(
        by_member,
        [["side-north"], ["lip-north"], ["side-south"], ["lip-south"]]
    );
}

#[test]
fn every_panel_stands_in_the_steps_once() {
    for (steps, words) in [
        (
            r#"Fold(panels: {"side": "x", "lip": "x"})"#,
            "no step folds `lid`",
        ),
        (
            r#"Fold(panels: {"side": "x", "lip": "x", "lid": "x"}), Fold(panels: {"lip": "x"})"#,
            "`lip` is folded twice",
        ),
        (
            r#"Fold(panels: {"side": "x", "lip": "x", "lid": "x", "deck": "x"})"#,
            "`deck` is the root",
        ),
        (
            r#"Fold(panels: {"side": "x", "lip": "x", "ldi": "x"})"#,
            "there is no panel `ldi`",
        ),
    ] {
        let found = faults(&format!("{PANELS}, steps: [{steps}]"));
        assert_eq!(found.len(), 1, "{found:?}");
        assert!(found[0].message.contains(words), "{found:?}");
    }
}

#[test]
fn no_rule_takes_the_code_of_a_finding_of_the_engine() {
    // Source: the pages of `check --explain`, one for each code of the engine, and the codes kept for findings to come.
    let pages = concat!(env!("CARGO_MANIFEST_DIR"), "/src/finding/pages");
    let pages = std::fs::read_dir(pages).expect("the pages can be listed");
    let mut codes: Vec<String> = pages
        .map(|page| page.expect("a page can be seen").path())
        .map(|page| {
            page.file_stem()
                .expect("a page has a name")
                .to_string_lossy()
                .into_owned()
        })
        .collect();
    assert!(codes.len() > 40, "{} codes", codes.len());
    codes.extend(["item-slides".to_owned(), "tray-can-lift".to_owned()]);
    for code in codes {
        let rule = format!(
            r#"{PANELS}, rules: {{"{code}": Error(need: "side.reach >= 12.5mm", message: "low")}}"#
        );
        let found = faults(&rule);
        assert!(
            found[0].message.contains("finds by itself"),
            "{code}: {found:?}"
        );
    }
}

#[test]
fn two_broken_rules_about_the_style_as_a_whole_are_two_errors() {
    // Source: core/CONTRACT.md, "check --format json": a report lists what was found; neither rule causes the other.
    let rules = format!(
        r#"{PANELS}, rules: {{"short": Error(need: "box.length > 4000mm", message: "the box is {{value}} long"),
            "low": Error(need: "box.depth > 4000mm", message: "the box is {{value}} deep")}}"#
    );
    let found = report(&rules, &job()).findings;
    let codes: Vec<&str> = found.iter().map(Finding::code).collect();
    assert_eq!(codes, ["short", "low"]);
}
