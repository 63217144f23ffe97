//! Pictures on panels, judged by programs that know nothing of traywright.
//!
//! Outsiders: rsvg-convert, pdftoppm and mutool draw them, shapely and numpy (Python, `outside/pictures.py`) judge their
//! places, Node.js runs the scripts that fold. Expected values come from core/CONTRACT.md, "Pictures on panels".

use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

use serde_json::{Value, json};
use tempfile::TempDir;
use traywright_tests::{measured, page_script, repository, run, system_program};

/// Pink and green over blue and yellow.
// Source: written with zlib of Python; the colours are those of `outside/pictures.py`.
const PICTURE: &[u8] = include_bytes!("outside_pictures/corners.png");
/// The bleed of the page, in mm.
const BLEED: f64 = 3.0;
const CALIPER: f64 = 0.29;
/// Pixels in an inch.
const FINE: &str = "72";

/// A folder with the picture and the files of the job.
struct Printed(TempDir);

impl Printed {
    fn new(face: &str) -> Printed {
        let folder = tempfile::tempdir().expect("a folder can be made");
        let job = format!(
            "tray style=\"single-slot\"\nbox length=(mm)182 width=(mm)121 depth=(mm)34\n\
             item \"barometer\" length=(mm)96 width=(mm)61 depth=(mm)28 pad=(mm)4\nboard caliper=(mm){CALIPER}\n\
             page \"whole\" margin=(mm){BLEED}\ndraw face=\"{face}\" letters=#false\n\
             print image=\"corners.png\" on=\"deck\"\nprint image=\"corners.png\" on=\"side-north\"\n\
             print image=\"corners.png\" on=\"end-west\" fit=\"inside\"\n"
        );
        fs::write(folder.path().join("job.kdl"), job).expect("a job can be written");
        fs::write(folder.path().join("corners.png"), PICTURE).expect("a picture can be written");
        let outcome = run(
            folder.path(),
            &["make", "--quiet", "--as", "svg,pdf,html", "job.kdl"],
        );
        assert_eq!(outcome.code, 0, "{}", outcome.stderr);
        Printed(folder)
    }

    fn path(&self, name: &str) -> PathBuf {
        self.0.path().join(name)
    }

    fn bytes(&self, name: &str) -> Vec<u8> {
        fs::read(self.path(name)).expect("the file was made")
    }

    fn svg(&self) -> String {
        String::from_utf8(self.bytes("job.svg")).expect("an SVG is text")
    }

    /// What `outside/pictures.py` says of a file that is drawn: none if a program is missing.
    fn judged(&self, drawn: &str) -> Option<Result<Value, String>> {
        let picture = self.path("drawn.ppm");
        draw(&self.path(drawn), &picture)?;
        let told = self.path("told.json");
        let words = [&told, &picture, &self.path(drawn), &self.path("job.html")]
            .map(|path| path.to_str().expect("a plain name").to_owned());
        fs::write(&told, wanted().to_string()).expect("a file can be written");
        let words: Vec<&str> = words.iter().map(String::as_str).collect();
        measured("pictures.py", &words)
    }
}

fn wanted() -> Value {
    json!({
        "bleed": BLEED,
        "margin": 2.0 + CALIPER,
        "wanted": [
            {"panel": "deck", "covers": true},
            {"panel": "side-north", "covers": true},
            {"panel": "end-west", "covers": false},
        ],
    })
}

/// Draws a file as a PPM by the program that its name tells: `mu.pdf` by mutool.
fn draw(file: &Path, to: &Path) -> Option<()> {
    let plain = |path: &Path| path.to_str().expect("a plain name").to_owned();
    let (from, into) = (plain(file), plain(to));
    let stem = into.trim_end_matches(".ppm").to_owned();
    let (name, words): (&str, Vec<&str>) = match from.rsplit('/').next() {
        Some("mu.pdf") => (
            "mutool",
            vec![
                "draw", "-q", "-F", "ppm", "-r", FINE, "-o", &into, &from, "1",
            ],
        ),
        Some("job.pdf") => ("pdftoppm", vec!["-r", FINE, "-singlefile", &from, &stem]),
        _ => {
            let pdf = format!("{stem}-svg.pdf");
            run_one("rsvg-convert", &["-f", "pdf", "-o", &pdf, &from])?;
            run_one("pdftoppm", &["-r", FINE, "-singlefile", &pdf, &stem])?;
            return Some(());
        }
    };
    run_one(name, &words)
}

