//! Settings, their ranges and their values in a job, fallbacks and `when`: LANGUAGE sections 5 and 6.
//!
//! Source of all expectations: those sections, and figures worked out by hand.

use traywright_engine::job::{Job, Setting, SettingInput, Unit};
use traywright_engine::{Level, Refusal, SourceError, make};

use super::{job, made, measured, names, report, seated, style};

const TRIED: &str = r#"settings: {
        "rail": Length(default: "2 * low", min: "low", max: "low + 2mm + fit.play", question: "How high is the rail?"),
        "low": Length(default: "3mm", min: "1mm", max: "9mm", question: "How low may a rail be?"),
        "lean": Angle(default: "90deg", min: "45deg", max: "90deg", question: "How far does the rail lean?"),
        "parts": Number(default: "2", min: "1", max: "4", question: "How many parts?"),
        "view": Choice(default: "closed", of: ["window", "closed"], question: "Is there a window?"),
        "neat": YesNo(default: true, question: "Is it neat?"),
        "unused": Number(default: "1", min: "1", max: "1", question: "Does nobody use this?")},
    panels: {"deck": Rectangle(length: Flat("60mm"), width: Flat("40mm")),
        "rail-south": Hinged(on: "deck.south", inset: "3mm", angle: "lean", reach: Flat("rail * parts")),
        "pane": Hinged(on: "deck.west", when: "view is window and not neat", inset: "3mm", reach: Flat("5mm"))},
    measures: {"wall_height": "rail-south.reach"}"#;

fn with(settings: &[(&str, SettingInput)]) -> Job {
    let setting = |(name, answer): &(&str, SettingInput)| Setting {
        name: (*name).to_owned(),
        answer: answer.clone(),
        place: 7..9,
    };
    let mut job = job();
    job.settings = settings.iter().map(setting).collect();
    job
}

fn refused(sections: &str, job: &Job) -> Vec<SourceError> {
    match make(&style(sections), job) {
        Err(Refusal::Job(faults)) => faults,
        other => panic!("not the job's fault: {other:?}"),
    }
}

#[test]
fn the_usual_answers_are_formulas_and_the_jobs_answers_come_before_them() {
    use SettingInput::{Angle, Length, Number};
    measured(TRIED, &job(), &[("wall_height", 12.0)]);
    measured(
        TRIED,
        &with(&[("low", Length(2.0))]),
        &[("wall_height", 8.0)],
    );
    measured(
        TRIED,
        &with(&[("rail", Length(5.5)), ("parts", Number(3.0))]),
        &[("wall_height", 16.5)],
    );
    let leaning = make(&style(&seated(TRIED)), &with(&[("lean", Angle(60.0))]))
        .expect("a leaning rail can be made");
    let hinge = leaning.finish().document().panels[1]
        .hinge
        .expect("a rail hangs on a crease");
    assert!((hinge.fold_deg - 60.0).abs() < 1e-9);
}

#[test]
fn an_answer_outside_its_range_is_refused_with_the_range_and_the_question() {
    for (settings, words) in [
        // low + 2 + 0.5 with the default 3, and with 4.
        (
            vec![("rail", SettingInput::Length(5.6))],
            "between 3 mm and 5.5 mm",
        ),
        (
            vec![
                ("low", SettingInput::Length(4.0)),
                ("rail", SettingInput::Length(3.9)),
            ],
            "between 4 mm and 6.5 mm",
        ),
        (
            vec![("rail", SettingInput::Length(2.9))],
            "between 3 mm and 5.5 mm",
        ),
    ] {
        let faults = refused(TRIED, &with(&settings));
        assert_eq!(faults.len(), 1);
        assert_eq!(faults[0].place, 7..9);
        assert_eq!(faults[0].label, words);
        assert_eq!(faults[0].hint.as_deref(), Some("How high is the rail?"));
    }
    measured(
        TRIED,
        &with(&[("rail", SettingInput::Length(5.5))]),
        &[("wall_height", 11.0)],
    );
    assert_eq!(
        refused(TRIED, &with(&[("lean", SettingInput::Angle(44.0))])).len(),
        1
    );
    assert_eq!(
        refused(TRIED, &with(&[("parts", SettingInput::Number(5.0))])).len(),
        1
    );
}

