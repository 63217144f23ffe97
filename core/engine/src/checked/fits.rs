//! The board, the box and the sheet: whether the folded tray goes into the box and the blank onto the card.
//!
//! Given the job, and the folded tray and its blank; gives findings. Never looks at panels one by one.

use super::finding;
use traywright_document::Extent;

use crate::blank::Blank;
use crate::finding::{Finding, Level};
use crate::folded::FoldedTray;
use crate::geometry::TOUCH_MM;
use crate::job::Job;
use crate::style::Style;
use crate::style::text::Direction;
use crate::wording::{length, lengths_apart, setting, size};

/// How exactly a tray fills its box in the directions that its style says it fills.
// Source: the outside contract of the project.
const FILLS_MM: f64 = 0.01;

/// What is wrong with the board, the box or the page whatever the style.
pub(super) fn judge_board_and_box(job: &Job) -> Vec<Finding> {
    let board = &job.board;
    let mut findings: Vec<Finding> = judge_hinge(job).into_iter().collect();
    findings.extend(judge_room(job));
    if board.measure_it {
        let name = board.name.clone().unwrap_or_else(|| "board".to_owned());
        let message = format!(
            "the caliper of {name}, {}, is a first guess: measure a sheet and write board caliper=…",
            length(board.caliper, job.unit)
        );
        findings.push(finding(Level::Note, "measure-board", "board", message));
    }
    findings.extend(judge_page(job));
    findings
}

fn judge_hinge(job: &Job) -> Option<Finding> {
    let (hinge, most) = (job.board.hinge, job.board.caliper / 2.0);
    if (0.0..=most + TOUCH_MM).contains(&hinge) {
        return None;
    }
    let (is, limit) = lengths_apart(hinge, most, job.unit);
    let message = format!(
        "the fold lines lie {is} from the middle of the card (from 0 to half the caliper, {limit})"
    );
    let found = finding(Level::Error, "hinge-range", "board", message).measured(hinge, most);
    Some(found.with_fix("leave `hinge` out: 0 is the usual place"))
}

/// Whether anything is left of the box between its fit and two walls.
fn judge_room(job: &Job) -> Vec<Finding> {
    let (size, fit, unit) = (&job.box_size, job.fit.around_tray, job.unit);
    let least = fit + 2.0 * job.board.caliper;
    let sides = [
        ("length", size.length),
        ("width", size.width),
        ("depth", size.depth),
    ];
    let too_small = sides.into_iter().filter(|(_, inside)| *inside <= least);
    too_small
        .map(|(side, inside)| {
            let message = format!(
                "the box's {side} of {} less the fit of {} and two thicknesses of card leaves no room for a tray",
                length(inside, unit),
                length(fit, unit)
            );
            let fix = if inside > fit {
                "thinner card: is its caliper of one sheet?"
            } else {
                "a larger box, or less fit"
            };
            let found = finding(Level::Error, "box-too-small", format!("box {side}"), message);
            found.measured(inside, least).with_fix(fix)
        })
        .collect()
}

/// Borders that home printers leave blank: one reaches so far at least, and most no farther than this.
// Source: common practice, none published: home printers' manuals give borders from 4.2 mm (1/6 in) to 6.35 mm.
const MARGINS_MM: [f64; 2] = [4.2, 6.0];

/// Whether the printer can reach what is drawn near the edge of the paper.
fn judge_page(job: &Job) -> Option<Finding> {
    let margin = job.page.margin;
    let [least, usual] = MARGINS_MM;
    let (level, limit) = match margin {
        margin if margin < least - TOUCH_MM => (Level::Warning, least),
        margin if margin < usual - TOUCH_MM => (Level::Note, usual),
        _ => return None,
    };
    let (is, wanted) = lengths_apart(margin, limit, job.unit);
    let message = format!(
        "many printers do not reach within {wanted} of the paper's edge, and the margin is {is}"
    );
    let fix = format!(
        "page \"{}\" margin={}",
        job.page.name,
        setting(usual, job.unit)
    );
    Some(
        finding(level, "page-margin", "page", message)
            .measured(margin, limit)
            .with_fix(fix),
    )
}

/// Clearances of the folded tray in the box, along length, width and depth, what the floor's corners take included.
pub(super) fn clearances(job: &Job, folded: &FoldedTray) -> [f64; 3] {
    let outside = folded.outside();
    let size = &job.box_size;
    let [length, width, depth] = [
        size.length - outside[0],
        size.width - outside[1],
        size.depth - outside[2],
    ];
    [length, width, depth - stands_up(job, length.min(width))]
}

/// How far the walls stand above the floor where the edge between floor and wall is rounded.
// Derived: a wall half the clearance away from the box meets the quarter circle of radius r at r - √(r² - (r - c)²).
fn stands_up(job: &Job, clearance: f64) -> f64 {
    let radius = job.rounding.floor_corner;
    let beside = radius - clearance / 2.0;
    if beside <= 0.0 {
        0.0
    } else {
        radius - (radius * radius - beside * beside).max(0.0).sqrt()
    }
}

/// The folded tray in its box, and the blank on the card at hand.
pub(super) fn judge_folded(
    style: &Style,
    job: &Job,
    blank: &Blank,
    folded: &FoldedTray,
) -> Vec<Finding> {
    let mut findings = judge_outside(style, job, folded);
    findings.extend(judge_corners(style, job, folded));
    findings.extend(judge_floor(job, folded));
    findings.extend(judge_sheet(job, blank));
    findings
}

