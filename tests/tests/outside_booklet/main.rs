//! What programs of others read in the booklet: whole, readable in the right order, nothing on top of anything else.
//!
//! Sources: core/CONTRACT.md, "Files: booklet"; tests/facts/booklet.md and tests/facts/paper.md P4
//! for what it must say; ISO 216 and inches of exactly 25.4 mm for the paper. Tools: qpdf, poppler, mupdf, and pypdf in
//! `outside/booklet.py`.

mod cutaway;
mod drafting;
mod full;
mod holding;
mod sights;
mod turns;

use std::path::Path;

use traywright_engine::Job;
use traywright_tests::jobs::{job, written};
use traywright_tests::made::{self, Made};
use traywright_tests::{every_style, run};

/// So many random jobs are made at least.
const RANDOM: usize = 40;

/// Name of the page and the paper that the booklet takes, in mm.
const PAGES: [(&str, f64, f64); 6] = [
    ("A5", 148.0, 210.0),
    ("A4", 210.0, 297.0),
    ("A3", 297.0, 420.0),
    ("Letter", 215.9, 279.4),
    // Larger than A3, so A4.
    ("A2", 210.0, 297.0),
    ("Tabloid", 210.0, 297.0),
];

/// The example's tray on a page.
fn barometer(page: &str) -> String {
    format!("{}page \"{page}\"\n", written("single-slot", &worked()))
}

fn worked() -> Job {
    job([182.0, 121.0, 34.0], [96.0, 61.0, 28.0], 0.29)
}

#[test]
fn two_readers_find_nothing_wrong_on_any_paper() {
    for (page, width, height) in PAGES {
        let made = booklet(&barometer(page));
        let Some(checked) = made.ask("qpdf", &["--check"], &[]) else {
            return;
        };
        assert!(!checked.contains("WARNING"), "{checked}");
        let fonts = made.ask("pdffonts", &[], &[]).expect("poppler is there");
        assert_eq!(fonts.lines().count(), 3, "one font: {fonts}");
        assert!(fonts.contains("yes yes yes"), "{fonts}");
        let told = made.ask("pdfinfo", &[], &[]).expect("poppler is there");
        let size: Vec<f64> = told
            .lines()
            .find_map(|line| line.strip_prefix("Page size:"))
            .expect("the size is told")
            .split_whitespace()
            .filter_map(|word| word.parse().ok())
            .collect();
        let points = [width, height].map(|side| side / 25.4 * 72.0);
        assert!(
            (size[0] - points[0]).abs() < 0.01 && (size[1] - points[1]).abs() < 0.01,
            "{page}: {size:?}"
        );
        let pictures = tempfile::tempdir().expect("a folder can be made");
        let picture = pictures.path().join("page-%d.png");
        let drawn = made.ask(
            "mutool",
            &[
                "draw",
                "-q",
                "-r",
                "40",
                "-o",
                picture.to_str().expect("plain"),
            ],
            &[],
        );
        // Debian's mupdf is built without colour profiles, and says so of every file.
        let said = drawn.unwrap_or_default();
        let said = said.replace("warning: ICC support is not available", "");
        assert_eq!(said.trim(), "", "{page}");
    }
}

#[test]
fn every_order_of_reading_meets_the_steps_in_their_order() {
    // Derived from core/GEOMETRY.md, "Single-slot: the order of folds": 2 side walls and 4 tabs are folded alike, one step
    // each; then 3 steps an end, the turn, and the flaps.
    let steps = 1 + 1 + 3 + 3 + 1 + 1;
    for (page, ..) in PAGES {
        let made = booklet(&barometer(page));
        for order in ["-raw", "-layout", "-nopgbrk"] {
            let Some(text) = made.ask("pdftotext", &[order], &["-"]) else {
                return;
            };
            let expected: Vec<String> = (1..=steps)
                .map(|step| format!("Step {step} of {steps}"))
                .collect();
            assert_eq!(headings(&text, "Step "), expected, "{page} {order}");
        }
    }
}

#[test]
fn it_says_what_it_must_and_cautions_before_the_first_cut() {
    // Source: tests/facts/booklet.md ins-01, ins-02 and crs-03, tests/facts/paper.md prn-06;
    // core/CONTRACT.md, "Files: booklet": cautions stand before the first cut.
    let Some(text) = booklet(&barometer("A4")).words() else {
        return;
    };
    let cut = text
        .find(" Cut Cut openings")
        .expect("there is a section on cutting");
    for said in [
        "new, sharp blade",
        "away from your body",
        "hand behind the blade",
        "cutting mat",
        "metal rule",
        "Cap the knife",
        "children",
        "food",
        "does not cushion",
        "100 %",
        "99.5 to 100.5 mm",
    ] {
        let at = text.find(said).unwrap_or_else(|| panic!("no `{said}`"));
        assert!(at < cut, "`{said}` stands after the first cut");
    }
    assert!(
        text.contains("press them on the back"),
        "valleys are pressed from the back"
    );
    assert!(!text.contains("DANGER") && !text.contains("small parts"));
}

