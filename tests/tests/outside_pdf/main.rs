//! What programs of others say about the PDF: whole, embedded, readable, and true to size on their own pictures.
//!
//! Sources: ISO 32000-1 for the file, ISO 19593-1 for the layers (as in the PDF Association's grammar), ISO 216 and
//! inches of exactly 25.4 mm for the paper, core/CONTRACT.md, "Files: PDF" for bars, crosses and words. Tools: qpdf,
//! poppler's pdfinfo, pdffonts, pdftotext and pdftoppm, mutool, and pypdf in `outside/pdf.py`.

mod pictures;
mod sheets_of_words;

use std::fs;
use std::path::Path;
use std::process::Command;

use serde_json::Value;
use tempfile::TempDir;
use traywright_tests::made::Made;
use traywright_tests::{python, run, system_program};

/// Name of the page, shorter and longer side in mm.
const PAGES: [(&str, f64, f64); 6] = [
    ("A5", 148.0, 210.0),
    ("A4", 210.0, 297.0),
    ("A3", 297.0, 420.0),
    ("Letter", 215.9, 279.4),
    ("Legal", 215.9, 355.6),
    ("Tabloid", 279.4, 431.8),
];

/// A box whose blank needs several sheets of A4, drawn on either face.
fn chest(page: &str) -> String {
    format!(
        "tray style=\"single-slot\" name=\"Lens chest\"\nbox length=(mm)240 width=(mm)180 depth=(mm)40\n\
         item \"lens\" length=(mm)90 width=(mm)70 depth=(mm)34\nboard caliper=(mm)0.4 grain=\"length\"\npage {page}\n"
    )
}

#[test]
fn two_readers_find_nothing_wrong_and_every_font_whole() {
    for (page, ..) in PAGES {
        let made = sheets(&chest(&format!("\"{page}\"")));
        let Some(checked) = made.ask("qpdf", &["--check"], &[]) else {
            return;
        };
        assert!(
            checked.contains("No syntax or stream encoding errors found"),
            "{checked}"
        );
        assert!(!checked.contains("WARNING"), "{checked}");
        let Some(fonts) = made.ask("pdffonts", &[], &[]) else {
            return;
        };
        let rows: Vec<Vec<&str>> = fonts
            .lines()
            .skip(2)
            .map(|row| row.split_whitespace().collect())
            .collect();
        assert!(!rows.is_empty(), "{fonts}");
        for row in rows {
            // The columns emb, sub and uni stand before the two numbers of the object.
            assert_eq!(
                row[row.len() - 5..row.len() - 2],
                ["yes", "yes", "yes"],
                "{fonts}"
            );
        }
    }
}

#[test]
fn pages_are_as_large_as_the_standards_say() {
    for (page, short, long) in PAGES {
        let made = sheets(&chest(&format!("\"{page}\"")));
        let Some(told) = made.ask("pdfinfo", &["-l", "400"], &[]) else {
            return;
        };
        let sizes: Vec<[f64; 2]> = told
            .lines()
            .filter(|line| line.contains("size:"))
            .filter_map(points)
            .collect();
        assert!(!sizes.is_empty(), "{told}");
        for size in sizes {
            let [one, other] = size.map(|side| side * 25.4 / 72.0);
            // Source: tests/facts/paper.md prn-02 and siz-01; pdfinfo prints six digits.
            assert!(
                (one.min(other) - short).abs() < 0.01 && (one.max(other) - long).abs() < 0.01,
                "{page}: {told}"
            );
        }
        let Some(structure) = structure(&made) else {
            return;
        };
        for sheet in list(&structure["pages"]) {
            assert!(
                number(&sheet["margin_of_lines"]) > 6.0 - 1e-4,
                "{page}: {sheet}"
            );
            assert!(
                number(&sheet["margin_of_all"]) > 6.0 - 1e-4,
                "{page}: {sheet}"
            );
        }
    }
}

#[test]
fn the_words_can_be_copied() {
    let made = sheets(&chest("\"A4\""));
    let Some(text) = made.words() else {
        return;
    };
    // Source: core/CONTRACT.md, "Files: PDF": "Row n Column m"; tests/facts/paper.md P3: what it means when a bar reads
    // 94, 96, 97 or 103.
    for words in [
        "Lens chest",
        "Row 1 Column 1",
        "Row 1 Column 2",
        "bar-across: 100 mm (along the short side)",
        "bar-down: 100 mm (along the long side)",
        "94 mm:",
        "96 mm:",
        "97 mm:",
        "103 mm:",
        "Crease; fold towards you (this face inside the fold)",
        "grain",
    ] {
        assert!(text.contains(words), "{words} is missing in {text}");
    }
}

