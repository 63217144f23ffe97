//! From which step on a tray stands by itself.

use traywright_document::Action;
use traywright_engine::make;
use traywright_tests::jobs::{job, level, style};

#[test]
fn a_tray_of_the_shipped_styles_stands_when_its_last_inner_end_is_in() {
    // Reasoning: an end wall turns out until its own inner end is behind the tabs, and the ends are closed one after the
    // other, so nothing holds the second one before its inner end, which is the last of the roll-overs.
    for name in ["single-slot", "double-wall", "multi-slot", "lid-lock"] {
        let style = style(&format!("designs/styles/{name}.ron"));
        let mut job = job([182.0, 121.0, 34.0], [96.0, 61.0, 28.0], 0.29);
        if name != "lid-lock" {
            job = level(job);
        }
        let tray = make(&style, &job).unwrap_or_else(|refusal| panic!("{name}: {refusal:#?}"));
        let document = tray.unrounded().document();
        let folds = |number: usize, family: &str| match &document.steps[number].action {
            Action::Fold(moves) => moves
                .iter()
                .all(|one| document.panels[one.panel].name.starts_with(family)),
            _ => false,
        };
        let numbers = 0..document.steps.len();
        let last = numbers.clone().rfind(|&number| folds(number, "inner-end"));
        let stands: Vec<usize> = numbers
            .filter(|&number| document.steps[number].stands)
            .collect();
        assert_eq!(stands, Vec::from_iter(last), "{name}");
    }
}

#[test]
fn a_tray_with_a_wall_that_its_box_alone_holds_never_stands_by_itself() {
    // Source: designs/STYLE-GUIDE.md, "A first style": two walls that lean on nothing but the box.
    let text = "Style(language: 1, about: \"A deck on two walls.\",\n\
        panels: {\n\
            \"deck\": Rectangle(length: Outside(\"tray.length\"), width: Outside(\"tray.width\")),\n\
            \"side\": Hinged(on: \"deck.sides\", reach: Outside(\"tray.depth\")),\n\
        },\n\
        openings: {\"slot\": Slot(on: \"deck\")},\n\
        measures: {\"wall_height\": \"side.reach\"})";
    let style = traywright_engine::Style::read("bench", text)
        .unwrap_or_else(|faults| panic!("{faults:#?}"));
    let job = level(job([182.0, 121.0, 34.0], [96.0, 61.0, 28.0], 0.29));
    let tray = make(&style, &job).unwrap_or_else(|refusal| panic!("{refusal:#?}"));
    let document = tray.unrounded().document();
    assert!(document.steps.iter().all(|step| !step.stands));
}
