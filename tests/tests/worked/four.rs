//! Every line of the four trays: panels, outline, holes, open cuts, creases, and the order of folds.

use serde_json::Value;
use traywright_document::{Action, Contour, Document};
use traywright_engine::Job;
use traywright_tests::jobs::{an_item, job, level};

use super::{corners, document, is_same_polygon, near, point, points, tray, worked_panel};

/// How far the file draws its open cuts short of the notches, so that a reader keeps them apart.
// Source: the file itself: 41.2501 where the notch ends at 41.25.
const DRAWN_SHORT_MM: f64 = 0.00015;

/// The trays with their jobs.
// Source: core/GEOMETRY.md, the sections "worked".
fn trays() -> Vec<(&'static str, Job)> {
    vec![
        (
            "single-slot",
            job([182.0, 121.0, 34.0], [96.0, 61.0, 28.0], 0.29),
        ),
        ("multi-slot", of_four_items()),
        (
            "double-wall",
            job([160.0, 110.0, 40.0], [70.0, 50.0, 30.0], 0.45),
        ),
        (
            "lid-lock",
            job([182.0, 121.0, 34.0], [96.0, 61.0, 28.0], 0.29),
        ),
    ]
}

/// The job of core/GEOMETRY.md, "Multi-slot: worked", with a pad under each item, which changes no line.
pub(super) fn of_four_items() -> Job {
    let mut four = job([220.0, 160.0, 40.0], [60.0, 40.0, 20.0], 0.45);
    let others = [
        ("coin", [30.0, 30.0, 20.0]),
        ("coin.2", [30.0, 30.0, 20.0]),
        ("lens", [80.0, 50.0, 20.0]),
    ];
    four.items
        .extend(others.map(|(name, size)| an_item(name, size)));
    level(four)
}

/// Does something with each tray: as it is made, and as it was worked out.
fn each(check: impl Fn(&str, &Document, &Value)) {
    for (style, job) in trays() {
        check(style, &document(style, &job), &tray(style));
    }
}

/// Panels here, and what the file calls them.
const PANELS_THERE: [(&str, &str); 8] = [
    ("floor", "deck"),
    ("side-bridge", "sidespine"),
    ("bridge", "spine"),
    ("inner-side", "sideinner"),
    ("inner-end", "second"),
    ("inner-tab", "ear"),
    ("rail-top", "railtop"),
    ("rail-inner", "railinner"),
];

/// The name of a panel in the file, which also calls a fence after its edge alone.
fn name_there(name: &str) -> String {
    if let Some((_, edge)) = name.split_once("-fence-") {
        return format!("fence-{edge}");
    }
    let renamed = PANELS_THERE.iter().find_map(|(here, there)| {
        let edges = name.strip_prefix(here)?;
        Some(format!("{there}{edges}"))
    });
    renamed.unwrap_or_else(|| name.to_owned())
}

#[test]
fn every_panel_lies_where_it_was_worked_out() {
    each(|style, document, tray| {
        for panel in &document.panels {
            let worked = worked_panel(tray, &name_there(&panel.name));
            let (here, there) = (corners(&panel.outline), points(&worked["polygon"]));
            let name = format!("{style}, {}", panel.name);
            assert!(
                is_same_polygon(&bends(&here), &bends(&there)),
                "{name}: {here:?} instead of {there:?}"
            );
            // The file has the notches at a slot's corners as holes of the blank, and fences as panels alone.
            if name_there(&panel.name) != "deck" {
                check_holes(&name, &panel.holes, &worked["holes"]);
            }
        }
        let count = tray["panels"].as_array().map(Vec::len);
        assert_eq!(Some(document.panels.len()), count, "{style}");
    });
}

fn check_holes(name: &str, here: &[Contour], there: &Value) {
    let there: Vec<_> = there
        .as_array()
        .expect("holes")
        .iter()
        .map(points)
        .collect();
    assert_eq!(here.len(), there.len(), "{name}");
    for hole in here.iter().map(corners) {
        let known = there.iter().any(|other| is_same_polygon(&hole, other));
        assert!(known, "{name}: {hole:?} is none of {there:?}");
    }
}

/// The corners at which a polygon turns: the end of a crease in the middle of a straight edge is none.
fn bends(corners: &[[f64; 2]]) -> Vec<[f64; 2]> {
    let count = corners.len();
    let turns = |at: usize| {
        let [before, here, after] = [count - 1, 0, 1].map(|step| corners[(at + step) % count]);
        let (there, on) = (
            [here[0] - before[0], here[1] - before[1]],
            [after[0] - here[0], after[1] - here[1]],
        );
        (there[0] * on[1] - there[1] * on[0]).abs() > 1e-3
    };
    (0..count)
        .filter(|&at| turns(at))
        .map(|at| corners[at])
        .collect()
}