#[test]
fn another_language_speaks_on_all_of_the_sheet() {
    // Source: reasoning: the words stand in one place. These are the English words of the sheet, its legend and its map
    // of joining.
    let made = sheets(&format!("{}words \"de\"\n", chest("\"A4\"")));
    let Some(text) = made.words() else {
        return;
    };
    for english in [
        "Row", "Style", "Seen", "ruler", "Crease", "Cut", "Measures", "grain", "join", "page was",
        "wrong",
    ] {
        assert!(!text.contains(english), "{english} stands in {text}");
    }
    for german in [
        "Reihe 1 Spalte 2",
        "Laufrichtung",
        "94 mm:",
        "0,4 mm",
        "Zusammensetzen",
    ] {
        assert!(text.contains(german), "{german} is missing in {text}");
    }
    assert!(!text.contains("0.4 mm"), "the decimal sign is a comma");
}

#[test]
fn a_maker_who_thinks_in_inches_reads_inches_first() {
    let job = "tray style=\"single-slot\" name=\"Watch box\"\nbox length=(in)5 width=(in)4 depth=(in)1\n\
               item \"watch\" length=(in)2 width=(in)2 depth=(in)\"3/4\"\nboard caliper=(in)0.012\n";
    let made = sheets(job);
    let Some(text) = made.words() else {
        return;
    };
    // Source: core/CONTRACT.md, "Files: PDF": bars of 4 in. Derived: 94, 96, 97 and 103 of 100 of it are 3.76, 3.84, 3.88 and
    // 4.12 in, to the nearest sixteenth.
    for words in [
        "bar-across: 4 in (along the short side)",
        "3 3/4 in:",
        "3 13/16 in:",
        "3 7/8 in:",
        "4 1/8 in:",
    ] {
        assert!(text.contains(words), "{words} is missing in {text}");
    }
    assert!(text.contains("box 5 × 4 × 1 in"), "{text}");
}

#[test]
fn a_letter_that_the_font_lacks_is_written_as_its_number() {
    // Source: core/CONTRACT.md, "Files: PDF": U+XXXX, never a box. U+6F22 is a Chinese letter, which DejaVu Sans has
    // not.
    let made = sheets(&chest("\"A4\"").replace("Lens chest", "Łódź \u{6F22}"));
    let Some(text) = made.words() else {
        return;
    };
    assert!(text.contains("Łódź U+6F22"), "{text}");
}

#[test]
fn letters_that_run_leftwards_are_set_so_and_those_that_join_are_written_as_numbers() {
    // Source: Unicode Standard Annex 9; pdftotext undoes the order of the page, as a reader who copies words needs it.
    let made = sheets(&chest("\"A4\"").replace("Lens chest", "Case שלום box \u{62f}\u{627}"));
    let Some(text) = made.words() else {
        return;
    };
    assert!(text.contains("שלום"), "{text}");
    assert!(text.contains("box U+062FU+0627"), "{text}");
}

#[test]
fn the_file_says_its_layers_and_keeps_its_structure() {
    // Source: tests/facts/paper.md lay-01 to lay-06, judged in outside/pdf.py; the name of a file depends on its
    // content alone.
    for face in ["inside", "outside"] {
        let made = sheets(&format!("{}draw face=\"{face}\"\n", chest("\"A4\"")));
        let Some(structure) = structure(&made) else {
            return;
        };
        let keys: Vec<&str> = list(&structure["info"])
            .iter()
            .filter_map(Value::as_str)
            .collect();
        assert_eq!(keys, ["/Creator", "/Producer", "/Title"]);
        let pages = list(&structure["pages"]);
        assert!(pages.len() > 1);
        for page in pages {
            let bars = [&page["bars"][0], &page["bars"][1]];
            for bar in bars {
                assert_eq!(list(bar).len(), 1, "{page}");
                assert!((number(&bar[0]) - 100.0).abs() < 1e-4, "{page}");
            }
            assert!(list(&page["crosses"]).len() >= 2, "{page}");
            let creased = if face == "inside" {
                "creasing"
            } else {
                "reverse-creasing"
            };
            assert!(
                number(&page["strokes"]["cutting"]) > 0.0
                    && number(&page["strokes"][creased]) > 0.0,
                "{page}"
            );
        }
    }
}

