//! What a print shop finds on the whole page: inks of a press alone, the bleed as a line, plates without surprises.
//!
//! Outsiders: pikepdf, shapely and Pillow (Python, `outside/press.py`), Ghostscript for the plates, pdftotext for the words.

use std::fs;
use std::path::Path;
use std::process::Command;

use serde_json::{Value, json};
use tempfile::TempDir;
use traywright_tests::{measured, run, system_program};

const JOB: &str = "tray style=\"single-slot\" name=\"Lens box\"\nbox length=(mm)182 width=(mm)121 depth=(mm)34\n\
    item \"lens\" length=(mm)96 width=(mm)61 depth=(mm)28\nboard caliper=(mm)0.29\ndraw face=\"outside\"\n";
const PRINTS: &str = "print image=\"corners.png\" on=\"deck\"\nlabel \"Lens\" on=\"deck\"\n";
const PICTURE: &[u8] = include_bytes!("outside_pictures/corners.png");

#[test]
fn a_whole_page_has_no_colour_of_a_screen_and_names_its_condition() {
    let sheet = made(&format!("page \"A3\"\n{PRINTS}"));
    let whole = made(&format!("page \"whole\" condition=\"FOGRA51\"\n{PRINTS}"));
    let (Some(sheet), Some(whole)) = (told(&sheet), told(&whole)) else {
        return;
    };
    // The control: a home printer gets the colours of a screen.
    let spaces = sheet["spaces"].as_array().expect("a list");
    for space in ["DeviceRGB", "image: DeviceRGB", "stands in: DeviceRGB"] {
        assert!(spaces.contains(&json!(space)), "{space}: {sheet}");
    }
    assert_eq!(sheet["intents"], json!([]));
    // Source: ISO 15930-7 (PDF/X-4), from memory: no DeviceRGB where the condition is one of four inks; a picture
    // states its colours by CalRGB or a profile. ISO 32000-1, 14.11.5: the keys of an intent.
    let expected = [
        "DeviceCMYK",
        "image: CalRGB",
        "mixed: DeviceCMYK",
        "stands in: DeviceCMYK",
    ];
    assert_eq!(whole["spaces"], json!(expected));
    let intent = json!({
        "Type": "OutputIntent", "S": "GTS_PDFX", "OutputConditionIdentifier": "FOGRA51",
        "RegistryName": "http://www.color.org",
    });
    assert_eq!(whole["intents"], json!([intent]));
}

#[test]
fn the_line_of_the_bleed_follows_the_blank_at_its_distance() {
    for (line, width) in [
        ("page \"whole\"", "3"),
        ("page \"whole\" margin=(mm)8", "8"),
    ] {
        let folder = made(line);
        let asked = |width| {
            let [pdf, svg] = ["lens.pdf", "lens.svg"].map(|file| name(folder.path(), file));
            measured("press.py", &["bleed", &pdf, &svg, width])
        };
        let Some(found) = asked(width) else {
            return;
        };
        assert_eq!(found, Ok(json!(1)), "one closed line");
        let fault = asked("4")
            .expect("shapely is there")
            .expect_err("4 mm are wrong");
        assert!(fault.contains("between the line and the bleed"), "{fault}");
    }
}

#[test]
fn on_the_plates_lines_are_in_their_inks_and_pictures_in_those_of_the_press() {
    let Some(separates) = system_program("gs", "plates of the whole page") else {
        return;
    };
    for prints in ["", PRINTS] {
        let folder = made(&format!("page \"whole\"\n{prints}"));
        let options = [
            "-q",
            "-dBATCH",
            "-dNOPAUSE",
            "-dSAFER",
            "-r150",
            "-sDEVICE=tiffsep",
        ];
        let made = Command::new(&separates)
            .args(options)
            .args(["-sOutputFile=plate.tif", "lens.pdf"])
            .current_dir(folder.path())
            .output();
        let made = made.expect("Ghostscript can be started");
        assert!(
            made.status.success(),
            "{}",
            String::from_utf8_lossy(&made.stderr)
        );
        let [svg, pdf] = ["lens.svg", "lens.pdf"].map(|file| name(folder.path(), file));
        let at = name(folder.path(), "");
        let Some(told) = measured("press.py", &["plates", &at, &svg, &pdf]) else {
            return;
        };
        let told = told.unwrap_or_else(|fault| panic!("{fault}"));
        for ink in [
            "Cutting",
            "ReverseCreasing",
            "Dimensions",
            "Bleed",
            "Legend",
        ] {
            assert!(told[ink].as_u64() > Some(100), "{ink}: {told}");
        }
        for ink in ["Cyan", "Magenta", "Yellow"] {
            let is_inked = told[ink].as_u64() > Some(100);
            assert_eq!(is_inked, !prints.is_empty(), "{ink}: {told}");
        }
    }
}

#[test]
fn its_words_are_for_a_print_shop_and_say_which_face_is_seen() {
    let Some(reads) = system_program("pdftotext", "words of the whole page") else {
        return;
    };
    // The smallest box of which the words take far more room than the blank.
    let small = "box length=(mm)40 width=(mm)30 depth=(mm)12";
    for job in [
        JOB.to_owned(),
        JOB.replace("box length=(mm)182 width=(mm)121 depth=(mm)34", small)
            .replace(
                "length=(mm)96 width=(mm)61 depth=(mm)28",
                "length=(mm)14 width=(mm)9 depth=(mm)7",
            ),
    ] {
        let folder = made_of(&format!("{job}page \"whole\" condition=\"FOGRA51\"\n"));
        let read = Command::new(&reads)
            .args(["-raw", "lens.pdf", "-"])
            .current_dir(folder.path())
            .output();
        let words = String::from_utf8(read.expect("pdftotext can be started").stdout);
        let words = words.expect("words are UTF-8");
        let words = words.split_whitespace().collect::<Vec<_>>().join(" ");
        for wanted in [
            "Outside face of the card",
            "Print at 100 %",
            "bleed box reaches 3 mm",
            "Do not print them",
            "FOGRA51",
        ] {
            assert!(words.contains(wanted), "{wanted}: {words}");
        }
        for home in ["print dialog", "Still wrong", "Letter paper", "fit to page"] {
            assert!(!words.contains(home), "{home}: {words}");
        }
    }
}

fn made(lines: &str) -> TempDir {
    made_of(&format!("{JOB}{lines}\n"))
}

/// A folder with the job, the picture, and the job's SVG and PDF.
fn made_of(job: &str) -> TempDir {
    let folder = tempfile::tempdir().expect("a folder can be made");
    fs::write(folder.path().join("lens.kdl"), job).expect("a job can be written");
    fs::write(folder.path().join("corners.png"), PICTURE).expect("a picture can be written");
    let outcome = run(
        folder.path(),
        &["make", "lens.kdl", "--quiet", "--as", "svg,pdf"],
    );
    assert_eq!(outcome.code, 0, "{}", outcome.stderr);
    folder
}

fn told(folder: &TempDir) -> Option<Value> {
    let told = measured("press.py", &["spaces", &name(folder.path(), "lens.pdf")])?;
    Some(told.unwrap_or_else(|fault| panic!("{fault}")))
}

fn name(folder: &Path, file: &str) -> String {
    let path = folder.join(file);
    path.to_str()
        .expect("a temporary folder has a plain name")
        .to_owned()
}
