//! What a print shop finds in the PDF: an ink for each processing step, set to overprint, and one page of the blank's size.
//!
//! Outsiders: pikepdf 10 (`outside/inks.py`), qpdf, and poppler and mupdf for pictures at 300 dots an inch.

use std::fs;
use std::path::Path;
use std::process::Command;

use serde_json::{Value, json};
use traywright_tests::{measured, python, run, system_program};

const JOB: &str = "tray style=\"single-slot\" name=\"Lens box\"\nbox length=(mm)182 width=(mm)121 depth=(mm)34\n\
    item \"lens\" length=(mm)96 width=(mm)61 depth=(mm)28\nboard caliper=(mm)0.29\n";

#[test]
fn every_processing_step_is_a_spot_colour_of_its_own_set_to_overprint() {
    for page in ["page \"A4\"", "page \"whole\""] {
        let folder = made(page);
        let Some(told) = asked(folder.path()) else {
            return;
        };
        // Source: ISO 19593-1, as in the PDF Association's grammar: the types, and none for dimensions and legend.
        let structural =
            |name: &str| json!({"GTS_ProcStepsGroup": "Structural", "GTS_ProcStepsType": name});
        let mut expected = json!({
            "cutting": structural("Cutting"),
            "creasing": structural("Creasing"),
            "reverse-creasing": structural("ReverseCreasing"),
            "dimensions": {"GTS_ProcStepsGroup": "Dimensions"},
        });
        if page.contains("whole") {
            expected["legend"] = json!({"GTS_ProcStepsGroup": "Legend"});
            expected["bleed"] = structural("Bleed");
        }
        assert_eq!(told["steps"], expected);
        assert_eq!(told["title"], "Lens box");
        for sheet in told["pages"].as_array().expect("there are pages") {
            check_inks(sheet);
        }
        let used = &told["pages"][0]["used"];
        assert!(
            used.as_array().is_some_and(|used| used.len() >= 3),
            "{used}"
        );
        check_stand_in(
            &told["pages"][0]["inks"]["Creasing"],
            page.contains("whole"),
        );
        if let Some(qpdf) = system_program("qpdf", "structure of the PDF") {
            let checked = Command::new(qpdf)
                .arg("--check")
                .arg(folder.path().join("lens.pdf"))
                .output();
            assert!(checked.expect("qpdf can be started").status.success());
        }
    }
}

/// The colour that stands for the ink of creases where it is not at hand.
// Source: core/CONTRACT.md, "Files: looks": #CC79A7. On a whole page the same in four inks: ISO 32000-1, 10.3, with all of
// the grey as black.
#[track_caller]
fn check_stand_in(found: &Value, is_whole: bool) {
    let (red, green, blue) = (204.0 / 255.0, 121.0 / 255.0, 167.0 / 255.0);
    let expected = match is_whole {
        true => vec![0.0, red - green, red - blue, 1.0 - red],
        false => vec![red, green, blue],
    };
    let parts = found.as_array().expect("parts of a colour");
    assert_eq!(parts.len(), expected.len());
    for (part, expected) in parts.iter().zip(expected) {
        let part = part.as_f64().expect("a number");
        assert!((part - expected).abs() < 1e-3, "{found}");
    }
}

/// What is drawn in a layer is drawn in its ink and overprints, and nothing else is drawn in an ink.
#[track_caller]
fn check_inks(sheet: &Value) {
    assert_eq!(sheet["overprinted"], true, "{sheet}");
    let inks = sheet["inks"].as_object().expect("there are inks");
    let mut names: Vec<&str> = inks.keys().map(String::as_str).collect();
    names.sort_unstable();
    names.retain(|name| !["Bleed", "Legend"].contains(name));
    assert_eq!(
        names,
        ["Creasing", "Cutting", "Dimensions", "ReverseCreasing"]
    );
    // What is drawn in a layer is drawn in its ink, and nothing else is.
    for used in sheet["used"].as_array().expect("inks are used") {
        let [layer, ink] = [0, 1].map(|at| used[at].as_str().unwrap_or("none"));
        assert_eq!(layer.replace('-', ""), ink.to_lowercase(), "{sheet}");
    }
}

#[test]
fn a_whole_page_is_trimmed_to_the_blank_and_has_room_for_all_that_explains_it() {
    // Source: tests/worked/trays.json, the blank of this job; around it 3 mm, or what the job says, on all four sides.
    let blank = [308.42, 182.42];
    for (line, bleed) in [
        ("page \"whole\"", 3.0),
        ("page \"whole\" margin=(mm)5", 5.0),
    ] {
        let folder = made(line);
        let Some(told) = asked(folder.path()) else {
            return;
        };
        let pages = told["pages"].as_array().expect("there are pages");
        assert_eq!(pages.len(), 1);
        let side = |of: &str, at: usize| pages[0][of][at].as_f64().expect("a number") * 25.4 / 72.0;
        for axis in [0, 1] {
            for (frame, beyond) in [("TrimBox", 0.0), ("BleedBox", 2.0 * bleed)] {
                let size = side(frame, axis + 2) - side(frame, axis);
                assert!((size - blank[axis] - beyond).abs() < 1e-3, "{told}");
            }
            let reach = [axis, axis + 2].map(|at| side("TrimBox", at) - side("BleedBox", at));
            assert!((reach[0] - bleed).abs() < 1e-3 && (reach[1] + bleed).abs() < 1e-3);
            assert!(side("BleedBox", axis) > -1e-3);
            assert!(side("BleedBox", axis + 2) < side("MediaBox", axis + 2) + 1e-3);
        }
        check_words(folder.path());
        check_pictures(folder.path(), blank, bleed);
    }
}