#[test]
fn a_printer_that_shrinks_is_made_up_for() {
    // Source: core/CONTRACT.md, "Files: PDF": content and bars are enlarged by 100/99.6 across and 100/100.2 down the
    // sheet held upright.
    let made = sheets(&chest("\"A4\" bar-across=(mm)99.6 bar-down=(mm)100.2"));
    let Some(structure) = structure(&made) else {
        return;
    };
    for page in list(&structure["pages"]) {
        let upright = number(&page["size"][0]) < number(&page["size"][1]);
        let expected = if upright {
            [100.0 / 99.6, 100.0 / 100.2]
        } else {
            [100.0 / 100.2, 100.0 / 99.6]
        };
        for axis in [0, 1] {
            assert!(
                (number(&page["bars"][axis][0]) - 100.0 * expected[axis]).abs() < 1e-4,
                "{page}"
            );
        }
    }
    let Some(text) = made.words() else {
        return;
    };
    assert!(
        text.contains(
            "scaled by 100/99.6 along the short side of the sheet and 100/100.2 along the long side"
        ),
        "{text}"
    );
}

#[test]
fn the_same_job_gives_the_same_bytes() {
    // Source: core/CONTRACT.md, "Files": same job, same bytes.
    let [one, other] =
        [0, 1].map(|_| fs::read(sheets(&chest("\"A4\"")).pdf).expect("the file can be read"));
    assert!(one == other);
}

#[test]
fn a_blank_that_needs_too_many_sheets_is_refused_with_their_number() {
    // Source: core/CONTRACT.md, "Files: PDF": more than 400 pages: exit 2 with the count, nothing written.
    let job = "tray style=\"single-slot\"\nbox length=(mm)4900 width=(mm)4800 depth=(mm)300\n\
               item \"globe\" length=(mm)900 width=(mm)900 depth=(mm)280\nboard caliper=(mm)1\npage \"60x60 mm\"\n";
    let folder = tempfile::tempdir().expect("a folder can be made");
    fs::write(folder.path().join("job.kdl"), job).expect("a job can be written");
    let outcome = run(
        folder.path(),
        &["make", "job.kdl", "--as", "pdf", "--exporter-seconds", "50"],
    );
    assert_eq!(outcome.code, 2, "{}", outcome.stderr);
    let words = outcome
        .stderr
        .split_whitespace()
        .collect::<Vec<_>>()
        .join(" ");
    let count: u32 = words
        .split("needs ")
        .nth(1)
        .and_then(|rest| rest.split(' ').next())
        .and_then(|count| count.parse().ok())
        .unwrap_or_else(|| panic!("no count in {words}"));
    assert!(count > 400, "{words}");
    assert!(!folder.path().join("job.pdf").exists());
}

/// The sheets of a job.
fn sheets(job: &str) -> Made {
    Made::new(job, "pdf")
}

/// What `outside/pdf.py` reads in a file; none if it cannot be asked.
fn structure(made: &Made) -> Option<Value> {
    let told = python("pdf.py", &["structure", made.path()])?;
    Some(
        serde_json::from_str(&told.unwrap_or_else(|fault| panic!("{fault}")))
            .expect("the script prints JSON"),
    )
}

/// Pictures of all pages at 300 dots an inch, in the order of their names.
fn pictures(made: &Made, renderer: &str) -> Option<TempDir> {
    let program = system_program(renderer, "the bars on pictures")?;
    let folder = tempfile::tempdir().expect("a folder can be made");
    let mut command = Command::new(program);
    match renderer {
        "mutool" => command
            .args(["draw", "-q", "-r", "300", "-c", "gray", "-o"])
            .arg(folder.path().join("%03d.pgm"))
            .arg(&made.pdf),
        _ => command
            .args(["-r", "300", "-gray"])
            .arg(&made.pdf)
            .arg(folder.path().join("page")),
    };
    let output = command.output().expect("the renderer can be started");
    assert!(
        output.status.success() && has_files(folder.path()),
        "{renderer}: {output:?}"
    );
    Some(folder)
}

fn has_files(folder: &Path) -> bool {
    fs::read_dir(folder).is_ok_and(|mut entries| entries.next().is_some())
}

/// Both sides in `Page    1 size: 595.276 x 841.89 pts (A4)`.
fn points(line: &str) -> Option<[f64; 2]> {
    let (width, height) = line.split_once("size:")?.1.split_once(" x ")?;
    Some([
        width.trim().parse().ok()?,
        height.split_whitespace().next()?.parse().ok()?,
    ])
}

fn list(value: &Value) -> &[Value] {
    value.as_array().map_or(&[], Vec::as_slice)
}

fn number(value: &Value) -> f64 {
    value.as_f64().unwrap_or(f64::NAN)
}