fn judge_outside(style: &Style, job: &Job, folded: &FoldedTray) -> Vec<Finding> {
    let outside = folded.outside();
    let size = &job.box_size;
    let directions = [
        (Direction::Length, "length", size.length),
        (Direction::Width, "width", size.width),
        (Direction::Depth, "depth", size.depth),
    ];
    let mut findings = Vec::new();
    for (axis, (direction, name, inside)) in directions.into_iter().enumerate() {
        let most = inside - job.fit.around_tray;
        let off = outside[axis] - most;
        let (is, wanted) = lengths_apart(outside[axis], most, job.unit);
        // Each direction is a place of its own: a tray can be wrong in all three.
        let place = format!("box {name}");
        if off > FILLS_MM {
            let message = format!(
                "folded, the tray's {name} is {is}, and the box leaves {wanted} with its fit"
            );
            let found = finding(Level::Error, "outside-too-large", place, message)
                .measured(outside[axis], most);
            findings
                .push(found.with_fix(format!("a box {} larger that way", length(off, job.unit))));
        } else if off < -FILLS_MM && style.sheet.fills.contains(&direction) {
            let message = format!(
                "folded, the tray's {name} is {is}, and its style says that it fills {wanted}"
            );
            findings.push(
                finding(Level::Error, "does-not-fill", place, message)
                    .measured(outside[axis], most),
            );
        }
    }
    findings
}

/// Square corners of the tray in rounded corners of the box.
fn judge_corners(style: &Style, job: &Job, folded: &FoldedTray) -> Option<Finding> {
    let radius = job.rounding.corner;
    let [length_left, width_left, _] = clearances(job, folded);
    let fills = |direction| style.sheet.fills.contains(&direction);
    let most = if fills(Direction::Length) && fills(Direction::Width) {
        largest_radius(length_left / 2.0, width_left / 2.0)
    } else {
        let from_wall = |at: f64, least: f64, most: f64| (at - least).min(most - at);
        folded
            .footprint
            .iter()
            .fold(f64::INFINITY, |largest, point| {
                let along = from_wall(point.x, folded.least[0], folded.most[0]) + length_left / 2.0;
                let across = from_wall(point.y, folded.least[1], folded.most[1]) + width_left / 2.0;
                largest.min(largest_radius(along, across))
            })
    };
    // Square corners of a box touch nothing before its walls do.
    if radius <= TOUCH_MM || radius <= most + TOUCH_MM {
        return None;
    }
    let (is, limit) = lengths_apart(radius, most, job.unit);
    let message = format!(
        "the box's corners are rounded with {is}, and the tray's square corners pass only up to {limit}"
    );
    // Derived: with like clearances the largest radius is fit (1 + √½), so the fit that passes is radius (2 - √2).
    let needed = radius * (2.0 - std::f64::consts::SQRT_2);
    let fix = format!("fit box={} or more", setting(needed, job.unit));
    Some(
        finding(Level::Error, "corner-touches", "box", message)
            .measured(radius, most)
            .with_fix(fix),
    )
}

/// The largest rounding that a square corner passes which lies so far from the two walls.
// Derived: the corner touches the circle of radius R where (R - a)² + (R - b)² = R², so R = a + b + √(2ab).
fn largest_radius(along: f64, across: f64) -> f64 {
    along + across + (2.0 * along * across).max(0.0).sqrt()
}

fn judge_floor(job: &Job, folded: &FoldedTray) -> Option<Finding> {
    let [length_left, width_left, depth_left] = clearances(job, folded);
    let up = stands_up(job, length_left.min(width_left));
    if up <= TOUCH_MM {
        return None;
    }
    let unit = job.unit;
    let stands = format!(
        "on the rounded edge of the floor the walls stand {} up",
        length(up, unit)
    );
    if depth_left >= -TOUCH_MM {
        let message = format!(
            "{stands}; {} stay free under the lid",
            length(depth_left, unit)
        );
        return Some(
            finding(Level::Note, "floor-corner", "box", message).measured(up, job.fit.around_tray),
        );
    }
    let message = format!(
        "{stands}, so the lid is {} short of closing",
        length(-depth_left, unit)
    );
    let found =
        finding(Level::Error, "floor-corner", "box", message).measured(up, job.fit.around_tray);
    Some(found.with_fix("more fit, or length and width measured on the flat of the floor"))
}

fn judge_sheet(job: &Job, blank: &Blank) -> Option<Finding> {
    let sheet = job.board.sheet.as_ref()?;
    let Extent { least, most } = blank.extent();
    let (long, short) = (
        (most.x - least.x).max(most.y - least.y),
        (most.x - least.x).min(most.y - least.y),
    );
    let (sheet_long, sheet_short) = (sheet.width.max(sheet.height), sheet.width.min(sheet.height));
    if long <= sheet_long + TOUCH_MM && short <= sheet_short + TOUCH_MM {
        return None;
    }
    let message = format!(
        "the blank is {}, and the card at hand {}",
        size(&[long, short], job.unit),
        size(&[sheet_long, sheet_short], job.unit)
    );
    let (value, limit) = if long > sheet_long {
        (long, sheet_long)
    } else {
        (short, sheet_short)
    };
    Some(
        finding(Level::Error, "sheet-too-small", "board", message)
            .measured(value, limit)
            .with_fix("a larger piece of card"),
    )
}
