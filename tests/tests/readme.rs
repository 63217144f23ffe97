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
fn every_command_in_the_readme_works_in_its_order() {
    // Source: the README; a maker will type these one after the other. What cargo does with its own words (build, test)
    // is cargo's: here the words behind `--` are given to the program, in a folder with the shipped designs.
    let folder = tempfile::tempdir().expect("a folder can be made");
    let jobs = folder.path().join("designs/jobs");
    fs::create_dir_all(&jobs).expect("a folder can be made");
    let example = "barometer.kdl";
    fs::copy(
        repository().join("designs/jobs").join(example),
        jobs.join(example),
    )
    .expect("the example ships");
    let commands = blocks("sh");
    let lines = commands.iter().flat_map(|block| block.lines());
    let mut worked = 0;
    for line in lines.filter(|line| !line.starts_with("cargo xtask")) {
        let words = line
            .strip_prefix("traywright ")
            .or_else(|| Some(line.split_once(" -- ")?.1));
        let words: Vec<&str> = words
            .expect("a command of the program")
            .split_whitespace()
            .collect();
        let outcome = run(folder.path(), &words);
        assert_eq!(outcome.code, 0, "{line}: {}", outcome.stderr);
        worked += 1;
    }
    assert!(worked >= 4, "the README shows {worked} commands");
    assert!(folder.path().join("out/barometer.svg").exists());
}

#[test]
fn the_pictures_in_the_readme_are_what_the_program_draws() {
    // Source: the README says how each picture is made of the job of the same name.
    let readme = fs::read_to_string(repository().join("README.md")).expect("there is a README");
    let folder = tempfile::tempdir().expect("a folder can be made");
    let into = folder.path().display().to_string();
    let parts = readme.split("(designs/pictures/").skip(1);
    let shown = parts.filter_map(|part| part.split_once(".svg)"));
    let mut names: Vec<&str> = shown.map(|(name, _)| name).collect();
    names.sort_unstable();
    names.dedup();
    assert!(names.len() >= 4, "the README shows {names:?}");
    for name in names {
        let job = format!("designs/jobs/{name}.kdl");
        let words = ["make", &job, "--as", "svg", "--into", &into];
        assert_eq!(run(repository(), &words).code, 0, "{job}");
        let drawn = fs::read(folder.path().join(format!("{name}.svg"))).expect("it is drawn");
        let picture = repository().join(format!("designs/pictures/{name}.svg"));
        let kept = fs::read(picture).expect("the picture ships");
        assert!(
            drawn == kept,
            "draw it again: make {job} --as svg --into designs/pictures"
        );
    }
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
