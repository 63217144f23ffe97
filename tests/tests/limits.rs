//! The table of limits, `core/LIMITS.md`: every constant is as it says, every test is there, and what has no test
//! elsewhere is tried here, at the limit and one beyond.
//!
//! Source: core/CONTRACT.md, "Job file", "Pictures on panels", "check --vary" and "nest", for the numbers.

use std::fs;

use traywright_tests::{files, repository, run};

const JOB: &str = "tray style=\"single-slot\"\nbox length=(mm)182 width=(mm)121 depth=(mm)34\n\
    item \"lens\" length=(mm)96 width=(mm)61 depth=(mm)28\nboard caliper=(mm)0.29\n";

/// The cells of the table that stand between backticks.
fn quoted(cell: &str) -> Vec<&str> {
    cell.split('`').skip(1).step_by(2).collect()
}

#[test]
fn every_limit_stands_where_the_table_says() {
    let table = fs::read_to_string(repository().join("core/LIMITS.md")).expect("it can be read");
    let mut sources = String::new();
    for folder in ["core", "exporters", "tests/tests"] {
        for file in files(folder, "rs") {
            sources += &fs::read_to_string(&file).expect("a source file can be read");
        }
    }
    let mut count = 0;
    for row in table
        .lines()
        .filter(|row| row.starts_with("| ") && row.contains("`: `"))
    {
        let cells: Vec<&str> = row.trim_matches('|').split(" | ").collect();
        let [path, constant] = quoted(cells[1])[..] else {
            panic!("no path and constant: {row}");
        };
        let text =
            fs::read_to_string(repository().join(path)).expect("the file of a constant is there");
        assert!(
            text.contains(&format!("const {constant};")),
            "{path} has no `{constant}`"
        );
        let tests = quoted(cells.last().expect("a row has cells"));
        assert!(!tests.is_empty(), "no test: {row}");
        for test in tests {
            let is_case = repository().join("tests/refusals").join(test).is_dir();
            assert!(
                is_case || sources.contains(&format!("fn {test}()")),
                "no test {test}"
            );
        }
        count += 1;
    }
    assert!(count > 25, "{count} rows");
}

/// A job with more lines, checked: its code and what it says.
fn checked(lines: &str, options: &[&str]) -> (i32, String) {
    let desk = tempfile::tempdir().expect("a folder can be made");
    fs::write(desk.path().join("job.kdl"), format!("{JOB}{lines}")).expect("a job can be written");
    for (name, bytes) in [("full.png", 16 << 20), ("large.png", (16 << 20) + 1)] {
        if lines.contains(name) {
            let picture = fs::File::create(desk.path().join(name)).expect("a file can be made");
            picture.set_len(bytes).expect("a file can be made longer");
        }
    }
    let command = [&["check", "job.kdl"], options].concat();
    let outcome = run(desk.path(), &command);
    (outcome.code, outcome.stdout + &outcome.stderr)
}

#[test]
fn what_is_beyond_a_limit_is_refused_with_the_limit() {
    let label = |letters: usize| {
        let words = "i".repeat(letters);
        format!("label \"{words}\" on=\"deck\" size=(mm)1\n")
    };
    let print = |name: &str| format!("print image=\"{name}.png\" on=\"deck\"\n");
    for (within, beyond, words) in [
        (label(100), label(101), "at most 100 characters"),
        (
            label(1).repeat(64),
            label(1).repeat(65),
            "at most 64 labels",
        ),
        (
            print("none").repeat(8),
            print("none").repeat(9),
            "at most 8 pictures",
        ),
        (print("full"), print("large"), "larger than 16 MiB"),
    ] {
        let (_, said) = checked(&within, &[]);
        assert!(!said.contains(words), "{said}");
        let (code, said) = checked(&beyond, &[]);
        assert_eq!(code, 2, "{said}");
        assert!(said.contains(words), "{words}: {said}");
    }
}

#[test]
fn a_huge_file_is_no_job() {
    let desk = tempfile::tempdir().expect("a folder can be made");
    let job = fs::File::create(desk.path().join("job.kdl")).expect("a file can be made");
    job.set_len(17 << 20).expect("a file can be made longer");
    let outcome = run(desk.path(), &["check", "job.kdl"]);
    assert_eq!(outcome.code, 2, "{}", outcome.stderr);
    let words = outcome.stderr.split_whitespace().collect::<Vec<_>>();
    let words = words.join(" ");
    let wanted = "it has 16 MiB or more, and a job has at most 256 KiB";
    assert!(words.contains(wanted), "{words}");
}

#[test]
fn an_option_beyond_its_limit_is_refused_with_the_limit() {
    let vary = |last: &str| {
        let values = format!("fit.item=(mm)1..{last} by (mm)0.01");
        checked("", &["--vary", &values])
    };
    let (code, said) = vary("4.99");
    assert_eq!(code, 0, "400 variations: {said}");
    let (code, said) = vary("5");
    assert_eq!(code, 2, "{said}");
    assert!(said.contains("401 values, and 400 are the most"), "{said}");
    let [one, other] = [
        "fit.item=(mm)1..3 by (mm)0.1",
        "fit.box=(mm)1..2 by (mm)0.05",
    ];
    let (code, said) = checked("", &["--vary", one, "--vary", other]);
    assert_eq!(code, 2, "{said}");
    let words = said.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(
        words.contains("441 variations, and 400 are the most"),
        "{words}"
    );
    let desk = tempfile::tempdir().expect("a folder can be made");
    fs::write(desk.path().join("job.kdl"), JOB).expect("a job can be written");
    let nest = [
        "nest",
        "job.kdl",
        "--stock",
        "700x1000 mm",
        "--count",
        "10001",
    ];
    let outcome = run(desk.path(), &nest);
    assert_eq!(outcome.code, 2, "{}", outcome.stderr);
    assert!(
        outcome.stderr.contains("from 1 to 10000"),
        "{}",
        outcome.stderr
    );
}
