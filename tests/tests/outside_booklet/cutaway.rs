//! The cut-aways: their words tell the figures of the report, and what they draw has its scale.
//!
//! Sources: the figures of `check`, sizes from the shipped jobs, multiplication by the scale that a caption names. Tools:
//! poppler's pdftotext, pypdf in `outside/areas.py`.

use serde_json::Value;
use traywright_tests::{python, repository, run};

use crate::holding::Files;

/// The grey of an item that is cut, the green of its pad, and cut card.
const ITEM: [u64; 3] = [0xEE; 3];
const PAD: [u64; 3] = [0x80, 0xCE, 0xB9];
const CARD: [u64; 3] = [0; 3];
/// Places on the page are rounded to this at both ends.
// Source: a tenth of a point.
const GRAIN_MM: f64 = 0.075;

/// A job, its item, along which side of the box its flaps or fences are reported, and the words for them.
const TRAYS: [(&str, &str, &str, &str); 3] = [
    ("marine-clock", "clock", "flap_sides", "flap"),
    ("seed-vials", "labels", "flap_ends", "flap"),
    ("observatory-watch", "watch", "", ""),
];

/// The figures of the report.
fn measures(name: &str) -> Value {
    let job = format!("designs/jobs/{name}.kdl");
    let told = run(repository(), &["check", &job, "--format", "json"]);
    let told: Value = serde_json::from_str(&told.stdout).expect("the report is JSON");
    told["measures"].clone()
}

/// A length as the booklet of a job in millimetres writes it.
fn mm(length: f64) -> String {
    format!("{} mm", (length * 100.0).round() / 100.0)
}

#[test]
fn its_measures_are_those_of_the_report() {
    for (name, item, hung, word) in TRAYS {
        let Some(text) = Files::of(name, "en").words("-booklet.pdf") else {
            return;
        };
        let measures = measures(name);
        let measure = |figure: &str| measures[format!("{figure}.{item}")].as_f64();
        let mut told = vec![
            format!("gap to the lid {}", mm(measure("rise").expect("a rise"))),
            format!("held over {}", mm(measure("bears_length").expect("a stop"))),
            format!("held over {}", mm(measure("bears_width").expect("a stop"))),
            format!(
                "clearance {}, {} in total",
                mm(measure("travel_length").expect("a way") / 2.0),
                mm(measure("travel_length").expect("a way"))
            ),
        ];
        told.extend(
            measure("pad")
                .filter(|pad| *pad > 0.0)
                .map(|pad| format!("pad {}", mm(pad))),
        );
        told.extend(measure("below_deck").map(|below| match below < 0.0 {
            true => format!("above the deck {}", mm(-below)),
            false => format!("below the deck {}", mm(below)),
        }));
        told.extend(measure(hung).map(|depth| format!("{word} {}", mm(depth))));
        for told in told {
            assert!(text.contains(&told), "{name}: no `{told}` in {text}");
        }
        // Source: the glossary of the page: what has no length is no measure.
        for word in ["lid", "deck", "over", "pad"] {
            assert!(!text.contains(&format!(" {word} 0 mm")), "{name}: {word}");
        }
    }
}

#[test]
fn a_second_figure_comes_only_where_something_else_holds_across() {
    // Source: the jobs: doors hold the clock otherwise along than across; a vial and its flaps are square; each hole of an
    // eyepiece is round; the labels' flaps are deeper at their ends than at their sides.
    for (name, item, both) in [
        ("marine-clock", "clock", true),
        ("seed-vials", "vial", false),
        ("seed-vials", "labels", true),
        ("eyepieces", "low power", false),
    ] {
        let Some(text) = Files::of(name, "en").words("-booklet.pdf") else {
            return;
        };
        let cut = |way: &str| {
            text.matches(&format!("{item}, cross-section {way} the box"))
                .count()
        };
        assert_eq!(
            [cut("along"), cut("across")],
            [1, usize::from(both)],
            "{item}"
        );
    }
}

/// The areas of a colour on the page with the cut-aways: left, low, right and high in mm.
fn areas_of_the_cut(files: &Files) -> Option<impl Fn([u64; 3]) -> Vec<[f64; 4]>> {
    let file = files.path("-booklet.pdf");
    let told = python("areas.py", &[file.to_str().expect("a plain name")])?;
    let told = told.unwrap_or_else(|why| panic!("{why}"));
    let pages: Vec<Vec<([u64; 3], [f64; 4])>> = serde_json::from_str(&told).expect("JSON");
    // The cover has one too, without measures.
    let mut pages = pages.into_iter().skip(1);
    let page = pages.find(|page| page.iter().any(|(own, _)| *own == ITEM));
    let page = page.expect("there is a cut-away");
    Some(move |colour: [u64; 3]| {
        let own = page.iter().filter(|(own, _)| *own == colour);
        own.map(|(_, area)| *area).collect()
    })
}

#[test]
fn the_cut_item_stands_at_scale_on_its_pad_beside_its_flap() {
    // Source: the job: a clock of 104 × 90 × 49 on a pad of 8; half size, as the captions say. Its flaps of half a slot of
    // 93 are half-cut in board of 1, so they hang a quarter of it farther in: 0.75 beside the clock across the box. The
    // board is drawn 0.5 thick.
    let files = Files::of("marine-clock", "en");
    let Some(text) = files.words("-booklet.pdf") else {
        return;
    };
    assert_eq!(text.matches("scale 1 : 2.").count(), 2, "{text}");
    let Some(cuts) = areas_of_the_cut(&files) else {
        return;
    };
    let near = |one: f64, other: f64| (one - other).abs() < GRAIN_MM;
    let items = cuts(ITEM);
    let widths = [52.0, 45.0];
    assert_eq!(items.len(), widths.len());
    for ([left, low, right, high], width) in items.iter().zip(widths) {
        assert!(
            near(right - left, width) && near(high - low, 24.5),
            "{items:?}"
        );
        let pad = cuts(PAD).into_iter().find(|pad| near(pad[3], *low));
        let pad = pad.expect("the pad lies under the item");
        assert!(near(pad[0], *left) && near(pad[2], *right), "{pad:?}");
        assert!(near(pad[3] - pad[1], 4.0), "{pad:?}");
    }
    let [_, _, right, high] = items[1];
    let hangs = |card: &&[f64; 4]| {
        near(card[0], right + 0.375) && near(card[2], right + 0.875) && card[3] < high
    };
    let cards = cuts(CARD);
    let flap = cards
        .iter()
        .find(hangs)
        .unwrap_or_else(|| panic!("{cards:?}"));
    // Derived: the deck's middle lies half a caliper below its face, 1.5 below the top of the clock; the flap is 46.5 deep and
    // begins a quarter of the board lower; the drawing fills the square of the crease, half a caliper more.
    let [top, tip] = [high - 0.875, high - 0.875 - 23.25];
    assert!(
        near(flap[1], tip) && near(flap[3], top + 0.25),
        "{flap:?} under {high}"
    );
}
