//! What the viewer says and draws, without a browser: its page is made of plain objects.

use serde_json::Value;
use traywright_tests::page_script;

use crate::{made, shipped, web, word};

#[test]
fn the_viewer_says_and_draws_each_step() {
    let mut jobs = shipped();
    jobs.retain(|job| job.name == "barometer");
    let folder = made(&jobs, "html");
    let page = word(&folder.path().join("barometer.html"));
    let Some(told) = page_script("viewer.mjs", &[&web(), &page]) else {
        return;
    };
    let told = told.unwrap_or_else(|why| panic!("{why}"));
    check_words(&told);
    check_motion(&told);
    check_pixels(&told);
}

fn count(value: &Value) -> f64 {
    value.as_f64().expect("a number")
}

fn check_words(told: &Value) {
    let text = |key: &str| told[key].as_str().unwrap_or_default();

    // Source: core/CONTRACT.md, "Files: HTML", and the words in designs/words/en.ron.
    let steps = count(&told["steps"]) as usize;
    assert!(steps > 8, "{told}");
    assert!(
        text("last").starts_with(&format!("Step {steps} of {steps}: ")),
        "{told}"
    );
    assert!(text("last").contains("barometer"), "{told}");
    assert_eq!(text("first"), "The flat blank, inside face up.");
    assert!(
        text("second").starts_with(&format!("Step 1 of {steps}: side-")),
        "{told}"
    );
    let current = told["current"].as_array().expect("a list");
    let marked: Vec<usize> = (0..current.len())
        .filter(|&at| current[at] == "step")
        .collect();
    assert_eq!((current.len(), marked), (steps, vec![0]));
    let listed = told["listed"].as_array().expect("a list");
    assert!(
        listed
            .iter()
            .all(|words| words.as_str().is_some_and(|words| words.len() > 9))
    );
    assert_eq!((text("stop"), text("play")), ("Stop", "Fold it all"));
}

fn check_motion(told: &Value) {
    // A key moves the tray in many frames; where motion is not wanted, in none.
    assert!(count(&told["between"]) > 5.0, "{told}");
    assert_eq!(told["calm"], serde_json::json!([3]));
    assert_eq!(
        count(&told["forBrowser"]),
        0.0,
        "frames for the browser's keys"
    );
}

fn check_pixels(told: &Value) {
    // The item is yellow and is seen in the finished tray alone; what moves is blue.
    assert_eq!(count(&told["flatYellow"]), 0.0);
    assert!(count(&told["fullYellow"]) > 1000.0, "{told}");
    assert!(count(&told["blue"]) > 1000.0, "{told}");

    // Derived: three plates above one another: the lowest is as wide as the one above it and hidden by it; of that one
    // 1 - 0.6² is seen, and more as the upper plate is nearer and larger.
    let from = &told["from"];
    assert_eq!(count(&from["red"]), 0.0, "{told}");
    let share = count(&from["blue"]) / (count(&from["blue"]) + count(&from["green"]));
    assert!((0.33..0.5).contains(&share), "{share} in {told}");
    assert!(count(&told["gaps"]["rows"]) > 50.0, "{told}");
    // A corner of each of the three plates may begin with a faint pixel; a dotted edge has dozens.
    assert!(count(&told["gaps"]["broken"]) <= 3.0, "{told}");
}