#[test]
fn an_answer_of_another_kind_or_to_no_question_is_refused() {
    for (name, answer, words) in [
        ("rail", SettingInput::Number(3.0), "a length"),
        ("lean", SettingInput::Length(3.0), "an angle"),
        ("parts", SettingInput::YesNo(true), "a number"),
        ("neat", SettingInput::Word("yes".to_owned()), "#true"),
        ("view", SettingInput::Word("widow".to_owned()), "\"window\""),
        ("raill", SettingInput::Length(3.0), "\"rail\""),
    ] {
        let faults = refused(TRIED, &with(&[(name, answer)]));
        assert_eq!(faults.len(), 1);
        assert!(faults[0].label.contains(words), "{faults:?}");
    }
}

#[test]
fn words_and_truths_decide_what_exists() {
    let window = ("view", SettingInput::Word("window".to_owned()));
    let panes = |settings: &[(&str, SettingInput)]| {
        let tray = make(&style(&seated(TRIED)), &with(settings)).expect("both trays can be made");
        names(&tray.finish().document()).contains(&"pane")
    };
    assert!(!panes(&[]));
    assert!(!panes(std::slice::from_ref(&window)));
    assert!(panes(&[window, ("neat", SettingInput::YesNo(false))]));
}

#[test]
fn the_questions_of_the_house_are_answered_in_the_job_and_asked_anew_by_a_style() {
    let walls = |asks: &str| {
        format!(
            r#"settings: {{{asks}}}, panels: {{"deck": Rectangle(length: Flat("60mm"), width: Flat("40mm")), "wall": Hinged(on: "deck.south", reach: Flat("9mm"))}},
            openings: {{"slot": Slot(on: "deck", cut: Open, stacks: {{"wall": "caliper"}})}}, measures: {{"wall_height": "edge-web"}}"#
        )
    };
    let web = |length| with(&[("edge-web", SettingInput::Length(length))]);
    measured(&walls(""), &job(), &[("wall_height", 3.0)]);
    measured(&walls(""), &web(5.0), &[("wall_height", 5.0)]);
    // The slot of 32 × 22 leaves (40 - 22) / 2 = 9 of the deck, of which the wall takes 1 from 0.75 outside: 8.75
    // remain.
    let near = |length| {
        let findings = report(&walls(""), &web(length)).findings;
        let short = findings
            .into_iter()
            .find(|finding| finding.code().starts_with("opening-too-near"));
        short.map(|finding| (finding.value, finding.limit))
    };
    assert_eq!(
        (near(9.5), near(5.0)),
        (Some((Some(8.75), Some(9.5))), None)
    );
    assert_eq!(refused(&walls(""), &web(0.2)).len(), 1);
    let own = walls(
        r#""edge-web": Length(default: "1mm", min: "0mm", max: "2mm", question: "How near?")"#,
    );
    measured(&own, &job(), &[("wall_height", 1.0)]);
    assert_eq!(refused(&own, &web(5.0)).len(), 1);
    let without_slots = TRIED;
    assert_eq!(refused(without_slots, &web(5.0)).len(), 1);
}

#[test]
fn the_first_option_that_fits_is_the_choice() {
    let tried = |options: &str| {
        format!(
            r#"fallbacks: {{"hold": {{{options}}}}},
            panels: {{"deck": Rectangle(length: Flat("60mm"), width: Flat("40mm")),
                "hook": Hinged(on: "deck.south", when: "hold is hooks", reach: Flat("9mm")),
                "tab": Hinged(on: "deck.south", when: "hold is tabs", reach: Flat("9mm"))}}"#
        )
    };
    let first = made(&tried(
        r#""hooks": "box.depth >= 32mm", "tabs": "otherwise""#,
    ));
    assert_eq!(names(&first), ["deck", "hook"]);
    let second = made(&tried(
        r#""hooks": "box.depth > 32mm", "tabs": "otherwise""#,
    ));
    assert_eq!(names(&second), ["deck", "tab"]);
    let none = report(
        &tried(r#""hooks": "box.depth > 40mm", "tabs": "box.width > 90mm and otherwise""#),
        &job(),
    );
    assert_eq!(
        (none.findings[0].code(), none.findings[0].level),
        ("no-hold", Level::Error)
    );
    for words in [
        "hooks needs box.depth > 40mm (box.depth is 32 mm)",
        "tabs needs box.width > 90mm and otherwise",
    ] {
        assert!(
            none.findings[0].message(Unit::default()).contains(words),
            "{none:?}"
        );
    }
}
