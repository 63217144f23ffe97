//! Bad jobs and styles are refused: right code, right place, a cure, and nothing written.
//!
//! The cases are described in `tests/src/refusals.rs`.

use traywright_tests::refusals::{cases, judge};
use traywright_tests::run;

#[test]
fn every_case_is_refused_as_expected_and_nothing_is_written() {
    let cases = cases();
    // Source: the plan of the house asks for at least forty.
    assert!(cases.len() >= 40, "there are only {} cases", cases.len());
    let faults: Vec<String> = cases.iter().flat_map(|case| judge(case, run)).collect();
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}
