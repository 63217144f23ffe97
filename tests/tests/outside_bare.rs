//! A bare file has what a machine works along and nothing else, and `make` says which face a machine creases.
//!
//! Outsiders: svgelements 1.9 and ezdxf 1.4, in `outside/bare.py`. The expected size is that of the blank in the report
//! of `check`; the words are those of core/CONTRACT.md.

use std::collections::BTreeSet;
use std::fs;

use serde_json::Value;
use traywright_tests::trying::{check, draw, measure};
use traywright_tests::{Outcome, measured, run};
use usvg::roxmltree::Document;

const JOB: &str = "tray style=\"single-slot\" name=\"Lens\"\n\
    box length=(mm)182 width=(mm)121 depth=(mm)34\n\
    item \"lens\" length=(mm)96 width=(mm)61 depth=(mm)28 pad=(mm)4\n\
    board caliper=(mm)0.29\n";
const BARE: &str = "tool by=\"machine\" lines=\"bare\"\n";

#[test]
fn a_bare_file_has_lines_alone_and_is_as_large_as_the_blank() {
    for (lines, beyond) in [
        (BARE.to_owned(), 0.0),
        (
            "tool lines=\"bare\"\ndraw face=\"outside\"\n".to_owned(),
            0.0,
        ),
        (format!("{BARE}slot cut=\"open\" finger=(mm)16\n"), 0.0),
        (format!("{BARE}dxf version=\"R12\"\n"), 0.0),
        // Source: core/CONTRACT.md, "Files: SVG": closed cuts lie outside the piece by half of the kerf.
        (format!("{BARE}kerf width=(mm)0.2\nnicks\n"), 0.2),
    ] {
        let job = format!("{JOB}{lines}");
        let report = check(&job);
        let blank = ["blank_length", "blank_width"].map(|name| measure(&report, name) + beyond);
        let Some(told) = told(&job) else { return };
        check_svg(&told["svg"], blank, &lines);
        check_dxf(&told["dxf"], blank, &lines);
    }
}

fn check_svg(svg: &Value, blank: [f64; 2], lines: &str) {
    let groups = serde_json::json!(["creasing", "reverse-creasing", "cutting"]);
    assert_eq!(svg["groups"], groups, "{lines}");
    assert_eq!(
        svg["tags"],
        serde_json::json!(["g", "path", "svg"]),
        "{lines}"
    );
    assert_eq!(svg["words"], "", "{lines}");
    assert_eq!(svg["dashed"], serde_json::json!([]), "{lines}");
    assert_eq!(svg["widths"], serde_json::json!(["0.01"]), "{lines}");
    assert_eq!(svg["colours"], 3, "{lines}");
    // Both directions of folding stay apart: seen from outside each changes its group.
    let empty = match lines.contains("outside") {
        true => "creasing",
        false => "reverse-creasing",
    };
    for group in ["creasing", "reverse-creasing", "cutting"] {
        let length = svg["lengths"][group].as_f64().expect("a number");
        assert_eq!(length == 0.0, group == empty, "{lines}{group}: {length}");
    }
    near(&svg["extent"], [0.0, 0.0, blank[0], blank[1]], lines);
    let sheet: Vec<&str> = svg["sheet"]
        .as_array()
        .expect("a list")
        .iter()
        .flat_map(Value::as_str)
        .collect();
    let [width, height] = [0, 1].map(|at| sheet[at].strip_suffix("mm").expect("mm"));
    assert_eq!(sheet[2], format!("0 0 {width} {height}"), "{lines}");
    for (said, wanted) in [width, height].into_iter().zip(blank) {
        let said: f64 = said.parse().expect("a number");
        assert!((said - wanted).abs() < 1e-3, "{lines}: {said}, {wanted}");
    }
}

fn check_dxf(dxf: &Value, blank: [f64; 2], lines: &str) {
    assert_eq!(dxf["faults"], 0, "{lines}");
    let kind = match lines.contains("R12") {
        true => "POLYLINE",
        false => "LWPOLYLINE",
    };
    assert_eq!(dxf["kinds"], serde_json::json!([kind]), "{lines}");
    // Source: DXF reference: every drawing has the layer 0.
    let layers = serde_json::json!(["0", "CREASING", "CUTTING", "REVERSE-CREASING"]);
    assert_eq!(dxf["layers"], layers, "{lines}");
    let creases = match lines.contains("outside") {
        true => "REVERSE-CREASING",
        false => "CREASING",
    };
    let mut drawn = [creases, "CUTTING"];
    drawn.sort_unstable();
    assert_eq!(dxf["drawn_on"], serde_json::json!(drawn), "{lines}");
    // With gaps in it the outline is open.
    let closed = dxf["closed"].as_u64().expect("a number");
    assert!(closed > 0 || lines.contains("nicks"), "{lines}");
    for said in ["extent", "says"] {
        near(&dxf[said], [0.0, 0.0, blank[0], blank[1]], lines);
    }
}

/// The measures of `check` and the numbers of the files are rounded.
fn near(found: &Value, wanted: [f64; 4], lines: &str) {
    for (at, wanted) in wanted.into_iter().enumerate() {
        let found = found[at].as_f64().expect("a number");
        assert!((found - wanted).abs() < 1e-3, "{lines}: {found}, {wanted}");
    }
}