/// Everything that explains the lines is there, and no measure is left out.
fn check_words(folder: &Path) {
    let Some(pdftotext) = system_program("pdftotext", "the words of the whole page") else {
        return;
    };
    let read = Command::new(pdftotext)
        .args(["-raw", "lens.pdf", "-"])
        .current_dir(folder)
        .output();
    let words = String::from_utf8(read.expect("pdftotext can be started").stdout);
    let words = words.expect("words are UTF-8");
    let words = words.split_whitespace().collect::<Vec<_>>().join(" ");
    for wanted in [
        "Lens box",
        "Row 1 Column 1",
        "Cut",
        "bar-across: 100 mm (along the short side)",
        "bar-down: 100 mm (along the long side)",
        "Do not print them.",
    ] {
        assert!(words.contains(wanted), "{wanted}: {words}");
    }
    assert!(!words.contains("no room"), "{words}");
}

/// The outline is as large on pictures of two renderers as the blank, and what explains it lies off the piece.
fn check_pictures(folder: &Path, blank: [f64; 2], bleed: f64) {
    for layer in ["cutting", "legend"] {
        let copy = folder.join(format!("{layer}.pdf"));
        let words = ["only", &name(&folder.join("lens.pdf")), layer, &name(&copy)];
        python("inks.py", &words);
    }
    let mutool = ["draw", "-q", "-r", "300", "-c", "gray", "-o"];
    for (program, words) in [
        ("pdftoppm", &["-r", "300", "-gray", "-singlefile"][..]),
        ("mutool", &mutool),
    ] {
        if !draw(folder, program, words) {
            return;
        }
        let picture = fs::read(folder.join("cutting.pgm")).expect("the picture was drawn");
        let found = dark(&picture);
        for axis in [0, 1] {
            // The outline is 0.35 mm wide and its middle is the edge: 0.175 mm beyond it on both sides, and a dot.
            let span = f64::from(found[axis][1] - found[axis][0] + 1) * 25.4 / 300.0 - 0.35;
            assert!(
                (span - blank[axis]).abs() < 0.13,
                "{program}: {span} instead of {}",
                blank[axis]
            );
        }
        let dots = off_the_piece(folder, "legend", bleed);
        let dots = dots.unwrap_or_else(|fault| panic!("{program}: {fault}"));
        assert!(dots.as_u64() > Some(10_000), "{dots}");
        // Planted: the lines themselves are on the piece.
        let fault = off_the_piece(folder, "cutting", bleed).expect_err("lines lie on the piece");
        assert!(fault.contains("not off the piece"), "{fault}");
    }
}

/// Makes pictures of both copies; not where the program is missing.
fn draw(folder: &Path, program: &str, words: &[&str]) -> bool {
    let Some(path) = system_program(program, "the whole page on a picture") else {
        return false;
    };
    for layer in ["cutting", "legend"] {
        let files = match program {
            "mutool" => [format!("{layer}.pgm"), format!("{layer}.pdf")],
            _ => [format!("{layer}.pdf"), layer.to_owned()],
        };
        let mut command = Command::new(&path);
        let drawn = command.args(words).args(files).current_dir(folder).output();
        assert!(
            drawn.expect("the program can be started").status.success(),
            "{program}"
        );
    }
    true
}

/// How many dots of a picture are dark, if none of them lies on the piece or its bleed.
fn off_the_piece(folder: &Path, picture: &str, bleed: f64) -> Result<Value, String> {
    let picture = folder.join(picture).with_extension("pgm");
    let files = [picture, folder.join("lens.svg"), folder.join("lens.pdf")].map(|file| name(&file));
    // A dot of a picture at 300 dots an inch is 0.085 mm wide.
    let white = format!("{}", bleed - 0.1);
    let told = measured(
        "inks.py",
        &["clean", &files[0], &files[1], &files[2], &white],
    );
    told.expect("pikepdf read the file before")
}

/// The first and the last dark column and row of a picture.
// Source: netpbm, PGM: P5, width, height, the brightest value, one white space, then a byte a dot.
fn dark(picture: &[u8]) -> [[u32; 2]; 2] {
    let mut words = picture.splitn(4, |byte| byte.is_ascii_whitespace());
    assert_eq!(words.next(), Some(b"P5".as_slice()));
    let number = |word: Option<&[u8]>| -> usize {
        let text = String::from_utf8_lossy(word.unwrap_or_default()).into_owned();
        text.parse().expect("a number")
    };
    let (width, height) = (number(words.next()), number(words.next()));
    let dots = &picture[picture.len() - width * height..];
    let mut found = [[u32::MAX, 0]; 2];
    for (index, _) in dots.iter().enumerate().filter(|(_, dot)| **dot < 128) {
        for (axis, at) in [index % width, index / width].into_iter().enumerate() {
            let at = u32::try_from(at).expect("a picture is small");
            found[axis] = [found[axis][0].min(at), found[axis][1].max(at)];
        }
    }
    found
}

/// A folder with the job, a line more in it, and its PDF.
fn made(line: &str) -> tempfile::TempDir {
    let folder = tempfile::tempdir().expect("a folder can be made");
    fs::write(folder.path().join("lens.kdl"), format!("{JOB}{line}\n"))
        .expect("a job can be written");
    let outcome = run(
        folder.path(),
        &[
            "make",
            "lens.kdl",
            "--as",
            "svg,pdf",
            "--exporter-seconds",
            "50",
        ],
    );
    assert_eq!(outcome.code, 0, "{}", outcome.stderr);
    folder
}

fn asked(folder: &Path) -> Option<Value> {
    let told = measured("inks.py", &["told", &name(&folder.join("lens.pdf"))])?;
    Some(told.unwrap_or_else(|fault| panic!("{fault}")))
}

fn name(path: &Path) -> String {
    let name = path.to_str().expect("a temporary folder has a plain name");
    name.to_owned()
}