#[test]
fn the_outline_and_the_holes_are_those_that_were_worked_out() {
    // Source: core/GEOMETRY.md, the sections "worked": so many points has the outline.
    let points_there = [
        ("single-slot", 44),
        ("multi-slot", 44),
        ("double-wall", 84),
        ("lid-lock", 84),
    ];
    each(|style, document, tray| {
        let (here, there) = (corners(&document.flat.outline), points(&tray["outline"]));
        assert!(is_same_polygon(&here, &there), "{style}: {here:?}");
        assert!(points_there.contains(&(style, here.len())), "{style}");
        check_holes(style, &document.flat.holes, &tray["holes"]);
        let (blank, extent) = (point(&tray["blank_size"]), document.flat.extent);
        let size = [
            extent.most.x - extent.least.x,
            extent.most.y - extent.least.y,
        ];
        assert!(near(size, blank), "{style}: {size:?}");
    });
}

#[test]
fn the_creases_are_those_that_were_worked_out() {
    each(|style, document, tray| {
        for crease in &document.flat.creases {
            let panel = &document.panels[crease.panel];
            let worked = worked_panel(tray, &name_there(&panel.name));
            let there = points(&worked["crease"]);
            for end in [crease.from, crease.to] {
                assert!(lies_on(&there, [end.x, end.y]), "{style}, {}", panel.name);
            }
            let angle = worked["angle"].as_f64().expect("a crease has an angle");
            let expected = if worked["sense"] == "V" {
                angle
            } else {
                -angle
            };
            assert_eq!(crease.fold_deg, expected, "{style}, {}", panel.name);
            let parent = &document.panels[panel.hinge.as_ref().expect("it hangs").parent];
            assert_eq!(worked["parent"], name_there(&parent.name), "{}", panel.name);
        }
        for (index, panel) in document.panels.iter().enumerate().skip(1) {
            let whole = length(&points(
                &worked_panel(tray, &name_there(&panel.name))["crease"],
            ));
            let pieces = document
                .flat
                .creases
                .iter()
                .filter(|crease| crease.panel == index)
                .map(|crease| (crease.to.x - crease.from.x).hypot(crease.to.y - crease.from.y));
            // Source: core/GEOMETRY.md, "Lid-lock: worked": the tongue opening interrupts this crease, and no other,
            // from 67.105 to 112.605. The file has it in one piece.
            let broken = (style, panel.name.as_str()) == ("lid-lock", "rail-inner");
            let gap = if broken { 112.605 - 67.105 } else { 0.0 };
            let sum: f64 = pieces.clone().sum();
            assert!(
                (sum - (whole - gap)).abs() < 2e-4,
                "{style}, {}",
                panel.name
            );
            assert_eq!(pieces.count(), if broken { 2 } else { 1 }, "{style}");
        }
    });
}

#[test]
fn the_open_cuts_cover_those_that_were_worked_out() {
    each(|style, document, tray| {
        let worked = tray["open_cuts"].as_array().expect("open cuts");
        let here: Vec<Vec<[f64; 2]>> = document.flat.open_cuts.iter().map(corners).collect();
        for cut in worked {
            for end in points(cut) {
                let on_one = here.iter().any(|run| lies_on(run, end));
                assert!(on_one, "{style}: {end:?} lies on no cut of {here:?}");
            }
        }
        let ours: f64 = here.iter().map(|run| length(run)).sum();
        let theirs: f64 = worked.iter().map(|cut| length(&points(cut))).sum();
        let ends = 2.0 * worked.len() as f64;
        let short = ends * DRAWN_SHORT_MM * std::f64::consts::SQRT_2;
        assert!((ours - theirs).abs() < short, "{style}: {ours}, {theirs}");
    });
}

fn length(run: &[[f64; 2]]) -> f64 {
    let pairs = run.windows(2);
    pairs
        .map(|pair| (pair[1][0] - pair[0][0]).hypot(pair[1][1] - pair[0][1]))
        .sum()
}

fn lies_on(run: &[[f64; 2]], place: [f64; 2]) -> bool {
    run.windows(2).any(|pair| {
        let way = [pair[1][0] - pair[0][0], pair[1][1] - pair[0][1]];
        let from = [place[0] - pair[0][0], place[1] - pair[0][1]];
        let part = (from[0] * way[0] + from[1] * way[1]) / (way[0] * way[0] + way[1] * way[1]);
        let part = part.clamp(0.0, 1.0);
        let off = [from[0] - way[0] * part, from[1] - way[1] * part];
        off[0].hypot(off[1]) < DRAWN_SHORT_MM
    })
}

#[test]
fn the_panels_are_folded_in_the_order_that_was_worked_out() {
    each(|style, document, tray| {
        let worked = tray["fold_order"].as_array().expect("an order");
        let worked: Vec<&str> = worked.iter().filter_map(Value::as_str).collect();
        let mut folded: Vec<String> = Vec::new();
        for step in &document.steps {
            if let Action::Fold(moves) = &step.action {
                let name = |panel: usize| name_there(&document.panels[panel].name);
                folded.extend(moves.iter().map(|fold| name(fold.panel)));
            }
        }
        assert_eq!(folded.len(), worked.len(), "{style}");
        // Mirrored panels have one turn: which of them is first has no meaning. Families come in the order worked out.
        let family = |name: &str| name.split('-').next().unwrap_or_default().to_owned();
        let families = |names: Vec<String>| {
            let mut families: Vec<String> = names.iter().map(|name| family(name)).collect();
            families.dedup();
            families
        };
        let worked = worked.iter().map(|name| (*name).to_owned()).collect();
        assert_eq!(families(folded), families(worked), "{style}");
    });
}
