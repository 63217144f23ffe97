//! What happens to a tray when its figures change: thinner, larger, in inches, made twice.

use traywright_document::{Contour, Document, Point, wire};
use traywright_engine::job::{Cut, Job, Length, Setting, SettingInput, Unit};
use traywright_engine::{Refusal, Report, make};
use traywright_tests::jobs::{drawn, job, level, style};

fn document(style_path: &str, job: &Job) -> Document {
    make(&style(style_path), job)
        .unwrap_or_else(|refusal| panic!("{refusal:#?}"))
        .finish()
        .document()
}

const SINGLE_SLOT: &str = "designs/styles/single-slot.ron";

fn figure(document: &Document, name: &str) -> f64 {
    let measure = document.measures.iter().find(|found| found.name == name);
    measure.unwrap_or_else(|| panic!("no {name}")).value
}

/// All places of a blank, in order.
fn places(document: &Document) -> Vec<Point> {
    let flat = &document.flat;
    let run = |run: &Contour| -> Vec<Point> {
        let ends = run.segments.iter().map(|segment| segment.to());
        std::iter::once(run.start).chain(ends).collect()
    };
    let runs = std::iter::once(&flat.outline)
        .chain(&flat.holes)
        .chain(&flat.open_cuts);
    let mut places: Vec<Point> = runs.flat_map(run).collect();
    places.extend(
        flat.creases
            .iter()
            .flat_map(|crease| [crease.from, crease.to]),
    );
    places
}

#[test]
fn thin_card_without_play_gives_the_trade_figures() {
    // Source: common practice, no source (core/CONTRACT.md, "Trade figures"): box 100×80×30, item 50×40×20 give a deck
    // of 98×78, walls and second folds of 28, and a slot of 52×42 in the middle; tests/facts/folding.md geo-01 to
    // geo-03.
    let mut thin = job([100.0, 80.0, 30.0], [50.0, 40.0, 20.0], 1e-4);
    thin.fit.play = Length::known(0.0);
    let document = document(SINGLE_SLOT, &thin);
    let figures = [
        ("deck_length", 98.0),
        ("deck_width", 78.0),
        ("wall_height", 28.0),
        ("end_height", 28.0),
        ("inner_end_height", 28.0),
        ("tab_length", 28.0),
        ("tab_height", 28.0),
        ("bridge_width", 0.0),
        ("slot_length.item", 52.0),
        ("slot_width.item", 42.0),
        ("clear_length.item", 52.0),
        ("clear_width.item", 42.0),
        ("blank_length", 98.0 + 2.0 * (28.0 + 28.0)),
        ("blank_width", 78.0 + 2.0 * 28.0),
    ];
    for (name, expected) in figures {
        let found = figure(&document, name);
        assert!((found - expected).abs() < 0.005, "{name}: {found}");
    }
    let slot = &document.panels[0].holes[0];
    let x = slot.segments.iter().map(|segment| segment.to().x);
    let y = slot.segments.iter().map(|segment| segment.to().y);
    let corner = [
        x.fold(f64::INFINITY, f64::min),
        y.fold(f64::INFINITY, f64::min),
    ];
    assert!(
        (corner[0] - 23.0).abs() < 0.005 && (corner[1] - 18.0).abs() < 0.005,
        "{corner:?}"
    );
}

#[test]
fn all_lengths_larger_make_all_places_larger() {
    // Reasoning: the tray is worked out of lengths alone, so lengths times k give places times k. The house's own
    // lengths (floor-air, bevel) are set to grow along; the window of a trimmed cross, 2 mm wide, is kept out by a low
    // item of a plain cross, and the corner webs only refuse.
    for (k, cut) in [
        (0.5, Cut::Cross),
        (2.0, Cut::Cross),
        (3.0, Cut::Doors),
        (1.7, Cut::Open),
    ] {
        let small = grown(1.0, cut);
        let (small, large) = (
            places(&document(SINGLE_SLOT, &small)),
            places(&document(SINGLE_SLOT, &grown(k, cut))),
        );
        assert_eq!(small.len(), large.len());
        for (one, other) in small.iter().zip(&large) {
            let off = (one.x * k - other.x).hypot(one.y * k - other.y);
            assert!(off < 1e-9, "{one:?} times {k} is {other:?}");
        }
    }
}

fn grown(k: f64, cut: Cut) -> Job {
    let times = |sizes: [f64; 3]| sizes.map(|size| size * k);
    let mut grown = job(
        times([182.0, 121.0, 60.0]),
        times([80.0, 61.0, 50.0]),
        0.45 * k,
    );
    grown.board.hinge = Some(0.1 * k);
    let fit = &mut grown.fit;
    for clearance in [&mut fit.around_tray, &mut fit.around_item, &mut fit.play] {
        *clearance = Length::known(clearance.mm() * k);
    }
    grown.slot.cut = cut;
    for (name, length) in [("floor-air", 0.5), ("chamfer", 1.6)] {
        grown.settings.push(Setting {
            name: name.to_owned(),
            answer: SettingInput::Length(length * k),
            place: 0..0,
        });
    }
    level(grown)
}

#[test]
fn two_runs_give_the_same_bytes() {
    // Reasoning: the engine knows no clock, no random number and no address, so nothing can differ.
    let (one, other) = (style(SINGLE_SLOT), style(SINGLE_SLOT));
    let made = drawn(7).filter_map(|job| Some((make(&one, &job).ok()?, make(&other, &job).ok()?)));
    for (one, other) in made.take(20) {
        assert_eq!(
            wire::encode(&one.finish().document()),
            wire::encode(&other.finish().document())
        );
        assert_eq!(one.report(), other.report());
    }
}

#[test]
fn thinking_in_inches_changes_words_and_no_place() {
    // Source: tests/facts/folding.md geo-13: the unit in which the maker thinks changes no measure.
    let single_slot = style(SINGLE_SLOT);
    let (mut made, mut refused) = (0, 0);
    for job in drawn(11).take(30) {
        let inches = Job {
            unit: Unit::Inch,
            ..job.clone()
        };
        match (make(&single_slot, &job), make(&single_slot, &inches)) {
            (Ok(one), Ok(other)) => {
                let (one, other) = (one.finish().document(), other.finish().document());
                assert_eq!(one.flat.outline, other.flat.outline);
                assert_eq!(one.flat.holes, other.flat.holes);
                assert_eq!(one.flat.open_cuts, other.flat.open_cuts);
                assert_eq!(one.flat.creases, other.flat.creases);
                assert_eq!(one.panels, other.panels);
                assert_eq!(one.measures, other.measures);
                assert_ne!(one.flat.dimensions, other.flat.dimensions);
                made += 1;
            }
            (Err(Refusal::Tray(one)), Err(Refusal::Tray(other))) => {
                assert_eq!(one.measures, other.measures);
                let codes = |report: &Report| -> Vec<String> {
                    let findings = report.findings.iter();
                    findings.map(|finding| finding.code().to_owned()).collect()
                };
                assert_eq!(codes(&one), codes(&other));
                refused += 1;
            }
            _ => panic!("one is made and the other is not: {job:#?}"),
        }
    }
    assert!(made >= 10 && refused >= 3, "{made} made, {refused} refused");
}
