//! What is true of a tray in space: rigid panels, the same tray from both faces, and room to swing.

use traywright_document::{Contour, Document, DrawnFace, Hinge, Panel, Point, Pose, Segment};
use traywright_engine::job::{Job, Length};
use traywright_engine::{CheckedTray, Refusal, Style, make};
use traywright_tests::jobs::{drawn, job, level, style};
use traywright_tests::union;

use super::formulas::{self, in_another_order};

const SINGLE_SLOT: &str = "designs/styles/single-slot.ron";

/// Trays that can be made: random single slots, decks that are no rectangles, and styles with folds of both senses.
fn trays() -> Vec<(Style, Job)> {
    let single_slot = style(SINGLE_SLOT);
    let fits = |job: &Job| make(&single_slot, job).is_ok();
    let random = drawn(5).filter(fits).take(15);
    let mut trays: Vec<_> = random.map(|job| (single_slot.clone(), job)).collect();
    let others = [
        ("seed-vials", [160.0, 130.0, 34.0], [40.0, 30.0, 26.0]),
        ("lens-case", [182.0, 101.0, 34.0], [60.0, 40.0, 28.0]),
        ("clinometer", [182.0, 121.0, 34.0], [50.0, 50.0, 28.0]),
        ("watch-rest", [182.0, 121.0, 34.0], [60.0, 60.0, 28.0]),
        ("lens-cradle", [182.0, 121.0, 34.0], [70.0, 50.0, 32.0]),
    ];
    // Two shipped styles have folds of both senses.
    let both_senses = [
        ("double-wall", [160.0, 110.0, 40.0], [70.0, 50.0, 30.0]),
        ("lid-lock", [182.0, 121.0, 34.0], [96.0, 61.0, 28.0]),
    ];
    let others = others.map(|other| ("tests", other));
    for (folder, (name, box_size, item)) in others
        .into_iter()
        .chain(both_senses.map(|one| ("designs", one)))
    {
        let mut job = job(box_size, item, 0.45);
        job.board.hinge = Some(0.1);
        trays.push((style(&format!("{folder}/styles/{name}.ron")), job));
    }
    trays
}

fn made(style: &Style, job: &Job) -> CheckedTray {
    make(style, job).unwrap_or_else(|refusal| panic!("{}: {refusal:#?}", style.name()))
}

fn apply(pose: &Pose, place: [f64; 3]) -> [f64; 3] {
    std::array::from_fn(|row| {
        let turned: f64 = (0..3).map(|at| pose.rows[row][at] * place[at]).sum();
        turned + pose.shift[row]
    })
}

fn distance(one: [f64; 3], other: [f64; 3]) -> f64 {
    (0..3)
        .map(|at| (one[at] - other[at]).powi(2))
        .sum::<f64>()
        .sqrt()
}

#[test]
fn folding_keeps_every_panel_as_it_is() {
    // Reasoning: a panel is rigid: its pose is a rotation (rows square to one another, right-handed), so every edge
    // keeps its length; tests/facts/fold.md fld-06. And the two panels at a crease keep it in one place.
    for (style, job) in trays() {
        let document = made(&style, &job).finish().document();
        for panel in &document.panels {
            check_rotation(panel);
            if let Some(hinge) = &panel.hinge {
                let height = hinge.height * hinge.fold_deg.signum();
                for end in hinge.line {
                    let place = [end.x, end.y, height];
                    let here = apply(&panel.pose, place);
                    let there = apply(&document.panels[hinge.parent].pose, place);
                    assert!(distance(here, there) < 1e-9, "{}: torn", panel.name);
                }
            }
        }
    }
}

fn check_rotation(panel: &Panel) {
    let rows = &panel.pose.rows;
    for one in 0..3 {
        for other in 0..3 {
            let product: f64 = (0..3).map(|at| rows[one][at] * rows[other][at]).sum();
            let expected = f64::from(u8::from(one == other));
            assert!(
                (product - expected).abs() < 1e-12,
                "{}: {rows:?}",
                panel.name
            );
        }
    }
    let minor = |a: usize, b: usize| rows[1][a] * rows[2][b] - rows[1][b] * rows[2][a];
    let turn = rows[0][0] * minor(1, 2) - rows[0][1] * minor(0, 2) + rows[0][2] * minor(0, 1);
    assert!((turn - 1.0).abs() < 1e-12, "{}: mirrored", panel.name);
}

