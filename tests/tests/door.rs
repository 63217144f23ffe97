//! Exporters of all kinds at the door: the good are served, the bad cost one sentence and write nothing.
//!
//! Given exporters in C and Rust from `tests/door`, the real program runs each on a tray that fits. Source of every
//! expectation unless said otherwise: core/CONTRACT.md, "Commands" (exit codes, all files or none) and "Styles shipped"
//! (exporters out of process, their names, one that nobody asked for).

#[path = "door/compiled.rs"]
mod compiled;
#[path = "door/confined.rs"]
mod confined;
#[path = "door/delivered.rs"]
mod delivered;
#[path = "door/desk.rs"]
mod desk;
#[path = "door/several.rs"]
mod several;
#[path = "door/wire.rs"]
mod wire;

use std::fs;
use std::os::unix::process::CommandExt;
use std::path::Path;
use std::process::{Command, Stdio};
use std::thread;
use std::time::{Duration, Instant};

use traywright_document::SCHEMA;
use traywright_document::plugin_api::{LONGEST_SUFFIX, is_suffix};
use traywright_tests::{program, repository, run};

use compiled::{file_name, library, plugins};
use desk::{check_one_sentence, desk, make, make_with, names};

/// Exporters that never come back.
const ENDLESS: [&str; 4] = [
    "leaves-a-child",
    "loops",
    "loops-on-loading",
    "talks-forever",
];

/// Every other exporter that fails when asked for files, and words of the sentence that it costs.
const FAILING: [(&str, &[&str]); 28] = [
    ("aborts", &["crashed", "signal 6", "the pen is dry"]),
    ("alias", &["calls itself `somebody-else`"]),
    ("bad-suffix", &["names no suffix"]),
    ("climbs", &["the ending `/../climbed.txt`", "begins with"]),
    ("crashes-late", &["crashed", "signal 6"]),
    ("emits-many", &["256 files"]),
    ("exits", &["in the middle of its work", "exit code 0"]),
    ("floods", &["more than 64 MiB"]),
    ("hoards", &["crashed"]),
    ("is-cut", &["crashed"]),
    ("is-cut-short", &["cannot be loaded"]),
    ("is-empty", &["cannot be loaded"]),
    ("is-folder", &["cannot be loaded"]),
    ("is-text", &["cannot be loaded"]),
    ("makes-nothing", &["made no file"]),
    ("no-content", &["without content"]),
    ("no-function", &["no function"]),
    ("no-symbol", &["no symbol `traywright_exporter`"]),
    ("null-descriptor", &["no description"]),
    ("null-write", &["crashed", "signal 11"]),
    (
        "panics",
        &["refuses the tray", "of style single-slot has no pens"],
    ),
    ("recurses", &["crashed"]),
    (
        "refuses",
        &["the pen plotter has no pen that is thin enough"],
    ),
    ("refuses-silently", &["code 3", "no reason"]),
    ("symbol-is-data", &["crashed"]),
    ("too-new", &["schema 99", "the program is older"]),
    ("too-old", &["schema 0", "the exporter is older"]),
    ("too-small", &["8 bytes"]),
];

#[test]
fn a_good_exporter_in_c_makes_its_file() {
    let desk = desk();
    let outcome = make(&desk, "figures", "out/of/the/box");
    assert_eq!(outcome.code, 0, "{}", outcome.stderr);
    assert_eq!(
        names(&desk.path().join("out/of/the/box")),
        ["barometer-box.txt"]
    );
    let text = fs::read_to_string(desk.path().join("out/of/the/box/barometer-box.txt"))
        .expect("the file can be read");
    // Source: the job above.
    assert_eq!(text, "box 182.000 x 121.000 x 34.500 mm\n");
}

#[test]
fn every_bad_exporter_costs_one_sentence_and_writes_nothing() {
    for (name, words) in FAILING {
        let desk = desk();
        let quoted = format!("`{name}`");
        let outcome = make(&desk, name, "missing");
        check_one_sentence(&outcome, &[&[quoted.as_str()], words].concat());
        assert_eq!(names(desk.path()), ["barometer.kdl"], "{name}");
    }
}

#[test]
fn an_exporter_that_never_comes_back_is_stopped() {
    let flags = ["--exporter-seconds", "0.5"];
    for name in ENDLESS {
        let desk = desk();
        let outcome = make_with(&desk, name, "missing", &flags, &[plugins()]);
        let quoted = format!("`{name}`");
        check_one_sentence(
            &outcome,
            &[&quoted, "took longer than 0.5 s", "--exporter-seconds"],
        );
        assert_eq!(names(desk.path()), ["barometer.kdl"], "{name}");
    }
    let outcome = make_with(&desk(), "loops", "missing", &[], &[plugins()]);
    check_one_sentence(&outcome, &["`loops`", "took longer than 3 s"]);
}

#[test]
fn a_warning_reaches_the_maker_beside_the_file() {
    let desk = desk();
    let outcome = make(&desk, "warns", ".");
    assert_eq!(outcome.code, 0, "{}", outcome.stderr);
    assert!(
        outcome
            .stderr
            .contains("the card is thinner than a pen line"),
        "{}",
        outcome.stderr
    );
    assert_eq!(names(desk.path()), ["barometer.kdl", "barometer.txt"]);
}

#[test]
fn an_exporter_that_is_not_there_is_refused_with_the_nearest_name() {
    let desk = desk();
    check_one_sentence(&make(&desk, "figurs", "new"), &["`figurs`", "`figures`"]);
    assert_eq!(names(desk.path()), ["barometer.kdl"]);
}

