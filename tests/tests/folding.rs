//! Folding, holding and how sure a fit is: figures that were published or worked out before there was a program.
//!
//! The engine is used as a library. What solids say of the same trays is asked in `slow_solids`.

use std::fs;

use traywright_engine::job::{Job, Length, Unit};
use traywright_engine::{CheckedTray, Finding, PassedCheck, Place, Refusal, Report, Style, make};
use traywright_tests::jobs::{job, style};
use traywright_tests::repository;

const SINGLE_SLOT: &str = "designs/styles/single-slot.ron";

/// The example of core/GEOMETRY.md, "Single-slot: worked".
fn worked() -> Job {
    job([182.0, 121.0, 34.0], [96.0, 61.0, 28.0], 0.29)
}

fn made(style: &Style, job: &Job) -> CheckedTray {
    make(style, job).unwrap_or_else(|refusal| panic!("{refusal:#?}"))
}

/// The shipped style with other steps.
fn with_steps(steps: &str) -> Style {
    let text = fs::read_to_string(repository().join(SINGLE_SLOT)).expect("the style ships");
    let (head, _) = text
        .split_once("    steps: [")
        .expect("the style has steps");
    Style::read("single-slot", &format!("{head}{steps}\n)\n"))
        .unwrap_or_else(|faults| panic!("{faults:#?}"))
}

fn edited(edits: &[(&str, &str)]) -> Style {
    let mut text = fs::read_to_string(repository().join(SINGLE_SLOT)).expect("the style ships");
    for (from, to) in edits {
        assert_eq!(text.matches(from).count(), 1, "{from}");
        text = text.replace(from, to);
    }
    Style::read("single-slot", &text).unwrap_or_else(|faults| panic!("{faults:#?}"))
}

/// The one error of a tray that is refused.
fn refused(style: &Style, job: &Job) -> Finding {
    match make(style, job) {
        Err(Refusal::Tray(report)) => report.findings[0].clone(),
        other => panic!("{other:#?}"),
    }
}

fn figure(report: &Report, name: &str) -> f64 {
    let found = report
        .measures
        .iter()
        .find(|measure| measure.of.to_string() == name);
    found.unwrap_or_else(|| panic!("no {name}")).value
}

#[test]
fn an_order_is_worked_out_where_the_style_has_none() {
    // Source: core/GEOMETRY.md, "Single-slot: the order of folds": a tab has no way in once its end wall stands, and an
    // end wall stands before its bridge and inner end are turned in.
    let document = made(&with_steps(""), &worked()).finish().document();
    let mut folded: Vec<&str> = Vec::new();
    for step in &document.steps {
        if let traywright_document::Action::Fold(moves) = &step.action {
            folded.extend(
                moves
                    .iter()
                    .map(|one| document.panels[one.panel].name.as_str()),
            );
        }
    }
    assert_eq!(folded.len(), document.panels.len() - 1, "{folded:?}");
    let at = |name: &str| {
        folded
            .iter()
            .position(|panel| *panel == name)
            .unwrap_or_else(|| panic!("no {name}"))
    };
    for end in ["west", "east"] {
        for side in ["south", "north"] {
            assert!(
                at(&format!("tab-{side}-{end}")) < at(&format!("end-{end}")),
                "{folded:?}"
            );
        }
        assert!(
            at(&format!("end-{end}")) < at(&format!("bridge-{end}")),
            "{folded:?}"
        );
        assert!(
            at(&format!("bridge-{end}")) < at(&format!("inner-end-{end}")),
            "{folded:?}"
        );
    }
    let tabs = document
        .steps
        .iter()
        .find(|step| step.words.contains("tab-"));
    let why = &tabs.expect("a step folds a tab").why;
    assert!(why.contains("end") && why.contains("no way in"), "{why}");
}

/// Each tab comes in before its end wall in the order that was taken.
fn takes_tabs_before_ends(tray: &CheckedTray) {
    let document = tray.finish().document();
    let names = document.steps.iter().filter_map(|step| match &step.action {
        traywright_document::Action::Fold(moves) => {
            Some(document.panels[moves[0].panel].name.as_str())
        }
        _ => None,
    });
    let order: Vec<&str> = names.collect();
    let at = |name: &str| order.iter().position(|folded| *folded == name);
    assert!(at("tab-south-west") < at("end-west"), "{order:?}");
}