/// Source: core/CONTRACT.md, "Files: looks": a machine sorts lines by colour, so nothing but a line has a line's colour.
#[test]
fn words_and_legend_of_the_full_file_have_no_colour_of_a_line() {
    for face in ["inside", "outside"] {
        let svg = draw(&format!("{JOB}draw face=\"{face}\"\n"));
        let tree = Document::parse(&svg).expect("the file is XML");
        let (mut lines, mut others) = (BTreeSet::new(), BTreeSet::new());
        for group in tree
            .root_element()
            .children()
            .filter(|node| node.has_tag_name("g"))
        {
            let id = group.attribute("id").expect("a group has a name");
            let colours = match id {
                "cutting" | "creasing" | "reverse-creasing" => &mut lines,
                _ => &mut others,
            };
            for node in group.descendants() {
                let said = [node.attribute("stroke"), node.attribute("fill")];
                colours.extend(
                    said.into_iter()
                        .flatten()
                        .filter(|colour| *colour != "none"),
                );
            }
        }
        assert_eq!(lines.len(), 3, "{lines:?}");
        assert!(others.len() >= 2, "{others:?}");
        assert!(lines.is_disjoint(&others), "{lines:?}, {others:?}");
    }
}

/// Source: core/CONTRACT.md, "Commands": carton is creased on the face outside the fold, corrugated board on the inside.
#[test]
fn make_says_which_face_a_machine_creases() {
    let machine = "tool by=\"machine\"\n";
    let corrugated = JOB.replace("0.29", "0.29 kind=\"corrugated\"");
    let outside = "draw face=\"outside\"\n";
    for (job, formats, advice) in [
        (
            format!("{JOB}{machine}"),
            "svg",
            Some("draw face=\"outside\""),
        ),
        (
            format!("{JOB}{machine}"),
            "dxf,pdf",
            Some("draw face=\"outside\""),
        ),
        (format!("{JOB}{machine}{outside}"), "svg", None),
        (
            format!("{corrugated}{machine}{outside}"),
            "svg",
            Some("draw face=\"inside\""),
        ),
        (format!("{corrugated}{machine}"), "svg", None),
        (JOB.to_owned(), "svg", None),
        (format!("{JOB}{machine}"), "pdf", None),
    ] {
        let (_folder, said) = made(&job, formats);
        let words = said.stderr.split_whitespace().collect::<Vec<_>>().join(" ");
        assert_eq!(
            words.contains("Write draw face="),
            advice.is_some(),
            "{job}{words}"
        );
        if let Some(advice) = advice {
            assert!(words.contains(advice), "{job}{words}");
        }
    }
    let job = format!("{JOB}{BARE}");
    let Some(told) = told(&job) else { return };
    let length = told["svg"]["lengths"]["creasing"]
        .as_f64()
        .expect("a number");
    let (_folder, said) = made(&job, "svg");
    let words = said.stderr.split_whitespace().collect::<Vec<_>>().join(" ");
    // Source: svgelements, above: the sum of the creases; all of them are valleys.
    let numbers = format!("16 of 16 creases ({length:.2} mm of {length:.2} mm)");
    assert!(words.contains(&numbers), "{numbers}: {words}");
}

// Source: core/GEOMETRY.md, "Double-wall": its walls fold over, so some of their creases lie on the other face.
#[test]
fn make_names_the_group_of_the_few_creases_on_the_other_face() {
    let double = JOB.replace("single-slot", "double-wall");
    let job = format!("{double}tool by=\"machine\"\ndraw face=\"outside\"\n");
    let (_folder, said) = made(&job, "svg");
    let words = said.stderr.split_whitespace().collect::<Vec<_>>().join(" ");
    let named = "They are the lines of \"creasing\": leave these out on the machine";
    assert!(words.contains(named), "{words}");
    let report = check(&job);
    let sides = ["blank_length", "blank_width"].map(|name| measure(&report, name));
    let [length, width] = sides.map(|side| (side * 100.0).round() / 100.0);
    let size = format!("the blank is {length} × {width} mm.");
    assert!(words.contains(&size), "{size}: {words}");
}

/// What the outsiders measure of the SVG and the DXF of a job; none where they are missing.
fn told(job: &str) -> Option<Value> {
    let (folder, _) = made(job, "svg,dxf");
    let files = ["lens.svg", "lens.dxf"].map(|name| folder.path().join(name));
    let files = files
        .each_ref()
        .map(|file| file.to_str().expect("a plain name"));
    let told = measured("bare.py", &files)?;
    Some(told.unwrap_or_else(|fault| panic!("{job}{fault}")))
}

fn made(job: &str, formats: &str) -> (tempfile::TempDir, Outcome) {
    let folder = tempfile::tempdir().expect("a folder can be made");
    fs::write(folder.path().join("lens.kdl"), job).expect("a job can be written");
    let outcome = run(folder.path(), &["make", "lens.kdl", "--as", formats]);
    assert_eq!(outcome.code, 0, "{job}{}", outcome.stderr);
    (folder, outcome)
}