#[test]
fn a_map_names_each_part_by_the_letter_that_its_steps_use() {
    // Source: core/CONTRACT.md, "Files: booklet" and the order of `letters`; WORDS of the trade for the names.
    let Some(text) = booklet(&barometer("A4")).words() else {
        return;
    };
    let map = text.find("The parts").expect("there is a map");
    let caution = text.find("CAUTION").expect("there are cautions");
    assert!(map < caution);
    for named in [
        "A deck",
        "B side wall",
        "C corner tab",
        "D end wall",
        "F inner end",
        "G flap",
    ] {
        assert!(
            text[map..caution].contains(named),
            "{named} is not in {}",
            &text[map..caution]
        );
    }
    for step in [
        "Side wall (B): up",
        "Corner tab (C): in",
        "End wall (D), end-west: up",
        "Flap (G): down",
    ] {
        assert!(text.contains(step), "no `{step}` in {text}");
    }
}

#[test]
fn notes_come_where_their_limits_are_passed() {
    let text = |job: &Job| booklet(&written("single-slot", job)).words();
    // Source: tests/facts/booklet.md ins-03: an item 31 mm wide and 50 mm long is a small part; 16 CFR 1501.4.
    let vial = |size| job([100.0, 80.0, 34.0], size, 0.3);
    let Some(small) = text(&vial([50.0, 31.0, 28.0])) else {
        return;
    };
    assert!(small.contains("Small parts (item)"));
    let large = text(&vial([50.0, 40.0, 28.0])).expect("poppler is there");
    assert!(!large.contains("Small parts"));
    // Source: tests/facts/booklet.md hum-03: fit 2, box length 500 without, 501 with a note on damp air.
    let long = |length| job([length, 200.0, 40.0], [60.0, 50.0, 30.0], 0.3);
    assert!(
        !text(&long(500.0))
            .expect("poppler is there")
            .contains("In damp air")
    );
    assert!(
        text(&long(501.0))
            .expect("poppler is there")
            .contains("In damp air")
    );
    // Source: tests/facts/booklet.md crs-02: 0.508 mm takes a rule of 2 points, 0.509 one of 3.
    let card = |caliper| job([182.0, 121.0, 40.0], [96.0, 61.0, 28.0], caliper);
    assert!(
        text(&card(0.508))
            .expect("poppler is there")
            .contains("with an edge 0.7 mm (2 point) wide")
    );
    assert!(
        text(&card(0.509))
            .expect("poppler is there")
            .contains("with an edge 1 to 1.4 mm (3 or 4 point) wide")
    );
}

#[test]
fn another_language_and_inches_have_their_own_signs() {
    let german = format!("{}words \"de\"\n", barometer("A4"));
    let Some(text) = booklet(&german).words() else {
        return;
    };
    assert!(text.contains("Schritt 1 von "));
    assert!(
        text.contains("0,29 mm") && !text.contains("0.29"),
        "the decimal sign is a comma"
    );
    assert!(headings(&text, "Step ").is_empty());
    assert!(text.contains("hochfalten.") && !text.contains("Fold the"));
    // Source: by hand: 7 1/4 in are 184.15 mm; 0.011 in are 0.2794 mm, nearest to 0/32; 2 mm are 2.52/32, or 0.0787 in.
    let inches = "tray style=\"single-slot\"\nbox length=(in)7.25 width=(in)4.75 depth=(in)1.375\n\
                  item \"lens\" length=(in)3.75 width=(in)2.5 depth=(in)1.125\nboard caliper=(in)0.011\n";
    let text = booklet(inches).words().expect("poppler is there");
    assert!(
        text.contains("184.15 × 120.65 × 34.93 mm (7 1/4 × 4 3/4 × 1 3/8 in)"),
        "{text}"
    );
    assert!(text.contains("0.28 mm (0.011 in)"), "{text}");
    let [part, thousandths] = ["3/32", "0.079"].map(|side| [side; 3].join(" × "));
    let air = format!("2 × 2 × 2 mm ({part} in; {thousandths} in)");
    assert!(text.contains(&air), "{text}");
}

#[test]
fn no_clearance_is_cut_to_nothing() {
    // Source: by hand: a clearance of 2, less 0.5, 1 and 2, is 1.5, 1 and none.
    let Some(text) = booklet(&barometer("A4")).words() else {
        return;
    };
    for (setting, is_told) in [("1.5", true), ("1", true), ("0", false), ("4", true)] {
        for fit in ["box", "item"] {
            let told = format!("fit {fit}=(mm){setting} ");
            assert_eq!(text.contains(&told), is_told, "{told}");
        }
    }
}

