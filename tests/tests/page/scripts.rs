//! The joined scripts of both pages are JavaScript: Node.js reads them, which refuses a name that is declared twice. And what
//! the page does with the lines of a job.

use serde_json::json;
use traywright_tests::{built_page, page_script, repository};

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

#[test]
fn lines_of_a_job_keep_what_a_maker_wrote() {
    let folder = word(&repository().join("core/page/web"));
    let Some(told) = page_script("job.mjs", &[&folder]) else {
        return;
    };
    let told = told.unwrap_or_else(|why| panic!("{why}"));
    assert_eq!(told["astray"], json!([]), "to the other unit and back");
    // Source: KDL 2, "Disallowed Literal Code Points" and "Escapes".
    assert_eq!(
        told["quoted"],
        "item \"a\\u{200e}\\u{200f}b\\u{202a}\\u{202e}c\\u{2066}\\u{2069}d\\u{feff}e\\u{7}\\\"\\\\\"\n"
    );
    assert_eq!(
        told["more"],
        "item \"lens\" pad=(mm)2\nitem \"cap\"\nfit box=(mm)2\npage \"Letter\" margin=(mm)8\nset \"one\"=(mm)1 \"two\"=(mm)3\n"
    );
    assert_eq!(told["put"], 7);
    assert_eq!(
        told["untouched"],
        "item \"lens\"\npage \"A4\"\nset \"one\"=(mm)1 \"two\"=(mm)2\n"
    );
    // Source: 1 cm = 10 mm, 1 in = 25.4 mm; a comma before exactly three digits may part thousands, but not after a 0. Words in
    // quotes are those that the reader refuses, and fractions of an inch.
    assert_eq!(
        told["typed"],
        json!({
            "182": "182", "18,2": "18.2", "18.2": "18.2", ",5": "0.5", "24 cm": "240", "1,5cm": "15", "7 in": "177.8",
            "7 3/16\"": "182.5625", "182 mm": "182", "1,240": "\"1,240\"", "12,3456": "12.3456", "0,290": "0.290",
            "1,240 mm": "\"1,240\"", "-3": "-3", "deep": "\"deep\"", "": "\"\"",
            "1/0\"": "\"1/0\"\"", "0x1f cm": "\"0x1f cm\"", "1e3 cm": "\"1e3 cm\"", "1,240 cm": "\"1,240 cm\""
        })
    );
    assert_eq!(
        told["typedInInches"],
        json!({ "7 3/16": "\"7 3/16\"", "7 3/16 in": "\"7 3/16\"", "2.54 cm": "1", "1,240": "\"1,240\"" })
    );
    assert_eq!(told["units"], json!(["mm"]));
    assert_eq!(told["emptyUnits"], json!(["in"]));
    assert_eq!(told["twice"], json!([null, "page margin"]));
}
