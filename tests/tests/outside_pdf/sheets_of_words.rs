//! Bars of inch jobs, and the last sheet that carries words alone.

use crate::{list, number, sheets, structure};

#[test]
fn the_bars_of_an_inch_job_are_four_inches() {
    // Source: core/CONTRACT.md, "Files: PDF"; 1 in = 25.4 mm exactly (international yard, 1959).
    let job = "tray style=\"single-slot\" name=\"Watch box\"\nbox length=(in)5 width=(in)4 depth=(in)1\n\
               item \"watch\" length=(in)2 width=(in)2 depth=(in)\"3/4\"\nboard caliper=(in)0.012\n";
    for (page, expected) in [
        ("", [101.6, 101.6]),
        // Derived: a ruler that reads 3.96 in on a bar of 4 in asks for 4 / 3.96 of it.
        (
            "page \"Letter\" bar-across=(in)3.96",
            [101.6 * 4.0 / 3.96, 101.6],
        ),
    ] {
        let Some(structure) = structure(&sheets(&format!("{job}{page}\n"))) else {
            return;
        };
        for page in list(&structure["pages"]) {
            let upright = number(&page["size"][0]) < number(&page["size"][1]);
            for axis in [0, 1] {
                let bar = number(&page["bars"][axis][0]);
                let wanted = expected[if upright { axis } else { 1 - axis }];
                assert!((bar - wanted).abs() < 1e-4, "{page}");
            }
        }
    }
}

#[test]
fn the_face_that_shows_stays_clean_and_a_last_sheet_has_the_words() {
    // Source: core/CONTRACT.md, "Files: PDF": a last sheet without lines may carry words alone. Reasoning: on
    // sheets of A5 the blank leaves no room beside it, and how to mend a print is no ornament of a box.
    let job = "tray style=\"single-slot\" name=\"Lens box\"\nbox length=(mm)120 width=(mm)90 depth=(mm)30\n\
               item \"lens\" length=(mm)60 width=(mm)40 depth=(mm)20\nboard caliper=(mm)0.4\n\
               page \"A5\"\ndraw face=\"outside\"\n";
    let made = sheets(job);
    let Some(structure) = structure(&made) else {
        return;
    };
    let sheets = list(&structure["pages"]).len();
    let Some(text) = made.words() else {
        return;
    };
    assert!(
        text.contains("bar-across=(mm)99.6") && text.contains("Keep knives away"),
        "{text}"
    );
    let count = made.ask("pdfinfo", &[], &[]).expect("poppler is there");
    let pages = count
        .lines()
        .find_map(|line| line.strip_prefix("Pages:"))
        .expect("it counts");
    assert_eq!(pages.trim(), (sheets + 1).to_string(), "{text}");
}