#[test]
fn every_panel_folds_by_the_angle_of_its_crease_and_towards_the_side_of_its_sign() {
    // Reasoning: seen from the parent, a fold by an angle lifts a place d away from the crease by d sin towards the drawn
    // face, and leaves d cos of its way along the parent. A fold below zero sinks it.
    let (mut inwards, mut outwards) = (0, 0);
    for (style, job) in trays() {
        let document = made(&style, &job).finish().document();
        for panel in &document.panels[1..] {
            let hinge = panel.hinge.as_ref().expect("all but the root hang");
            let parent = &document.panels[hinge.parent];
            let (foot, place) = farthest_from_crease(panel, hinge);
            let away = [0, 1].map(|axis| place[axis] - foot[axis]);
            let far = away[0].hypot(away[1]);
            let (foot, place) = (apply(&panel.pose, foot), apply(&panel.pose, place));
            let folded: [f64; 3] = std::array::from_fn(|row| place[row] - foot[row]);
            let rows = &parent.pose.rows;
            let along = |row: usize| (rows[row][0] * away[0] + rows[row][1] * away[1]) / far;
            let along: f64 = (0..3).map(|row| folded[row] * along(row)).sum();
            let up: f64 = (0..3).map(|row| folded[row] * rows[row][2]).sum();
            let (sin, cos) = hinge.fold_deg.to_radians().sin_cos();
            assert!((along - far * cos).abs() < 1e-9, "{}: {along}", panel.name);
            assert!((up - far * sin).abs() < 1e-9, "{}: {up}", panel.name);
            let count = if sin > 0.0 {
                &mut inwards
            } else {
                &mut outwards
            };
            *count += 1;
        }
    }
    // Reasoning: the inner tabs alone fold outwards, four of the double wall and two of the lid lock.
    assert!(inwards > 200 && outwards == 6, "{inwards} and {outwards}");
}

/// The corner of a panel that lies farthest from its crease, and the foot of the square line from it to the crease. Both
/// lie at the height of the hinge, which the fold leaves in its place.
fn farthest_from_crease(panel: &Panel, hinge: &Hinge) -> ([f64; 3], [f64; 3]) {
    let [from, to] = hinge.line;
    let (x, y) = (to.x - from.x, to.y - from.y);
    let long = x.hypot(y);
    let (x, y) = (x / long, y / long);
    let aside = |point: &Point| (point.y - from.y) * x - (point.x - from.x) * y;
    let corners = panel.outline.segments.iter().map(Segment::to);
    let corner = corners
        .max_by(|one, other| aside(one).abs().total_cmp(&aside(other).abs()))
        .expect("a panel has corners");
    let height = hinge.height * hinge.fold_deg.signum();
    let off = aside(&corner);
    (
        [corner.x + y * off, corner.y - x * off, height],
        [corner.x, corner.y, height],
    )
}

#[test]
fn drawn_from_outside_the_blank_is_mirrored_and_the_tray_is_the_same() {
    // Source: core/CONTRACT.md, "Job file", `draw`: mirrored, and every fold changes its SVG group, its
    // FOLD assignment and the sign of its angle. What is mirrored twice, on the flat and in space, is the same tray seen
    // in a mirror: every distance in it stays.
    for (style, job) in trays() {
        let mut outside = job.clone();
        outside.output.drawn_face = DrawnFace::Outside;
        let (one, other) = (
            made(&style, &job).finish().document(),
            made(&style, &outside).finish().document(),
        );
        union::check(&other);
        check_mirrored(&one, &other);
        assert_eq!(one.measures, other.measures);
    }
}

fn check_mirrored(one: &Document, other: &Document) {
    let extent = |document: &Document| document.flat.extent;
    assert_eq!(extent(one).least.x, -extent(other).most.x);
    let runs = [
        (
            vec![one.flat.outline.clone()],
            vec![other.flat.outline.clone()],
        ),
        (one.flat.holes.clone(), other.flat.holes.clone()),
        (one.flat.open_cuts.clone(), other.flat.open_cuts.clone()),
    ];
    for (here, there) in runs {
        let mirrored: Vec<_> = here.iter().flat_map(|run| corners(run, -1.0)).collect();
        let found: Vec<_> = there.iter().flat_map(|run| corners(run, 1.0)).collect();
        check_same_places(&mirrored, &found);
    }
    for (here, there) in one.flat.creases.iter().zip(&other.flat.creases) {
        assert_eq!(here.fold_deg, -there.fold_deg);
        assert_ne!(here.step(), there.step());
        assert_eq!(here.panel, there.panel);
    }
    check_same_tray(one, other);
}

/// Corners and the middles of arcs, mirrored or not.
fn corners(run: &Contour, sign: f64) -> Vec<[f64; 2]> {
    let mut from = run.start;
    let mut places = vec![[sign * from.x, from.y]];
    for segment in &run.segments {
        let to = segment.to();
        if let Segment::Arc { bulge, .. } = *segment {
            // Derived: the middle of an arc lies bulge times half the chord to the right of the chord.
            let middle = [
                (from.x + to.x) / 2.0 + (to.y - from.y) / 2.0 * bulge,
                (from.y + to.y) / 2.0 - (to.x - from.x) / 2.0 * bulge,
            ];
            places.push([sign * middle[0], middle[1]]);
        }
        places.push([sign * to.x, to.y]);
        from = to;
    }
    places
}

