//! A perforated crease is a row of cuts with gaps, on the line of the crease, and changes nothing else.
//!
//! Outsiders: svgelements 1.9, ezdxf 1.4 and shapely 2.2, in `outside/perforated.py`. The lengths of cut and gap are those
//! of the job.

use std::fs;
use std::path::Path;

use serde_json::Value;
use traywright_tests::{measured, run};

const TRAY: &str = "box length=(mm)210 width=(mm)160 depth=(mm)58\n\
    item \"clock\" length=(mm)104 width=(mm)90 depth=(mm)49 pad=(mm)6\n\
    board caliper=(mm)0.4\n";
const STYLES: [&str; 3] = ["single-slot", "double-wall", "multi-slot"];
/// Files have coordinates to 0.0001 mm, and both ends of a cut are rounded.
const ROUNDED_MM: f64 = 1e-3;

#[test]
fn rows_of_cuts_lie_on_the_creases_and_all_else_stays() {
    for (style, [cut, gap]) in STYLES.into_iter().zip([[2.0, 2.0], [1.0, 1.5], [3.5, 0.8]]) {
        for face in ["inside", "outside"] {
            let folder = tempfile::tempdir().expect("a folder can be made");
            let plain = format!(
                "tray style=\"{style}\"\n{TRAY}draw face=\"{face}\"\ntool by=\"machine\" lines=\"bare\"\n"
            );
            let row = format!("perforate cut=(mm){cut} gap=(mm){gap}\n");
            let job = plain.clone() + &row;
            made(folder.path(), "plain", &plain);
            made(folder.path(), "row", &job);
            let file = |name: &str| folder.path().join(name);
            let fold = ["plain.fold", "row.fold"].map(|name| fs::read_to_string(file(name)));
            let fold = fold.map(|text| text.expect("text").replace("\"row\"", "\"plain\""));
            assert_eq!(fold[0], fold[1], "{job}: FOLD has its creases whole");
            let files = ["plain.svg", "row.svg", "row.dxf"].map(file);
            let files = files.each_ref().map(|file| file.to_str().expect("plain"));
            let Some(told) = measured("perforated.py", &files) else {
                return;
            };
            let told = told.unwrap_or_else(|fault| panic!("{job}{fault}"));
            check(&told, [cut, gap], &job);
        }
    }
}

fn check(told: &Value, [cut, gap]: [f64; 2], job: &str) {
    let numbers = |of: &Value| -> Vec<f64> {
        let list = of.as_array().expect("a list");
        list.iter().filter_map(Value::as_f64).collect()
    };
    let mut creases = 0;
    for (file, layer) in ["svg", "dxf"]
        .iter()
        .flat_map(|file| ["perforating", "reverse-perforating"].map(|layer| (file, layer)))
    {
        let rows = &told[*file][layer];
        assert_eq!(rows["astray"], 0, "{file} {layer} {job}");
        for row in rows["rows"].as_array().expect("a list") {
            let (gaps, cuts) = (numbers(&row["gaps"]), numbers(&row["cuts"]));
            assert!(
                !cuts.is_empty() && gaps.len() == cuts.len() + 1,
                "{file} {layer} {row}"
            );
            assert!(
                cuts.iter().all(|is| (is - cut).abs() < ROUNDED_MM),
                "{job}{row}"
            );
            assert!(
                gaps.iter().all(|is| (is - gaps[0]).abs() < ROUNDED_MM),
                "{job}{row}"
            );
            // As many cuts as there is room for: one more would make the gaps too short.
            assert!(gaps[0] > gap - ROUNDED_MM, "{job}{row}");
            let length = row["length"].as_f64().expect("a number");
            let (more, gaps) = (cuts.len() as f64 + 1.0, gaps.len() as f64 + 1.0);
            assert!(more * cut + gaps * gap > length - ROUNDED_MM, "{job}{row}");
            creases += 1;
        }
    }
    assert!(creases >= 20, "{creases}: {job}");
    assert!(
        told["cutting"].as_f64().expect("a number") < ROUNDED_MM,
        "{job}"
    );
    let layers = serde_json::json!(["cutting", "perforating", "reverse-perforating"]);
    assert_eq!(told["layers"], layers, "{job}");
    let groups = told["groups"].as_array().expect("a list");
    assert!(
        groups
            .iter()
            .all(|group| !group.as_str().expect("a word").contains("creasing"))
    );
}

/// Source: core/CONTRACT.md, "Files: SVG" and "Files: looks".
#[test]
fn the_full_file_and_the_booklet_say_that_creases_are_perforated() {
    for (language, words) in [
        (
            "en",
            ["Perforated; fold towards you", "cuts of 2 mm, gaps of 2 mm"],
        ),
        (
            "de",
            [
                "Perforiert; zu sich hin falten",
                "Schnitte von 2 mm, Abstände von 2 mm",
            ],
        ),
    ] {
        let folder = tempfile::tempdir().expect("a folder can be made");
        let job = format!("tray style=\"single-slot\"\n{TRAY}words \"{language}\"\nperforate\n");
        made(folder.path(), "row", &job);
        let svg = fs::read_to_string(folder.path().join("row.svg")).expect("text");
        for words in words {
            assert!(svg.contains(words), "{words}");
        }
        assert!(svg.contains("id=\"perforating\"") && !svg.contains("id=\"creasing\""));
        let machine = run(folder.path(), &["make", "row.kdl", "--as", "svg"]);
        assert!(
            !machine.stderr.contains("Write draw face="),
            "{}",
            machine.stderr
        );
    }
}

fn made(folder: &Path, name: &str, job: &str) {
    fs::write(folder.join(format!("{name}.kdl")), job).expect("a job can be written");
    let file = format!("{name}.kdl");
    let outcome = run(folder, &["make", &file, "--as", "svg,dxf,fold"]);
    assert_eq!(outcome.code, 0, "{job}{}{}", outcome.stdout, outcome.stderr);
}
