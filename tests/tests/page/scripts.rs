//! The joined scripts of both pages are JavaScript: Node.js reads them, which refuses a name that is declared twice.

use serde_json::json;
use traywright_tests::{built_page, page_script};

use crate::{made, shipped, word};

fn check_parsed(page: &str, scripts: usize) {
    let Some(told) = page_script("parsed.mjs", &[page]) else {
        return;
    };
    let told = told.unwrap_or_else(|why| panic!("{why}"));
    assert_eq!(told, json!({ "scripts": scripts, "faults": [] }), "{page}");
}

#[test]
fn the_scripts_of_a_folding_page_are_read() {
    let mut jobs = shipped();
    jobs.retain(|job| job.name == "barometer");
    let folder = made(&jobs, "html");
    check_parsed(&word(&folder.path().join("barometer.html")), 1);
}

#[test]
fn the_scripts_of_the_page_and_its_worker_are_read() {
    let Some(page) = built_page("traywright.html", "parsed.mjs") else {
        return;
    };
    check_parsed(&word(&page), 2);
}
