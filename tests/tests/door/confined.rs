//! What an exporter cannot do: a probe in C tries it, as an exporter and, as the control, as a program of its own.
//!
//! Prints a table of attempts with the answers of the kernel. Source of the expectations: core/CONTRACT.md, "Exporters".

use std::collections::BTreeMap;
use std::fs;
use std::os::unix::process::CommandExt;
use std::path::Path;
use std::process::{Command, Stdio};

use traywright_tests::skip;
use traywright_tests::{program, repository, run};

use super::compiled::{file_name, library, plugins};
use super::desk::{check_one_sentence, desk, make, make_with, names};
use super::{running, within_ten_seconds};

// Source: asm-generic/errno-base.h of Linux.
const EPERM: &str = "1";
const ENOENT: &str = "2";
const ENOMEM: &str = "12";
const EACCES: &str = "13";

/// Each attempt, the answer that it gets, and what gives that answer.
const ATTEMPTS: [(&str, &str, &str); 16] = [
    ("read", EACCES, "Landlock"),
    ("list", EACCES, "Landlock"),
    ("write", EPERM, "seccomp"),
    ("create", EPERM, "seccomp"),
    ("rename", EPERM, "seccomp"),
    ("variable", ENOENT, "an empty environment"),
    ("socket", EPERM, "seccomp"),
    ("pair", EPERM, "seccomp"),
    ("fork", EPERM, "seccomp"),
    ("group", EPERM, "seccomp"),
    ("signal", EPERM, "seccomp"),
    ("trace", EPERM, "seccomp"),
    ("limit", EPERM, "seccomp"),
    ("stay", EPERM, "seccomp"),
    ("memory", ENOMEM, "the limit of memory"),
    ("exec", EPERM, "seccomp"),
];

#[test]
fn an_exporter_does_nothing_but_its_work() {
    let desk = desk();
    if probe(desk.path(), &["kernel"]).trim() != "both" {
        skip("the probe", "this kernel has no Landlock or no seccomp");
        return;
    }
    let restrictions = "reads only its libraries; writes nothing; no network; no other processes";
    assert!(listed().contains(restrictions), "{}", listed());
    let outcome = make(&desk, "probe", ".");
    assert_eq!(outcome.code, 0, "{}", outcome.stderr);
    let confined = fs::read_to_string(desk.path().join("barometer.txt")).expect("its report");
    let (confined, alone) = (answers(&confined), answers(&probe(desk.path(), &[])));
    let traces = fs::read_to_string("/proc/sys/kernel/yama/ptrace_scope");
    let may_trace = traces.map_or(true, |scope| scope.trim() == "0");
    for (attempt, answer, by) in ATTEMPTS {
        println!(
            "{attempt:10} alone: {:5} as an exporter: {:3} {by}",
            alone[attempt], confined[attempt]
        );
        // The control: without this the attempt could fail for another reason.
        assert!(
            alone[attempt] == "done" || attempt == "trace" && !may_trace,
            "{attempt}: {alone:?}"
        );
        assert_eq!(confined[attempt], answer, "{attempt}");
    }
    assert_eq!(
        (confined.len(), alone.len()),
        (ATTEMPTS.len(), ATTEMPTS.len())
    );
}

fn answers(report: &str) -> BTreeMap<String, String> {
    let line = |line: &str| {
        let (attempt, answer) = line.split_once(' ').expect("an attempt and its answer");
        (attempt.to_owned(), answer.to_owned())
    };
    report.lines().map(line).collect()
}

/// What the probe says without the program around it: its report, or with an argument what the kernel has.
fn probe(folder: &Path, arguments: &[&str]) -> String {
    let probe = folder.join("probe");
    let built = Command::new("cc")
        .args(["-std=c99", "-DPROBE_ALONE", "-o"])
        .arg(&probe)
        .arg(repository().join("tests/door/probe.c"))
        .status();
    assert!(built.expect("a C compiler is called cc").success());
    let outcome = Command::new(probe)
        .args(arguments)
        .env("HOME", "/")
        .output()
        .expect("the probe can be started");
    String::from_utf8(outcome.stdout).expect("its report is text")
}

fn listed() -> String {
    let listed = run(repository(), &["exporters"]);
    assert_eq!((listed.code, listed.stderr.as_str()), (0, ""));
    listed.stdout
}

#[test]
fn the_list_says_of_each_exporter_what_it_cannot_do() {
    let lines: Vec<String> = listed().lines().map(str::to_owned).collect();
    assert!(lines.len() > 8, "{lines:?}");
    for pair in lines[1..].chunks(2) {
        let rights = pair[1].trim();
        assert!(!pair[0].starts_with(' '), "{pair:?}");
        assert!(
            rights == "runs with your rights"
                || rights.contains("reads only its libraries")
                || rights.contains("writes nothing"),
            "{pair:?}"
        );
    }
}

#[test]
fn an_exporter_that_hangs_while_it_is_loaded_ends_with_the_program() {
    for (attempt, command) in [
        ("make", "make barometer.kdl --as loops-on-loading"),
        ("list", "exporters"),
    ] {
        let desk = desk();
        let folder = desk.path().join(attempt);
        fs::create_dir(&folder).expect("a folder can be made");
        let copy = folder.join(file_name("loops-on-loading"));
        fs::copy(library("loops-on-loading"), &copy).expect("a library can be copied");
        let mut killed = Command::new(program())
            .current_dir(desk.path())
            .args(command.split(' '))
            .args(["--exporter-seconds", "60", "--plugins"])
            .arg(&folder)
            .stdin(Stdio::null())
            .stdout(Stdio::null())
            .stderr(Stdio::null())
            .process_group(0)
            .spawn()
            .expect("the program can be started");
        let word = copy.display().to_string();
        let child_runs = within_ten_seconds(|| running(&word) > 0);
        killed.kill().expect("it still runs");
        killed.wait().expect("it was killed");
        assert!(child_runs, "no exporter was started");
        assert!(within_ten_seconds(|| running(&word) == 0), "it still runs");
    }
}

#[test]
fn a_smaller_limit_of_memory_disables_no_exporter() {
    let desk = desk();
    // 400 MiB in the unit of the shell, which is 1 KiB.
    let outcome = Command::new("sh")
        .current_dir(desk.path())
        .args([
            "-c",
            "ulimit -v 409600 && exec \"$@\"",
            "sh",
            program().to_str().expect("ASCII"),
        ])
        .args([
            "make",
            "barometer.kdl",
            "--as",
            "svg,figures",
            "--into",
            ".",
            "--plugins",
        ])
        .arg(plugins())
        .output()
        .expect("a shell can be started");
    assert!(
        outcome.status.success(),
        "{}",
        String::from_utf8_lossy(&outcome.stderr)
    );
    assert_eq!(
        names(desk.path()),
        ["barometer-box.txt", "barometer.kdl", "barometer.svg"]
    );
}

#[test]
fn the_last_words_of_a_failed_exporter_are_told() {
    let outcome = make(&desk(), "says-why", "new");
    check_one_sentence(
        &outcome,
        &[
            "code 7",
            "no reason",
            "its last words: the pen drawer is locked",
        ],
    );
}

#[test]
fn an_exporter_that_the_program_ends_did_not_crash() {
    let outcome = make_with(
        &desk(),
        "closes",
        "new",
        &["--exporter-seconds", "20"],
        &[plugins()],
    );
    check_one_sentence(&outcome, &["`closes` stopped in the middle of its work"]);
    assert!(!outcome.stderr.contains("crashed"), "{}", outcome.stderr);
}