#[test]
fn a_wrong_order_is_told_with_its_step_both_panels_and_the_angle_and_another_is_taken() {
    // Source: core/GEOMETRY.md, "Single-slot: the order of folds": a tab comes in before its end wall; a roll-over
    // folded to a U beforehand hits the tab.
    let rest = "Fold(panels: {\"side\": \"Up.\"})";
    let last = "Flaps(text: \"Down.\")";
    let cases = [
        (
            format!(
                "steps: [{rest}, Fold(each: \"end\", panels: {{\"end\": \"Up.\", \"bridge\": \"Over.\", \"inner-end\": \"In.\"}}), \
                 Fold(panels: {{\"tab\": \"In.\"}}), {last}]"
            ),
            // Two sides come first. Then the tab that still stretches on from its standing side is in the end wall's way.
            ("step 3 ", "end-", "tab-"),
        ),
        (
            format!(
                "steps: [{rest}, Fold(panels: {{\"tab\": \"In.\"}}), Fold(panels: {{\"bridge\": \"Over.\"}}), \
                 Fold(panels: {{\"inner-end\": \"In.\"}}), Fold(panels: {{\"end\": \"Up.\"}}), {last}]"
            ),
            // Two sides, four tabs, two bridges and two inner ends.
            ("step 11 ", "end-", "tab-"),
        ),
    ];
    for (steps, (step, panel, other)) in cases {
        let tray = made(&with_steps(&steps), &worked());
        let mut findings = tray.report().findings.iter();
        let found = findings.find(|found| found.code() == "other-order");
        let found = found.expect("the order that was taken is told").clone();
        let (place, message) = (found.place.to_string(), found.message(Unit::default()));
        assert!(message.contains(step), "{found:#?}");
        assert!(
            place.starts_with(panel) && message.contains(&place),
            "{found:#?}"
        );
        assert!(message.contains(&format!(" {other}")), "{found:#?}");
        let angle = found.value.expect("the angle is told");
        assert!(
            (0.0..90.0).contains(&angle) && found.limit == Some(90.0),
            "{found:#?}"
        );
        let told = match angle < 1.0 {
            true => "at once".to_owned(),
            false => format!("{angle:.0}°"),
        };
        assert!(message.contains(&told), "{found:#?}");
        takes_tabs_before_ends(&tray);
    }
}

#[test]
fn walls_are_held_after_the_turns_that_were_worked_out() {
    // Source: core/GEOMETRY.md, "Single-slot: what holds": the side can turn out 0.55°, then its tab stands on the
    // bridge; the end 0.50°, then the inner end meets the tab. Worked out by a separate prototype, by stepping.
    let report = made(&style(SINGLE_SLOT), &worked()).report().clone();
    let holding = report
        .proofs
        .iter()
        .find(|passed| matches!(passed, PassedCheck::Walls { .. }));
    let holding = holding.expect("what holds is told");
    let says = holding.message(Unit::Millimetre);
    for (wall, angle, stop) in [("side", 0.55, "bridge"), ("end", 0.50, "tab")] {
        let words = says
            .split("; ")
            .find(|words| words.starts_with(&format!("{wall} can open ")));
        let words = words.unwrap_or_else(|| panic!("{wall}: {says}"));
        let told: f64 = words
            .split(['°', ' '])
            .find_map(|word| word.parse().ok())
            .expect("an angle");
        // Told to one decimal.
        assert!((told - angle).abs() <= 0.1, "{words}");
        assert!(words.contains(&format!("before {stop}-")), "{words}");
    }
}

#[test]
fn a_fold_in_the_middle_of_the_card_adds_half_of_it_to_a_wall() {
    // Source: tests/facts/folding.md geo-04 and geo-06: creases 97.55 apart in card of 0.45 give 98.00
    // outside; a wall of 28 gives 28.225 from the deck's top to its edge.
    let style = edited(&[
        (
            "length: Outside(\"tray.length\")",
            "length: Flat(\"97.55mm\")",
        ),
        ("fills: [Length, Width, Depth]", "fills: []"),
        (
            "\"caliper + gap\", reach: Outside(\"tray.depth\")",
            "\"caliper + gap\", reach: Flat(\"28mm\")",
        ),
        (
            "\"deck.ends\", reach: Outside(\"tray.depth\")",
            "\"deck.ends\", reach: Flat(\"27.55mm\")",
        ),
        (
            "reach: Outside(\"tray.depth - caliper - tuck\")",
            "reach: Flat(\"20mm\")",
        ),
    ]);
    let tray = made(
        &style,
        &job([100.0, 80.0, 30.225], [50.0, 40.0, 20.0], 0.45),
    );
    assert!(
        (figure(tray.report(), "folded_length") - 98.0).abs() < 1e-9,
        "{:#?}",
        tray.report().measures
    );
    assert!(
        (figure(tray.report(), "folded_depth") - 28.225).abs() < 1e-9,
        "{:#?}",
        tray.report().measures
    );
}

#[test]
fn a_roll_over_traps_one_tab_in_two_calipers() {
    // Source: tests/facts/folding.md geo-07 to geo-11, at caliper 0.45 without play: the spacer is 0.90,
    // at most two thicknesses of board (NARA document storage box, 1993); beside an end wall of 28 the inner leg is
    // 27.775 and the plain wall 28.225; on a deck of 98 the tabs' creases are 97.10 apart.
    let mut job = job([100.45, 80.0, 30.45], [50.0, 40.0, 20.0], 0.45);
    job.fit.play = Length::known(0.0);
    let tray = made(&style(SINGLE_SLOT), &job);
    let report = tray.report();
    for (name, expected) in [
        ("deck_length", 98.0),
        ("end_height", 28.0),
        ("bridge_width", 0.90),
        ("inner_end_height", 27.775),
        ("wall_height", 28.225),
    ] {
        let found = figure(report, name);
        assert!((found - expected).abs() < 1e-9, "{name}: {found}");
    }
    let document = tray.finish().document();
    let tab_creases = document.flat.creases.iter().filter(|crease| {
        let name = &document.panels[crease.panel].name;
        name.starts_with("tab-south")
    });
    let places: Vec<f64> = tab_creases.map(|crease| crease.from.x).collect();
    assert!(
        ((places[0] - places[1]).abs() - 97.10).abs() < 1e-9,
        "{places:?}"
    );
}

