//! What the README shows works: each whole job in it fits, and each command in it is one of the program's.

use std::fs;

use traywright_tests::trying::check;
use traywright_tests::{repository, run};

#[test]
fn every_whole_job_in_the_readme_fits() {
    // Source: the README calls them examples; a maker will copy them.
    let jobs = blocks("kdl");
    let whole = jobs.iter().filter(|job| job.starts_with("tray "));
    let reports: Vec<_> = whole.map(|job| check(job)).collect();
    assert!(!reports.is_empty(), "the README shows no job");
    for report in reports {
        assert_eq!(report["fits"], true, "{report:#}");
    }
}

#[test]
fn every_command_in_the_readme_is_known_to_the_program() {
    // Source: the help of each command, which the program writes from its own definitions.
    let commands = blocks("sh");
    let lines = commands.iter().flat_map(|block| block.lines());
    let words = lines.filter_map(|line| {
        let (_, words) = line.split_once("traywright ").or(line.split_once("-- "))?;
        words.split_whitespace().next()
    });
    let mut asked = 0;
    for command in words {
        let outcome = run(repository(), &[command, "--help"]);
        assert_eq!(outcome.code, 0, "{command}: {}", outcome.stderr);
        asked += 1;
    }
    assert!(asked >= 4, "the README shows {asked} commands");
}

/// The blocks of the README in one language.
fn blocks(language: &str) -> Vec<String> {
    let readme = fs::read_to_string(repository().join("README.md")).expect("there is a README");
    let parts: Vec<&str> = readme.split("```").collect();
    parts
        .iter()
        .skip(1)
        .step_by(2)
        .filter_map(|block| block.strip_prefix(language)?.strip_prefix('\n'))
        .map(ToOwned::to_owned)
        .collect()
}