fn run_one(name: &str, words: &[&str]) -> Option<()> {
    let program = system_program(name, "pictures on panels")?;
    let output = Command::new(program).args(words).output();
    let output = output.expect("the program can be started");
    let said = String::from_utf8_lossy(&output.stderr);
    assert!(output.status.success(), "{name}: {said}");
    Some(())
}

#[test]
fn pictures_stand_upright_within_their_panels_in_svg_and_pdf() {
    let printed = Printed::new("outside");
    fs::copy(printed.path("job.pdf"), printed.path("mu.pdf")).expect("a file can be copied");
    for name in ["job.svg", "job.pdf", "mu.pdf"] {
        let Some(told) = printed.judged(name) else {
            return;
        };
        told.unwrap_or_else(|faults| panic!("{name}: {faults}"));
    }
    let again = Printed::new("outside");
    for name in ["job.svg", "job.pdf", "job.html"] {
        assert!(printed.bytes(name) == again.bytes(name), "{name} differs");
    }
}

#[test]
fn a_picture_that_is_turned_or_moved_is_found() {
    let printed = Printed::new("outside");
    let right = printed.svg();
    // Half a turn about the middle of the square of 1 mm that is laid onto the place of the picture.
    let turn = "rotate(180 0.5 0.5)";
    let (before, after) = right.split_once("matrix(").expect("a picture");
    let (matrix, rest) = after.split_once(')').expect("an end");
    let turned = format!("{before}matrix({matrix}) {turn}{rest}");
    let moved = right.replacen(
        "id=\"pictures\"",
        "id=\"pictures\" transform=\"translate(9 0)\"",
        1,
    );
    for (wrong, complaint) in [(turned, "corner"), (moved, "nothing may be")] {
        assert!(wrong != right, "the SVG was not changed");
        fs::write(printed.path("wrong.svg"), wrong).expect("an SVG can be written");
        let Some(told) = printed.judged("wrong.svg") else {
            return;
        };
        let faults = told.expect_err(complaint);
        assert!(faults.contains(complaint), "{complaint}: {faults}");
    }
}

#[test]
fn only_the_drawn_face_has_pictures() {
    let printed = Printed::new("inside");
    // Source: core/CONTRACT.md: decks and walls are printed on the face outside the tray.
    assert!(!printed.svg().contains("<image"));
    let Some(told) = printed.judged("job.pdf") else {
        return;
    };
    let faults = told.expect_err("nothing is printed");
    for panel in ["deck", "side-north", "end-west"] {
        assert!(
            faults.contains(&format!("nothing is printed on {panel}")),
            "{faults}"
        );
    }
}

#[test]
fn in_the_folded_tray_pictures_stand_upright_and_are_seen_from_outside() {
    let web = repository().join("exporters/html/web");
    let printed = [Printed::new("inside"), Printed::new("outside")];
    let pages = printed.each_ref().map(|it| it.path("job.html"));
    let words = [web.as_path(), &pages[0], &pages[1]].map(|path| path.to_str().expect("plain"));
    let Some(told) = page_script("labels.mjs", &words) else {
        return;
    };
    let told = told.unwrap_or_else(|why| panic!("{why}"));
    for (page, is_drawn) in [(0, false), (1, true)] {
        let pictures = told[page].as_array().expect("a list");
        assert_eq!(pictures.len(), 3);
        let is_north = |picture: &&Value| picture["panel"] == "side-north";
        let north = pictures.iter().find(is_north).expect("it has one");
        let north = north["aside"][1].as_f64().expect("a number");
        for picture in pictures {
            let way = |key: &str| [0, 1, 2].map(|axis| picture[key][axis].as_f64().expect("one"));
            let (top, eye, aside) = (way("top"), way("eye"), way("aside"));
            assert_eq!(picture["drawn"], is_drawn, "{picture}");
            // Source: core/CONTRACT.md: a deck is seen from above, its top to the north; walls from outside, top up.
            if picture["panel"] == "deck" {
                assert!(
                    eye[2] > 0.999 && top[1] * north.signum() > 0.999,
                    "{picture}"
                );
            } else {
                assert!(top[2] > 0.999, "{picture}");
                assert!(eye[0] * aside[0] + eye[1] * aside[1] > 0.0, "{picture}");
            }
        }
    }
}