#[test]
fn figures_of_card_without_a_caliper_do_not_fit_in_card_of_0_45() {
    // Source: core/GEOMETRY.md, "Single-slot: worked": 180.45 × 119.45 × 32.22 instead of 180 × 119 × 32.
    let cases = [
        (
            "length: Outside(\"tray.length\")",
            "length: Flat(\"tray.length\")",
            180.45,
            180.0,
        ),
        (
            "width: Outside(\"tray.width\")",
            "width: Flat(\"tray.width\")",
            119.45,
            119.0,
        ),
        (
            "\"caliper + gap\", reach: Outside(\"tray.depth\")",
            "\"caliper + gap\", reach: Flat(\"tray.depth\")",
            32.225,
            32.0,
        ),
    ];
    let mut thick = worked();
    thick.board.caliper = Length::known(0.45);
    for (from, to, value, limit) in cases {
        let found = refused(&edited(&[(from, to)]), &thick);
        assert_eq!(found.code(), "outside-too-large", "{found:#?}");
        let (told, most) = (found.value.expect("a value"), found.limit.expect("a limit"));
        assert!(
            (told - value).abs() < 1e-9 && (most - limit).abs() < 1e-9,
            "{found:#?}"
        );
    }
}

/// The tray with a fit of that much around it, in card whose caliper is known so well.
fn surety(fit: f64, tolerance: f64) -> Report {
    let mut job = worked();
    job.fit.around_tray = Length::known(fit);
    job.fit.around_item = Length::known(3.0);
    job.board.caliper = Length::known(0.5);
    job.board.tolerance = Some(Length::known(tolerance));
    made(&style(SINGLE_SLOT), &job).report().clone()
}

fn unsure(report: &Report) -> Option<&Finding> {
    report.findings.iter().find(|found| {
        found.code() == "fit-uncertain"
            && matches!(found.place, Place::TrayInBox | Place::TrayUnderLid)
    })
}

#[test]
fn a_clearance_is_as_sure_as_five_lengths_of_known_limits_make_it() {
    // Source: tests/facts/folding.md tol-03: limits ±0.5, 0.5, 0.5 and 0.025 (NIST/SEMATECH e-Handbook 2.5.7); a caliper of 0.5
    // to 5 % is ±0.025. Derived: the two folds lie a tenth of the caliper off and share a cause: ±0.1. All together
    // 2 √((0.750625 + 0.01) / 3) = 1.0071.
    let report = surety(0.9, 0.025);
    let found = unsure(&report).expect("0.9 is less than 1.0071");
    assert!(
        (found.limit.expect("a limit") - 1.0071).abs() < 1e-4,
        "{found:#?}"
    );
    assert!(
        (found.value.expect("a value") - 0.9).abs() < 1e-6,
        "{found:#?}"
    );
    // So the least fit that is sure lies between 1.0070 and 1.0072.
    assert!(unsure(&surety(1.0070, 0.025)).is_some());
    assert!(unsure(&surety(1.0072, 0.025)).is_none());
    // Nobody's word for the caliper counts as 5 % of it: the same figure.
    let mut unstated = worked();
    unstated.board.caliper = Length::known(0.5);
    unstated.fit.around_tray = Length::known(0.9);
    unstated.fit.around_item = Length::known(3.0);
    let report = made(&style(SINGLE_SLOT), &unstated).report().clone();
    assert_eq!(unsure(&report).expect("as above").limit, found.limit);
}

#[test]
fn the_sentence_tells_what_stays_at_worst_and_at_best() {
    // Derived: as above; √0.760625 = 0.8721 by root-sum-square, and 1.525 + 0.1 at worst, which is less than 2.
    let report = surety(2.0, 0.025);
    let says: Vec<String> = report
        .proofs
        .iter()
        .map(|passed| passed.message(Unit::Millimetre))
        .collect();
    let of_the_box = says
        .iter()
        .find(|says| says.starts_with("the tray in its box"))
        .unwrap_or_else(|| panic!("{says:?}"));
    assert!(of_the_box.contains("clearance 2 mm"), "{of_the_box}");
    let numbers: Vec<f64> = of_the_box
        .split(' ')
        .filter_map(|word| word.trim_start_matches('(').strip_prefix('±')?.parse().ok())
        .collect();
    assert!(numbers.len() == 3, "{of_the_box}");
    for (told, expected) in numbers.iter().zip([1.0071, 1.625, 0.8721]) {
        assert!((told - expected).abs() < 0.006, "{of_the_box}");
    }
    assert!(
        of_the_box.ends_with("too tight in fewer than 1 of 100 trays"),
        "{of_the_box}"
    );
}