fn check_same_places(one: &[[f64; 2]], other: &[[f64; 2]]) {
    assert_eq!(one.len(), other.len());
    for place in one {
        let near = |found: &&[f64; 2]| {
            (found[0] - place[0]).abs() < 1e-9 && (found[1] - place[1]).abs() < 1e-9
        };
        assert!(other.iter().any(|found| near(&found)), "{place:?} is gone");
    }
}

/// The folded trays are mirror images: corresponding corners on corresponding faces are equally far apart.
fn check_same_tray(one: &Document, other: &Document) {
    let half = one.board.caliper / 2.0;
    let folded = |document: &Document, sign: f64| -> Vec<[f64; 3]> {
        let crease = |panel: &Panel| {
            let hinge = panel.hinge.as_ref()?;
            // The panel lies right of its crease from either face, so in a mirror the crease runs the other way.
            let ends = if sign > 0.0 { [0, 1] } else { [1, 0] };
            Some(ends.map(|end| hinge.line[end]).map(|end| {
                let place = [end.x, end.y, sign * half];
                apply(&panel.pose, place)
            }))
        };
        document
            .panels
            .iter()
            .filter_map(crease)
            .flatten()
            .collect()
    };
    let (here, there) = (folded(one, 1.0), folded(other, -1.0));
    assert_eq!(here.len(), there.len());
    for first in 0..here.len() {
        for second in 0..first {
            let (apart, mirrored) = (
                distance(here[first], here[second]),
                distance(there[first], there[second]),
            );
            assert!((apart - mirrored).abs() < 1e-9, "{apart} and {mirrored}");
        }
    }
}

#[test]
fn an_inner_end_has_room_to_swing_where_the_formula_says_so() {
    // Source: core/GEOMETRY.md, "Single-slot: refusals", `no-swing-room`. The engine has no such formula and finds
    // it by turning the fold, so the boxes here are as deep as the formula allows, 0.1 more and 0.1 less.
    let single_slot = style(SINGLE_SLOT);
    let mut judged = [0, 0];
    for mut job in drawn(3).take(25) {
        job.items[0].depth = Length::known(5.0);
        job.items[0].length =
            Length::known(job.items[0].length.mm().min(job.box_size.length.mm() / 3.0));
        let Some(depth) = deepest(&job) else { continue };
        for (side, step) in [(0, -0.1), (1, 0.1)] {
            job.box_size.depth = Length::known(depth + step);
            let job = level(job.clone());
            let errors = formulas::errors(&job);
            let others = errors.iter().filter(|(code, _)| **code != "no-swing-room");
            if others.into_iter().any(|(_, margin)| *margin < 0.01) {
                continue;
            }
            judged[side] += 1;
            match make(&single_slot, &job) {
                // What is blocked in the style's own order may be folded in another, and then that is told.
                Ok(tray) => assert!(
                    side == 0 || in_another_order(&tray),
                    "made: {errors:#?} {job:#?}"
                ),
                Err(Refusal::Tray(report)) => {
                    assert_eq!(side, 1, "{report:#?} {errors:#?} {job:#?}");
                    // Or blocked in this order alone, where the roll-over could be folded before it is turned in.
                    let code = report.findings[0].code();
                    assert!(["no-swing-room", "step-blocked"].contains(&code), "{code}");
                    // Its bridge carries it over the tray, and then it turns itself.
                    let place = report.findings[0].place.to_string();
                    let rolls_over = place.starts_with("bridge") || place.starts_with("inner-end");
                    assert!(rolls_over, "{report:#?}");
                }
                Err(fault) => panic!("{fault:#?}"),
            }
        }
    }
    assert!(judged[0] >= 6 && judged[1] >= 6, "{judged:?}");
}

/// The depth of box at which the inner end has just room, by halving.
fn deepest(job: &Job) -> Option<f64> {
    let mut job = job.clone();
    let mut room = |depth: f64| {
        job.box_size.depth = Length::known(depth);
        formulas::errors(&job)["no-swing-room"]
    };
    let (mut less, mut more) = (15.0, 500.0);
    if room(less) < 0.0 || room(more) > 0.0 {
        return None;
    }
    for _ in 0..60 {
        let middle = (less + more) / 2.0;
        if room(middle) < 0.0 {
            more = middle;
        } else {
            less = middle;
        }
    }
    Some(less)
}