#[test]
fn items_are_of_one_kind_only_if_one_line_of_the_job_asks_for_them() {
    // Source: the job below. A name that ends in .2 is a name: the two lenses have two sizes.
    let job = "tray style=\"multi-slot\"\nbox length=(mm)182 width=(mm)121 depth=(mm)34\n\
        item \"lens\" length=(mm)40 width=(mm)40 depth=(mm)28\n\
        item \"lens.2\" length=(mm)60 width=(mm)30 depth=(mm)28\n\
        item \"vial\" length=(mm)20 width=(mm)20 depth=(mm)28 count=2\nboard caliper=(mm)0.3\n";
    let Some(text) = booklet(job).words() else {
        return;
    };
    let text = text.split_whitespace().collect::<Vec<_>>().join(" ");
    for told in [
        "lens, lens.2, 2 × vial",
        "60 × 30 × 28 mm",
        "40 × 40 × 28 mm",
    ] {
        assert!(text.contains(told), "no {told} in {text}");
    }
    assert!(!text.contains("2 × lens"), "{text}");
}

#[test]
fn names_lie_where_the_drawn_face_has_them_and_creases_are_opened_once_all_is_cut() {
    // Source: the shipped styles write their panels as the inner face shows them, and turning a sheet over leaves its
    // lower edge below and swaps left and right.
    for (face, told, not_told) in [
        ("inside", "west left, east right", "east is left"),
        ("outside", "east is left and west right", "west left, east"),
    ] {
        let job = barometer("A4").replace("face=\"inside\"", &format!("face=\"{face}\""));
        let Some(text) = booklet(&job).words() else {
            return;
        };
        let text = text.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(text.contains(told) && !text.contains(not_told), "{text}");
        let place = |words: &str| text.find(words).unwrap_or_else(|| panic!("no {words}"));
        assert!(place("Cut the outline last") < place("Then fold every crease once"));
    }
}

#[test]
fn random_trays_of_every_kind_have_all_their_steps_and_nothing_on_top_of_anything() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let page = |drawn: usize| format!("page \"{}\"", ["A5", "A4", "Letter"][drawn % 3]);
    let made = every_style::make(folder.path(), 20_261, RANDOM, "svg,booklet", page);
    for (name, kind) in &made {
        let booklet = Made::at(&folder.path().join(format!("{name}-booklet.pdf")));
        let Some(told) = booklet.apart() else { return };
        let counted = told.unwrap_or_else(|faults| panic!("{name} {kind:?}\n{faults}"));
        let shares = made::full(&counted);
        assert!(full::is_full(&shares), "{name} {kind:?}: {shares:?}");
        let text = booklet
            .ask("pdftotext", &["-raw"], &["-"])
            .expect("poppler is there");
        let steps = headings(&text, "Step ").len();
        assert_eq!(steps, steps_of(folder.path(), name), "{name} {kind:?}");
    }
    for style in every_style::styles() {
        assert!(
            made.iter().any(|(_, kind)| kind.style == style),
            "no {style}"
        );
    }
}

/// The number of the last step that `check` tells of a job.
fn steps_of(folder: &Path, name: &str) -> usize {
    let outcome = run(folder, &["check", &format!("{name}.kdl"), "--all"]);
    let folding = outcome.stdout.split("\nFolding order\n").nth(1);
    let folding = folding.unwrap_or_else(|| panic!("{name}: {}", outcome.stdout));
    // `  3-6.   Fold the tab in.`: words that carry on a line stand farther in.
    let numbers = folding
        .lines()
        .take_while(|line| !line.is_empty())
        .filter(|line| line.starts_with("  ") && !line.starts_with("   "))
        .filter_map(|line| line.trim().split_once('.'))
        .filter_map(|(numbers, _)| numbers.rsplit('-').next()?.parse().ok());
    numbers.max().unwrap_or(0)
}

#[test]
fn every_shipped_style_keeps_its_words_off_its_lines_on_every_paper() {
    let item = [60.0, 40.0, 27.0];
    for name in every_style::styles() {
        for (page, language) in [("A5", "de"), ("A5", "en"), ("A4", "de"), ("Letter", "en")] {
            let tray = written(&name, &job([160.0, 110.0, 34.0], item, 0.3));
            let made = booklet(&format!("{tray}page \"{page}\"\nwords \"{language}\"\n"));
            let Some(told) = made.apart() else { return };
            told.unwrap_or_else(|faults| panic!("{name} {page} {language}\n{faults}"));
        }
    }
}

/// Lines that begin so.
fn headings(text: &str, start: &str) -> Vec<String> {
    let lines = text.lines().map(str::trim);
    lines
        .filter(|line| line.starts_with(start))
        .map(|line| {
            // Beside a heading another reader may have put words of the figure below it.
            line.split_whitespace()
                .take(4)
                .collect::<Vec<_>>()
                .join(" ")
        })
        .collect()
}

/// The booklet of a job.
fn booklet(job: &str) -> Made {
    Made::new(job, "booklet")
}
