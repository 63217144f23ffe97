//! The module in Node.js: the same bytes as the native program, and what it does when it is treated badly.

use std::fs;

use serde_json::{Value, json};
use traywright_tests::thorough::part_of;
use traywright_tests::{built_page, page_script, repository};

use crate::poses::variants;
use crate::{made, shipped, word};

#[test]
fn every_file_of_the_module_is_the_native_one() {
    let Some(module) = built_page("traywright.wasm", "module.mjs") else {
        return;
    };
    let mut jobs = shipped();
    // On either face, with fold lines beside the middle of the card too: from all styles alike.
    let more = variants();
    let every = more.len() / part_of(more.len()).max(1);
    jobs.extend(more.into_iter().step_by(every));
    let folder = made(&jobs, "svg,pdf,dxf,booklet,fold,html,solid");
    let mut words = vec![word(&module), word(folder.path())];
    words.extend(jobs.iter().map(|job| job.name.clone()));
    let words: Vec<&str> = words.iter().map(String::as_str).collect();
    let Some(told) = page_script("module.mjs", &words) else {
        return;
    };
    let told = told.unwrap_or_else(|why| panic!("{why}"));
    check_files(&told, jobs.len());
    check_bad_treatment(&told);
    check_answers(&told);
}

fn check_files(told: &Value, jobs: usize) {
    assert_eq!(
        told["differ"],
        json!([]),
        "files differ from the native ones"
    );
    // One job is made once more after a trap.
    let files = told["files"].as_array().expect("a list");
    assert_eq!(files.len(), 7 * (jobs + 1), "{files:?}");
    // Source: core/CONTRACT.md, "Files": each exporter has a suffix of its own.
    for suffix in [
        ".svg",
        ".pdf",
        "-booklet.pdf",
        ".dxf",
        ".fold",
        ".html",
        ".glb",
    ] {
        let name = format!("barometer{suffix}");
        assert!(files.iter().any(|file| *file == name.as_str()), "no {name}");
    }
    let codes = told["codes"].as_object().expect("codes by job");
    assert!(codes.values().all(|code| *code == 0), "{codes:?}");
    // Source: the plan of the page: less than a browser gives any page.
    let memory = told["memory"].as_u64().expect("a number");
    assert!(memory < 96 * 1024 * 1024, "{memory} bytes");
}

fn check_bad_treatment(told: &Value) {
    let words = told["trap"]["words"].as_str().unwrap_or_default();
    assert!(words.contains("index out of bounds"), "{words}");
    assert_eq!(told["trap"]["kind"], "RuntimeError");
    assert_eq!(told["afterTrap"], true);
    let tangled = told["tangled"].as_array().expect("a list");
    assert!(
        tangled.iter().all(|end| *end == 2 || *end == "trap"),
        "{tangled:?}"
    );
    // The reader counts braces before it parses them, so these end in a sentence.
    assert_eq!(tangled[1], 2, "{tangled:?}");
}

fn check_answers(told: &Value) {
    // A box 26 mm deep is lower than its item of 28 mm.
    assert_eq!(
        (&told["tight"]["code"], &told["tight"]["noFiles"]),
        (&json!(1), &json!(0))
    );
    let mended = told["tight"]["mended"].as_array().expect("a list");
    assert!(
        !mended.is_empty() && mended.iter().all(|fits| *fits == true),
        "{told}"
    );
    let wrong = &told["wrong"];
    assert_eq!(wrong["code"], 2);
    let fault = &wrong["answer"]["errors"][0]["faults"][0];
    let job = fs::read_to_string(repository().join("designs/jobs/barometer.kdl")).expect("a job");
    let place = job.find("\nbox ").map(|at| at as u64 + 1);
    assert_eq!(fault["start"].as_u64(), place, "{wrong}");
    let said = told["font"]["said"][0].as_str().unwrap_or_default();
    assert!(
        said.contains("DejaVu Sans") && told["font"]["code"] == 0,
        "{}",
        told["font"]
    );
    let styles = told["library"]["styles"].as_array().expect("styles");
    let named = |name: &str| styles.iter().any(|style| style["name"] == name);
    assert!(named("single-slot") && named("lid-lock"), "{styles:?}");
}
