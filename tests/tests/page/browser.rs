//! The page in a browser, from its file and without a network, used as a maker would.

use serde_json::{Value, json};
use traywright_tests::{built_page, node, system_program};

use crate::{made, shipped, word};

#[test]
fn a_maker_gets_a_tray_from_the_page_alone() {
    let Some(page) = built_page("traywright.html", "page.js") else {
        return;
    };
    let Some(browser) = system_program("chromium", "page.js") else {
        return;
    };
    let mut jobs = shipped();
    jobs.retain(|job| ["barometer", "seed-vials", "tuning-forks"].contains(&job.name.as_str()));
    let folder = made(&jobs, "svg,pdf,dxf,booklet,fold,html");
    let mut words = vec![word(&browser), word(&page), word(folder.path())];
    words.extend(jobs.iter().map(|job| job.name.clone()));
    let words: Vec<&str> = words.iter().map(String::as_str).collect();
    let Some(told) = node("page.js", &words) else {
        return;
    };
    let told = told.unwrap_or_else(|why| panic!("{why}"));
    let seen: Value = serde_json::from_str(&told).expect("the script prints JSON");
    check_verdicts(&seen);
    check_keeping(&seen);
    check_files(&seen, jobs.len());
    check_everyone_can_use_it(&seen);
}

fn text<'a>(value: &'a Value, key: &str) -> &'a str {
    value[key].as_str().unwrap_or_default()
}

// Source: the box less 2 mm each way is the folded tray (core/CONTRACT.md, trade figures); the item is 28 mm deep.
fn check_verdicts(seen: &Value) {
    assert!(text(seen, "first").contains("180 × 119 × 32 mm"), "{seen}");
    assert!(text(seen, "typed").contains("198 × 128 × 38 mm"), "{seen}");
    let tight = &seen["tight"];
    assert!(
        text(tight, "verdict").starts_with("It does not fit"),
        "{tight}"
    );
    assert_eq!(
        (&tight["files"], &tight["old"]),
        (&json!(true), &json!(true)),
        "{tight}"
    );
    let fixes = tight["fixes"].as_array().expect("a list");
    assert!((1..=3).contains(&fixes.len()), "{tight}");
    let fixed = &seen["fixed"];
    assert!(text(fixed, "verdict").starts_with("It fits"), "{fixed}");
    assert_eq!(fixed["focus"], "verdict");
    let unread = &seen["unread"];
    assert!(text(unread, "why").contains("deep"), "{unread}");
    assert_eq!(unread["marked"], "true");
    // A comma is a point.
    assert!(text(seen, "comma").contains("depth=(mm)34.5"), "{seen}");
}

fn check_keeping(seen: &Value) {
    assert_eq!(
        (&seen["reloaded"], &seen["linked"]),
        (&json!(true), &json!(true))
    );
    let broken = &seen["broken"];
    assert!(
        text(broken, "verdict").starts_with("Not readable"),
        "{broken}"
    );
    assert!(text(broken, "rest").contains("bx"), "{broken}");
    assert!(!text(seen, "noiseFile").is_empty());
}

fn check_files(seen: &Value, jobs: usize) {
    // Derived: a check takes tens of milliseconds; a loose bound, so that a busy machine passes.
    let took = seen["took"].as_f64().expect("milliseconds of a check");
    assert!(took <= 2000.0, "a check took {took} ms");
    let files = seen["files"].as_array().expect("a list");
    assert_eq!(files.len(), 6 * jobs, "{files:?}");
    assert!(files.iter().all(|file| file["same"] == true), "{files:?}");
}

fn check_everyone_can_use_it(seen: &Value) {
    assert_eq!(seen["noise"], json!([]), "messages or requests");
    assert_eq!(seen["axe"], json!([]));
    assert!(
        seen["rules"].as_u64().is_some_and(|rules| rules > 25),
        "{}",
        seen["rules"]
    );
    let sideways = seen["sideways"].as_object().expect("by state and width");
    assert!(
        sideways.len() >= 4 && sideways.values().all(|wide| *wide == 0),
        "{sideways:?}"
    );
    let folded = &seen["folded"];
    let said = folded["said"].as_array().expect("a list");
    let count = folded["count"].as_u64().expect("a number") as usize;
    assert_eq!(said.len(), count + 1);
    assert!(said.windows(2).all(|pair| pair[0] != pair[1]), "{folded}");
    assert_eq!(folded["between"], json!([]), "{folded}");
    assert_eq!(text(seen, "german"), "PDF zum Drucken");
}
