//! The program on Windows, as far as wine stands for it: the same bytes, codes and words as here.
//!
//! It needs wine and a build: `rustup target add x86_64-pc-windows-gnu`, the Debian packages gcc-mingw-w64-x86-64 and
//! wine64, and `cargo build --target x86_64-pc-windows-gnu --workspace --exclude traywright-tests --exclude xtask --exclude
//! traywright-page`. That takes some ten minutes, so nobody builds it for every run of the tests; without it this file says
//! that it did nothing. wine 8 lacks bcryptprimitives.dll: a library of that name with `ProcessPrng` lies beside the program.
//! Source of every expectation: the program here, and the cases of `tests/refusals`.

use std::fs;
use std::io::{self, Write};
use std::path::{Path, PathBuf};
use std::process::Command;

use traywright_tests::refusals::{cases, judge};
use traywright_tests::thorough::part_of;
use traywright_tests::{Outcome, repository, run, run_command, target_folder};

const EXPORTERS: &str = "svg,pdf,dxf,booklet,fold,html,solid";

/// The program for Windows; none without a build or without wine, which has then been said.
fn windows(test: &str) -> Option<PathBuf> {
    let built = target_folder().join("x86_64-pc-windows-gnu/debug/traywright.exe");
    let has_wine = Command::new("wine").arg("--version").output().is_ok();
    if built.is_file() && has_wine {
        return Some(built);
    }
    let lacks = match has_wine {
        true => "no build for Windows",
        false => "no wine",
    };
    // Past the capture of a test that passes.
    let said = writeln!(
        io::stderr(),
        "`{test}` did nothing: there is {lacks} (tests/tests/windows.rs)"
    );
    said.expect("the terminal can be written to");
    None
}

/// Runs it by means of wine. Paths are told with the sign that they have here.
fn run_there(program: &Path, folder: &Path, arguments: &[&str]) -> Outcome {
    let mut command = Command::new("wine");
    command.arg(program).env("WINEDEBUG", "-all");
    let outcome = run_command(command, folder, arguments);
    let here = |said: String| said.replace('\\', "/");
    Outcome {
        stdout: here(outcome.stdout),
        stderr: here(outcome.stderr),
        ..outcome
    }
}

#[test]
fn the_example_jobs_have_the_same_files_and_words() {
    let Some(program) = windows("the_example_jobs_have_the_same_files_and_words") else {
        return;
    };
    let desk = tempfile::tempdir().expect("a folder can be made");
    let mut jobs: Vec<String> = Vec::new();
    for entry in fs::read_dir(repository().join("designs/jobs")).expect("it can be listed") {
        let path = entry.expect("an entry").path();
        let name = path.file_name().expect("a name").to_string_lossy();
        fs::copy(&path, desk.path().join(&*name)).expect("a job can be copied");
        jobs.push(name.into_owned());
    }
    jobs.sort();
    let mut call = vec!["make", "--as", EXPORTERS, "--into", "out"];
    call.extend(jobs.iter().map(String::as_str));
    let mut files = Vec::new();
    let mut words = Vec::new();
    for there in [false, true] {
        let outcome = match there {
            true => run_there(&program, desk.path(), &call),
            false => run(desk.path(), &call),
        };
        assert_eq!(outcome.code, 0, "{}", outcome.stderr);
        words.push([outcome.stdout, outcome.stderr]);
        let out = desk.path().join("out");
        let mut made: Vec<(String, Vec<u8>)> = Vec::new();
        for entry in fs::read_dir(&out).expect("it can be listed") {
            let entry = entry.expect("an entry");
            let bytes = fs::read(entry.path()).expect("a file can be read");
            made.push((entry.file_name().to_string_lossy().into_owned(), bytes));
        }
        made.sort();
        files.push(made);
        fs::remove_dir_all(out).expect("it can be removed");
    }
    assert!(files[0].len() >= 7 * jobs.len(), "{}", files[0].len());
    for ((name, here), (other, there)) in files[0].iter().zip(&files[1]) {
        assert_eq!(name, other);
        assert!(
            here == there,
            "{name}: {} and {} bytes",
            here.len(),
            there.len()
        );
    }
    assert_eq!(files[0].len(), files[1].len());
    assert_eq!(words[0], words[1]);
}

#[test]
fn bad_jobs_are_refused_in_the_same_words() {
    let Some(program) = windows("bad_jobs_are_refused_in_the_same_words") else {
        return;
    };
    let run = |folder: &Path, arguments: &[&str]| run_there(&program, folder, arguments);
    let all = cases();
    let step = all.len() / part_of(all.len());
    let some = all.iter().step_by(step);
    let faults: Vec<String> = some.flat_map(|case| judge(case, run)).collect();
    assert!(
        faults.is_empty(),
        "{} faults: {}",
        faults.len(),
        faults.join("\n")
    );
}

/// Windows takes `Lens.svg` and `lens.svg` for one file.
#[test]
fn two_names_of_one_file_are_refused() {
    let Some(program) = windows("two_names_of_one_file_are_refused") else {
        return;
    };
    let desk = tempfile::tempdir().expect("a folder can be made");
    fs::create_dir(desk.path().join("other")).expect("a folder can be made");
    let job = repository().join("designs/jobs/barometer.kdl");
    for name in ["case.kdl", "other/Case.kdl"] {
        fs::copy(&job, desk.path().join(name)).expect("a job can be copied");
    }
    let call = [
        "make",
        "case.kdl",
        "other/Case.kdl",
        "--as",
        "svg",
        "--into",
        "out",
    ];
    let outcome = run_there(&program, desk.path(), &call);
    assert_eq!(outcome.code, 2, "{}", outcome.stderr);
    assert!(
        outcome.stderr.contains("two files of this call would be"),
        "{}",
        outcome.stderr
    );
    assert!(!desk.path().join("out").exists());
}
