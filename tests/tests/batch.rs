//! Many jobs in one call: the same bytes and words as one by one, in the order of the call.
//!
//! Source of every expectation: core/CONTRACT.md, "Commands".

use std::fs;
use std::path::Path;

use tempfile::TempDir;
use traywright_tests::run;

/// A job whose item has this length; from 150 mm on it does not fit.
fn job(length: usize) -> String {
    format!(
        "tray style=\"single-slot\"\nbox length=(mm)182 width=(mm)121 depth=(mm)34\n\
         item \"lens {length}\" length=(mm){length} width=(mm)61 depth=(mm)28\nboard caliper=(mm)0.29\n"
    )
}

/// A folder with a job for each length.
fn desk(lengths: &[usize]) -> (TempDir, Vec<String>) {
    let desk = tempfile::tempdir().expect("a folder can be made");
    let name = |(number, length): (usize, &usize)| {
        let name = format!("job-{number:02}.kdl");
        fs::write(desk.path().join(&name), job(*length)).expect("a job can be written");
        name
    };
    let names = lengths.iter().enumerate().map(name).collect();
    (desk, names)
}

fn words<'a>(first: &[&'a str], jobs: &'a [String], last: &[&'a str]) -> Vec<&'a str> {
    let jobs = jobs.iter().map(String::as_str);
    first
        .iter()
        .copied()
        .chain(jobs)
        .chain(last.iter().copied())
        .collect()
}

/// Name and content of every file of a folder, hidden ones too.
fn contents(folder: &Path) -> Vec<(String, Vec<u8>)> {
    let entries = fs::read_dir(folder).expect("a folder can be read");
    let mut all: Vec<_> = entries
        .map(|entry| {
            let path = entry.expect("a folder can be read").path();
            let name = path
                .file_name()
                .expect("a name")
                .to_string_lossy()
                .into_owned();
            (name, fs::read(path).expect("a file can be read"))
        })
        .collect();
    all.sort();
    all
}

#[test]
fn twenty_jobs_together_give_the_files_and_reports_of_one_by_one() {
    let lengths: Vec<usize> = (80..100).collect();
    let (desk, jobs) = desk(&lengths);
    let flags = ["--as", "svg,dxf", "--into", "together"];
    let together = run(desk.path(), &words(&["make"], &jobs, &flags));
    assert_eq!(together.code, 0, "{}", together.stderr);
    let (mut reports, mut objects) = (Vec::new(), Vec::new());
    for job in &jobs {
        let alone = run(
            desk.path(),
            &["make", job, "--as", "svg,dxf", "--into", "alone"],
        );
        assert_eq!(alone.code, 0, "{}", alone.stderr);
        let of_check = |flags: &[&str]| {
            let outcome = run(desk.path(), &[&["check", job], flags].concat());
            assert_eq!(outcome.code, 0, "{}", outcome.stderr);
            outcome.stdout
        };
        reports.push(of_check(&[]));
        let object: serde_json::Value =
            serde_json::from_str(&of_check(&["--format", "json"])).expect("a report is JSON");
        objects.push(object);
    }
    let files = contents(&desk.path().join("together"));
    assert_eq!(files.len(), 40);
    assert!(
        files == contents(&desk.path().join("alone")),
        "files differ"
    );
    let checked = run(desk.path(), &words(&["check"], &jobs, &[]));
    assert_eq!(checked.stdout, reports.join("\n"));
    let checked = run(
        desk.path(),
        &words(&["check"], &jobs, &["--format", "json"]),
    );
    // Indented as one array, and its objects in the order of the call.
    let whole = serde_json::Value::Array(objects);
    let read: serde_json::Value = serde_json::from_str(&checked.stdout).expect("an array");
    assert_eq!(read, whole);
    assert!(
        checked
            .stdout
            .starts_with("[\n  {\n    \"job\": \"job-00.kdl\"")
    );
}

#[test]
fn refusals_come_in_the_order_of_the_call_and_keep_every_file_away() {
    let lengths = [80, 170, 81, 171, 82, 172, 83, 173];
    let (desk, jobs) = desk(&lengths);
    let before = contents(desk.path());
    let outcome = run(desk.path(), &words(&["make"], &jobs, &["--as", "svg"]));
    assert_eq!(outcome.code, 1, "{}", outcome.stderr);
    let said = |job: &str| outcome.stderr.find(&format!("{job}: does not fit"));
    let places: Vec<_> = ["job-01", "job-03", "job-05", "job-07"].map(said).to_vec();
    assert!(
        places.iter().all(Option::is_some) && places.is_sorted(),
        "{}",
        outcome.stderr
    );
    assert!(
        outcome.stderr.contains("writes the 4 trays that fit"),
        "{}",
        outcome.stderr
    );
    assert!(contents(desk.path()) == before, "something was written");
}

#[test]
fn keep_going_ends_with_a_table_of_all_jobs() {
    let (desk, jobs) = desk(&[80, 170, 81]);
    let flags = ["--as", "svg", "--keep-going", "--into", "out"];
    let outcome = run(desk.path(), &words(&["make"], &jobs, &flags));
    assert_eq!(outcome.code, 1, "{}", outcome.stderr);
    assert_eq!(outcome.stdout, "");
    let table = outcome.stderr.split("\njob ").nth(1).expect("a table");
    assert!(table.trim_start().starts_with("verdict"), "{table}");
    let rows: Vec<&str> = table.lines().skip(1).collect();
    assert!(rows[0].starts_with("job-00.kdl  fits"), "{table}");
    assert!(
        rows[0].contains(" × ") && rows[0].ends_with(" mm"),
        "{table}"
    );
    assert!(rows[1].starts_with("job-01.kdl  does-not-fit"), "{table}");
    assert!(
        rows[2].starts_with("    ") && rows[2].contains("opening"),
        "{table}"
    );
    assert!(rows[3].starts_with("job-02.kdl  fits"), "{table}");
    assert!(rows.iter().all(|row| row.chars().count() <= 80), "{table}");
    let names: Vec<String> = contents(&desk.path().join("out"))
        .into_iter()
        .map(|file| file.0)
        .collect();
    assert_eq!(names, ["job-00.svg", "job-02.svg"]);
    let quiet = run(desk.path(), &words(&["--quiet", "make"], &jobs, &flags));
    assert!(!quiet.stderr.contains("verdict"), "{}", quiet.stderr);
}

#[test]
fn the_errors_of_a_style_are_told_once() {
    let (desk, jobs) = desk(&[80, 81, 82]);
    fs::create_dir(desk.path().join("own")).expect("a folder can be made");
    fs::write(desk.path().join("own/bent.ron"), "Style(").expect("a style can be written");
    for job in &jobs {
        let text = job_with_style(desk.path(), job);
        fs::write(desk.path().join(job), text).expect("a job can be written");
    }
    let outcome = run(
        desk.path(),
        &words(&["check", "--styles", "own"], &jobs, &[]),
    );
    assert_eq!(outcome.code, 2);
    assert_eq!(
        outcome.stderr.matches("bent.ron:1:").count(),
        1,
        "{}",
        outcome.stderr
    );
    assert_eq!(
        outcome.stderr.matches("which cannot be used").count(),
        3,
        "{}",
        outcome.stderr
    );
}

fn job_with_style(folder: &Path, job: &str) -> String {
    let text = fs::read_to_string(folder.join(job)).expect("a job can be read");
    text.replace("single-slot", "bent")
}
