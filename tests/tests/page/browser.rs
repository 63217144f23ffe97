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
    let folder = made(&jobs, "svg,pdf,dxf,booklet,fold,html,solid");
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
    check_comparison(&seen);
    check_phone(&seen);
    check_files(&seen, jobs.len());
    check_everyone_can_use_it(&seen);
}

#[test]
fn another_browser_gives_the_same_verdict_and_the_same_files() {
    let Some(page) = built_page("traywright.html", "firefox.js") else {
        return;
    };
    let Some(browser) = system_program("firefox-esr", "firefox.js") else {
        return;
    };
    let mut jobs = shipped();
    jobs.retain(|job| job.name == "barometer");
    let folder = made(&jobs, "svg,pdf");
    let work = tempfile::tempdir().expect("a folder can be made");
    let words = [
        word(&browser),
        word(&page),
        word(folder.path()),
        word(work.path()),
    ];
    let words: Vec<&str> = words.iter().map(String::as_str).collect();
    let Some(told) = node("firefox.js", &words) else {
        return;
    };
    let told = told.unwrap_or_else(|why| panic!("{why}"));
    let seen: Value = serde_json::from_str(&told).expect("the script prints JSON");
    assert!(text(&seen, "browser").contains("Firefox"), "{seen}");
    assert!(text(&seen, "first").contains("180 × 119 × 32 mm"), "{seen}");
    assert_eq!(seen["same"], json!({ "svg": true, "pdf": true }));
    // Faces, edges and paper have a colour each.
    assert!(
        seen["painted"].as_u64().is_some_and(|count| count > 8),
        "{seen}"
    );
    assert!(text(&seen, "fixed").starts_with("It fits"), "{seen}");
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
    let grouped = text(seen, "grouped");
    assert!(
        ["1240", "1.240"]
            .iter()
            .all(|figure| grouped.contains(figure)),
        "{grouped}"
    );
    // 3.6 cm are 36 mm.
    assert!(
        text(seen, "centimetres").contains("depth=(mm)36 ")
            || text(seen, "centimetres").contains("depth=(mm)36\n")
    );
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
    // What is no job is said and changes nothing.
    let noise = &seen["noiseFile"];
    assert!(text(noise, "notice").contains("noise.kdl"), "{noise}");
    assert_eq!(noise["rest"], broken["rest"]);
    // Source: the script: 20000 bytes are 19.5 KiB; the limit is that of core/page/src/program.rs.
    let large = text(seen, "largeFile");
    assert!(
        large.contains("20 KiB") && large.contains("16 KiB"),
        "{large}"
    );
}

// Derived: a box 10 mm deeper has a tray 10 mm deeper: walls 10 mm higher, and a blank 20 mm wider by its two walls and 40 mm
// longer by its two double ends. The rest stays.
fn check_comparison(seen: &Value) {
    let compared = &seen["compared"];
    let change = |name: &str| compared["rows"][name][2].as_str().unwrap_or_default();
    assert_eq!(change("folded, outside"), "0 × 0 × +10 mm", "{compared}");
    assert_eq!(change("blank"), "+40 × +20 mm", "{compared}");
    assert_eq!(change("style"), "same");
    assert_eq!(change("verdict"), "differs");
    assert_eq!(change("rise: barometer"), "+10 mm", "{compared}");
    let wide: Vec<f64> = compared["blanks"]
        .as_array()
        .expect("two blanks")
        .iter()
        .filter_map(Value::as_f64)
        .collect();
    assert!((wide[1] - wide[0] - 40.0).abs() < 0.1, "{wide:?}");
    assert_eq!(
        (&compared["ended"], &compared["focus"]),
        (&json!(true), &json!("keep"))
    );
}

fn check_phone(seen: &Value) {
    let empty = &seen["empty"];
    assert!(
        text(empty, "verdict").starts_with("Still to fill in: box: length"),
        "{empty}"
    );
    assert_eq!(
        (&empty["length"], &empty["invalid"], &empty["undone"]),
        (&json!(""), &json!(0), &json!("182")),
        "{empty}"
    );
    assert_eq!(
        seen["covered"],
        json!(false),
        "the verdict covers the field that has the focus"
    );
}

fn check_files(seen: &Value, jobs: usize) {
    // Derived: a check takes tens of milliseconds; a loose bound, so that a busy machine passes.
    let took = seen["took"].as_f64().expect("milliseconds of a check");
    assert!(took <= 2000.0, "a check took {took} ms");
    let files = seen["files"].as_array().expect("a list");
    assert_eq!(files.len(), 7 * jobs, "{files:?}");
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
        sideways.len() >= 9 && sideways.values().all(|wide| *wide == 0),
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
