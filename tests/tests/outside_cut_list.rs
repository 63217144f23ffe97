//! The example of an exporter in C builds as its head says, and its cut list agrees with the SVG of the same job.
//!
//! Expected figures are measured on the SVG by `svg_lines`, and by hand for the area of a tray with straight edges.

use std::fs;
use std::process::Command;

use tempfile::TempDir;
use traywright_tests::svg_lines::{LINE_GROUPS, runs};
use traywright_tests::{repository, run};

const JOB: &str = "tray style=\"single-slot\" name=\"Lens \\\"box\\\", small\"\nbox length=(mm)182 width=(mm)121 depth=(mm)34\n\
    item \"lens\" length=(mm)96 width=(mm)61 depth=(mm)28\nboard caliper=(mm)0.29\n";

#[test]
fn the_example_in_c_writes_the_cut_list_of_the_svg() {
    let folder = built();
    fs::write(folder.path().join("lens.kdl"), JOB).expect("a job can be written");
    let held = format!("{JOB}nicks\n");
    fs::write(folder.path().join("held.kdl"), held).expect("a job can be written");
    let words = [
        "make",
        "lens.kdl",
        "held.kdl",
        "--as",
        "svg,cut-list",
        "--plugins",
        ".",
    ];
    let outcome = run(folder.path(), &words);
    assert_eq!(outcome.code, 0, "{}", outcome.stderr);
    let read =
        |name: &str| fs::read_to_string(folder.path().join(name)).expect("the file was made");
    check_figures(&read("lens-cut-list.csv"), &read("lens.svg"));
    // With gaps the outline has no area: the figure is left out, and the maker is told.
    assert!(read("held-cut-list.csv").ends_with(",\r\n"));
    let said = outcome
        .stderr
        .split_whitespace()
        .collect::<Vec<_>>()
        .join(" ");
    assert!(said.contains("the use of the sheet is left out"), "{said}");
}

/// A folder with the library, built by the command in the head of its source.
fn built() -> TempDir {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let (prefix, suffix) = (std::env::consts::DLL_PREFIX, std::env::consts::DLL_SUFFIX);
    let built = Command::new("cc")
        .args(["-std=c99", "-Wall", "-Wextra", "-Werror", "-pedantic"])
        .args(["-shared", "-fPIC", "-fvisibility=hidden", "-I"])
        .arg(repository().join("core/document/include"))
        .arg("-o")
        .arg(
            folder
                .path()
                .join(format!("{prefix}traywright_cut-list{suffix}")),
        )
        .arg(repository().join("exporters/examples/cut-list/cut-list.c"))
        .arg("-lm")
        .output()
        .expect("a C compiler is called cc");
    assert!(
        built.status.success(),
        "{}",
        String::from_utf8_lossy(&built.stderr)
    );
    folder
}

#[track_caller]
fn check_figures(list: &str, svg: &str) {
    let mut lines = list.split("\r\n");
    let heads = "piece,length_mm,width_mm,crease_mm,cut_mm,strokes,sheet_use_percent";
    assert_eq!(lines.next(), Some(heads));
    let line = lines.next().expect("a line of figures");
    // Source: RFC 4180: a field with commas or quotes stands in quotes, and a quote in it is doubled.
    let figures = line.strip_prefix("\"Lens \"\"box\"\", small\",");
    let figures = figures.unwrap_or_else(|| panic!("{line}")).split(',');
    let figures: Vec<f64> = figures
        .map(|figure| figure.parse().expect("a number"))
        .collect();
    let length = |id: &str| -> f64 {
        runs(svg, id)
            .iter()
            .flat_map(|run| run.lengths.clone())
            .sum()
    };
    let strokes: usize = LINE_GROUPS.iter().map(|id| runs(svg, id).len()).sum();
    // The SVG rounds places to 0.0001 mm, the list lengths to 0.1 mm.
    let creases = length("creasing") + length("reverse-creasing");
    assert!((figures[2] - creases).abs() < 0.06, "{list}");
    assert!((figures[3] - length("cutting")).abs() < 0.06, "{list}");
    assert_eq!(figures[4], strokes as f64, "{list}");
    let used = area(svg) / (figures[0] * figures[1]) * 100.0;
    assert!((figures[5] - used).abs() < 0.06, "{used}: {list}");
}

/// The largest closed run of straight edges less the others, by the shoelace.
fn area(svg: &str) -> f64 {
    let mut areas: Vec<f64> = runs(svg, "cutting")
        .iter()
        .filter(|run| run.closed)
        .map(|run| {
            let next = run.places.iter().cycle().skip(1);
            let doubled: f64 = run
                .places
                .iter()
                .zip(next)
                .map(|(one, other)| one[0] * other[1] - other[0] * one[1])
                .sum();
            doubled.abs() / 2.0
        })
        .collect();
    areas.sort_by(f64::total_cmp);
    let outline = areas.pop().expect("the outline is closed");
    outline - areas.iter().sum::<f64>()
}