#[test]
fn the_same_name_in_two_folders_is_refused_naming_both_files() {
    let desk = desk();
    let other = desk.path().join("more");
    fs::create_dir(&other).expect("a folder can be made");
    let twin = other.join(file_name("figures"));
    fs::copy(library("figures"), &twin).expect("a library can be copied");
    let both = [library("figures"), twin].map(|path| path.display().to_string());
    let outcome = make_with(&desk, "noisy", "new", &[], &[plugins(), &other]);
    check_one_sentence(&outcome, &[&both[0], &both[1], "`figures`"]);
    // The same folder named twice, in two ways, is no clash.
    let again = plugins().join(".");
    let outcome = make_with(&desk, "noisy", "new", &[], &[plugins(), &again]);
    assert_eq!(outcome.code, 0, "{}", outcome.stderr);
}

#[test]
fn a_folder_of_plugins_that_cannot_be_read_is_refused() {
    let desk = desk();
    for folder in ["nowhere", "barometer.kdl"] {
        let outcome = make_with(&desk, "svg", "new", &[], &[Path::new(folder)]);
        check_one_sentence(&outcome, &["exporters", folder]);
        let outcome = run(desk.path(), &["exporters", "--plugins", folder]);
        check_one_sentence(&outcome, &["exporters", folder]);
    }
    assert_eq!(names(desk.path()), ["barometer.kdl"]);
}

#[test]
fn the_list_shows_every_exporter_with_its_health() {
    let folder = plugins().to_str().expect("a path in ASCII");
    let words = ["exporters", "--plugins", folder, "--exporter-seconds", "2"];
    let outcome = run(repository(), &words);
    assert_eq!((outcome.code, outcome.stderr.as_str()), (0, ""));
    let row = |name: &str| -> Vec<&str> {
        let line = outcome
            .stdout
            .lines()
            .find(|line| line.starts_with(&format!("{name} ")))
            .unwrap_or_else(|| panic!("no {name} in\n{}", outcome.stdout));
        line.split_whitespace().collect()
    };
    for (name, suffix) in [
        ("figures", "-box.txt"),
        ("null-write", ".txt"),
        ("panics", ".txt"),
    ] {
        let path = library(name).display().to_string();
        assert_eq!(row(name), [name, suffix, "2", "loads", &path]);
    }
    assert_eq!(row("svg")[..4], ["svg", ".svg", "2", "loads"]);
    for (name, schema) in [
        ("alias", "2"),
        ("is-cut", "-"),
        ("is-folder", "-"),
        ("loops-on-loading", "-"),
        ("no-symbol", "-"),
        ("null-descriptor", "-"),
        ("symbol-is-data", "-"),
        ("too-new", "99"),
        ("too-small", "2"),
    ] {
        assert_eq!(row(name)[2..4], [schema, "broken"], "{name}");
    }
}

#[test]
fn no_process_is_left_behind() {
    let desk = desk();
    let flags = ["--exporter-seconds", "0.5"];
    let outcome = make_with(&desk, "leaves-a-child", "new", &flags, &[plugins()]);
    check_one_sentence(&outcome, &["took longer"]);
    // The number is in the source of the exporter, and nobody else sleeps so long. Other tests may run it meanwhile.
    assert!(
        within_ten_seconds(|| running("1234.5") == 0),
        "a child of an exporter is left"
    );
    let word = library("leaves-a-child").display().to_string();
    assert!(within_ten_seconds(|| running(&word) == 0), "it still runs");
}

#[test]
fn an_exporter_does_not_outlive_the_program() {
    let desk = desk();
    let folder = desk.path().join("own");
    fs::create_dir(&folder).expect("a folder can be made");
    let copy = folder.join(file_name("loops"));
    fs::copy(library("loops"), &copy).expect("a library can be copied");
    let mut killed = Command::new(program())
        .current_dir(desk.path())
        .args([
            "make",
            "barometer.kdl",
            "--as",
            "loops",
            "--exporter-seconds",
            "60",
        ])
        .args(["--plugins", folder.to_str().expect("a path in ASCII")])
        .stdin(Stdio::null())
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

/// How many processes have a word of the command line that is this one.
fn running(word: &str) -> usize {
    let entries = fs::read_dir("/proc").expect("the system lists its processes");
    entries
        .filter_map(|entry| fs::read(entry.ok()?.path().join("cmdline")).ok())
        .filter(|line| {
            line.split(|byte| *byte == 0)
                .any(|one| one == word.as_bytes())
        })
        .count()
}

fn within_ten_seconds(holds: impl Fn() -> bool) -> bool {
    let start = Instant::now();
    while start.elapsed() < Duration::from_secs(10) {
        if holds() {
            return true;
        }
        thread::sleep(Duration::from_millis(20));
    }
    false
}

#[test]
fn a_suffix_cannot_name_another_folder_or_hide_a_file() {
    let longest = format!(".{}", "x".repeat(LONGEST_SUFFIX - 1));
    for good in [".svg", "-booklet.pdf", ".csv", "-2.tar.gz", &longest] {
        assert!(is_suffix(good), "{good}");
    }
    let too_long = format!("{longest}x");
    for bad in [
        "", ".", "..", "-", "svg", "/x", "../x", "./x", ".a/b", ".a\\b", ".a b", ".ä", ".a\0",
        "\0", ".a\n", "~.x", ".a:b", &too_long,
    ] {
        assert!(!is_suffix(bad), "{bad:?}");
    }
}

#[test]
fn the_header_speaks_of_the_same_schema() {
    let header = repository().join("core/document/include/traywright.h");
    let text = fs::read_to_string(header).expect("the header can be read");
    assert!(text.contains(&format!("#define TRAYWRIGHT_SCHEMA {SCHEMA}u\n")));
    assert!(text.contains(&format!("at most {LONGEST_SUFFIX} bytes long")));
}
